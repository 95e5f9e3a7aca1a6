"""A table as its file holds it: cells with what their author sees, before anybody says what they mean."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import field
from typing import Literal, TypeAlias

from paperwork import limits
from paperwork.files.decode import clean_text
from paperwork.finding import Finding, find
from paperwork.frozen import frozen
from paperwork.place import Place, format_column

CellKind: TypeAlias = Literal["text", "number", "date", "failed"]
Struck: TypeAlias = Literal["", "part", "whole"]


@frozen
class GridCell:
    """One cell that holds something.

    `kept` is the text without what is struck through. A `failed` cell has no value to be had: its formula was never
    calculated, or shows an error. `recovered`: a number that its format would have shown as a date; `serial` is the
    number behind a date. `removed` names the signs that were taken out, `is_cut` says that the text was too long.
    """

    row: int
    column: int
    text: str
    place: Place
    kind: CellKind = "text"
    recovered: bool = False
    struck: Struck = ""
    kept: str = ""
    fill: str = ""
    formula: str = ""
    serial: str = ""
    removed: str = ""
    is_cut: bool = False

    @property
    def address(self) -> str:
        """The cell's address as spreadsheet programs show it, `C7`."""
        return self.place.cell or f"{format_column(self.column)}{self.row}"


Area: TypeAlias = tuple[int, int, int, int]
"""First row, first column, last row, last column: all included."""


@frozen
class Grid:
    """One sheet. `cells` holds what shows; `hidden` what is in hidden rows and columns, which is left out.

    `fills` are the colours of blank cells, `notes` the remarks pinned to cells, `far` is a place beyond the bounds of
    a sheet that holds something. `is_turned` is on where its rows are the columns of the file; `head` is then the row
    that heads a plot, 0 for anything else.
    """

    title: str
    cells: Mapping[tuple[int, int], GridCell]
    merges: tuple[Area, ...] = ()
    fills: Mapping[tuple[int, int], str] = field(default_factory=dict)
    notes: Mapping[tuple[int, int], str] = field(default_factory=dict)
    hidden: tuple[GridCell, ...] = ()
    is_hidden: bool = False
    has_picture: bool = False
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    far: Place | None = None
    is_turned: bool = False
    head: int = 0


@frozen
class Book:
    """All sheets of one file, hidden ones too, and what is wrong with what shows. `remarks` are for the reader's eyes;
    `encodings` are those that a text without a stated one may be in, the one that was taken first."""

    name: str
    grids: tuple[Grid, ...]
    findings: tuple[Finding, ...] = ()
    remarks: tuple[str, ...] = ()
    encodings: tuple[str, ...] = ()


def clip_text(text: str) -> tuple[str, str, bool]:
    """A cell's text as it can be printed, the names of the signs that were taken out, and whether it was too long."""
    text, removed = clean_text(text)
    return text[: limits.TEXT_LENGTH], removed, len(text) > limits.TEXT_LENGTH


def find_in_cells(cells: Iterable[GridCell]) -> Iterator[Finding]:
    """What is wrong with the values of cells themselves: invisible signs, too long a text, an error for a value."""
    for cell in cells:
        if cell.removed:
            yield find("text-control", cell.place, characters=cell.removed)
        if cell.is_cut:
            yield find("text-long", cell.place, most=f"{limits.TEXT_LENGTH:,}")
        if cell.kind == "failed" and cell.text:
            yield find("cell-error", cell.place, value=quote_line(cell.text))


def quote_line(text: str) -> str:
    """A value short enough to quote in a finding, on one line."""
    line = " ".join(text.split())
    return line if len(line) <= 40 else line[:39] + "…"


def read_column(letters: str) -> int:
    """The number of a column by its letters: `A` is 1, `AA` is 27."""
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
