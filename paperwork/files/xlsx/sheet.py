"""A foreign workbook to grids: every cell with its text, its marks and its place, nothing interpreted."""

import datetime
import re
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from typing import Any

from paperwork import limits
from paperwork.files.decode import clean_text
from paperwork.files.grid import Area, Book, CellKind, Grid, GridCell, Struck
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.numbers import apply_format, format_date, format_number, is_date_only
from paperwork.files.xlsx.parts import Parts, SheetPart, Stored, Style, local, read_cells
from paperwork.files.zip_check import check_zip
from paperwork.finding import Finding, find
from paperwork.place import Place, format_column

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_PLAIN = Style("General", False, "")
_WHITE = frozenset({"", "#FFFFFF"})


def open_parts(data: bytes, name: str) -> Parts:
    """The workbook's parts, after the checks against hostile files. Raises Refused if it is damaged."""
    check_zip(data, name)
    try:
        return Parts(data)
    except (KeyError, ValueError, SyntaxError, OSError, RuntimeError):
        raise _damaged(name) from None


def read_grids(parts: Parts, name: str) -> Book:
    """Every sheet as a grid, and findings for formulas without a result, errors and invisible characters."""
    found: list[Finding] = []
    grids = tuple(read_grid(parts, sheet, name, found) for sheet in parts.sheets)
    return Book(name, grids, tuple(found))


def read_grid(parts: Parts, sheet: SheetPart, name: str, found: list[Finding]) -> Grid:
    """One sheet as a grid. What is hidden is kept apart; findings are made only for what shows.

    Raises Refused if a part of it is damaged.
    """
    try:
        return _SheetReader(parts, sheet, name).read(found)
    except (KeyError, ValueError, SyntaxError, OSError, OverflowError, RuntimeError, IndexError, TypeError):
        raise _damaged(name) from None


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
        self._failed: list[tuple[GridCell, str]] = []
        self._controls: list[tuple[GridCell, str]] = []
        self._long: list[Place] = []
        self._hidden_rows: set[int] = set()
        self._hidden_columns: set[int] = set()
        self._row = 0
        self._filled = frozenset(str(n) for n, style in enumerate(parts.styles) if style.fill not in _WHITE)

    def read(self, found: list[Finding]) -> Grid:
        merges: list[Area] = []
        pictured = False
        for kind, element in self._parts.walk(self._sheet.path):
            if kind == "row":
                self._read_row(element)
            elif kind == "col":
                self._read_column(element)
            elif kind == "mergeCell":
                merges += _read_area(element.get("ref", ""))
            else:
                pictured = True
        hidden = tuple(c for c in self._cells.values() if self._is_hidden(c))
        shown = {key: cell for key, cell in sorted(self._cells.items()) if not self._is_hidden(cell)}
        if not self._sheet.is_hidden:
            found += self._report(shown)
        return Grid(
            title=self._sheet.title,
            cells=shown,
            merges=tuple(sorted(merges)),
            fills=self._fills,
            notes=self._read_notes(),
            hidden=tuple(sorted(hidden, key=lambda c: (c.row, c.column))),
            is_hidden=self._sheet.is_hidden,
            has_picture=pictured,
        )

    def _is_hidden(self, cell: GridCell) -> bool:
        return cell.row in self._hidden_rows or cell.column in self._hidden_columns

    def _read_row(self, row: Any) -> None:
        self._row = int(row.get("r") or self._row + 1)
        if row.get("hidden") in ("1", "true"):
            self._hidden_rows.add(self._row)
        column = 0
        for stored in read_cells(row, self._filled):
            match = _REFERENCE.fullmatch(stored.reference)
            column = _column_number(match[1]) if match else column + 1
            self._read_cell(stored, self._row, column)

    def _read_column(self, element: Any) -> None:
        if element.get("hidden") in ("1", "true"):
            last = min(int(element.get("max", 0)), limits.SHEET_COLUMNS)
            self._hidden_columns.update(range(int(element.get("min", 1)), last + 1))

    def _read_cell(self, stored: Stored, row: int, column: int) -> None:
        styles = self._parts.styles
        style = styles[stored.style] if stored.style < len(styles) else _PLAIN
        place = Place(self._name, row, column, self._sheet.title)
        if stored.value is None and stored.formula is None and not stored.runs:
            if style.fill not in _WHITE and row <= limits.SHEET_ROWS and column <= limits.SHEET_COLUMNS:
                self._fills[row, column] = style.fill
            return
        text, kept, kind, recovered = self._read_value(stored, style)
        text, removed = clean_text(text)
        kept = clean_text(kept)[0]
        formula = f"={stored.formula}" if stored.formula is not None else ""
        if not text and kind != "failed":
            return
        if len(text) > limits.TEXT_LENGTH:
            self._long.append(place)
            text, kept = text[: limits.TEXT_LENGTH], kept[: limits.TEXT_LENGTH]
        if row > limits.SHEET_ROWS or column > limits.SHEET_COLUMNS:
            what = f"there is a value far beyond the table, at {format_column(column)}{row}"
            raise Refused(find("sheet-large", place, what=what))
        struck: Struck = "whole" if text and (style.struck or not kept) else "part" if kept != text else ""
        fill = style.fill if style.fill not in _WHITE else ""
        serial = format_number(float(stored.value)) if kind == "date" and stored.type == "n" and stored.value else ""
        cell = GridCell(
            row, column, text, place, kind, recovered, struck, "" if style.struck else kept, fill, formula, serial
        )
        self._cells[row, column] = cell
        if kind == "failed":
            self._failed.append((cell, formula if stored.value is None else text))
        if removed:
            self._controls.append((cell, removed))

    def _read_value(self, stored: Stored, style: Style) -> tuple[str, str, CellKind, bool]:
        """The text that shows, the text without struck runs, its kind, and whether it was saved from being a date."""
        value = stored.value
        if stored.runs or stored.type == "s":
            runs = stored.runs or (self._parts.strings[int(value or 0)] if value else ())
            text = "".join(run.text for run in runs)
            kept = "".join(run.text for run in runs if not run.struck)
            return _unescape(text), _unescape(kept), "text", False
        if value is None:
            return "", "", "failed", False
        if stored.type == "e":
            return value, value, "failed", False
        if stored.type == "b":
            text = "TRUE" if value == "1" else "FALSE"
            return text, text, "text", False
        if stored.type in ("str", "inlineStr"):
            return _unescape(value), _unescape(value), "text", False
        if stored.type == "d":
            return value, value, "date", False
        if not value.strip():
            return ("", "", "failed", False) if stored.formula is not None else ("", "", "text", False)
        text, kind, recovered = _read_number(value, style.number_format, self._parts.counts_from_1904)
        return text, text, kind, recovered

    def _report(self, shown: dict[tuple[int, int], GridCell]) -> Iterator[Finding]:
        yield from (
            find("text-control", cell.place, characters=removed)
            for cell, removed in self._controls
            if (cell.row, cell.column) in shown
        )
        yield from (find("text-long", place, most=f"{limits.TEXT_LENGTH:,}") for place in self._long)
        seen = [(cell, words) for cell, words in self._failed if (cell.row, cell.column) in shown]
        for cell, words in seen:
            if not cell.formula or cell.text:
                yield find("cell-error", cell.place, value=words)

    def _read_notes(self) -> dict[tuple[int, int], str]:
        """What is pinned to cells, by cell."""
        found: dict[tuple[int, int], str] = {}
        for _, kind, path in self._parts.related(self._sheet.path).values():
            if kind != "comments":
                continue
            for element in self._parts.parse(path).iter():
                match = _REFERENCE.fullmatch(element.get("ref", "")) if local(element) == "comment" else None
                if match:
                    text = "".join(part.text or "" for part in element.iter() if local(part) == "t")
                    found[int(match[2]), _column_number(match[1])] = clean_text(text)[0]
        return found


