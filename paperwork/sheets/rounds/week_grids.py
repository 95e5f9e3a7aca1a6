"""Week grids: cells, checks and capsules of several performances, each a column to tick. On the wall of the mic station."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from paperwork.document import Cell, Column, Line, RowGroup, Sheet, Table, TableRow, WriteIn, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_NUMBER, HAND_STRONG, Style
from paperwork.finding import Subject
from paperwork.model import Channel, Performance, Show
from paperwork.plan.day.batteries import plan_batteries
from paperwork.plan.day.clockface import say_day_time
from paperwork.sheets import forms
from paperwork.sheets.frame import (
    frame_sheet,
    headed,
    phrase,
    short_performance,
    split_sheets,
    subjects_of_channel,
    title_line,
)
from paperwork.sheets.production.performance_list import list_by_date
from paperwork.sheets.rack.line_check import list_in_desk_order
from paperwork.sheets.times import day_time_words
from paperwork.staging import stage_performance

NAME = "week-grids"
MOST = 10
"""Performances on a page: a week of two-show days, and a rehearsal (common practice, no source)."""

ROW_UM = 8_000
COLUMN_UM = 20_500
LEAST_UM = 60_000
"""What number and role take at the least: of a short week two columns of channels stand side by side."""

Staged = tuple[Performance, Show]
"""A performance, and the show as it is in it."""

Grid = Callable[[Show, Sequence[Staged]], list[RowGroup]]


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """Three sheets for every ten performances, by date. Needs performances, and is of no single one."""
    if not show.channels or show.at_performance in show.performances:
        return ()
    staged = [(one, stage_performance(show, one)) for one in list_by_date(show)]
    weeks = [staged[at : at + MOST] for at in range(0, len(staged), MOST)]
    return tuple(
        sheet
        for name, grid, cautions in _GRIDS
        for sheet in split_sheets([made for week in weeks for made in _make_grid(show, name, grid, cautions, week)])
    )


def _make_grid(show: Show, name: str, grid: Grid, cautions: tuple[str, ...], week: Sequence[Staged]) -> Iterator[Sheet]:
    groups = grid(show, week)
    if not any(group.rows for group in groups):
        return
    columns = headed(show, Column("head channel", 21_000, spares=True), Column("head role only", share=1))
    named = [short_performance(show, one) for one, _ in week]
    heads = [Column(" ".join(filter(None, parts)), COLUMN_UM) for parts in named]
    order = phrase(show, f"week {name} order")
    yield frame_sheet(
        show,
        f"week-{name}",
        f"week {name}",
        (Table((*columns, *heads), tuple(groups), row_um=ROW_UM, least_um=LEAST_UM + len(heads) * COLUMN_UM),),
        subtitle=(order, *((phrase(show, "time of day"),) if name != "capsules" else ())),
        cautions=cautions,
        facts=tuple(f"{one.id} {one.date}" for one, _ in week),
        landscape=True,
        turns=True,
    )


def _list_cells(show: Show, week: Sequence[Staged]) -> list[RowGroup]:
    """When each pack gets fresh cells: the usual times of a performance in the first row, others over a square."""
    fresh = []
    for _, staged in week:
        plans = plan_batteries(staged)
        fresh.append({plan.channel: tuple(dict.fromkeys(run.change.at_s for run in plan.runs)) for plan in plans})
    usual = [Counter(one.values()).most_common(1)[0][0] if one else () for one in fresh]

    def fill(channel: Channel, at: int) -> tuple[Cell, ...]:
        own = fresh[at].get(channel.id, usual[at])
        said = own != usual[at]
        return tuple(_tick(*(_time_line(show, time, HAND) for time in (time,) if said)) for time in own) or (
            forms.tick_cell(),
        )

    listed = [one for one in show.channels.values() if not one.spare]
    times = [_times_row(show, "check head cells", usual)] if any(usual) else []
    return [RowGroup((*times, *(_row(show, one, week, fill) for one in listed)))]


def _list_checks(show: Show, week: Sequence[Staged]) -> list[RowGroup]:
    """The line check of every channel, then the check on the body of whoever wears it."""

    def fill_body(channel: Channel, at: int) -> tuple[Cell, ...]:
        played = [staged.performers_of(channel) for _, staged in week]
        named = [fact(", ".join(names), HAND) for names in played[at : at + 1] if len(set(played)) > 1]
        return (_tick(*named), *_more_ticks(half[at]))

    ordered = [one for _, _, listed in list_in_desk_order(show) for one, _ in listed]
    worn = [one for one in ordered if not one.spare]
    checks, half = [staged.day.checks_s for _, staged in week], [staged.day.half_s for _, staged in week]
    line_rows = tuple(
        _row(show, one, week, lambda _, at: (forms.tick_cell(), *_more_ticks(checks[at]))) for one in ordered
    )
    body_rows = tuple(_row(show, one, week, fill_body) for one in worn)
    return [
        RowGroup(
            (*([_times_row(show, "performances checks", checks)] if any(checks) else []), *line_rows),
            phrase(show, "line check"),
            facts=("line",),
        ),
        RowGroup(
            (*([_times_row(show, "performances half", half)] if any(half) else []), *body_rows),
            phrase(show, "line second"),
            facts=("body",),
        ),
    ]


def _list_capsules(show: Show, week: Sequence[Staged]) -> list[RowGroup]:
    """A mark for each capsule that is worn, after each performance."""
    listed = [one for one in show.channels.values() if one.capsule and not one.spare]
    return [RowGroup(tuple(_row(show, one, week, lambda *_: (cell(WriteIn()),), capsule=True) for one in listed))]


def _more_ticks(times: Sequence[int]) -> tuple[Cell, ...]:
    """A square for each time after the first: of two shows a day each is checked."""
    return tuple(forms.tick_cell() for _ in times[1:])


def _tick(*over: Line) -> Cell:
    """A square, under what it is about where that is not the same for all."""
    square = forms.tick_cell()
    return replace(square, items=(*over, *square.items), key=False) if over else square


def _time_line(show: Show, at_s: int, style: Style) -> Line:
    return fact(day_time_words(show, at_s), style, of=say_day_time(show, at_s))


def _times_row(show: Show, key: str, times: Sequence[tuple[int, ...]]) -> TableRow:
    return row(
        cell(words(" ", HAND)),
        cell(words(phrase(show, key), HAND)),
        *(cell(*(_time_line(show, one, HAND_STRONG) for one in at)) for at in times),
    )


def _row(
    show: Show,
    channel: Channel,
    week: Sequence[Staged],
    fill: Callable[[Channel, int], tuple[Cell, ...]],
    *,
    capsule: bool = False,
) -> TableRow:
    held = show.capsules.get(channel.capsule)
    under = ", ".join(filter(None, (channel.capsule, held.serial if held else ""))) if capsule else ""
    return row(
        forms.number_cell(channel, HAND_NUMBER),
        cell(title_line(show, channel, HAND_STRONG), fact(under, HAND)),
        *(fill(channel, at) for at in range(len(week))),
        subjects=(*subjects_of_channel(show, channel), *(Subject("performances", one.id) for one, _ in week)),
        where=channel.where.record,
    )


_GRIDS: tuple[tuple[str, Grid, tuple[str, ...]], ...] = (
    ("cells", _list_cells, ("battery caution", "cell caution")),
    ("checks", _list_checks, ("patch caution", "privacy caution")),
    ("capsules", _list_capsules, ("shared caution",)),
)
