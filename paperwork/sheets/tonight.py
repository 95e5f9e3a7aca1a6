"""The tonight sheet: only what differs. Who is on for whom with which pack, the swaps that change, the dead pack.

Printed between a text message and the half, read in the hand.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from paperwork.document import (
    Block,
    Cell,
    Column,
    Group,
    Label,
    Labels,
    Line,
    Note,
    Panel,
    Panels,
    Row,
    Sheet,
    Table,
    Tick,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.names import fold
from paperwork.plan.covers import Substitution, Tonight, channels_of, usual_evening
from paperwork.plan.evening import (
    PackChange,
    find_spare,
    list_handovers_tonight,
    list_pack_changes,
    list_wearings_tonight,
)
from paperwork.plan.events import list_events
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.plan.rules import crossing_s, swap_s
from paperwork.sheets.forms import power_of
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel, title_of
from paperwork.sheets.wardrobe.pack_labels import STOCKS, label_of
from paperwork.styles import HAND, HAND_STRONG, NOTE, TONIGHT_NOTE, TONIGHT_NUMBER
from paperwork.units import format_clock, format_mhz
from paperwork.words import list_words

ROW_UM = 9_000
NAME = "tonight"
LABELS = "tonight-labels"


@dataclass(frozen=True, slots=True)
class Dead:
    """A pack that has died, and the spare that takes its place; None where there is none."""

    channel: Channel
    spare: Channel | None


def pair_spares(show: Show, dead: Sequence[Channel]) -> tuple[Dead, ...]:
    """Each dead pack with a spare of its own."""
    taken: list[str] = [channel.id for channel in dead]
    pairs = []
    for channel in dead:
        spare = find_spare(show, channel, taken)
        taken += [spare.id] if spare else []
        pairs.append(Dead(channel, spare))
    return tuple(pairs)


def make_sheets(show: Show, tonight: Tonight, dead: Sequence[Dead]) -> tuple[Sheet, ...]:
    """One sheet: what to do about dead packs, what nobody covers, who is on, and the swaps that change.

    It replaces nothing: the papers of the revision hold, but for what it says.
    """
    blocks: list[Block] = []
    if tonight.off:
        blocks.append(
            Note(
                phrase(show, "tonight off", names=list_words(tonight.off, show.production.language)),
                TONIGHT_NOTE,
                tonight.off,
            )
        )
    capsules = _capsules(show, tonight) if dead else {}
    panels = tuple(_panel(show, one, " / ".join(capsules[one.channel.id])) for one in dead)
    blocks += (Panels(panels, across=min(2, len(panels))),) if panels else ()
    blocks += _company(show, tonight)
    blocks += _swaps(show, tonight)
    blocks += _besides(show, tonight)
    caution = ("cell caution",) if dead else ()
    sheet = frame_sheet(show, NAME, "tonight", tuple(blocks), cautions=(*caution, "privacy caution"))
    return (replace(sheet, replaces=""),)


def make_labels(show: Show, tonight: Tonight, dead: Sequence[Dead]) -> tuple[Sheet, ...]:
    """Only the labels that are wrong tonight: packs on other bodies, and spares on a dead pack's channel."""
    worn = list_wearings_tonight(show, tonight)
    capsules = _capsules(show, tonight)
    spares = {one.channel.id: one.spare for one in dead if one.spare}
    labels: list[Label] = []
    for channel in show.channels.values():
        if channel.hz is None:
            continue
        bodies = tuple(dict.fromkeys(wearing.by for wearing in worn[channel.id]))
        usual = {name for name in show.performers_of(channel) if _is_ever_live(show, channel, name)}
        spare = spares.get(channel.id)
        if spare or (bodies and set(bodies) != usual):
            labels.append(label_of(show, channel, bodies, spare.pack if spare else "", _only(capsules[channel.id])))
    if not labels:
        return ()
    block = Labels(STOCKS[show.production.paper], tuple(labels))
    return (frame_sheet(show, LABELS, "tonight labels", (block,)),)


def _only(capsules: tuple[str, ...]) -> str:
    """The capsule of a label: none where the bodies of a shared pack have their own."""
    return capsules[0] if len(capsules) == 1 else ""


def _capsules(show: Show, tonight: Tonight) -> dict[str, tuple[str, ...]]:
    """The capsules on each channel's pack tonight: a cover may bring another, and a double follows its lead."""
    brought: dict[str, list[str]] = {}
    taken = {(change.role, index): change for change in tonight.changes for index in change.scenes}
    for id, worn in list_wearings_tonight(show, tonight).items():
        channel = show.channels[id]
        for wearing in worn:
            change = taken.get((wearing.stint.role, wearing.stint.index))
            follows = change is not None and change.channel in (id, channel.doubles)
            brought.setdefault(id, []).append(change.capsule if change and follows else channel.capsule)
    found = {id: tuple(dict.fromkeys(filter(None, brought.get(id, ())))) for id in show.channels}
    return {id: found[id] or tuple(filter(None, (channel.capsule,))) for id, channel in show.channels.items()}


