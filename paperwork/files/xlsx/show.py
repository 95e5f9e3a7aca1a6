"""A workbook to Raw: one sheet a section, every value located, nothing dropped in silence.

The contract. A sheet's name, folded, is its section. `show`, `day` and `spectrum` hold a field in column A and
its value in column B. On every other sheet row 1 holds the headings, the first of them `id`, and each further
row is one record. A blank cell is an absent field. What is hidden is left out, and that is said. The sheet `lists`
holds the choices of dropdowns and is not read.
"""

import io
import warnings
from typing import Any, NamedTuple

from paperwork import limits
from paperwork.files.decode import clean_text
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.numbers import is_struck, read_value
from paperwork.files.yaml.read import SINGLE
from paperwork.files.zip_check import check_zip
from paperwork.finding import Finding, find
from paperwork.place import Place, format_column
from paperwork.raw import Kind, Map, Node, Text

LISTS = "lists"
"""The sheet of our own workbooks that holds the choices of their dropdowns, and nothing of the show."""

_SHOWN = 12
"""Addresses that one finding lists; the rest are counted."""


class _Cell(NamedTuple):
    """A cell that holds something: its text, and whether it was a date."""

    text: Text
    is_date: bool


_Grid = dict[tuple[int, int], _Cell]


def read_xlsx(data: bytes, name: str) -> tuple[Map, tuple[Finding, ...]]:
    """The sections of a workbook, and what is wrong with it. Raises Refused if it cannot be opened."""
    check_zip(data, name)
    book = _open(data, name, values_only=False)
    reader = _Reader(data, name, book)
    sections: list[tuple[Text, Node]] = []
    first: dict[str, str] = {}
    for sheet in reader.visible_sheets():
        section = fold(sheet.title)
        if section == LISTS:
            continue
        records = reader.read_sheet(sheet, section)
        place = Place(name, 1, 1, sheet.title)
        if not records.items and place not in reader.headless:
            continue
        if section in first:
            reader.findings.append(find("sheet-doubled", place, section=section, first=first[section]))
            continue
        first[section] = sheet.title
        sections.append((Text(section, place), records))
    reader.report_notes()
    if not sections and all(finding.severity == "warning" for finding in reader.findings):
        pictured = ", only a picture" if any(sheet._images for sheet in book.worksheets) else ""
        reader.findings.append(find("workbook-blank", Place(name), name=name, detail=pictured))
    return Map(tuple(sections), Place(name, 1, 1)), tuple(reader.findings)


def fold(title: str) -> str:
    """A sheet's name or a heading as a name of ours: lower case, blanks trimmed and single."""
    return " ".join(title.lower().split())


def _open(data: bytes, name: str, *, values_only: bool) -> Any:
    import openpyxl

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return openpyxl.load_workbook(
                io.BytesIO(data), data_only=values_only, keep_links=False, rich_text=not values_only
            )
    except Exception as error:  # noqa: BLE001  the library lets through whatever a strange part makes Python raise
        reason = "a filter in it cannot be read" if "filter" in str(error).lower() else "a part of it makes no sense"
        raise Refused(find("file-damaged", Place(name), name=name, reason=reason)) from None


