"""What is around the tables of a book: what is hidden, remarks pinned to cells, and nothing at all."""

from collections.abc import Sequence

from paperwork.files.grid import Book, Grid, GridCell
from paperwork.intake.ledger import Ledger, count_more
from paperwork.intake.reading import quote
from paperwork.place import Place, format_column
from paperwork.text.vocabulary import fold_word


def report_hidden(book: Book, ledger: Ledger) -> None:
    """Leave out what is hidden and list it: one finding for sheets, one for rows, one for columns."""
    sheets = [grid.title for grid in book.grids if grid.is_hidden and (grid.cells or grid.hidden)]
    if sheets:
        ledger.report("sheets-hidden", Place(book.name), which=", ".join(sheets))
    for grid in book.grids:
        ledger.enter((*grid.hidden, *(grid.cells.values() if grid.is_hidden else ())), "hidden")
    shown = [grid for grid in book.grids if grid.hidden and not grid.is_hidden]
    rows = [(grid.title, list(map(str, _hidden_rows(grid)))) for grid in shown]
    columns = [(grid.title, list(map(format_column, _hidden_columns(grid)))) for grid in shown]
    _report_hidden("rows-hidden", rows, book, ledger)
    _report_hidden("columns-hidden", columns, book, ledger)


def report_far(book: Book, ledger: Ledger) -> None:
    """Name what is beyond the bounds of a sheet: it is not read, and the list is."""
    places = [grid.far for grid in book.grids if grid.far and not grid.is_hidden]
    if places:
        ledger.report(
            "cell-far",
            places[0],
            others=tuple(places[1:]),
            where=", ".join(f"{place.sheet}!{place.cell}" for place in places),
        )


def _report_hidden(code: str, parts: Sequence[tuple[str, list[str]]], book: Book, ledger: Ledger) -> None:
    found = [(title, ", ".join(names[:12]) + count_more(len(names), 12)) for title, names in parts if names]
    if found:
        title, which = found[0]
        more = "".join(f"; of {other}: {words}" for other, words in found[1:])
        ledger.report(code, Place(book.name, 0, 0, title), title=title, which=which + more)


def _hidden_rows(grid: Grid) -> list[int]:
    """The hidden rows that hold something."""
    return sorted({cell.row for cell in grid.hidden} - {row for row, _ in grid.cells})


def _hidden_columns(grid: Grid) -> list[int]:
    """The hidden columns that hold something outside hidden rows."""
    rows = _hidden_rows(grid)
    return sorted({cell.column for cell in grid.hidden if cell.row not in rows} - {column for _, column in grid.cells})


def report_notes(grids: Sequence[Grid], ledger: Ledger) -> None:
    """Say what is pinned to cells: one finding for all of it. What is pinned to data about people is left out with it."""
    notes = [
        (grid.title, key, text)
        for grid in grids
        for key, text in sorted(grid.notes.items())
        if text and not (key in grid.cells and grid.cells[key].place in ledger.private)
    ]
    if notes:
        title, (row, column), _ = notes[0]
        words = "; ".join(f"{sheet}!{format_column(c)}{r} {quote(text)}" for sheet, (r, c), text in notes[:6])
        ledger.report("notes-kept", Place(ledger.name, row, column, title), notes=words + count_more(len(notes), 6))


def report_blank(book: Book, ledger: Ledger, *, heads: Sequence[GridCell], has_channels: bool) -> None:
    """Say that a book has no value, or no table, where no question or error says so already. `heads` are the
    headings of a table without rows."""
    cells = [cell for grid in book.grids if not grid.is_hidden for cell in grid.cells.values()]
    is_explained = any(not q.default for q in ledger.questions) or any(f.row.stops for f in ledger.findings)
    if not cells:
        pictured = ", only a picture" if any(grid.has_picture for grid in book.grids) else ""
        ledger.report("workbook-blank", Place(book.name), name=book.name, detail=pictured)
    elif heads and not has_channels and not is_explained:
        ledger.report("table-unfilled", heads[0].place, what=sketch(heads))
    elif not has_channels and not is_explained:
        ledger.report("table-missing", cells[0].place, what=sketch(cells))


def sketch(cells: Sequence[GridCell]) -> str:
    """The first of some cells in quotes."""
    return quote(", ".join(cell.text for cell in cells[:6] if fold_word(cell.text)))
