"""How wide the columns of a table are: from the paper alone, until a number would not be printed.

Two revisions that lie on each other are compared at a glance, so a width never follows a name. A number has no other
way out, though: it neither breaks nor becomes small. Where one is longer than its column allows, the column takes what
the number needs at its floor from columns of words.
"""

from collections.abc import Iterable, Iterator

from paperwork.document import Column, Tick
from paperwork.render.blocks.cells import MeasuredCell
from paperwork.render.blocks.rows import MeasuredRow
from paperwork.render.text.measuring import Metrics

LEAST_UM = 16_000
"""A column of words keeps so much, and half of what it had."""


def column_widths(columns: tuple[Column, ...], width: int) -> tuple[int, ...]:
    """Whole micrometres for each column, the fixed ones first, the rest shared; they add up to the page's width."""
    left = width - sum(column.width_um for column in columns)
    shares = sum(column.share for column in columns if not column.width_um)
    if left < 1_000 * sum(not column.width_um for column in columns):
        raise ValueError("the fixed columns of a table are wider than the page")
    widths, given = [], 0
    for column in columns:
        given += 0 if column.width_um else column.share
        past = given - column.share
        widths.append(column.width_um or left * given // shares - left * past // shares)
    return _spread(columns, widths)


def has_width(columns: tuple[Column, ...], width: int) -> bool:
    """Whether so little is wide enough: beside the fixed columns each of the others keeps what words need."""
    left = width - sum(column.width_um for column in columns)
    shares = sum(column.share for column in columns if not column.width_um)
    return all(left * column.share >= shares * LEAST_UM for column in columns if not column.width_um) and left >= 0


def _spread(columns: tuple[Column, ...], widths: list[int]) -> tuple[int, ...]:
    """The widths with what is over a column's most given to the columns that grow; nothing is over without one."""
    grows = sum(column.grow for column in columns)
    over = 0
    for index, column in enumerate(columns):
        if grows and column.most_um and widths[index] > column.most_um:
            over += widths[index] - column.most_um
            widths[index] = column.most_um
    given = 0
    for index, column in enumerate(columns):
        widths[index] += over * (given + column.grow) // max(1, grows) - over * given // max(1, grows)
        given += column.grow
    return tuple(widths)


def make_room(widths: tuple[int, ...], rows: Iterable[MeasuredRow], metrics: Metrics) -> tuple[int, ...]:
    """The widths with room for every number at its floor; as they are where none lacks it or words cannot give it."""
    lacks, spare = [0] * len(widths), [max(0, width - max(LEAST_UM, width // 2)) for width in widths]
    for column, cell in _cells(rows):
        for text, fitted in cell.cuts:
            if fitted.outcome == "too wide":
                lacks[column] = max(lacks[column], metrics.width_um(text, fitted.face, fitted.cap_um) - cell.width)
        if any(isinstance(item, Tick) or not item.style.breaks for item in cell.cell.items):
            spare[column] = 0
    if not any(lacks) or sum(lacks) > sum(spare):
        return widths
    given, taken = 0, list(widths)
    for column, own in enumerate(spare):
        taken[column] += lacks[column] - (sum(lacks) * (given + own) // sum(spare) - sum(lacks) * given // sum(spare))
        given += own
    return tuple(taken)


def _cells(rows: Iterable[MeasuredRow]) -> Iterator[tuple[int, MeasuredCell]]:
    for row in rows:
        for band in row.bands:
            yield from zip(band.columns, band.cells, strict=True)