class _Reader:
    """One reading of one workbook: the book, its findings so far, and its stored results once they are wanted."""

    def __init__(self, data: bytes, name: str, book: Any) -> None:
        self.findings: list[Finding] = []
        self._data = data
        self._name = name
        self._book = book
        self._results: Any = None
        self._notes: list[str] = []
        self._unstored: list[tuple[Place, str]] = []
        self._failed: set[Place] = set()
        self.headless: set[Place] = set()
        """Where sheets begin whose headings were refused: their sections are there, and nothing of them is read."""

    def visible_sheets(self) -> list[Any]:
        """The sheets that are not hidden; those that are and hold something are named in one warning."""
        hidden = [sheet for sheet in self._book.worksheets if sheet.sheet_state != "visible"]
        filled = [sheet.title for sheet in hidden if any(c.value is not None for c in _stored_cells(sheet))]
        if filled:
            self.findings.append(find("sheets-hidden", Place(self._name), which=", ".join(filled)))
        return [sheet for sheet in self._book.worksheets if sheet.sheet_state == "visible"]

    def report_notes(self) -> None:
        if self._notes:
            self.findings.append(find("notes-unread", Place(self._name), which=_list_some(self._notes)))

    def read_sheet(self, sheet: Any, section: str) -> Map:
        """The records of a sheet, or the fields of a single one; empty if no cell of it holds anything."""
        start = Place(self._name, 1, 1, sheet.title)
        stored = [cell for cell in _stored_cells(sheet) if cell.value is not None or cell.comment]
        kept = self._drop_hidden(sheet, self._drop_far(sheet, stored))
        told = (cell for cell in kept if cell.comment and cell.row > 1 and (cell.column > 1 or section not in SINGLE))
        self._notes.extend(
            f"{sheet.title}!{cell.coordinate}" for cell in told
        )  # on a heading it is help, as in our own
        grid = self._read_grid(kept)
        self._report_unstored()
        if not grid:
            return Map((), start)
        self._check_merged(sheet, grid)
        self._check_struck(sheet, kept)
        if section in SINGLE:
            return self._read_single(grid, start)
        return self._read_table(grid, start)

    def _drop_far(self, sheet: Any, cells: list[Any]) -> list[Any]:
        """The cells within the bounds of a sheet; one finding for those beyond."""
        near = [c for c in cells if c.row <= limits.SHEET_ROWS and c.column <= limits.SHEET_COLUMNS]
        if len(near) < len(cells):
            far = next(c for c in cells if c.row > limits.SHEET_ROWS or c.column > limits.SHEET_COLUMNS)
            what = f"there is a value far beyond the table, at {far.coordinate}"
            self.findings.append(find("sheet-large", self._place(far), what=what))
        return near

    def _drop_hidden(self, sheet: Any, cells: list[Any]) -> list[Any]:
        """The cells that show; hidden rows and columns that hold values are named. Row 1 and column A always count."""
        rows = {number for number, row in sheet.row_dimensions.items() if row.hidden and number > 1}
        columns: set[int] = set()
        for dimension in sheet.column_dimensions.values():
            if dimension.hidden:
                last = min(dimension.max or dimension.min or 0, limits.SHEET_COLUMNS)
                columns.update(range(max(dimension.min or 0, 2), last + 1))
        lost_rows = sorted({cell.row for cell in cells if cell.row in rows})
        lost_columns = sorted({cell.column for cell in cells if cell.column in columns and cell.row > 1})
        start = Place(self._name, 0, 0, sheet.title)
        if lost_rows:
            which = _list_some([str(row) for row in lost_rows])
            self.findings.append(find("rows-hidden", start, title=sheet.title, which=which))
        if lost_columns:
            which = _list_some([format_column(column) for column in lost_columns])
            self.findings.append(find("columns-hidden", start, title=sheet.title, which=which))
        return [cell for cell in cells if cell.row not in rows and cell.column not in columns]

    def _read_grid(self, cells: list[Any]) -> _Grid:
        grid: _Grid = {}
        for cell in cells:
            reading = self._read_cell(cell)
            if reading is not None:
                grid[cell.row, cell.column] = reading
        return grid

    def _read_cell(self, cell: Any) -> _Cell | None:
        """The cell's text; None if it is blank, or with a finding if its value cannot be had."""
        place = self._place(cell)
        value, data_type = cell.value, cell.data_type
        if data_type == "f":
            result = self._find_result(cell)
            if result.value is None and result.data_type != "str":  # `str` without a value is an empty text
                self._failed.add(place)
                self._unstored.append((place, _clip(getattr(value, "text", None) or str(value))))
                return None
            value, data_type = result.value, result.data_type
        if value is None:
            return None
        reading = None if data_type == "e" else read_value(value, cell.number_format, self._book.epoch)
        if reading is None:
            self._failed.add(place)
            self.findings.append(find("cell-error", place, value=_clip(str(value))))
            return None
        text, removed = clean_text(reading.text)
        if removed:
            self.findings.append(find("text-control", place, characters=removed))
        if len(text) > limits.TEXT_LENGTH:
            self.findings.append(find("text-long", place, most=f"{limits.TEXT_LENGTH:,}"))
            text = text[: limits.TEXT_LENGTH]
        kind: Kind = "number" if reading.kind == "number" else "text"
        return _Cell(Text(text, place, kind), reading.kind == "date") if text else None

    def _find_result(self, cell: Any) -> Any:
        """The same cell with its formula's stored result; the workbook is opened again for the first of them."""
        if self._results is None:
            self._results = _open(self._data, self._name, values_only=True)
        return self._results[cell.parent.title].cell(cell.row, cell.column)

    def _report_unstored(self) -> None:
        """One finding for all formulas of a sheet without a result: the workbook was never calculated."""
        if self._unstored:
            (place, formula), *rest = self._unstored
            more = f" (nor have {_list_some([other.cell for other, _ in rest])})" if rest else ""
            others = tuple(other for other, _ in rest)
            self.findings.append(find("cell-formula", place, others=others, formula=formula, more=more))
        self._unstored = []

    def _check_merged(self, sheet: Any, grid: _Grid) -> None:
        for area in sorted(sheet.merged_cells.ranges, key=lambda area: (area.min_row, area.min_col)):
            if (area.min_row, area.min_col) in grid:
                place = Place(self._name, area.min_row, area.min_col, sheet.title)
                self.findings.append(find("cells-merged", place, range=area.coord))

    def _check_struck(self, sheet: Any, cells: list[Any]) -> None:
        """One finding for each row that holds struck-through text."""
        rows: dict[int, list[Any]] = {}
        for cell in cells:
            if cell.value is not None and is_struck(cell):
                rows.setdefault(cell.row, []).append(cell)
        for struck in rows.values():
            addresses = _list_some([cell.coordinate for cell in struck])
            self.findings.append(find("cell-struck", self._place(struck[0]), cells=addresses))

    def _read_single(self, grid: _Grid, start: Place) -> Map:
        """Field and value on each row; a first row `field`, `value` is a heading."""
        rows = _group_rows(grid)
        first = {column: fold(cell.text.text) for column, cell in rows.get(1, {}).items()}
        if first == {1: "field", 2: "value"}:
            del rows[1]
        items: list[tuple[Text, Node]] = []
        seen: dict[str, Text] = {}
        for cells in rows.values():
            for column, cell in cells.items():
                if column > 2:
                    self.findings.append(find("cell-beyond", cell.text.place, value=_clip(cell.text.text)))
            if 1 not in cells:
                if 2 in cells:
                    self.findings.append(find("cell-fieldless", cells[2].text.place))
                continue
            key = self._fold_text(cells[1].text)
            if self._is_first(seen, key) and 2 in cells:
                items.append((key, cells[2].text))
        return Map(tuple(items), start)

    def _read_table(self, grid: _Grid, start: Place) -> Map:
        """Headings on row 1, a record on each further row."""
        rows = _group_rows(grid)
        headings = self._read_headings(rows.pop(1, {}), start)
        items: list[tuple[Text, Node]] = []
        seen: dict[str, Text] = {}
        if headings is None:
            return Map((), start)
        self._drop_headless(rows, headings)
        for row, cells in rows.items():
            if 1 not in cells:
                if cells and start._replace(line=row) not in self._failed:
                    self.findings.append(find("id-missing", next(iter(cells.values())).text.place))
                continue
            key = cells[1].text
            if cells[1].is_date:
                self._report_date(key)
            if self._is_first(seen, key):
                fields = ((headings[column], cell.text) for column, cell in cells.items() if column > 1)
                items.append((key, Map(tuple((heading, text) for heading, text in fields if heading), key.place)))
        return Map(tuple(items), start)

    def _drop_headless(self, rows: dict[int, dict[int, _Cell]], headings: dict[int, Text | None]) -> None:
        """Takes out the values of columns without a heading; one finding for each such column."""
        columns: dict[int, list[Text]] = {}
        for cells in rows.values():
            for column in [column for column in cells if headings.get(column) is None]:
                text = cells.pop(column).text
                if column not in headings:
                    columns.setdefault(column, []).append(text)
        for texts in columns.values():
            others = tuple(text.place for text in texts[1:])
            self.findings.append(find("heading-missing", texts[0].place, others=others, value=_clip(texts[0].text)))

    def _read_headings(self, cells: dict[int, _Cell], start: Place) -> dict[int, Text | None] | None:
        """The heading of each column, None for a doubled one; None with a finding if the first is not `id`."""
        headings = {column: self._fold_text(cell.text) for column, cell in cells.items()}
        if 1 not in headings or headings[1].text != "id":
            self.findings.append(find("heading-id", start, title=start.sheet))
            self.headless.add(start)
            return None
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

    def _fold_text(self, text: Text) -> Text:
        return Text(fold(text.text), text.place)

    def _place(self, cell: Any) -> Place:
        return Place(self._name, cell.row, cell.column, cell.parent.title)


def _stored_cells(sheet: Any) -> list[Any]:
    """The cells that the file holds, in reading order. Walking the used range instead would make millions."""
    return [sheet._cells[key] for key in sorted(sheet._cells)]


def _group_rows(grid: _Grid) -> dict[int, dict[int, _Cell]]:
    rows: dict[int, dict[int, _Cell]] = {}
    for (row, column), cell in grid.items():
        rows.setdefault(row, {})[column] = cell
    return rows


def _list_some(addresses: list[str]) -> str:
    """The addresses, as `B3, B5 and 4 more`."""
    more = len(addresses) - _SHOWN
    return ", ".join(addresses[:_SHOWN]) + (f" and {more} more" if more > 0 else "")


def _clip(text: str) -> str:
    """A value short enough to quote in a finding, on one line."""
    line = " ".join(text.split())
    return line if len(line) <= 40 else line[:39] + "…"
