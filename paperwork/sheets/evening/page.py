"""The tonight sheet: only what differs. Who is on for whom with which pack, the swaps that change, the dead pack.

Printed between a text message and the half, read in the hand.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from paperwork.document import (
    Block,
    Cell,
    Column,
    Label,
    Labels,
    Note,
    Panels,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import HAND, HAND_STRONG, TONIGHT_NOTE, TONIGHT_NUMBER
from paperwork.finding import Finding, Subject
from paperwork.frozen import frozen
from paperwork.model import Channel, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.covers import Substitution, Tonight, channels_of, usual_evening
from paperwork.plan.evening import list_wearings_tonight
from paperwork.sheets.evening.dead import Dead, describe_bad, describe_dead, pair_spares
from paperwork.sheets.evening.set_values import list_set_values
from paperwork.sheets.evening.swaps import ROW_UM, list_swaps
from paperwork.sheets.forms import labelled
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel
from paperwork.sheets.wardrobe.pack_labels import STOCKS, label_of
from paperwork.text.names import fold
from paperwork.text.units import format_clock
from paperwork.text.words import format_date, list_words

__all__ = ["Dead", "Night", "list_capsules", "make_labels", "make_sheets", "pair_spares"]

NAME = "tonight"
LABELS = "tonight-labels"


@frozen
class Night:
    """What is different tonight besides who is on.

    `usual` is the show, staged, without the values that are set for tonight, None where none is set; `findings` are
    those that are new by them. `bad` are channels with the frequency in Hz that is lost. `date` is an ISO date, "" to
    leave a line to write on; `number` that of the day's show, 0 likewise.
    """

    usual: Show | None = None
    findings: tuple[Finding, ...] = ()
    date: str = ""
    number: int = 0
    bad: tuple[tuple[str, int | None], ...] = ()


AS_USUAL = Night()


def make_sheets(show: Show, tonight: Tonight, dead: Sequence[Dead], night: Night = AS_USUAL) -> tuple[Sheet, ...]:
    """One sheet: dead packs, what is set for tonight, what nobody covers, who is on, the swaps that change.

    It replaces nothing: the papers of the revision hold, but for what it says.
    """
    blocks: list[Block] = [_day(show, night)]
    if tonight.off:
        names = list_words(tonight.off, show.production.language)
        blocks.append(Note(phrase(show, "tonight off", names=names), TONIGHT_NOTE, tonight.off))
    capsules = list_capsules(show, tonight) if dead else {}
    panels = tuple(describe_dead(show, one, " / ".join(capsules[one.channel.id])) for one in dead)
    out = [channel for one in dead for channel in (one.channel, one.spare) if channel]
    panels += tuple(describe_bad(show, show.channels[id], hz, out) for id, hz in night.bad)
    blocks += (Panels(panels, across=min(2, len(panels))),) if panels else ()
    blocks += list_set_values(night.usual, show, tonight, night.findings) if night.usual else ()
    blocks += _company(show, tonight)
    blocks += list_swaps(show, tonight)
    blocks += _besides(show, tonight)
    caution = ("cell caution",) if dead else ()
    sheet = frame_sheet(show, NAME, "tonight", tuple(blocks), cautions=(*caution, "privacy caution"))
    return (replace(sheet, replaces=""),)


def _day(show: Show, night: Night) -> Note:
    """For which day and which show of it the page is, with a line to write on for what is not given."""
    curtains = show.day.curtain_s
    date = format_date(night.date, show.production.language)
    parts = [phrase(show, "tonight date", date=date) if date else phrase(show, "tonight date blank")]
    if night.number and night.number <= len(curtains):
        time = format_clock(curtains[night.number - 1])
        parts.append(phrase(show, "tonight show at", number=night.number, time=time))
    elif night.number:
        parts.append(phrase(show, "tonight show", number=night.number))
    elif len(curtains) != 1:
        parts.append(phrase(show, "tonight show blank"))
    return Note("  ·  ".join(parts), TONIGHT_NOTE, (night.date, str(night.number)))


def make_labels(show: Show, tonight: Tonight, dead: Sequence[Dead], usual: Show | None = None) -> tuple[Sheet, ...]:
    """Only the labels that are wrong tonight: packs on other bodies, spares on a dead pack's channel, and what is set
    for tonight against the `usual` show."""
    worn = list_wearings_tonight(show, tonight)
    capsules = list_capsules(show, tonight)
    spares = {one.channel.id: one.spare for one in dead if one.spare}
    labels: list[Label] = []
    for channel in show.channels.values():
        if channel.hz is None:
            continue
        bodies = tuple(dict.fromkeys(wearing.by for wearing in worn[channel.id]))
        planned = tuple(name for name in show.performers_of(channel) if _is_ever_live(show, channel, name))
        spare = spares.get(channel.id)
        is_other = bool(bodies) and (bool(spare) or set(bodies) != set(planned))
        if is_other or spare or (usual and _is_set(usual, show, channel)):
            pack = spare.pack if spare else ""
            labels.append(label_of(show, channel, bodies if is_other else (), pack, _only(capsules[channel.id])))
    if not labels:
        return ()
    block = Labels(STOCKS[show.production.paper], tuple(labels))
    return (frame_sheet(show, LABELS, "tonight labels", (block,)),)


def _is_set(usual: Show, show: Show, channel: Channel) -> bool:
    """Whether what is set for tonight makes the label of a channel another one."""
    former = usual.channels.get(channel.id)
    return former is None or label_of(usual, former).facts != label_of(show, channel).facts


def _only(capsules: tuple[str, ...]) -> str:
    """The capsule of a label: none where the bodies of a shared pack have their own."""
    return capsules[0] if len(capsules) == 1 else ""


def list_capsules(show: Show, tonight: Tonight) -> dict[str, tuple[str, ...]]:
    """The capsules on each channel's pack tonight: a cover may bring another, and a double follows its lead."""
    brought: dict[str, list[str]] = {}
    taken = {(change.role, index): change for change in tonight.changes for index in change.scenes}
    for id, worn in list_wearings_tonight(show, tonight).items():
        channel = show.channels[id]
        for wearing in worn:
            change = taken.get((wearing.stint.role, wearing.stint.index))
            follows = change is not None and change.channel in (id, channel.doubles)
            brings = bool(change and follows and id not in tonight.capsule_of)
            brought.setdefault(id, []).append(change.capsule if change and brings else channel.capsule)
    found = {id: tuple(dict.fromkeys(filter(None, brought.get(id, ())))) for id in show.channels}
    return {id: found[id] or tuple(filter(None, (channel.capsule,))) for id, channel in show.channels.items()}