def _read_number(value: str, number_format: str, from_1904: bool) -> tuple[str, CellKind, bool]:
    try:
        number = float(Decimal(value))
    except (InvalidOperation, OverflowError):
        return value, "text", False
    if number - number != 0:
        return value, "failed", False
    text = format_number(number)
    looks_dated = bool(re.search(r"[dmhysDMHYS]", re.sub(r'"[^"]*"|\\.|\[[^\]]*\]', "", number_format)))
    if number_format not in ("General", "@") and looks_dated:
        if is_date_only(number_format):
            return _format_serial(number, from_1904) or text, "date", False
        return text, "number", True
    return apply_format(text, number_format), "number", False


def _format_serial(number: float, from_1904: bool) -> str:
    """A serial number as a date or a time; "" where it is none."""
    start = datetime.datetime(1904, 1, 1) if from_1904 else datetime.datetime(1899, 12, 30)
    if not from_1904 and number < 60:
        start += datetime.timedelta(days=1)  # the calendar that counts from 1900 has a 29 February too many
    if number < 1:
        return format_date(datetime.timedelta(seconds=round(number * 86400)))
    try:
        return format_date(start + datetime.timedelta(seconds=round(number * 86400)))
    except OverflowError:
        return ""


def _read_area(reference: str) -> list[Area]:
    first, _, last = reference.partition(":")
    corners = [_REFERENCE.fullmatch(part.replace("$", "")) for part in (first, last or first)]
    if not all(corners):
        return []
    (low, high) = corners
    return [(int(low[2]), _column_number(low[1]), int(high[2]), _column_number(high[1]))]  # type: ignore[index]


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


def _unescape(text: str) -> str:
    if "_x" not in text:
        return text
    return _ESCAPED.sub(lambda match: chr(int(match[1], 16)), text)
