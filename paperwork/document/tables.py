"""Blocks of running pages: tables, panels and notes."""

from dataclasses import field

from paperwork.document.items import NOWHERE, Align, Cell
from paperwork.document.styles import HAND_STRONG, Style
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place


@frozen
class Column:
    """A column of a table. `width_um` is fixed; where it is 0 the column takes its `share` of what is left.

    On a wide page a column takes no more than `most_um`, and columns that `grow` share what is over.

    `point` aligns numbers on their decimal point. Widths never depend on what a show says, so that two revisions
    can be laid over each other; only where a number would have no room do columns of words give it some. A `spares`
    column keeps a band at its left for the hatching of a spare, used or not.
    """

    heading: str
    width_um: int = 0
    share: int = 1
    align: Align = "left"
    spares: bool = False
    most_um: int = 0
    grow: int = 0


@frozen
class TableRow:
    """One row, never split over pages. For each column the cells that divide its height: usually one.

    A pair on one connector is a row of `((slot 1, slot 2), (channel 1, channel 2), (pair,))`. `mark` is a short
    sign ("new", "chg") printed with a bar in the margin. `subjects` and `where` locate a finding about its text.
    """

    cells: tuple[tuple[Cell, ...], ...]
    mark: str = ""
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


def row(
    *cells: Cell | tuple[Cell, ...], mark: str = "", subjects: tuple[Subject, ...] = (), where: Place = NOWHERE
) -> TableRow:
    """A row; a lone cell fills the height of its column."""
    return TableRow(tuple((c,) if isinstance(c, Cell) else c for c in cells), mark, subjects, where)


@frozen
class RowGroup:
    """Rows under a black bar with a title and a note; no title, no bar. `facts` counts what only the bar says.

    `columns` puts two lines over each column into the bar, what it is and what is the same in all rows, and no note.
    """

    rows: tuple[TableRow, ...]
    title: str = ""
    note: str = ""
    new_page: bool = False
    facts: tuple[str, ...] = ()
    columns: tuple[tuple[str, str], ...] = ()


@frozen
class Table:
    """Columns and groups of rows. Heads are repeated on each page, and a bar that goes on says so.

    `row_um` is the least height of a row (of each part, where cells divide it): what makes rows alike. `least_um` is
    the width in which it can still be read: as many columns of its rows stand side by side as have that much (0: one).
    """

    columns: tuple[Column, ...]
    groups: tuple[RowGroup, ...]
    row_um: int = 0
    least_um: int = 0


@frozen
class Panel:
    """A framed box: a title and lines, numbered or not. `facts` counts what its words say of the show."""

    title: str
    lines: tuple[str, ...]
    numbered: bool = True
    facts: tuple[str, ...] = ()


@frozen
class Panels:
    """Panels side by side, as many across as given, all of a row of them equally tall.

    `tied` ones belong to the block before them: they stand at the foot of each page that it is on.
    """

    panels: tuple[Panel, ...]
    across: int = 2
    tied: bool = False


@frozen
class Note:
    """A paragraph across the page."""

    text: str
    style: Style = HAND_STRONG
    facts: tuple[str, ...] = ()
