"""Our own channel list as separated values: headings that are field names, `id` the first."""

from paperwork.files.grid import Book
from paperwork.intake.cells.rows import group_rows
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.place import Place
from paperwork.raw import Map, Node, Text


def list_table_sections() -> frozenset[str]:
    """The sections that are tables of records by id."""
    return frozenset(SECTIONS) - {*SINGLES}


def read_listing(book: Book) -> Map | None:
    """The section `channels` of a list that our own writer made; None for any other table.

    A list with a doubled id or a value without an id is not taken: it is read as a foreign sheet, which asks.
    """
    rows = group_rows(book.grids[0])
    first = rows.pop(1, {})
    headings = {column: cell.text for column, cell in first.items()}
    if (
        headings.get(1) != "id"
        or len(headings) < 2
        or not set(headings.values()) <= {"id", *SECTIONS["channels"].fields}
    ):
        return None
    if any(set(row) - set(headings) or 1 not in row for row in rows.values()):
        return None
    names = {column: Text(cell.text, cell.place) for column, cell in first.items()}
    records: list[tuple[Text, Node]] = []
    for row in rows.values():
        fields = tuple((names[c], Text(cell.text, cell.place)) for c, cell in row.items() if c > 1)
        records.append((Text(row[1].text, row[1].place), Map(fields, row[1].place)))
    if len({key.text for key, _ in records}) < len(records):
        return None
    start = Place(book.name, 1, 1)
    return Map(((Text("channels", start), Map(tuple(records), start)),), start)
