"""A workbook to grids: every cell with its text, its marks and its place, nothing interpreted."""

import re
import zipfile
from xml.etree.ElementTree import Element

from paperwork import limits
from paperwork.files.grid import Area, Book, CellKind, Grid, GridCell, Struck, clip_text, find_in_cells, read_column
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.numbers import format_number, read_iso, read_number
from paperwork.files.xlsx.parts import CellStyle, Parts, SheetPart, Stored, read_cells
from paperwork.files.xlsx.xml import local
from paperwork.files.zip_check import check_zip
from paperwork.finding import find
from paperwork.place import Place

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_PLAIN = CellStyle("General", False, "")
_WHITE = frozenset({"", "#FFFFFF"})


def read_workbook(data: bytes, name: str) -> Book:
    """Every sheet as a grid, and findings for errors and invisible signs in what shows.

    Raises Refused if a part of the file is damaged, or it is not safe to open.
    """
    return read_sheets(open_parts(data, name), name)


def open_parts(data: bytes, name: str) -> Parts:
    """The workbook's parts, after the checks against hostile files. Raises Refused if it is damaged."""
    check_zip(data, name)
    try:
        return Parts(data)
    except (KeyError, ValueError, OSError, RuntimeError, StopIteration, zipfile.BadZipFile):
        raise _damaged(name) from None


def read_sheets(parts: Parts, name: str) -> Book:
    """The same of an open workbook."""
    try:
        grids = tuple(_SheetReader(parts, sheet, name).read() for sheet in parts.sheets)
    except (KeyError, ValueError, OSError, OverflowError, RuntimeError, IndexError, TypeError):
        raise _damaged(name) from None
    shown = (cell for grid in grids if not grid.is_hidden for cell in grid.cells.values())
    return Book(name, grids, tuple(find_in_cells(shown)))


def describe_far(far: Place) -> str:
    """What is wrong with a cell that is beyond the bounds."""
    return f"there is a value far beyond the table, at {far.cell}"


def _damaged(name: str) -> Refused:
    return Refused(find("file-damaged", Place(name), name=name, reason="a part of it makes no sense"))