def _is_ever_live(show: Show, channel: Channel, name: str) -> bool:
    roles = {role for role in channel.roles if show.roles[role].by == name}
    return any(not roles.isdisjoint(scene.live) for scene in show.scenes)


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
    lost = tuple(_row_of(show, change) for change in tonight.uncovered)
    on = tuple(_row_of(show, change) for change in tonight.changes)
    groups = [Group(lost, phrase(show, "tonight not on"))] if lost else []
    groups += [Group(on, phrase(show, "tonight on"))] if on else []
    if groups:
        yield Table(columns, tuple(groups), row_um=ROW_UM)


def _besides(show: Show, tonight: Tonight) -> Iterator[Note]:
    """In one paragraph, so that the evening stays on one page: who takes in-ears, and what is not worn."""
    texts = [*_ears(show, tonight), *_idle(show, tonight)]
    if texts:
        yield Note(
            "  ·  ".join(text for text, _ in texts), TONIGHT_NOTE, tuple(one for _, facts in texts for one in facts)
        )


def _ears(show: Show, tonight: Tonight) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The in-ears of whoever is off, and who takes them: the first who steps in. With their facts."""
    for other in show.others.values():
        for name in tonight.off:
            if fold(name) in map(fold, other.listeners):
                heir = next((change.by for change in tonight.changes if change.instead_of == name), "")
                text = phrase(
                    show, "tonight ears" if heir else "tonight ears free", other=other.id, name=heir, off=name
                )
                yield text, (other.id, heir, name)


def _idle(show: Show, tonight: Tonight) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The packs that are worn on other days and not tonight: on the air they would only do harm."""
    usual, now = list_wearings_tonight(show, usual_evening(show)), list_wearings_tonight(show, tonight)
    idle = tuple(show.channels[id].pack for id in usual if usual[id] and not now[id])
    if idle:
        text = phrase(show, "tonight idle", packs=list_words(idle, show.production.language))
        yield text, idle


