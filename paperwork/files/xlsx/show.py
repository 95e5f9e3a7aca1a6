"""A workbook of our own shape to Raw: one sheet a section, every value located, nothing dropped in silence.

The contract. A sheet's name, folded, is its section. `show`, `day` and `spectrum` hold a field in column A and
its value in column B. On every other sheet one row holds the headings (`heads`), one of them `id`, and each row below
is one record. A blank cell is an absent field. What is hidden is left out, and that is said. The sheet `lists`
holds the choices of dropdowns and is not read.
"""

from collections.abc import Iterable, Mapping

from paperwork.files.grid import Area, Book, Grid, GridCell, find_in_cells, quote_line
from paperwork.files.xlsx.heads import Heads, find_heads, fold
from paperwork.files.xlsx.sheet import describe_far
from paperwork.finding import Finding, find
from paperwork.model.fields import SINGLES
from paperwork.place import Place, format_column
from paperwork.raw import Map, Node, Text

LISTS = "lists"
"""The sheet of our own workbooks that holds the choices of their dropdowns, and nothing of the show."""

_SHOWN = 12
"""Addresses that one finding lists; the rest are counted."""

_QUOTED = 4
"""Cells above the headings that a finding quotes."""

_Row = Mapping[int, GridCell]


def read_tables(book: Book, only: str = "") -> tuple[Map, tuple[Finding, ...]]:
    """The sections of a workbook, and what is wrong with it. `only` is the section of its one table, whatever the
    sheet is called; separated values have no name for it."""
    reader = _TableReader(book.name)
    sections: list[tuple[Text, Node]] = []
    first: dict[str, str] = {}
    reader.report_hidden_sheets(book)
    for grid in book.grids:
        section = only or fold(grid.title)
        if grid.is_hidden or section == LISTS:
            continue
        records = reader.read_sheet(grid, section)
        place = Place(book.name, 1, 1, grid.title)
        if not records.items and place not in reader.headless and not (only and grid.cells):
            continue
        if section in first:
            reader.findings.append(find("sheet-doubled", place, section=section, first=first[section]))
            continue
        first[section] = grid.title
        sections.append((Text(section, place), records))
    reader.report_notes()
    if not sections and all(finding.severity == "warning" for finding in reader.findings):
        pictured = ", only a picture" if any(grid.has_picture for grid in book.grids) else ""
        reader.findings.append(find("workbook-blank", Place(book.name), name=book.name, detail=pictured))
    return Map(tuple(sections), Place(book.name, 1, 1)), tuple(reader.findings)


def list_counted(grid: Grid) -> tuple[GridCell, ...]:
    """The cells that count, in reading order: row 1 and column A are not hidden by being hidden themselves."""
    if not grid.hidden:
        return tuple(grid.cells.values())
    whole = (*grid.cells.values(), *(cell for cell in grid.hidden if not _hides(grid, cell)))
    return tuple(sorted(whole, key=lambda cell: (cell.row, cell.column)))


def _hides(grid: Grid, cell: GridCell) -> bool:
    return (cell.row > 1 and cell.row in grid.hidden_rows) or (cell.column > 1 and cell.column in grid.hidden_columns)