class _SheetReader:
    """One reading of one sheet."""

    def __init__(self, parts: Parts, sheet: SheetPart, name: str) -> None:
        self._parts = parts
        self._sheet = sheet
        self._name = name
        self._cells: dict[tuple[int, int], GridCell] = {}
        self._fills: dict[tuple[int, int], str] = {}
        self._hidden_rows: set[int] = set()
        self._hidden_columns: set[int] = set()
        self._row = 0
        self._far: Place | None = None
        self._filled = frozenset(str(n) for n, style in enumerate(parts.styles) if style.fill not in _WHITE)

    def read(self) -> Grid:
        merges: list[Area] = []
        pictured = False
        for element in self._parts.walk(self._sheet.path):
            kind = local(element)
            if kind == "row":
                self._read_row(element)
            elif kind == "col":
                self._read_column(element)
            elif kind == "mergeCell":
                merges += _read_area(element.get("ref", ""))
            else:
                pictured = True
        cells = sorted(self._cells.items())
        return Grid(
            title=self._sheet.title,
            cells={key: cell for key, cell in cells if not self._is_hidden(cell)},
            merges=tuple(sorted(merges)),
            fills=self._fills,
            notes=self._read_notes(),
            hidden=tuple(cell for _, cell in cells if self._is_hidden(cell)),
            is_hidden=self._sheet.is_hidden,
            has_picture=pictured,
            hidden_rows=frozenset(self._hidden_rows),
            hidden_columns=frozenset(self._hidden_columns),
            far=self._far,
        )

    def _is_hidden(self, cell: GridCell) -> bool:
        return cell.row in self._hidden_rows or cell.column in self._hidden_columns

    def _read_row(self, row: Element) -> None:
        self._row = int(row.get("r") or self._row + 1)
        if row.get("hidden") in ("1", "true"):
            self._hidden_rows.add(self._row)
        column = 0
        for stored in read_cells(row, self._filled):
            match = _REFERENCE.fullmatch(stored.reference)
            column = read_column(match[1]) if match else column + 1
            self._read_cell(stored, self._row, column)

    def _read_column(self, element: Element) -> None:
        if element.get("hidden") in ("1", "true"):
            last = min(int(element.get("max", 0)), limits.SHEET_COLUMNS)
            self._hidden_columns.update(range(int(element.get("min", 1)), last + 1))

    def _read_cell(self, stored: Stored, row: int, column: int) -> None:
        styles = self._parts.styles
        style = styles[stored.style] if stored.style < len(styles) else _PLAIN
        fill = style.fill if style.fill not in _WHITE else ""
        is_far = row > limits.SHEET_ROWS or column > limits.SHEET_COLUMNS
        if stored.value is None and stored.formula is None and not stored.runs:
            if fill and not is_far:
                self._fills[row, column] = fill
            return
        text, kept, kind, recovered = self._read_value(stored, style)
        text, removed, is_cut = clip_text(text)
        kept = clip_text(kept)[0]
        if not text and kind != "failed":
            return
        place = Place(self._name, row, column, self._sheet.title)
        if is_far:
            self._far = self._far or place
            return
        struck: Struck = "whole" if text and (style.struck or not kept) else "part" if kept != text else ""
        serial = format_number(float(stored.value)) if kind == "date" and stored.type == "n" and stored.value else ""
        marks = (struck, "" if style.struck else kept, fill)
        formula = f"={stored.formula}" if stored.formula is not None else ""
        cell = GridCell(row, column, text, place, kind, recovered, *marks, formula, serial, removed, is_cut)
        self._cells[row, column] = cell

    def _read_value(self, stored: Stored, style: CellStyle) -> tuple[str, str, CellKind, bool]:
        """The text that shows, the text without struck runs, its kind, and whether it was saved from being a date."""
        value = stored.value
        if stored.runs or stored.type == "s":
            runs = stored.runs or (self._parts.strings[int(value or 0)] if value else ())
            text = "".join(run.text for run in runs)
            kept = "".join(run.text for run in runs if not run.struck)
            return _unescape(text), _unescape(kept), "text", False
        if stored.type in ("str", "inlineStr"):
            text = _unescape(value or "")
            return text, text, "text", False
        if value is None or (stored.formula is not None and not value.strip()):
            return "", "", "failed", False
        if stored.type == "e":
            return value, value, "failed", False
        if stored.type == "b":
            text = "TRUE" if value == "1" else "FALSE"
            return text, text, "text", False
        if stored.type == "d":
            return read_iso(value), read_iso(value), "date", False
        if not value.strip():
            return "", "", "text", False
        text, kind, recovered = read_number(value, style.number_format, self._parts.counts_from_1904)
        return text, text, kind, recovered

    def _read_notes(self) -> dict[tuple[int, int], str]:
        """What is pinned to cells, by cell."""
        found: dict[tuple[int, int], str] = {}
        for kind, path in self._parts.related(self._sheet.path).values():
            if kind != "comments":
                continue
            for element in self._parts.parse(path).iter():
                match = _REFERENCE.fullmatch(element.get("ref", "")) if local(element) == "comment" else None
                if match:
                    text = "".join(part.text or "" for part in element.iter() if local(part) == "t")
                    found[int(match[2]), read_column(match[1])] = clip_text(text)[0]
        return found


def _read_area(reference: str) -> list[Area]:
    first, _, last = reference.partition(":")
    low, high = (_REFERENCE.fullmatch(part.replace("$", "")) for part in (first, last or first))
    return [(int(low[2]), read_column(low[1]), int(high[2]), read_column(high[1]))] if low and high else []


def _unescape(text: str) -> str:
    if "_x" not in text:
        return text
    return _ESCAPED.sub(lambda match: chr(int(match[1], 16)), text)
