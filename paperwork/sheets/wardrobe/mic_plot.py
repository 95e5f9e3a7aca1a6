"""The mic plot: who has which pack when. Two faces of one truth for sound, and a list of numbers and times for the cast.

Hangs in both wings, at the mic table and in the corridor; read from half a metre.
"""

from collections.abc import Iterable, Iterator
from itertools import groupby, pairwise

from paperwork.document import (
    Act,
    Bar,
    Cell,
    Column,
    Group,
    Keep,
    Lane,
    Line,
    Plot,
    PlotRow,
    Row,
    Scene,
    Sheet,
    Table,
    cell,
    fact,
    row,
    words,
)
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.model import Scene as ShowScene
from paperwork.plan.handovers import Handover
from paperwork.plan.spells import Spell, list_spells
from paperwork.plan.timeline import scene_times
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel, title_fact_of, title_of
from paperwork.styles import (
    HAND,
    HAND_STRONG,
    PLOT_KEY,
    PLOT_TITLE,
    PLOT_UNDER,
    RACK_NUMBER,
    RACK_ROLE,
    RACK_SMALL,
    RACK_STRONG,
)
from paperwork.units import format_clock
from paperwork.words import words_of

CAST_ROW_UM = 13_800


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """People by scenes, channels by scenes, and the numbers and times for the cast."""
    spells = list_spells(show)
    if not spells:
        return ()
    w = words_of(show.production.language)
    acts = tuple(_acts(show))
    cautions = (w["privacy caution"],)
    people = Plot(acts, tuple(_people_rows(show, spells)), _legend(show, spells))
    channels = Plot(acts, tuple(_channel_rows(show, spells)), _legend(show, spells)[:-1])
    return (
        frame_sheet(
            show, "mic-plot", w["mic plot"], (people,), subtitle=(w["plot people"],), cautions=cautions, landscape=True,
        ),
        frame_sheet(
            show, "mic-plot-channels", w["mic plot"], (channels,), subtitle=(w["plot channels"],), cautions=cautions,
            landscape=True,
        ),
        frame_sheet(show, "mic-plot-cast", w["mic times"], (_cast_table(show, spells),), cautions=cautions),
    )


def _acts(show: Show) -> Iterator[Act]:
    for title, scenes in groupby(show.scenes, key=lambda scene: scene.act):
        yield Act(title, tuple(_scene_of(scene) for scene in scenes))


def _scene_of(scene: ShowScene) -> Scene:
    """Number and name apart; a name without a number is all name."""
    at = format_clock(scene.at_s) if scene.at_s is not None else ""
    number = short_scene(scene)
    if not any(sign.isdigit() for sign in number) or len(number) > 5:
        return Scene("", scene.name or scene.id, at)
    rest = scene.name.removeprefix(number).strip() if scene.name else ""
    return Scene(number, rest, at)


def _legend(show: Show, spells: Iterable[Spell]):
    """Only the signs that this plot can show."""
    w = words_of(show.production.language)
    spells = list(spells)
    signs = [("put on", w["plot put on"])]
    if any(_gaps(spell.scenes) for spell in spells):
        signs.append(("keeps", w["plot keeps"]))
    if any(spell.gives for spell in spells):
        signs.append(("taken off", w["plot taken off"]))
    if any(_is_held(show, spell.channel) for spell in spells):
        signs.append(("held", w["plot held"]))
    signs.append(("second", w["plot second"]))
    return tuple(signs) if any(spell.channel.doubles for spell in spells) else (*signs[:-1], signs[0])[: len(signs)]


def _is_held(show: Show, channel: Channel) -> bool:
    radio = show.radio_of(channel)
    return bool(radio and radio.kind == "handheld")


def _gaps(scenes: tuple[int, ...]) -> list[tuple[int, int]]:
    """The stretches between scenes in which the pack is on and not live."""
    return [(one + 1, two - 1) for one, two in pairwise(scenes) if two > one + 1]


def _blocks(scenes: tuple[int, ...]) -> list[tuple[int, int]]:
    """Scenes that follow each other, as (first, last)."""
    found: list[list[int]] = []
    for index in scenes:
        if found and found[-1][1] == index - 1:
            found[-1][1] = index
        else:
            found.append([index, index])
    return [(one, two) for one, two in found]


def _bars(show: Show, spell: Spell, text: str, note: str, of: str) -> Lane:
    blocks = _blocks(spell.scenes)
    held = _is_held(show, spell.channel)
    bars = tuple(
        Bar(
            first, last, text, "held" if held else "worn", put_on=not held and number == 0,
            taken_off=not held and number == len(blocks) - 1 and spell.gives is not None,
            note=note if number == (len(blocks) - 1 if spell.gives else 0) else "", fact=of,
        )
        for number, (first, last) in enumerate(blocks)
    )
    return Lane(bars, () if held else tuple(Keep(one, two) for one, two in _gaps(spell.scenes)))


# People by scenes.


def _people_rows(show: Show, spells: tuple[Spell, ...]) -> Iterator[PlotRow]:
    bodies: dict[str, list[Spell]] = {}
    for spell in spells:
        bodies.setdefault(spell.by, []).append(spell)
    for by, own in bodies.items():
        roles = tuple(dict.fromkeys(role for spell in own for role in spell.roles))
        subjects = dict.fromkeys(subject for spell in own for subject in subjects_of_channel(show, spell.channel))
        title, under = _name_of(show, by, roles)
        yield PlotRow(title, under, lanes=tuple(_lanes(show, own)), subjects=tuple(subjects),
                      where=own[0].channel.where.record)