def _row_of(show: Show, change: Substitution) -> Row:
    instead = fact(phrase(show, "tonight instead", name=change.instead_of), HAND, of=f"for {change.instead_of}")
    who = (
        cell(fact(change.by, HAND_STRONG), instead)
        if change.by
        else cell(WriteIn(phrase(show, "tonight write")), instead)
    )
    channel = show.channels.get(change.channel)
    return row(
        cell(fact(change.role, HAND_STRONG)),
        cell(fact(_scene_words(show, change), HAND, of=" ".join(show.scenes[index].id for index in change.scenes))),
        who,
        _channel_cell(show, change, channel),
        cell(fact(change.pouch, HAND_STRONG)),
        _capsule_cell(show, change),
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
    text = phrase(show, "second channel", channel=list_words(second, show.production.language)) if second else ""
    pack = phrase(show, "label pack", pack=channel.pack) if channel.pack != channel.id else ""
    return cell(
        fact(channel.id, TONIGHT_NUMBER),
        *((fact(pack, HAND, of=channel.pack),) if pack else ()),
        *((fact(text, HAND, of=" ".join(second)),) if text else ()),
    )


def _capsule_cell(show: Show, change: Substitution) -> Cell:
    capsule = show.capsules.get(change.capsule)
    colour = capsule.colour if capsule and capsule.colour not in change.capsule else ""
    return cell(fact(change.capsule, HAND_STRONG), fact(colour, HAND))


def _scene_words(show: Show, change: Substitution) -> str:
    """The scenes as printed, or that it is all in which the role is live."""
    live = [index for index, scene in enumerate(show.scenes) if change.role in scene.live]
    if list(change.scenes) == live:
        return phrase(show, "tonight whole show")
    return ", ".join(short_scene(show.scenes[index]) for index in change.scenes)


def _swaps(show: Show, tonight: Tonight) -> Iterator[Table | Note]:
    """The swaps that are new, with a square to tick, and in one paragraph those that fall away."""
    usual = {_key(handover): handover for handover in list_all_handovers(show)}
    now = {_key(handover): handover for handover in list_handovers_tonight(show, tonight)}
    own = set(list_pack_changes(show, usual_evening(show)))
    new: list[Handover | PackChange] = [one for key, one in now.items() if key not in usual]
    new += [change for change in list_pack_changes(show, tonight) if change not in own]
    if new:
        yield _new_swaps(show, new)
    gone = [one for key, one in usual.items() if key not in now]
    if gone:
        yield _gone_swaps(show, gone)


def _new_swaps(show: Show, swaps: Sequence[Handover | PackChange]) -> Table:
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    columns = headed(
        show,
        Column("tonight head when", share=4),
        Column("tonight head pack", 24_000),
        Column("tonight head off", share=5),
        Column("tonight head goes", share=5),
        Column("tonight head time", 34_000),
    )
    rows = tuple(_swap_row(show, one) for one in sorted(swaps, key=lambda one: order[one.before.id]))
    return Table(columns, (Group(rows, phrase(show, "tonight swaps")),), row_um=ROW_UM)


def _gone_swaps(show: Show, swaps: Sequence[Handover]) -> Note:
    numbers = {_key(event.change): event.number for event in list_events(show) if isinstance(event.change, Handover)}
    listed = "  ·  ".join(_gone_words(show, one, numbers[_key(one)]) for one in swaps)
    return Note(phrase(show, "tonight swaps gone", swaps=listed), NOTE, tuple(" ".join(_key(one)) for one in swaps))


def _gone_words(show: Show, one: Handover, number: int) -> str:
    """A swap that does not happen tonight: its number on the swap sheets, the scene, the channel, and between whom."""
    return phrase(
        show,
        "tonight swap gone",
        number=number,
        scene=short_scene(one.before),
        channel=one.channel,
        off=one.from_by,
        on=one.to_by,
    )


def _key(handover: Handover) -> tuple[str, ...]:
    return (handover.channel, handover.from_by, handover.to_by, handover.before.id)


def _swap_row(show: Show, one: Handover | PackChange) -> Row:
    if isinstance(one, Handover):
        number, off, on = one.channel, one.from_by, one.to_by
        channels: tuple[str, ...] = (one.channel,)
    else:
        number, off, on = f"{one.from_channel} → {one.to_channel}", one.by, one.by
        channels = (one.from_channel, one.to_channel)
    at = format_clock(one.before.at_s) if one.before.at_s is not None else ""
    return row(
        cell(fact(one.before.name or one.before.id, HAND_STRONG), fact(at, HAND)),
        cell(fact(number, HAND_STRONG)),
        cell(fact(off, HAND_STRONG), _side(one.from_role, phrase(show, "exits"), one.exit)),
        cell(fact(on, HAND_STRONG), _side(one.to_role, phrase(show, "enters"), one.enter)),
        cell(Tick(_time_words(show, one))),
        subjects=tuple(Subject("channels", id) for id in channels) + (Subject("people", off), Subject("people", on)),
    )


def _side(role: str, template: str, side: str) -> Line:
    text = f"{role}, {template.format(side=side)}" if side else role
    return fact(text, HAND, of=f"{role} {side}")


def _time_words(show: Show, one: Handover | PackChange) -> str:
    """The time for a swap, or that it is not timed: `95 s`, `4 min or more`."""
    if isinstance(one, Handover) and one.in_vision:
        return phrase(show, "in vision")
    if one.seconds is None:
        return phrase(show, "not timed")
    text = (
        phrase(show, "seconds", seconds=one.seconds)
        if one.seconds < 300
        else phrase(show, "minutes", minutes=one.seconds // 60)
    )
    if one.at_least:
        return phrase(show, "at least", time=text)
    wanted_s = _wanted_s(show, one)
    return (
        text
        if one.seconds >= wanted_s
        else phrase(show, "too short", time=text, wanted=phrase(show, "seconds", seconds=wanted_s))
    )


def _wanted_s(show: Show, one: Handover | PackChange) -> int:
    """What a swap takes, with the way round where it is known to cross the stage."""
    radio = show.radio_of(show.channels[one.channel if isinstance(one, Handover) else one.to_channel])
    crosses = bool(one.exit and one.enter and fold(one.exit) != fold(one.enter))
    return swap_s(show, radio.kind if radio else "pack") + (crossing_s(show) if crosses else 0)


def _panel(show: Show, dead: Dead, capsule: str) -> Panel:
    """What to do about one dead pack, with the line to programme and the line to log."""
    channel, spare = dead.channel, dead.spare
    title = phrase(show, "tonight dead", pack=channel.pack, title=title_of(show, channel))
    first = phrase(show, "tonight dead off", pack=channel.pack)
    if spare is None:
        none = phrase(show, "tonight dead none", channel=channel.id)
        return Panel(title, (first, none), facts=(channel.id, channel.pack, "no spare"))
    settings = _settings(show, channel)
    mhz = format_mhz(channel.hz) if channel.hz is not None else "______.______"
    step = phrase(show, "tonight dead set") if channel.hz is not None else phrase(show, "tonight dead blank")
    third = phrase(show, "tonight dead capsule", capsule=capsule) if capsule else phrase(show, "tonight dead stay")
    log = phrase(
        show,
        "tonight dead log",
        channel=channel.id,
        title=title_of(show, channel),
        pack=channel.pack,
        spare=spare.pack,
        mhz=mhz,
    )
    lines = (first, step.format(spare=spare.pack, settings=settings), third, log)
    return Panel(title, lines, facts=(channel.id, channel.pack, spare.pack, settings, capsule))


def _settings(show: Show, channel: Channel) -> str:
    """Everything that the spare has to be set to: what the dead pack was set to."""
    transmitter = show.transmitters.get(channel.pack)
    parts = [f"{format_mhz(channel.hz)} MHz" if channel.hz is not None else "", power_of(show, channel)]
    if transmitter:
        parts += [
            phrase(show, "gain", gain=transmitter.gain) if transmitter.gain else "",
            phrase(show, "display", display=transmitter.display) if transmitter.display else "",
            phrase(show, "locked") if transmitter.lock else "",
        ]
    return ", ".join(filter(None, parts))