class _TableReader:
    """One reading of one workbook: its findings so far."""

    def __init__(self, name: str) -> None:
        self.findings: list[Finding] = []
        self._name = name
        self._notes: list[str] = []
        self._failed: set[Place] = set()
        self.headless: set[Place] = set()
        """Where sheets begin whose headings were refused: their sections are there, and nothing of them is read."""

    def report_hidden_sheets(self, book: Book) -> None:
        filled = [grid.title for grid in book.grids if grid.is_hidden and (grid.cells or grid.hidden)]
        if filled:
            self.findings.append(find("sheets-hidden", Place(self._name), which=", ".join(filled)))

    def report_notes(self) -> None:
        if self._notes:
            self.findings.append(find("notes-unread", Place(self._name), which=_list_some(self._notes)))

    def read_sheet(self, grid: Grid, section: str) -> Map:
        """The records of a sheet, or the fields of a single one; empty if no cell of it holds anything."""
        start = Place(self._name, 1, 1, grid.title)
        if grid.far:
            self.findings.append(find("sheet-large", grid.far, what=describe_far(grid.far)))
        self._report_hidden(grid)
        self._note_notes(grid, section)
        counted = list_counted(grid)
        self.findings += find_in_cells(counted)
        self._failed |= {cell.place for cell in counted if cell.kind == "failed"}
        self._report_unstored([cell for cell in counted if cell.kind == "failed" and not cell.text])
        rows: dict[int, dict[int, GridCell]] = {}
        for cell in counted:
            if cell.kind != "failed":
                rows.setdefault(cell.row, {})[cell.column] = cell
        if not rows:
            return Map((), start)
        self._check_merged(grid.merges, rows, start)
        self._check_struck(rows)
        if section in SINGLES:
            return self._read_single(rows, start)
        return self._read_table(rows, start, find_heads(counted, section))

    def _report_hidden(self, grid: Grid) -> None:
        """Hidden rows and columns that hold values are named."""
        rows = sorted({cell.row for cell in grid.hidden if cell.row > 1 and cell.row in grid.hidden_rows})
        columns = {cell.column for cell in grid.hidden if cell.row > 1 and cell.column > 1}
        lost = sorted(columns & grid.hidden_columns)
        start = Place(self._name, 0, 0, grid.title)
        if rows:
            self.findings.append(find("rows-hidden", start, title=grid.title, which=_list_some(map(str, rows))))
        if lost:
            which = _list_some(map(format_column, lost))
            self.findings.append(find("columns-hidden", start, title=grid.title, which=which))

    def _note_notes(self, grid: Grid, section: str) -> None:
        """A note on a heading is help, as in our own workbooks."""
        for row, column in sorted(grid.notes):
            is_hidden = row in grid.hidden_rows or (column > 1 and column in grid.hidden_columns)
            if row > 1 and (column > 1 or section not in SINGLES) and not is_hidden:
                self._notes.append(f"{grid.title}!{format_column(column)}{row}")

    def _report_unstored(self, cells: list[GridCell]) -> None:
        """One finding for all formulas of a sheet without a result: the workbook was never calculated."""
        if cells:
            first, *rest = cells
            more = f" (nor have {_list_some(cell.address for cell in rest)})" if rest else ""
            formula = quote_line(first.formula) if len(first.formula) > 1 else "there"  # a copy of another cell's
            others = tuple(cell.place for cell in rest)
            self.findings.append(find("cell-formula", first.place, others=others, formula=formula, more=more))

    def _check_merged(self, merges: Iterable[Area], rows: Mapping[int, _Row], start: Place) -> None:
        for top, left, bottom, right in merges:
            if left in rows.get(top, {}):
                place = start._replace(line=top, column=left)
                area = f"{place.cell}:{place._replace(line=bottom, column=right).cell}"
                self.findings.append(find("cells-merged", place, range=area))

    def _check_struck(self, rows: Mapping[int, _Row]) -> None:
        """One finding for each row that holds struck-through text."""
        for row in rows.values():
            struck = [cell for cell in row.values() if cell.struck]
            if struck:
                addresses = _list_some(cell.address for cell in struck)
                self.findings.append(find("cell-struck", struck[0].place, cells=addresses))

    def _read_single(self, rows: dict[int, dict[int, GridCell]], start: Place) -> Map:
        """Field and value on each row; a first row `field`, `value` is a heading."""
        if {column: fold(cell.text) for column, cell in rows.get(1, {}).items()} == {1: "field", 2: "value"}:
            del rows[1]
        items: list[tuple[Text, Node]] = []
        seen: dict[str, Text] = {}
        for cells in rows.values():
            for column, cell in cells.items():
                if column > 2:
                    self.findings.append(find("cell-beyond", cell.place, value=quote_line(cell.text)))
            if 1 not in cells:
                if 2 in cells:
                    self.findings.append(find("cell-fieldless", cells[2].place))
                continue
            key = _fold_text(cells[1])
            if self._is_first(seen, key) and 2 in cells:
                items.append((key, _text(cells[2])))
        return Map(tuple(items), start)

    def _read_table(self, rows: dict[int, dict[int, GridCell]], start: Place, heads: Heads | None) -> Map:
        """A record on each row below the headings. What is above them is named; without them, nothing is read."""
        if heads is None:
            self.findings.append(find("heading-id", start, title=start.sheet))
            self.headless.add(start)
            return Map((), start)
        above = [cell for row in [row for row in rows if row < heads.row] for cell in rows.pop(row).values()]
        if above:
            words = ", ".join(quote_line(cell.text) for cell in above[:_QUOTED])
            others = tuple(cell.place for cell in above[1:])
            self.findings.append(find("title-unread", above[0].place, others=others, words=words))
        headings = self._read_headings(rows.pop(heads.row), heads)
        items: list[tuple[Text, Node]] = []
        seen: dict[str, Text] = {}
        self._drop_headless(rows, headings)
        for row, cells in rows.items():
            if heads.id not in cells:
                if cells and start._replace(line=row) not in self._failed:
                    self.findings.append(find("id-missing", next(iter(cells.values())).place))
                continue
            key = _text(cells[heads.id])
            if cells[heads.id].kind == "date":
                self._report_date(key)
            if self._is_first(seen, key):
                fields = ((headings[column], _text(cell)) for column, cell in cells.items() if column != heads.id)
                items.append((key, Map(tuple((heading, text) for heading, text in fields if heading), key.place)))
        return Map(tuple(items), start)

    def _drop_headless(self, rows: dict[int, dict[int, GridCell]], headings: Mapping[int, Text | None]) -> None:
        """Takes out the values of columns without a heading; one finding for each such column."""
        columns: dict[int, list[GridCell]] = {}
        for cells in rows.values():
            for column in [column for column in cells if headings.get(column) is None]:
                cell = cells.pop(column)
                if column not in headings:
                    columns.setdefault(column, []).append(cell)
        for first, *rest in columns.values():
            others = tuple(cell.place for cell in rest)
            self.findings.append(find("heading-missing", first.place, others=others, value=quote_line(first.text)))

    def _read_headings(self, cells: _Row, heads: Heads) -> dict[int, Text | None]:
        """The heading of each column, None for a doubled one."""
        headings = {column: Text(heads.names[column], cell.place) for column, cell in cells.items()}
        seen: dict[str, Text] = {}
        return {column: text if self._is_first(seen, text) else None for column, text in headings.items()}

    def _report_date(self, key: Text) -> None:
        parts = key.text[:10].split("-")
        day, month = (str(int(parts[2])), str(int(parts[1]))) if len(parts) == 3 else ("1", "2")
        self.findings.append(find("id-date", key.place, value=key.text, day=day, month=month))

    def _is_first(self, seen: dict[str, Text], key: Text) -> bool:
        """Whether the key is new; if not, a finding names the cell of the first."""
        if key.text in seen:
            first = seen[key.text].place
            self.findings.append(find("key-doubled", key.place, others=(first,), key=key.text, first=first.cell))
            return False
        seen[key.text] = key
        return True


def _text(cell: GridCell) -> Text:
    return Text(cell.text, cell.place, "number" if cell.kind == "number" else "text")


def _fold_text(cell: GridCell) -> Text:
    return Text(fold(cell.text), cell.place)


def _list_some(addresses: Iterable[str]) -> str:
    """The addresses, as `B3, B5 and 4 more`."""
    listed = list(addresses)
    more = len(listed) - _SHOWN
    return ", ".join(listed[:_SHOWN]) + (f" and {more} more" if more > 0 else "")
