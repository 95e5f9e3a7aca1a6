"""What is reported of tables as a whole: what each was read as, which are empty, and what of them is left out."""

from collections.abc import Iterable, Sequence

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import quote
from paperwork.intake.tables.around import sketch
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.tables.versions import SortedTable
from paperwork.place import format_column


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
