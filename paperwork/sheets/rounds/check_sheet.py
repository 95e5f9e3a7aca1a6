"""The check sheet: one performance on one clipboard. Desk line, fitting, cells and body check of a channel are one
row; the swaps follow, a row each. Whoever wants room to write has the long forms."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise, zip_longest
from typing import TypeAlias

from paperwork.document import Cell, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Day, Show
from paperwork.plan.bodies.carried import scenes_on
from paperwork.plan.bodies.events import Event, list_events
from paperwork.plan.day.batteries import BatteryPlan, plan_batteries
from paperwork.plan.day.clockface import is_by_clock, say_day_time
from paperwork.plan.day.powered import list_ends
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import LookChange
from paperwork.sheets import forms
from paperwork.sheets.frame import (
    frame_sheet,
    headed,
    people_lines,
    phrase,
    short_scene,
    split_sheets,
    subjects_in_rack,
    subjects_of_channel,
    title_line,
)
from paperwork.sheets.rack.line_check import list_in_desk_order
from paperwork.sheets.rack.swap_sheets import LONG_S, Swap
from paperwork.sheets.times import clock_fact, clock_word, day_time_words, says_time_of_day, scene_line
from paperwork.text.units import LONGEST_S

NAME = "check-sheet"
ROW_UM = 8_000
"""A pen needs 8 mm (common practice, no source)."""

TICK_UM = 12_000
"""A square of 6 mm with its margins."""

DAYS_S = LONGEST_S + 24 * 3600
"""Later than any time that a show states."""

SHORT_ROOM = 4
"""Signs of the number of a room, which stays beside its word; a room with a name may be broken from it."""

WHO = replace(HAND, lines=4)
ROLE = replace(HAND_STRONG, lines=4)
"""A pack may go through many hands."""

Cells: TypeAlias = Mapping[str, tuple[int, ...]]
"""By channel the times of day at which it gets fresh cells."""

_OF_DAY = ("power-up", "checks", "half", "curtain")


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for each show of the day, or each day by the clock. Needs channels, and something of an evening: scenes,
    or times of the day."""
    if not show.channels or not (show.scenes or show.day.checks_s or show.day.curtain_s):
        return ()
    plans = plan_batteries(show)
    swaps = [event for event in list_events(show) if not isinstance(event.change, LookChange)]
    parts = [(_take(show, at, span), _list_cells(plans, span)) for at, span in enumerate(_list_spans(show))]
    return split_sheets([_make_sheet(part, cells, swaps) for part, cells in parts])


def _make_sheet(show: Show, cells: Cells, numbered: Sequence[Event]) -> Sheet:
    """A sheet of a part of the show, whose swaps are `numbered` in the whole of it."""
    here = {scene.id for scene in show.scenes}
    swaps = [event for event in numbered if event.change.before.id in here]
    tables = [_list_channels(show, cells), *([_list_swaps(show, swaps)] if swaps else [])]
    times = [(name, at[0]) for name, at in zip(_OF_DAY, _times_of(show.day), strict=True) if at]
    said = ", ".join(f"{phrase(show, f'performances {name}')} {day_time_words(show, at)}" for name, at in times)
    is_by_day = says_time_of_day(show)
    counted = phrase(show, "time of day") if is_by_day else clock_word(show)
    return frame_sheet(
        show,
        NAME,
        "check sheet",
        tuple(tables),
        order="check order",
        subtitle=tuple(filter(None, (said, counted if said or show.scenes else ""))),
        cautions=("body caution", "shared caution", "cell caution"),
        facts=(
            *(f"{name} {say_day_time(show, at)}" for name, at in times),
            "by day" if is_by_day else clock_fact(show),
        ),
    )


def _times_of(day: Day) -> tuple[tuple[int, ...], ...]:
    return day.power_up_s, day.checks_s, day.half_s, day.curtain_s


def _list_spans(show: Show) -> list[tuple[int, int]]:
    """From when to when each sheet is about, in times of day: a show of the day each, until its bows; by the clock a day
    or a service each, until what is done before the next."""
    if is_by_clock(show):
        starts = [min(at for at in parts if at is not None) for parts in zip_longest(*_times_of(show.day))]
        edges = [-DAYS_S, *starts[1:], DAYS_S]
    else:
        ends = list_ends(show) or show.day.curtain_s
        edges = [0, *ends[:-1], DAYS_S]
    return list(pairwise(edges))


