"""Tables of our own shape: sheets named like sections, and a list of channels headed by our own fields."""

from paperwork.files.grid import Book
from paperwork.files.xlsx.heads import find_heads, fold
from paperwork.files.xlsx.show import LISTS
from paperwork.model.fields import SECTIONS, SINGLES

_KEYS = {"id", "by", "mhz", "backs", "doubles", "notes for"}
"""Words of ours with which nobody else heads a list: theirs are channel, name and frequency."""


def list_table_sections() -> frozenset[str]:
    """The sections that are tables of records by id."""
    return frozenset(SECTIONS) - {*SINGLES}


def has_own_sheets(book: Book) -> bool:
    """Whether a visible sheet is named like a section and has the heading `id` in its first cell, or most sheets are named like
    sections and have their headings somewhere; so is a book without sheets."""
    tables = list_table_sections()
    filled = [grid for grid in book.grids if not grid.is_hidden and grid.cells]
    named = [grid for grid in filled if fold(grid.title) in tables]
    firsts = (grid.cells.get((1, 1)) for grid in named)
    if not book.grids or any(cell and fold(cell.text) == "id" for cell in firsts):
        return True
    headed = [grid for grid in named if find_heads(grid.cells.values(), fold(grid.title))]
    singles = [grid for grid in filled if fold(grid.title) in (*SINGLES, LISTS)]
    return bool(headed) and (len(headed) + len(singles)) * 2 > len(filled)


def is_listing(book: Book) -> bool:
    """Whether the only table of a book is a channel list as we write it: `id` first, and every heading a field of channels; or
    half of its headings spelled as we do, two of them words that nobody else heads a list with.

    A list of our own that was spoilt since is still ours, and judged as such: a stranger's reading would guess at our words.
    """
    filled = [grid for grid in book.grids if not grid.is_hidden and grid.cells]
    heads = find_heads(filled[0].cells.values(), "channels") if len(filled) == 1 else None
    if heads is None:
        return False
    texts = {column: cell.text for (row, column), cell in filled[0].cells.items() if row == heads.row}
    ours = [text for text in texts.values() if text in ("id", *SECTIONS["channels"].fields)]
    is_whole = heads.row == 1 and texts.get(1) == "id" and len(ours) == len(texts)
    return is_whole or (len(ours) > 2 and len(ours) * 2 >= len(texts) and len(_KEYS & set(ours)) > 1)
