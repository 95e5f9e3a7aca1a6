"""Cells put into the XML of a sheet. Saving through a library would erase what formulas last gave."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple
from xml.parsers import expat
from xml.sax.saxutils import escape

from paperwork.files.grid import read_column
from paperwork.files.refusal import refuse_edit
from paperwork.files.xlsx.numbers import read_number
from paperwork.files.xlsx.parts import CellStyle
from paperwork.files.xlsx.write import escape_text
from paperwork.place import Place, format_column

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_BARE = re.compile(rb"<((?:[^\s<>/:]+:)?sheetData)(\s[^<>]*)?/>")
_TYPE = re.compile(rb"""\s+t\s*=\s*(?:"[^"]*"|'[^']*')""")


class NewValue(NamedTuple):
    """What a cell shall hold: a text, or nothing where it is "". `number` is how it may be stored as a number.

    `shared` is the index of the text among those that the sheets share.
    """

    text: str
    number: str = ""
    shared: int | None = None


@dataclass(slots=True)
class _CellSpan:
    """A cell of the XML: where it begins, its first tag ends and it ends, its style, whether it holds a formula."""

    start: int
    opened: int
    style: int
    end: int = 0
    formula: bool = False


@dataclass(slots=True)
class _RowSpan:
    """A row of the XML. `inner` is where its last cell ends, before the closing tag; equal to `end` if it is empty."""

    start: int
    inner: int = 0
    end: int = 0
    cells: dict[int, _CellSpan] = field(default_factory=dict)


def splice_cells(
    xml: bytes, place: Place, values: Mapping[tuple[int, int], NewValue], styles: Sequence[CellStyle]
) -> bytes:
    """The sheet with new values by row and column: no byte changes outside of their cells. `place` names the sheet.

    Raises Refused, located, at a cell that holds a formula.
    """
    xml = _BARE.sub(lambda bare: b"<%s%s></%s>" % (bare[1], bare[2] or b"", bare[1]), xml, count=1)
    scan = SheetScan(xml, place)
    number_type = b' t="n"' if b't="n"' in xml else b""
    splices: list[tuple[int, int, int, bytes]] = []
    fresh: dict[int, list[bytes]] = {}
    for (number, column), value in sorted(values.items()):
        row = scan.rows.get(number)
        cell = row.cells.get(column) if row else None
        if cell is not None:
            if cell.formula:
                address = f"{format_column(column)}{number}"
                where = place._replace(line=number, column=column)
                raise refuse_edit(place.file, f"{address} holds a formula", where)
            head = xml[cell.start : cell.opened].rstrip(b"/> \t\r\n")
            is_blank = cell.opened == cell.end
            if value.number and not _shows_number(value.number, cell.style, styles, is_blank=is_blank):
                value = value._replace(number="")
            splices.append((cell.start, cell.end, column, _write_cell(scan.prefix, head, value, number_type)))
            continue
        head = b'<%sc r="%s"' % (scan.prefix, f"{format_column(column)}{number}".encode())
        new = _write_cell(scan.prefix, head, value, number_type)
        if not value.text:
            continue
        if row is None or row.inner == row.end:
            fresh.setdefault(number, []).append(new)
        else:
            at = min((one.start for other, one in row.cells.items() if other > column), default=row.inner)
            splices.append((at, at, column, new))
    for number, cells in fresh.items():
        splices.append(scan.place_row(number, b"".join(cells)))
    for start, end, _, new in sorted(splices, reverse=True):
        xml = xml[:start] + new + xml[end:]
    return xml


def _shows_number(number: str, style: int, styles: Sequence[CellStyle], *, is_blank: bool) -> bool:
    """Whether the format of a cell shows the number as it is: not as a date, and not in a blank cell for text."""
    pattern = styles[style].number_format if style < len(styles) else "General"
    return not (is_blank and pattern == "@") and read_number(number, pattern, False)[0] == number