def _take(show: Show, number: int, span: tuple[int, int]) -> Show:
    """The show on a day with one of its shows alone; where packs stay on between, the second has no power-up. By the clock
    with the scenes of that one alone."""
    power_up_s, checks_s, half_s, curtain_s = (at[number : number + 1] for at in _times_of(show.day))
    day = replace(show.day, power_up_s=power_up_s, checks_s=checks_s, half_s=half_s, curtain_s=curtain_s)
    scenes = show.scenes
    if is_by_clock(show):
        scenes = tuple(one for one in scenes if one.at_s is None or span[0] <= one.at_s < span[1])
    return replace(show, day=day, scenes=scenes)


def _list_cells(plans: Sequence[BatteryPlan], span: tuple[int, int]) -> Cells:
    """When each channel gets fresh cells for one sheet."""
    changes = {plan.channel: dict.fromkeys(run.change.at_s for run in plan.runs) for plan in plans}
    return {id: tuple(at for at in times if span[0] <= at < span[1]) for id, times in changes.items()}


def _list_channels(show: Show, fresh: Cells) -> Table:
    """A row for each channel in desk order: what the A2 ticks on the way from the rack to the body."""
    columns = headed(
        show,
        Column("line head input", 19_000),
        Column("head channel", 20_000, spares=True),
        Column("head role only", share=4),
        Column("check head who", share=5),
        Column("fitting head first", 16_000),
        Column("check head cells", 16_000),
        *(Column(f"check head {what}", TICK_UM) for what in ("in", "line", "fitted", "body")),
    )
    first: dict[str, tuple[str, int | None]] = {}
    for by, worn in forms.list_worn(show).items():
        for one in worn:
            known = first.get(one.channel.id)
            if known is None or forms.last_if_none(one.first) < forms.last_if_none(known[1]):
                first[one.channel.id] = by, one.first
    for channel in show.channels.values():
        if forms.is_handheld(show, channel):
            first[channel.id] = "", min(scenes_on(show, channel), default=None)
    groups = tuple(
        RowGroup(
            tuple(_row_of(show, one, desk, fresh.get(one.id, ()), first.get(one.id)) for one, desk in listed),
            title,
            facts=(kind,),
        )
        for kind, title, listed in list_in_desk_order(show)
        if listed
    )
    return Table(columns, groups, row_um=ROW_UM)


def _row_of(
    show: Show, channel: Channel, desk: str, fresh: tuple[int, ...], first: tuple[str, int | None] | None
) -> TableRow:
    parts = [
        (cell(fact(day_time_words(show, at), HAND_STRONG, of=say_day_time(show, at))), forms.tick_cell())
        for at in fresh
    ] or [_no_cells(channel)]
    cells, ticks = zip(*parts, strict=True)
    off = cell(words("–", HAND_STRONG))
    is_worn = not channel.spare and not forms.is_handheld(show, channel)
    return row(
        cell(fact(desk, HAND_STRONG) if desk else words(" ", HAND)),
        forms.number_cell(channel, HAND_NUMBER),
        cell(title_line(show, channel, ROLE)),
        _who_cell(show, channel, first if is_worn else None),
        _first_cell(show, first),
        cells,
        ticks,
        forms.tick_cell(),
        forms.tick_cell() if is_worn else off,
        off if channel.spare else forms.tick_cell(),
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )


def _no_cells(channel: Channel) -> tuple[Cell, Cell]:
    """A spare has none in it; of others it is not known when."""
    return cell(words("–" if channel.spare else " ", HAND)), cell(
        words("–", HAND)
    ) if channel.spare else forms.tick_cell()


def _who_cell(show: Show, channel: Channel, first: tuple[str, int | None] | None) -> Cell:
    """Who wears it, the first of them with the room."""
    person = show.people.get(first[0]) if first else None
    lines = people_lines(show, channel, WHO)
    named = next((at for at, line in enumerate(lines) if first and line.fact.startswith(first[0])), None)
    if named is None or person is None:
        return cell(*lines)
    line = lines[named]
    text = phrase(show, "in room", name=line.text, room=person.room) if person.room else line.text
    if 0 < len(person.room) <= SHORT_ROOM:
        text = f"{text.removesuffix(f' {person.room}')}\u202f{person.room}"
    said = replace(line, text=text, fact=f"{line.fact} {person.room}".strip())
    return cell(*lines[:named], said, *lines[named + 1 :])