def _name_of(show: Show, by: str, roles: tuple[str, ...]) -> tuple[Line, Line | None]:
    """The performer over the roles. A child's name stays off the wall: then the roles alone."""
    played = ", ".join(roles)
    if by in roles or is_child(show, by):
        return fact(played, PLOT_TITLE), None
    return fact(by, PLOT_TITLE), fact(played, PLOT_UNDER)


def is_child(show: Show, name: str) -> bool:
    """Whether somebody is a child, whose name is printed on nothing that hangs or lies about."""
    person = show.people.get(name)
    return bool(person and person.child)


def _lanes(show: Show, spells: list[Spell]) -> Iterator[Lane]:
    """The worn packs in the first lane, second packs and handhelds in lanes of their own; more where they overlap."""
    kinds: dict[int, list[tuple[set[int], Lane]]] = {}
    for spell in spells:
        kind = 2 if _is_held(show, spell.channel) else 1 if spell.channel.doubles else 0
        lane = _bars(show, spell, spell.channel.id, _note_of(show, spell.gives), spell.channel.id)
        taken = set(range(spell.scenes[0], spell.scenes[-1] + 1))
        lanes = kinds.setdefault(kind, [])
        for number, (used, other) in enumerate(lanes):
            if used.isdisjoint(taken):
                bars = tuple(sorted((*other.bars, *lane.bars), key=lambda bar: bar.first))
                lanes[number] = (used | taken, Lane(bars, (*other.keeps, *lane.keeps)))
                break
        else:
            lanes.append((taken, lane))
    for kind in sorted(kinds):
        yield from (lane for _, lane in kinds[kind])


def _note_of(show: Show, gives: Handover | None) -> str:
    """To whom the pack goes, and between which sides."""
    if gives is None:
        return ""
    w = words_of(show.production.language)
    name = gives.to_role if is_child(show, gives.to_by) else gives.to_by
    parts = [w["plot to"].format(name=name)]
    if gives.exit or gives.enter:
        parts.append(" / ".join(dict.fromkeys(filter(None, (gives.exit, gives.enter)))))
    return ", ".join(parts)


# Channels by scenes.


def _channel_rows(show: Show, spells: tuple[Spell, ...]) -> Iterator[PlotRow]:
    for channel in show.channels.values():
        own = [spell for spell in spells if spell.channel is channel]
        shared = len({spell.by for spell in own}) > 1
        lanes: list[Lane] = []
        for spell in own:
            note = (spell.roles[0] if is_child(show, spell.by) else spell.by) if shared else ""
            lanes.append(_bars(show, spell, "", note, spell.by))
        bars = tuple(bar for lane in lanes for bar in lane.bars)
        keeps = tuple(keep for lane in lanes for keep in lane.keeps)
        names = ", ".join(name for name in show.performers_of(channel) if not is_child(show, name))
        yield PlotRow(
            fact(title_of(show, channel), PLOT_TITLE, of=title_fact_of(channel)),
            fact(names, PLOT_UNDER) if names and names != channel.by else None,
            key=fact(channel.id, PLOT_KEY), lanes=(Lane(bars, keeps),) if bars else (), hatch=channel.spare,
            subjects=subjects_of_channel(show, channel), where=channel.where.record,
        )


# For the cast: number and times only.


def _cast_table(show: Show, spells: tuple[Spell, ...]) -> Table:
    w = words_of(show.production.language)
    columns = (
        Column(w["plot head name"], share=3), Column(w["plot head mic"], 30_000), Column(w["plot head from"], 42_000),
        Column(w["plot head until"], 42_000),
    )
    bodies: dict[str, list[Spell]] = {}
    for spell in spells:
        bodies.setdefault(spell.by, []).append(spell)
    rows = tuple(_cast_row(show, by, own) for by, own in bodies.items())
    return Table(columns, (Group(rows),), row_um=CAST_ROW_UM)


def _cast_row(show: Show, by: str, spells: list[Spell]) -> Row:
    roles = tuple(dict.fromkeys(role for spell in spells for role in spell.roles))
    hidden = by in roles or is_child(show, by)
    played = ", ".join(roles)
    name = cell(fact(played, RACK_ROLE)) if hidden else cell(fact(by, RACK_ROLE), fact(played, RACK_SMALL))
    numbers, starts, ends = [], [], []
    for spell in spells:
        numbers.append(cell(fact(spell.channel.id, RACK_NUMBER), key=True))
        starts.append(_time_cell(show, spell, first=True))
        ends.append(_time_cell(show, spell, first=False))
    subjects = dict.fromkeys(subject for spell in spells for subject in subjects_of_channel(show, spell.channel))
    return row(name, tuple(numbers), tuple(starts), tuple(ends), subjects=(*subjects, Subject("people", by)),
               where=spells[0].channel.where.record)


def _time_cell(show: Show, spell: Spell, *, first: bool) -> Cell:
    """The scene and the time at which the pack goes on or comes off; nothing where it goes on to the end."""
    if not first and spell.gives is None and not _is_held(show, spell.channel):
        return cell(words(words_of(show.production.language)["plot end"], HAND))
    index = spell.scenes[0] if first else spell.scenes[-1]
    times = scene_times(show)[index]
    at_s = (spell.from_s if first else spell.to_s) or times[0 if first else 1]
    at = format_clock(at_s) if at_s is not None else ""
    return cell(fact(short_scene(show.scenes[index]), RACK_STRONG), fact(at, HAND_STRONG))
