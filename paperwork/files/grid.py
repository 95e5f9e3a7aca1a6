"""A foreign table as it stands: cells with what their author sees, before anybody says what they mean."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from paperwork.finding import Finding
from paperwork.place import Place, format_column

CellKind: TypeAlias = Literal["text", "number", "date", "failed"]
Struck: TypeAlias = Literal["", "part", "whole"]


@dataclass(frozen=True, slots=True)
class GridCell:
    """One cell that holds something.

    `kept` is the text without what is struck through. A `failed` cell has no value to be had: its formula was never
    calculated, or shows an error. `recovered` tells of a number that its format would have shown as a date, `serial`
    is the number behind a date.
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

    @property
    def address(self) -> str:
        """The cell's address as spreadsheet programs show it, `C7`."""
        return self.place.cell or f"{format_column(self.column)}{self.row}"


Area: TypeAlias = tuple[int, int, int, int]
"""First row, first column, last row, last column: all included."""


@dataclass(frozen=True, slots=True)
class Grid:
    """One sheet. `cells` holds what shows; `hidden` what is in hidden rows and columns, which is left out.

    `fills` are the colours of blank cells, `notes` the remarks pinned to cells.
    """

    title: str
    cells: Mapping[tuple[int, int], GridCell]
    merges: tuple[Area, ...] = ()
    fills: Mapping[tuple[int, int], str] = field(default_factory=dict)
    notes: Mapping[tuple[int, int], str] = field(default_factory=dict)
    hidden: tuple[GridCell, ...] = ()
    is_hidden: bool = False
    has_picture: bool = False


@dataclass(frozen=True, slots=True)
class Book:
    """All sheets of one file, hidden ones too, and what was found while reading. `told` is for the reader's eyes."""

    name: str
    grids: tuple[Grid, ...]
    findings: tuple[Finding, ...] = ()
    told: tuple[str, ...] = ()