def _is_ever_live(show: Show, channel: Channel, name: str) -> bool:
    carried = list_carried(show, (role for role in show.roles_on(channel) if show.roles[role].by == name))
    return any(channel.id in ids for ids in carried.values())


def _company(show: Show, tonight: Tonight) -> Iterator[Table]:
    columns = headed(
        show,
        Column("tonight head role", share=5),
        Column("tonight head scenes", share=5),
        Column("tonight head who", share=6),
        Column("tonight head pack", 24_000),
        Column("tonight head pouch", 20_000),
        Column("tonight head capsule", 26_000),
    )
    lost = tuple(_row_of(show, tonight, change) for change in tonight.uncovered)
    on = tuple(_row_of(show, tonight, change) for change in tonight.changes)
    groups = [RowGroup(lost, phrase(show, "tonight not on"))] if lost else []
    groups += [RowGroup(on, phrase(show, "tonight on"))] if on else []
    if groups:
        yield Table(columns, tuple(groups), row_um=ROW_UM)


def _besides(show: Show, tonight: Tonight) -> Iterator[Note]:
    """In one paragraph, so that the evening stays on one page: who takes in-ears, and what is not worn."""
    notes = [*_ears(show, tonight), *_idle(show, tonight)]
    if notes:
        facts = tuple(one for _, several in notes for one in several)
        yield Note("  ·  ".join(text for text, _ in notes), TONIGHT_NOTE, facts)


