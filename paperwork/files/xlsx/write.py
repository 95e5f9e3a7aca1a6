"""Raw to a tidy workbook, in the shape that the reader takes: reading it again gives an equal Raw."""

import io
import re
import zipfile
from collections.abc import Mapping, Sequence
from typing import Any

from paperwork.files.decode import clean_text
from paperwork.files.refusal import Refused
from paperwork.files.xlsx.heads import fold
from paperwork.finding import find
from paperwork.model.fields import SINGLES
from paperwork.raw import List, Map, Node, Text

SHEET_TITLE = re.compile(r"[^\[\]:*?/\\']{1,31}")
"""What a spreadsheet program allows as a sheet's name (its published limits: 31 characters, not these)."""

_NARROWEST, _WIDEST = 8, 48
"""Column widths in characters: room for a heading, and a note that still lets its neighbours show."""

_ZIP_TIME = (1980, 1, 1, 0, 0, 0)
_CORE_TIME = b"2000-01-01T00:00:00Z"
"""Fixed times, so that the same show gives the same bytes; the first is the earliest that a zip can hold."""

_ESCAPE = re.compile(r"_x[0-9A-Fa-f]{4}_")
"""Text that would be read as a character's code (ECMA-376 part 1, 22.9.2.19, ST_Xstring)."""

_Row = list[str]


def write_workbook(raw: Map, headings: Mapping[str, Sequence[str]] | None = None) -> bytes:
    """The bytes of a workbook with one sheet a section; every value is a text cell.

    `headings` gives the fields of a section in their order, also those without a value yet; other fields follow
    as they first appear. A list becomes `a, b`, a group `A: x, B: y`. Raises Refused, with the place, for what a
    cell cannot hold. Same raw, same bytes.
    """
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    order = headings or {}
    sections = [name.text for name, _ in raw.items]
    _check_sections(raw)
    for section in [*sections, *(name for name in order if name not in sections)] or ["show"]:
        rows = _make_rows(section, raw.get(section), order.get(section, ()))
        _fill_sheet(book.create_sheet(section), rows, is_single=section in SINGLES)
    return pack_book(book)


def write_rows(title: str, rows: list[list[str]]) -> bytes:
    """The bytes of a workbook with one sheet of these rows, each value a text cell, the first row its headings."""
    import openpyxl

    book = openpyxl.Workbook()
    book.remove(book.active)
    _fill_sheet(book.create_sheet(title), rows, is_single=False)
    return pack_book(book)


def _check_sections(raw: Map) -> None:
    for name, records in raw.items:
        if not SHEET_TITLE.fullmatch(name.text) or fold(name.text) != name.text:
            raise _refuse(name, name.text, "no sheet can have this name")
        if not isinstance(records, Map):
            raise _refuse(name, name.text, "it is not a table of records")


def _make_rows(section: str, records: Node | None, order: Sequence[str]) -> list[_Row]:
    """The rows of a sheet, the headings first. Blank cells are empty texts."""
    items = records.items if isinstance(records, Map) else ()
    if section in SINGLES:
        values = {_make_heading(key): format_value(key, value) for key, value in items}
        fields = [*order, *(field for field in values if field not in order)]
        return [["field", "value"], *([field, values.get(field, "")] for field in fields)]
    table: dict[str, dict[str, str]] = {}
    for key, record in items:
        if not isinstance(record, Map):
            raise _refuse(key, key.text, "it is not a record with fields")
        table[_clean(key)] = {_make_heading(name): format_value(name, value) for name, value in record.items}
    fields = list(dict.fromkeys([*order, *(field for record in table.values() for field in record)]))
    fields = [field for field in fields if field != "id"]
    return [["id", *fields], *([key, *(record.get(f, "") for f in fields)] for key, record in table.items())]


def _make_heading(name: Text) -> str:
    """The field's name, which the reader must be able to fold back to itself."""
    if fold(name.text) != name.text or name.text == "id":
        raise _refuse(name, name.text, "no column can have this heading")
    return name.text


def format_value(name: Text, value: Node) -> str:
    """The text of a cell: a list as `a, b`, a group as `A: x, B: y`. Raises Refused for what a cell cannot hold."""
    if isinstance(value, Text):
        return _clean(value)
    if isinstance(value, List):
        return ", ".join(_format_item(name, item) for item in value.items)
    pairs = ((_format_item(name, key), _format_item(name, item)) for key, item in value.items)
    return ", ".join(f"{key}: {item}" for key, item in pairs)


def _format_item(name: Text, item: Node) -> str:
    """One item of a list or a group: plain text without a comma, which would part it."""
    if not isinstance(item, Text):
        raise _refuse(name, name.text, "it holds a group within a group")
    if "," in item.text:
        raise _refuse(item, name.text, f"{item.text} holds a comma of its own")
    return _clean(item)


def _clean(text: Text) -> str:
    return clean_text(text.text)[0]


def _fill_sheet(sheet: Any, rows: list[_Row], *, is_single: bool) -> None:
    """Text cells throughout, also in the empty rows below, so that nothing typed there turns into a date."""
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    for number, row in enumerate(rows, 1):
        for column, text in enumerate(row, 1):
            if not text:
                continue
            cell = sheet.cell(number, column, escape_text(text))
            cell.data_type = "s"  # also for text that begins with = or #
            cell.number_format = "@"
            cell.alignment = Alignment(vertical="top", wrap_text="\n" in text or len(text) > _WIDEST)
            if number == 1:
                cell.font = Font(bold=True)
    for column in range(1, len(rows[0]) + 1):
        dimension = sheet.column_dimensions[get_column_letter(column)]
        longest = max(len(line) for row in rows for line in row[column - 1].split("\n"))
        dimension.width = min(max(longest + 2, _NARROWEST), _WIDEST)
        dimension.number_format = "@"
    sheet.freeze_panes = "A2" if is_single else "B2"


def escape_text(text: str) -> str:
    """The text with what would be read as a character's code kept from being one."""
    return _ESCAPE.sub(lambda match: "_x005F" + match[0], text)


def pack_book(book: Any) -> bytes:
    """The workbook's bytes with every time in them fixed."""
    draft, final = io.BytesIO(), io.BytesIO()
    book.properties.creator = "paperwork"
    book.save(draft)
    with zipfile.ZipFile(draft) as old, zipfile.ZipFile(final, "w") as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "docProps/core.xml":
                data = re.sub(rb"(<dcterms:\w+[^>]*>)[^<]*", rb"\g<1>" + _CORE_TIME, data)
            info = zipfile.ZipInfo(name, _ZIP_TIME)
            info.create_system = 3  # the same on every system
            info.external_attr = 0o644 << 16
            new.writestr(info, data, zipfile.ZIP_DEFLATED)
    return final.getvalue()


def _refuse(text: Text, what: str, reason: str) -> Refused:
    return Refused(find("workbook-cannot", text.place, what=what, reason=reason))
