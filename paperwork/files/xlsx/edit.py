"""Values put into the XML of a workbook's sheet. Saving through a library would erase what formulas last gave."""

import io
import re
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat
from xml.sax.saxutils import escape

from paperwork.files.edit import Add, Put, number_text, refuse_edit
from paperwork.files.xlsx.show import fold
from paperwork.files.zip_check import check_zip
from paperwork.place import format_column
from paperwork.raw import Map

_REFERENCE = re.compile(r"([A-Z]+)([0-9]+)")


@dataclass(slots=True)
class _Cell:
    """A cell of the XML: where it begins and ends, its style, whether it holds a formula."""

    start: int
    end: int = 0
    style: str = ""
    formula: bool = False


@dataclass(slots=True)
class _Row:
    """A row of the XML. `inner` is where its last cell ends, before the closing tag; equal to `end` if it is empty."""

    start: int
    inner: int = 0
    end: int = 0
    cells: dict[int, _Cell] = field(default_factory=dict)


def edit_xlsx(data: bytes, name: str, raw: Map, puts: Sequence[Put], adds: Sequence[Add]) -> bytes:
    """The workbook with the edits: only the sheets that they are on differ, and in them only the cells. `raw` is what the
    workbook says now."""
    import openpyxl

    check_zip(data, name)
    book = openpyxl.load_workbook(io.BytesIO(data), read_only=False, data_only=True, keep_links=False)
    parts: dict[str, bytes] = {}
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        for section in dict.fromkeys((*(put.section for put in puts), *(add.section for add in adds))):
            sheet = next(
                (one for one in book.worksheets if fold(one.title) == section and one.sheet_state == "visible"), None
            )
            if sheet is None:
                raise refuse_edit(name, f"it has no sheet {section}")
            path = _find_part(archive, name, sheet.title)
            values = _list_values(
                sheet,
                raw,
                [put for put in puts if put.section == section],
                [add for add in adds if add.section == section],
            )
            parts[path] = _edit_sheet(archive.read(path), name, values)
        return _pack(archive, parts)


def _pack(archive: zipfile.ZipFile, parts: dict[str, bytes]) -> bytes:
    """The archive again, part by part in its order and with its dates, some with other contents."""
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as out:
        for info in archive.infolist():
            fresh = zipfile.ZipInfo(info.filename, info.date_time)
            fresh.compress_type, fresh.external_attr, fresh.create_system = (
                zipfile.ZIP_DEFLATED,
                info.external_attr,
                info.create_system,
            )
            out.writestr(fresh, parts.get(info.filename) or archive.read(info))
    return target.getvalue()


def _find_part(archive: zipfile.ZipFile, name: str, title: str) -> str:
    """The path of a sheet inside the workbook, through its relations (ECMA-376 part 1, 18.2.19 and part 2, 9.3)."""
    from defusedxml.ElementTree import fromstring

    relation = ""
    for element in fromstring(archive.read("xl/workbook.xml")).iter():
        if element.tag.endswith("}sheet") and element.get("name") == title:
            relation = next((value for key, value in element.attrib.items() if key.endswith("}id")), "")
    for element in fromstring(archive.read("xl/_rels/workbook.xml.rels")).iter():
        if element.get("Id") == relation and relation:
            target = element.get("Target", "")
            return target.lstrip("/") if target.startswith("/") else f"xl/{target}"
    raise refuse_edit(name, f"its sheet {title} was not found")


def _list_values(sheet: Any, raw: Map, puts: Sequence[Put], adds: Sequence[Add]) -> dict[tuple[int, int], str]:
    """The new text of each cell, by row and column; headings that are missing among them."""
    headings = {fold(str(cell.value)): cell.column for cell in sheet[1] if cell.value is not None}
    records = raw.get(fold(sheet.title))
    rows = {key.text: key.place.line for key, _ in records.items} if isinstance(records, Map) else {}
    values: dict[tuple[int, int], str] = {}
    last = max(rows.values(), default=1)
    wanted = [(put.record, put.field, put.value) for put in puts]
    for add in adds:
        last += 1
        rows[add.record] = last
        values[last, 1] = add.record
        wanted += ((add.record, field, value) for field, value in add.fields)
    for record, heading, value in wanted:
        if heading not in headings:
            headings[heading] = max(headings.values(), default=1) + 1
            values[1, headings[heading]] = heading
        values[rows[record], headings[heading]] = number_text(value) if heading == "mhz" else value
    return values