def _ears(show: Show, tonight: Tonight) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The in-ears of whoever is off, and who takes them: the first who steps in. With their facts."""
    for other in show.others.values():
        for name in tonight.off:
            if fold(name) in map(fold, other.listeners):
                heir = next((change.by for change in tonight.changes if change.instead_of == name), "")
                key = "tonight ears" if heir else "tonight ears free"
                yield phrase(show, key, other=other.id, name=heir, off=name), (other.id, heir, name)


def _idle(show: Show, tonight: Tonight) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The packs that are worn on other days and not tonight: on the air they would only do harm."""
    usual, now = list_wearings_tonight(show, usual_evening(show)), list_wearings_tonight(show, tonight)
    idle = tuple(show.channels[id].pack for id in usual if usual[id] and not now[id])
    if idle:
        yield phrase(show, "tonight idle", packs=list_words(idle, show.production.language)), idle


def _row_of(show: Show, tonight: Tonight, change: Substitution) -> TableRow:
    instead = fact(phrase(show, "tonight instead", name=change.instead_of), HAND, of=f"for {change.instead_of}")
    by = fact(change.by, HAND_STRONG) if change.by else WriteIn(phrase(show, "tonight write"))
    channel = show.channels.get(change.channel)
    return row(
        cell(fact(change.role, HAND_STRONG)),
        cell(fact(_scene_words(show, change), HAND, of=" ".join(show.scenes[index].id for index in change.scenes))),
        cell(by, instead),
        _channel_cell(show, change, channel),
        cell(fact(change.pouch, HAND_STRONG)),
        _capsule_cell(show, tonight, change),
        subjects=(
            Subject("roles", change.role),
            *(Subject("people", name) for name in (change.by, change.instead_of) if name),
            *((Subject("covers", change.cover),) if change.cover else ()),
            *(subjects_of_channel(show, channel) if channel else ()),
        ),
    )


def _channel_cell(show: Show, change: Substitution, channel: Channel | None) -> Cell:
    if channel is None:
        return cell(words("–", TONIGHT_NUMBER))
    second = [one.id for one in channels_of(show, change.role) if one.doubles == channel.id]
    also = phrase(show, "second channel", channel=list_words(second, show.production.language)) if second else ""
    pack = phrase(show, "label pack", pack=channel.pack) if channel.pack != channel.id else ""
    return cell(
        fact(channel.id, TONIGHT_NUMBER),
        *((fact(pack, HAND, of=channel.pack),) if pack else ()),
        *((fact(also, HAND, of=" ".join(second)),) if also else ()),
    )


def _capsule_cell(show: Show, tonight: Tonight, change: Substitution) -> Cell:
    """The capsule of the pack, and those of second packs that have another."""
    id = tonight.capsule_of.get(change.channel, change.capsule)
    capsule = show.capsules.get(id)
    colour = capsule.colour if capsule and capsule.colour not in id else ""
    seconds = [one.id for one in channels_of(show, change.role) if one.doubles == change.channel]
    others = {one: tonight.capsule_of.get(one, change.capsule) for one in seconds}
    second = [labelled(show, one, other, HAND) for one, other in others.items() if other != id]
    return cell(fact(id, HAND_STRONG), fact(colour, HAND), *second)


def _scene_words(show: Show, change: Substitution) -> str:
    """The scenes as printed, or that it is all in which the role is live."""
    live = [index for index, scene in enumerate(show.scenes) if change.role in scene.live]
    if list(change.scenes) == live:
        return phrase(show, "tonight whole show")
    return ", ".join(short_scene(show.scenes[index]) for index in change.scenes)
