"""Tables of our own shape: sheets named like sections, and a list of channels headed by our own fields."""

import re

from paperwork.files.grid import Book
from paperwork.files.xlsx.show import fold
from paperwork.model.fields import SECTIONS, SINGLES


def list_table_sections() -> frozenset[str]:
    """The sections that are tables of records by id."""
    return frozenset(SECTIONS) - {*SINGLES}


def has_own_sheets(book: Book) -> bool:
    """Whether a visible sheet is named like a section and has the heading `id` in its first cell; so is a book without sheets."""
    tables = list_table_sections()
    named = [grid for grid in book.grids if not grid.is_hidden and fold(grid.title) in tables]
    firsts = (grid.cells.get((1, 1)) for grid in named)
    return not book.grids or any(cell and re.fullmatch(r"(?i)\s*id\s*", cell.text) for cell in firsts)


def is_listing(book: Book) -> bool:
    """Whether the only table of a book is a channel list as we write it: `id` first, and every heading a field of channels.

    A list of our own that was spoilt since is still ours, and judged as such: a stranger's reading would guess at our words.
    """
    filled = [grid for grid in book.grids if not grid.is_hidden and grid.cells]
    if len(filled) != 1:
        return False
    headings = {column: cell.text for (row, column), cell in filled[0].cells.items() if row == 1}
    return headings.get(1) == "id" and set(headings.values()) <= {"id", *SECTIONS["channels"].fields}
