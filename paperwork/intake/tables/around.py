"""What is reported of tables as a whole: what each was read as, which are empty, what is left out; and what is around them:
what is hidden, remarks pinned to cells, and nothing at all."""

from collections.abc import Iterable, Sequence

from paperwork.files.grid import Book, Grid, GridCell
from paperwork.intake.ledger import Ledger, count_more
from paperwork.intake.reading import quote
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.versions import SortedTable
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


def report_empty(tables: Iterable[SortedTable], ledger: Ledger) -> None:
    """Headings below a table with no row of their own: a form for later, or a row that was taken for headings."""
    for table in tables:
        if table.table.is_below and not table.rows:
            heads = _list_heads(table.table)
            ledger.report("table-empty", heads[0].place, what=sketch(heads))


def leave_table(table: SortedTable, ledger: Ledger) -> None:
    """A table of which nothing is read, as one of outputs, is one finding and not one for each column."""
    names = ", ".join(heading.text for heading in table.table.headings.values() if heading)
    cells = [cell for number, row in table.table.rows.items() for cell in row.values() if cell.row == number]
    ledger.leave(cells, f"a table of {quote(names)}: not of channels, people or scenes")


def leave_columns(table: SortedTable, ledger: Ledger) -> None:
    """Columns that nobody understood, one finding for each, and those that an answer leaves out."""
    for column, heading in table.table.headings.items():
        cells = table.table.list_own(column)
        name = table.columns.fields.get(column)
        if name == "ignore":
            ledger.enter(cells, "left")
        else:
            title = quote(heading.text) if heading else "no heading"
            ledger.leave(cells, f"column {format_column(column)}, {title}")


def describe_table(table: SortedTable) -> str:
    """One line on what a table was read as: `Mics!A1:C20: 19 rows; A is channel, B is performer, C is frequency`."""
    cells = [*table.table.heads, *(cell for row in table.rows for cell in row.cells.values())]
    ends = [(c.place.line, c.place.column) if c.place.sheet else (c.row, c.column) for c in cells]
    rows, columns = zip(*ends, strict=True)
    sheet = f"{table.grid.title}!" if table.grid.title else ""
    area = f"{sheet}{format_column(min(columns))}{min(rows)}:{format_column(max(columns))}{max(rows)}"
    known = [(column, name) for column, name in table.columns.fields.items() if name not in ("ignore", "open")]
    fields = [f"{_name_column(table.table, column)} is {name}" for column, name in known]
    if table.columns.scenes:
        fields.append(f"{len(table.columns.scenes)} scenes")
    under = f" under {sketch(_list_heads(table.table))}" if table.table.is_below else ""
    return f"{area}: {len(table.rows)} rows{under}; {', '.join(fields)}"


def _list_heads(table: SheetTable) -> Sequence[GridCell]:
    return sorted(table.heads, key=lambda cell: (cell.row, cell.column))


def _name_column(table: SheetTable, column: int) -> str:
    """The letter of a column; of a table that lay on its side, the number of the row that it was."""
    return f"row {column}" if table.grid.is_turned else format_column(column)
