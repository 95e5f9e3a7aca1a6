"""The performances of the run: when each is, and who plays the roles that not everybody plays every time."""

from collections.abc import Iterator

from paperwork.document import Cell, Column, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row
from paperwork.document.styles import LIST, LIST_STRONG
from paperwork.finding import Subject
from paperwork.model import Performance, Show
from paperwork.plan.day.clockface import is_by_clock, say_time
from paperwork.sheets.forms import labelled
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.staging import stage_performance
from paperwork.text.units import format_clock
from paperwork.text.words import format_date

NAME = "performances"
ROW_UM = 9_600
_OF_DAY = ("power-up", "checks", "half", "curtain")


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, by date; of one performance where the show is staged for it. Needs performances."""
    own = show.performances.get(show.at_performance)
    listed = [own] if own else list_by_date(show)
    if not listed:
        return ()
    columns = headed(
        show,
        Column("performances head name", 38_000),
        Column("performances head of day", 34_000),
        Column(f"performances head {'times' if is_by_clock(show) else 'show time'}", 29_000),
        Column("performances head team", 22_000),
        Column("performances head cast"),
    )
    changing = _list_changing(show)
    rows = tuple(_row(show, one, changing) for one in listed)
    table = Table(columns, (RowGroup(rows),), row_um=ROW_UM)
    return (frame_sheet(show, NAME, "performances", (table,), order="performances order"),)


def list_by_date(show: Show) -> list[Performance]:
    """The performances of the show by date, those of one day by their times."""
    return sorted(show.performances.values(), key=lambda one: (one.date, one.curtain_s or show.day.curtain_s))


def _list_changing(show: Show) -> tuple[str, ...]:
    """The roles that somebody else plays in another performance."""
    named = {role for one in show.performances.values() for role, _ in one.cast}
    return tuple(id for id, role in show.roles.items() if role.alternates or id in named)


def _row(show: Show, performance: Performance, changing: tuple[str, ...]) -> TableRow:
    staged = stage_performance(show, performance)
    cells = (
        _name(show, performance),
        cell(*(_line(staged, key, at) for key, at in _list_times_of_day(staged))),
        cell(*(_line(staged, key, at) for key, at in _list_show_times(staged))),
        cell(fact(staged.day.team, LIST)),
        cell(*(labelled(show, role, staged.roles[role].by or "-", LIST) for role in changing)),
    )
    return row(*cells, subjects=(Subject("performances", performance.id),))


def _name(show: Show, performance: Performance) -> Cell:
    lines = [fact(performance.id, LIST_STRONG)]
    if performance.date:
        date = format_date(performance.date, show.production.language)
        lines.append(fact(date, LIST, of=performance.date))
    if performance.kind == "rehearsal":
        lines.append(fact(phrase(show, "rehearsal"), LIST, of="rehearsal"))
    return cell(*lines)


def _line(show: Show, name: str, at: str) -> Line:
    return fact(f"{phrase(show, f'performances {name}')} {at}", LIST, of=f"{name} {at}")


def _list_times_of_day(show: Show) -> Iterator[tuple[str, str]]:
    """What happens at which time of day, a line each."""
    day = show.day
    for name, times in zip(_OF_DAY, (day.power_up_s, day.checks_s, day.half_s, day.curtain_s), strict=True):
        if times:
            yield name, ", ".join(map(format_clock, times))


def _list_show_times(show: Show) -> Iterator[tuple[str, str]]:
    """What happens how long after curtain up, a line each."""
    if show.day.interval_s:
        yield "interval", ", ".join(say_time(show, at_s) for at_s in show.day.interval_s)
    if show.day.bows_s:
        yield "bows", ", ".join(say_time(show, at_s) for at_s in show.day.bows_s)