def _edit_sheet(xml: bytes, name: str, values: dict[tuple[int, int], str]) -> bytes:
    scan = _Scan(xml, name)
    splices: list[tuple[int, int, int, bytes]] = []
    fresh: dict[int, list[tuple[int, bytes]]] = {}
    for (number, column), value in sorted(values.items()):
        row = scan.rows.get(number)
        cell = row.cells.get(column) if row else None
        new = _write_cell(scan.prefix, number, column, value, cell.style if cell else "")
        if cell is not None:
            if cell.formula:
                raise refuse_edit(name, f"{format_column(column)}{number} holds a formula")
            splices.append((cell.start, cell.end, column, new))
        elif row is None or row.inner == row.end:
            fresh.setdefault(number, []).append((column, new))
        else:
            later = [one.start for at, one in row.cells.items() if at > column]
            at = min(later, default=row.inner)
            splices.append((at, at, column, new))
    for number, cells in fresh.items():
        row = scan.rows.get(number)
        tag = b"%srow" % scan.prefix
        whole = b'<%s r="%d">%s</%s>' % (tag, number, b"".join(cell for _, cell in cells), tag)
        start = row.start if row else min((one.start for at, one in scan.rows.items() if at > number), default=scan.end)
        splices.append((start, row.end if row else start, number, whole))
    for start, end, _, new in sorted(splices, reverse=True):
        xml = xml[:start] + new + xml[end:]
    return xml


def _write_cell(prefix: bytes, row: int, column: int, value: str, style: str) -> bytes:
    """A number as a number, anything else, `09` too, as text within the cell (ECMA-376 part 1, 18.3.1.4 and 18.3.1.53)."""
    styled = f' s="{style}"' if style else ""
    head = f'r="{format_column(column)}{row}"{styled}'.encode()
    if re.fullmatch(r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?", value) and column > 1:
        return b"<%sc %s><%sv>%s</%sv></%sc>" % (prefix, head, prefix, value.encode(), prefix, prefix)
    text = escape(value).encode()
    return b'<%sc %s t="inlineStr"><%sis><%st>%s</%st></%sis></%sc>' % (
        prefix,
        head,
        prefix,
        prefix,
        text,
        prefix,
        prefix,
        prefix,
    )


class _Scan:
    """Where rows and cells stand in the bytes of a sheet. Rows and cells without an address count on."""

    def __init__(self, xml: bytes, name: str) -> None:
        if xml.startswith((b"\xff\xfe", b"\xfe\xff")) or re.match(
            rb"<\?xml[^>]*encoding=[\"'](?!utf-8)", xml, re.IGNORECASE
        ):
            raise refuse_edit(name, "a sheet in it is not written in UTF-8")
        self.rows: dict[int, _Row] = {}
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
        except expat.ExpatError:
            raise refuse_edit(name, "a sheet in it makes no sense") from None

    def _open(self, tag: str, attributes: dict[str, str]) -> None:
        prefix, _, local = tag.rpartition(":")
        at = self._parser.CurrentByteIndex
        if local == "sheetData":
            self.prefix = f"{prefix}:".encode() if prefix else b""
        elif local == "row":
            self._row = int(attributes.get("r", self._row + 1))
            self._column = 0
            self.rows[self._row] = _Row(at)
        elif local == "c" and self._row:
            match = _REFERENCE.fullmatch(attributes.get("r", ""))
            self._column = _column_number(match[1]) if match else self._column + 1
            self.rows[self._row].cells[self._column] = _Cell(at, style=attributes.get("s", ""))
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


def _column_number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
