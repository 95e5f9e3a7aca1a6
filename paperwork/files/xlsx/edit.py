"""Single values of a workbook changed in its XML: no byte of it differs outside of their cells."""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from xml.sax.saxutils import quoteattr, unescape

from paperwork import limits
from paperwork.files.grid import Book, Grid, GridCell
from paperwork.files.refusal import Refused, refuse_edit
from paperwork.files.xlsx.heads import find_heads, fold
from paperwork.files.xlsx.numbers import format_number
from paperwork.files.xlsx.parts import Parts
from paperwork.files.xlsx.repack import replace_parts
from paperwork.files.xlsx.sheet import open_parts, read_sheets
from paperwork.files.xlsx.show import LISTS, list_counted
from paperwork.files.xlsx.splice import NewValue, splice_cells
from paperwork.files.xlsx.write import SHEET_TITLE
from paperwork.finding import Edit
from paperwork.model.fields import SINGLES
from paperwork.place import Place

_NUMBER = re.compile(r"(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_QUOTES = {"&quot;": '"', "&apos;": "'"}
_KINDS = "[Content_Types].xml"
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main"
_STRICT_RELATIONS = "http://purl.oclc.org/ooxml/officeDocument/relationships"
_SHEET_KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"


def edit_workbook(data: bytes, name: str, edits: Sequence[Edit]) -> bytes:
    """The workbook with the edits; whether it then says the right thing is for the caller to see. Raises Refused."""
    parts = open_parts(data, name)
    try:
        changed = _BookEditor(parts, read_sheets(parts, name)).change(edits)
    except (KeyError, ValueError, StopIteration):
        raise refuse_edit(name, "a part of it makes no sense") from None
    return replace_parts(data, changed)


class _BookEditor:
    """One workbook, the tables of its sections, and the parts that changed."""

    def __init__(self, parts: Parts, book: Book) -> None:
        self._parts = parts
        self._name = book.name
        self._tables: dict[str, _Table] = {}
        self._changed: dict[str, bytes] = {}
        self._grids = book.grids
        for grid, sheet in zip(book.grids, parts.sheets, strict=True):
            section = fold(grid.title)
            if not grid.is_hidden and section != LISTS and section not in self._tables:
                self._tables[section] = _Table(section, grid, sheet.path, parts, self._name)
        if not any(table.is_ours for table in self._tables.values()):
            raise refuse_edit(self._name, "it is not a show file of ours")

    def change(self, edits: Sequence[Edit]) -> dict[str, bytes]:
        """The parts that the edits change, by their paths."""
        for edit in edits:
            if edit.is_rename:
                self._rename(edit)
            elif not edit.field:
                self._tables[edit.section].drop(edit.record)
            else:
                self._set(edit)
        for table in self._tables.values():
            if table.values:
                xml = splice_cells(self._read(table.path), table.start, table.values, self._parts.styles)
                self._changed[self._parts.spell(table.path)] = xml
        return self._changed

    def _set(self, edit: Edit) -> None:
        """A value set, removed or added, with the heading, the row and the sheet that it needs."""
        if edit.section not in self._tables:
            self._tables[edit.section] = self._add_sheet(edit.section)
        self._tables[edit.section].set(edit)

    def _rename(self, edit: Edit) -> None:
        """Another heading, id or title."""
        table = self._tables[edit.section]
        if edit.field or edit.record:
            table.rename(edit)
        else:
            self._tables = {edit.value if key == edit.section else key: one for key, one in self._tables.items()}
            self._rename_sheet(table, edit.value)

    def _read(self, path: str) -> bytes:
        path = self._parts.spell(path)
        return self._changed[path] if path in self._changed else self._parts.read(path)

    def _rename_sheet(self, table: "_Table", title: str) -> None:
        """Refused where other cells, choices or charts name the sheet: they would lead nowhere."""
        old = table.start.sheet
        if not SHEET_TITLE.fullmatch(title) or any(fold(grid.title) == title for grid in self._grids):
            raise refuse_edit(self._name, f"no sheet can be called {title}", table.start)
        if any(
            re.search(rb"\b" + re.escape(old.encode()) + rb"(?:'|&apos;)?!", text) for text in self._parts.read_all()
        ):
            raise refuse_edit(self._name, f"other cells lead to the sheet {old} by its name", table.start)
        path = self._parts.book_path
        xml = self._read(path)
        for start, stop, attributes in _find_tags(xml, "sheet"):
            if attributes.get("name") == old:
                named = re.compile(rb"""(?<=\s)name\s*=\s*(?:"[^"]*"|'[^']*')""")
                tag = named.sub(lambda _: b"name=" + quoteattr(title).encode(), xml[start:stop], count=1)
                self._changed[self._parts.spell(path)] = xml[:start] + tag + xml[stop:]

    def _add_sheet(self, section: str) -> "_Table":
        """A new blank sheet, the last, with its relation and its kind (ECMA-376 part 1, 18.2.19; part 2, 9 and 10)."""
        hidden = next((grid for grid in self._grids if fold(grid.title) == section), None)
        if hidden is not None or section == LISTS or not SHEET_TITLE.fullmatch(section):
            reason = f"the sheet {section} is hidden" if hidden is not None else f"no sheet can be called {section}"
            raise refuse_edit(self._name, reason)
        book = self._parts.book_path
        folder = book.rpartition("/")[0]
        rels = f"{folder}/_rels/{book.rpartition('/')[2]}.rels".lstrip("/")
        is_strict = _STRICT_MAIN.encode() in self._read(book)
        main, relations = (_STRICT_MAIN, _STRICT_RELATIONS) if is_strict else (_MAIN, _RELATIONS)
        used = {
            int(a["sheetId"]) for _, _, a in _find_tags(self._read(book), "sheet") if a.get("sheetId", "").isdigit()
        }
        ids = {attributes.get("Id", "") for _, _, attributes in _find_tags(self._read(rels), "Relationship")}
        number = next(n for n in range(1, 10_000) if not self._has(f"xl/worksheets/sheet{n}.xml"))
        id = next(f"rId{n}" for n in range(1, 10_000) if f"rId{n}" not in ids)
        path = f"xl/worksheets/sheet{number}.xml"
        entry = (
            f'sheet xmlns:r="{relations}" name={quoteattr(section)} sheetId="{max(used, default=0) + 1}" r:id="{id}"'
        )
        self._append(book, "sheets", entry)
        self._append(rels, "Relationships", f'Relationship Id="{id}" Type="{relations}/worksheet" Target="/{path}"')
        self._append(_KINDS, "Types", f'Override PartName="/{path}" ContentType="{_SHEET_KIND}"')
        head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
        self._changed[path] = f'{head}<worksheet xmlns="{main}"><sheetData/></worksheet>'.encode()
        return _Table(section, Grid(section, {}), path, self._parts, self._name)

    def _has(self, path: str) -> bool:
        return self._parts.has(path) or path in self._changed

    def _append(self, path: str, parent: str, entry: str) -> None:
        """An element behind the last child of another."""
        xml = self._read(path)
        *_, end = (None, *re.finditer(rb"</((?:[^\s<>/:]+:)?)" + parent.encode() + rb"\s*>", xml))
        if end is None:
            raise refuse_edit(self._name, f"no sheet can be added to it: its list of {parent.lower()} is unusual")
        new = b"<" + end[1] + entry.encode() + b"/>"
        self._changed[self._parts.spell(path)] = xml[: end.start()] + new + xml[end.start() :]


class _Table:
    """The sheet of one section: where its fields and records are, and the new values of its cells."""

    def __init__(self, section: str, grid: Grid, path: str, parts: Parts, name: str) -> None:
        self.path = path
        self.start = Place(name, 1, 1, grid.title)
        self.values: dict[tuple[int, int], NewValue] = {}
        self._is_single = section in SINGLES
        self._parts = parts
        self._grid = grid
        counted = list_counted(grid)
        self._cells = {(cell.row, cell.column): cell for cell in counted}
        self._fields: dict[str, int] = {}
        self._records: dict[str, int] = {}
        heads = None if self._is_single else find_heads(counted, section)
        self._head, self._key = (heads.row, heads.id) if heads else (1, 1)
        for column, name in heads.names.items() if heads else ():
            self._fields.setdefault(name, column)
        for cell in (cell for cell in counted if cell.kind != "failed"):
            if self._is_single and cell.column == 1:
                self._fields.setdefault(fold(cell.text), cell.row)
            elif heads and cell.row > heads.row and cell.column == heads.id:
                self._records.setdefault(cell.text, cell.row)
        self._lost = [cell for cell in grid.hidden if (cell.row, cell.column) not in self._cells]
        everything = (*counted, *self._lost)
        self._last_row = max((cell.row for cell in everything), default=0)
        self._last_column = max((cell.column for cell in everything), default=0)

    @property
    def is_ours(self) -> bool:
        """Whether the sheet has the form of a section."""
        return self._is_single or "id" in self._fields

    @cached_property
    def _shared(self) -> dict[str, int]:
        """The plain texts that sheets share, by their words."""
        found: dict[str, int] = {}
        for at, runs in enumerate(self._parts.strings):
            if len(runs) == 1 and not runs[0].struck:
                found.setdefault(runs[0].text, at)
        return found

    def set(self, edit: Edit) -> None:
        if self._is_single:
            self._set_single(edit)
            return
        if not self._cells and not self.values:
            self._name_field("id")
        if "id" not in self._fields:
            raise self._refuse((1, 1), f"no row of the sheet {self.start.sheet} holds its headings")
        if edit.field not in self._fields:
            self._name_field(edit.field)
        if edit.record not in self._records:
            self._refuse_hidden(edit.record, lambda cell: cell.column == self._key and cell.text == edit.record)
            self._last_row += 1
            self._records[edit.record] = self._last_row
            self._put((self._last_row, self._key), edit.record, is_text=True)
        self._put((self._records[edit.record], self._fields[edit.field]), edit.value)

    def _set_single(self, edit: Edit) -> None:
        if not self._cells and not self.values:
            self._put((1, 1), "field", is_text=True)
            self._put((1, 2), "value", is_text=True)
            self._last_row = max(self._last_row, 1)
        if edit.field not in self._fields:
            self._refuse_hidden(edit.field, lambda cell: cell.column == 1 and fold(cell.text) == edit.field)
            self._last_row += 1
            self._fields[edit.field] = self._last_row
            self._put((self._last_row, 1), edit.field, is_text=True)
        self._put((self._fields[edit.field], 2), edit.value)

    def _name_field(self, field: str) -> None:
        """A new heading behind the last column."""
        self._refuse_hidden(field, lambda cell: cell.row == self._head and fold(cell.text) == field)
        self._last_column += 1
        if fold(field) != field or self._last_column > limits.SHEET_COLUMNS:
            raise self._refuse((1, 1), f"no column can have the heading {field}")
        self._fields[field] = self._last_column
        self._last_row = max(self._last_row, self._head)
        self._put((self._head, self._last_column), field, is_text=True)

    def rename(self, edit: Edit) -> None:
        if not edit.field:
            at = self._records[edit.record], self._key
            self._records[edit.value] = self._records.pop(edit.record)
        else:
            number = self._fields[edit.field]
            at = (number, 1) if self._is_single else (self._head, number)
            users = [row for row in self._records.values() if self._holds((row, number))]
            if not self._is_single and edit.record and users != [self._records[edit.record]]:
                raise self._refuse(at, f"the heading {edit.field} is that of other records too")
            if fold(edit.value) != edit.value or edit.value in self._fields:
                raise self._refuse(at, f"no other field can be called {edit.value} here")
            self._fields[edit.value] = self._fields.pop(edit.field)
        self._put(at, edit.value, is_text=True)

    def drop(self, record: str) -> None:
        """The cells of a record emptied, or of the whole section for ""; the row stays, blank."""
        row = self._records.pop(record) if record else 0
        for at in {*self._cells, *self.values}:
            if not row or at[0] == row:
                self._put(at, "")
        if not record:
            self._fields.clear()
            self._records.clear()

    def _holds(self, at: tuple[int, int]) -> bool:
        return bool(self.values[at].text) if at in self.values else at in self._cells

    def _put(self, at: tuple[int, int], text: str, *, is_text: bool = False) -> None:
        """A number goes in as one where its cell or column holds numbers; a cell that holds the text stays as it is."""
        self.values.pop(at, None)
        if at in self._cells and self._cells[at].text == text and self._cells[at].kind != "failed":
            return
        is_number = not is_text and _NUMBER.fullmatch(text) is not None and self._takes_number(at)
        self.values[at] = NewValue(text, format_number(float(text)) if is_number else "", self._shared.get(text))

    def _takes_number(self, at: tuple[int, int]) -> bool:
        if at in self._cells or self._is_single:
            return at in self._cells and self._cells[at].kind != "text"
        row, column = at
        near = [cell for (other, one), cell in self._cells.items() if one == column and other > self._head]
        above = [cell for cell in near if cell.row < row]
        return not near or (above or near)[-1 if above else 0].kind != "text"

    def _refuse_hidden(self, what: str, is_meant: Callable[[GridCell], bool]) -> None:
        for cell in self._lost:
            if is_meant(cell):
                raise self._refuse((cell.row, cell.column), f"{what} is there already, but hidden, at {cell.address}")

    def _refuse(self, at: tuple[int, int], reason: str) -> Refused:
        return refuse_edit(self.start.file, reason, self.start._replace(line=at[0], column=at[1]))


def _find_tags(xml: bytes, name: str) -> Iterator[tuple[int, int, dict[str, str]]]:
    """The opening tags of a name: where each begins and ends, and its attributes."""
    tag = rb"<(?:[^\s<>/:]+:)?" + name.encode() + rb"""(\s(?:[^>"']|"[^"]*"|'[^']*')*)>"""
    for match in re.finditer(tag, xml):
        pairs = re.findall(rb"""([^\s=]+)\s*=\s*(?:"([^"]*)"|'([^']*)')""", match[1])
        attributes = {key.decode(): unescape((one or other).decode(), _QUOTES) for key, one, other in pairs}
        yield match.start(), match.end(), attributes