def _write_cell(prefix: bytes, head: bytes, value: NewValue, number_type: bytes) -> bytes:
    """A number as a number, a text by its index or within the cell (ECMA-376 part 1, 18.3.1.4, 18.3.1.53, 18.4.8)."""
    if not value.text:
        return _TYPE.sub(b"", head) + b"/>"
    kind = number_type if value.number else b' t="inlineStr"' if value.shared is None else b' t="s"'
    head = _TYPE.sub(lambda _: kind, head, count=1) if _TYPE.search(head) else head + kind
    close = b"</%sc>" % prefix
    if value.number or value.shared is not None:
        held = value.number or str(value.shared)
        return b"%s><%sv>%s</%sv>%s" % (head, prefix, held.encode(), prefix, close)
    kept = b' xml:space="preserve"' if "\n" in value.text or "  " in value.text else b""
    text = escape(escape_text(value.text)).encode()
    return b"%s><%sis><%st%s>%s</%st></%sis>%s" % (head, prefix, prefix, kept, text, prefix, prefix, close)


class SheetScan:
    """Where rows and cells are in the bytes of a sheet. Rows and cells without an address count on."""

    def __init__(self, xml: bytes, place: Place) -> None:
        if re.match(rb"<\?xml[^>]*encoding=[\"'](?!utf-8)", xml, re.IGNORECASE):
            raise refuse_edit(place.file, "a sheet in it is not written in UTF-8", place)
        self.rows: dict[int, _RowSpan] = {}
        self.prefix = b""
        self.end = 0
        self._xml = xml
        self._row = 0
        self._column = 0
        self._parser = expat.ParserCreate()
        self._parser.StartElementHandler = self._open
        self._parser.EndElementHandler = self._close
        try:
            self._parser.Parse(xml, True)
        except (expat.ExpatError, ValueError, KeyError):
            raise refuse_edit(place.file, "a sheet in it makes no sense", place) from None

    def place_row(self, number: int, cells: bytes) -> tuple[int, int, int, bytes]:
        """The splice that puts cells into a row that has none, or into a new row in its place."""
        row = self.rows.get(number)
        tag = b"%srow" % self.prefix
        if row is not None:
            head = self._xml[row.start : self._xml.index(b">", row.start)].rstrip(b"/ \t\r\n")
            return row.start, row.end, number, b"%s>%s</%s>" % (head, cells, tag)
        at = min((one.start for other, one in self.rows.items() if other > number), default=self.end)
        new = b'<%s r="%d">%s</%s>' % (tag, number, cells, tag)
        return at, at, number, new

    def _open(self, tag: str, attributes: dict[str, str]) -> None:
        prefix, _, local = tag.rpartition(":")
        at = self._parser.CurrentByteIndex
        if local == "sheetData":
            self.prefix = f"{prefix}:".encode() if prefix else b""
        elif local == "row":
            self._row = int(attributes.get("r", self._row + 1))
            self._column = 0
            self.rows[self._row] = _RowSpan(at)
        elif local == "c" and self._row:
            match = _REFERENCE.fullmatch(attributes.get("r", ""))
            self._column = read_column(match[1]) if match else self._column + 1
            cell = _CellSpan(at, self._xml.index(b">", at) + 1, int(attributes.get("s", 0)))
            self.rows[self._row].cells[self._column] = cell
        elif local == "f" and self._row:
            self.rows[self._row].cells[self._column].formula = True

    def _close(self, tag: str) -> None:
        local = tag.rpartition(":")[2]
        at = self._parser.CurrentByteIndex
        if local == "c" and self._row:
            cell = self.rows[self._row].cells[self._column]
            cell.end = self._end_of(cell.start, at)
        elif local == "row":
            row = self.rows[self._row]
            row.end = self._end_of(row.start, at)
            row.inner = at if row.cells else row.end
        elif local == "sheetData":
            self.end = at

    def _end_of(self, start: int, close: int) -> int:
        """Behind an element: behind its closing tag, or behind its only one (`<c r="A1"/>`)."""
        opened = self._xml.index(b">", start) + 1
        return opened if self._xml[opened - 2 : opened] == b"/>" else self._xml.index(b">", close) + 1