def _first_cell(show: Show, first: tuple[str, int | None] | None) -> Cell:
    """When the first body is on first; in which scene, where no time is known."""
    scene = show.scenes[first[1]] if first and first[1] is not None else None
    if scene is None:
        return cell(words(" ", HAND))
    return cell(fact(short_scene(scene), HAND) if scene.at_s is None else scene_line(show, scene, HAND))


def _list_swaps(show: Show, swaps: Sequence[Event]) -> Table:
    columns = headed(
        show,
        Column("quick head number", 11_000),
        Column("check head scenes", 31_000),
        Column("head numbers", 19_000),
        Column("check head off", share=1),
        Column("check head on", share=1),
        Column("quick head time", 30_000),
        Column("quick head done", TICK_UM),
    )
    rows = tuple(row for event in swaps for row in _swap_rows(show, event))
    title = phrase(show, "swap sheet")
    return Table(columns, (RowGroup(rows, title, str(len(swaps)), facts=("swaps", str(len(swaps)))),), row_um=ROW_UM)


def _swap_rows(show: Show, event: Event) -> Iterator[TableRow]:
    swap = event.change
    if isinstance(swap, LookChange):
        return
    handed = isinstance(swap, Handover)
    gone, come = (swap.channel, swap.channel) if isinstance(swap, Handover) else (swap.from_channel, swap.to_channel)
    packs = dict.fromkeys(show.channels[id].pack for id in (gone, come))
    names = (
        (swap.from_by or swap.from_role, swap.to_by or swap.to_role)
        if isinstance(swap, Handover)
        else (swap.by, swap.by)
    )
    sides = [fact(side, HAND) for side in (swap.exit, swap.enter)]
    sheds = fact(phrase(show, "swap sheds", channel=event.sheds), HAND, of=f"off {event.sheds}")
    scenes = phrase(show, "swap scenes", one=short_scene(swap.after), two=short_scene(swap.before))
    off, on = (swap.from_role, swap.to_role)
    yield row(
        cell(fact(str(event.number), HAND_STRONG)),
        cell(fact(scenes, HAND_STRONG, of=f"{short_scene(swap.after)} {short_scene(swap.before)}")),
        cell(fact(" → ".join(packs), HAND_NUMBER if len(packs) == 1 else HAND_STRONG), key=len(packs) == 1),
        cell(fact(names[0], HAND_STRONG), sides[0] if swap.exit else fact("" if off == names[0] else off, HAND)),
        cell(
            fact(names[1], HAND_STRONG),
            sides[1] if swap.enter else fact("" if on == names[1] else on, HAND),
            *([sheds] if event.sheds else []),
        ),
        _time_cell(show, event, swap),
        forms.tick_cell(),
        subjects=(
            *(one for id in dict.fromkeys((gone, come)) for one in subjects_of_channel(show, show.channels[id])),
            *(Subject("people", name) for name in names if handed and name),
        ),
        where=show.channels[come].where.record,
    )


def _time_cell(show: Show, event: Event, swap: Swap) -> Cell:
    """What there is of time; that it is quick, in vision or in the interval."""
    more = [("quick", "swap quick")] if event.is_quick else []
    if isinstance(swap, Handover) and swap.in_vision:
        time = fact(phrase(show, "in vision"), HAND_STRONG, of="in vision")
    elif swap.seconds is None:
        time = fact(phrase(show, "not timed"), HAND, of="not timed")
    elif swap.seconds >= LONG_S or not swap.seconds % 60:
        time = fact(phrase(show, "minutes", minutes=swap.seconds // 60), HAND_STRONG, of=str(swap.seconds))
    else:
        text = f"{swap.seconds // 60}:{swap.seconds % 60:02d} {phrase(show, 'swap unit')}"
        time = fact(text, HAND_STRONG, of=str(swap.seconds))
    more += [("or more", "swap or more")] if swap.at_least else []
    more += [("interval", "in the interval")] if event.in_interval else []
    said = ", ".join(phrase(show, key) for _, key in more)
    return cell(time, fact(said, HAND, of=" ".join(name for name, _ in more)))
