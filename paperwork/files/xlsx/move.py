"""A row of a sheet put elsewhere among the others: it goes whole, with its height, formats, notes and links, and all
columns, whosever they are.

What covers all rows that change their place stays. What names some of them by their place would lead elsewhere: then it
is refused, with where that is.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from paperwork.files.grid import Grid
from paperwork.files.refusal import Refused, refuse_edit
from paperwork.files.xlsx.heads import find_heads, fold
from paperwork.files.xlsx.parts import Parts
from paperwork.files.xlsx.references import Rows, leads_anywhere, list_areas, list_formulas, list_named
from paperwork.files.xlsx.repack import read_drawn_notes, replace_parts
from paperwork.files.xlsx.sheet import open_parts, read_sheets
from paperwork.files.xlsx.show import list_counted
from paperwork.files.xlsx.splice import SheetScan
from paperwork.place import Place, format_column

_TAG = re.compile(rb"""<(?:[\w.-]+:)?([\w.-]+)\s(?:[^<>"']|"[^"]*"|'[^']*')*>""")
_AREA = re.compile(rb"""(\s(?:sq)?ref\s*=\s*)(["'])([^"']*)\2""")
_AREA_TEXT = re.compile(rb"<(?:[\w.-]+:)?sqref>([^<>]*)<")
_ADDRESS = re.compile(rb"""(\sr\s*=\s*["'])([A-Z]*)([0-9]+)(["'])""")
_NOTE = re.compile(rb"""(<(?:[\w.-]+:)?(?:comment|threadedComment)\s[^<>]*?\bref\s*=\s*["'][A-Z]+)([0-9]+)""")
_DRAWN = re.compile(rb"<((?:[\w.-]+:)?)ClientData\s[^<>]*>.*?</\1ClientData>", re.DOTALL)
_DRAWN_ROW = re.compile(rb"(<(?:[\w.-]+:)?Row>\s*)([0-9]+)(?=\s*<)")
_DRAWN_FRAME = re.compile(rb"(<(?:[\w.-]+:)?Anchor>)([^<>]*)(?=<)")
_SOURCE = re.compile(rb"<(?:[\w.-]+:)?worksheetSource\s[^<>]*>")
_AT_PLACE = ("hyperlink", "mergeCell")
"""Elements of a sheet that are at cells and go along with them."""

_OF_VIEW = ("dimension", "selection", "pane", "sheetView")
"""Elements that only say what is looked at."""


def move_row(data: bytes, name: str, section: str, record: str, before: str) -> bytes:
    """The workbook in which the row of a record comes before that of another, or behind all for "". Raises Refused."""
    parts = open_parts(data, name)
    try:
        return _move(data, parts, name, section, record, before)
    except (KeyError, ValueError):
        raise refuse_edit(name, "a part of it makes no sense") from None


def _move(data: bytes, parts: Parts, name: str, section: str, record: str, before: str) -> bytes:
    for grid, sheet in zip(read_sheets(parts, name).grids, parts.sheets, strict=True):
        if fold(grid.title) == section and not grid.is_hidden:
            rows = _list_records(grid, section)
            start = rows[record]
            end = rows[before] if before else max(rows.values()) + 1
            if end in (start, start + 1):
                return data
            mover = _Mover(parts, Place(name, 1, 1, grid.title), start, end if end < start else end - 1)
            return replace_parts(data, mover.change(sheet.path, lambda path: read_drawn_notes(data, path)))
    raise KeyError(section)


def _list_records(grid: Grid, section: str) -> dict[str, int]:
    """The records of a sheet by id, with their rows."""
    found: dict[str, int] = {}
    counted = list_counted(grid)
    heads = find_heads(counted, section)
    for cell in counted if heads else ():
        if heads and cell.column == heads.id and cell.row > heads.row and cell.kind != "failed":
            found.setdefault(cell.text, cell.row)
    return found


@dataclass
class _Mover:
    """One row on its way from `start` to `to`; those between go one further."""

    parts: Parts
    place: Place
    start: int
    to: int

    @property
    def span(self) -> tuple[int, int]:
        """The first and the last row that change their place."""
        return min(self.start, self.to), max(self.start, self.to)

    def find(self, row: int) -> int:
        """Where a row is afterwards."""
        low, high = self.span
        if not low <= row <= high:
            return row
        return self.to if row == self.start else row + (1 if self.to < self.start else -1)

    def change(self, path: str, read_drawn: Callable[[str], bytes]) -> dict[str, bytes]:
        """The parts that change, by their paths as the workbook spells them."""
        xml = self.parts.read(path)
        scan = SheetScan(xml, self.place)
        first, last = self._find_region(scan)
        own = self.parts.spell(path)
        self._check_formulas(own, scan.end)
        changed = {
            own: b"".join((self._shift_areas(xml[:first]), self._order_rows(xml, scan), self._shift_areas(xml[last:])))
        }
        for kind, other in self.parts.related(path).values():
            if kind in ("comments", "threadedComment"):
                changed[self.parts.spell(other)] = _NOTE.sub(self._shift_note, self.parts.read(other))
            elif kind == "vmlDrawing":
                drawn = read_drawn(self.parts.spell(other))
                changed |= {self.parts.spell(other): _DRAWN.sub(self._shift_drawn, drawn)} if drawn else {}
            elif kind in ("table", "pivotTable"):
                self._shift_areas(self.parts.read(other))
        return changed

    def _list_moved(self, scan: SheetScan) -> list[int]:
        low, high = self.span
        return [row for row in scan.rows if low <= row <= high]

    def _find_region(self, scan: SheetScan) -> tuple[int, int]:
        """From where to where in the XML the rows are. Refused where one holds a formula, or they are in no order."""
        moved = self._list_moved(scan)
        for row in moved:
            for column, cell in scan.rows[row].cells.items():
                if cell.formula:
                    raise self._refuse(f"{format_column(column)}{row} holds a formula", row, column)
        if moved != sorted(moved):
            raise self._refuse("its rows are not in their order")
        return scan.rows[moved[0]].start, scan.rows[moved[-1]].end

    def _order_rows(self, xml: bytes, scan: SheetScan) -> bytes:
        """The rows in their new order under their new numbers; what is between them stays between."""
        moved = self._list_moved(scan)
        spans = [scan.rows[row] for row in moved]
        gaps = [xml[one.end : after.start] for one, after in pairwise(spans)]
        held = {self.find(row): self._renumber(xml, scan, row) for row in moved}
        ordered = [held[row] for row in sorted(held)]
        return b"".join(part for pair in zip(ordered, [*gaps, b""], strict=True) for part in pair)

    def _renumber(self, xml: bytes, scan: SheetScan, row: int) -> bytes:
        span = scan.rows[row]
        starts = [span.start, *(cell.start for cell in span.cells.values()), span.end]
        pieces = []
        for at, after in pairwise(starts):
            head = xml.index(b">", at) + 1
            tag, count = _ADDRESS.subn(
                lambda m: b"%s%s%d%s" % (m[1], m[2], self.find(row), m[4]), xml[at:head], count=1
            )
            if not count:
                raise self._refuse("its rows and cells do not say their numbers", row)
            pieces.append(tag + xml[head:after])
        return b"".join(pieces)

    def _shift_areas(self, xml: bytes) -> bytes:
        """What is around the rows: links and merged cells of a row go along. Refused where an area holds some rows."""
        for areas in _AREA_TEXT.findall(xml):
            self._check_areas("a rule", areas.decode())
        return _TAG.sub(self._shift_tag, xml)

    def _shift_tag(self, tag: re.Match[bytes]) -> bytes:
        area, element = _AREA.search(tag[0]), tag[1].decode()
        if area is None or element in _OF_VIEW:
            return tag[0]
        rows = [*list_areas(area[3].decode())]
        if element in _AT_PLACE and len(rows) == 1 and rows[0].first == rows[0].last:
            to = str(self.find(rows[0].first)).encode()
            shifted = re.sub(rb"[0-9]+", to, area[3])
            return tag[0][: area.start(3)] + shifted + tag[0][area.end(3) :]
        self._check_areas(f"an area ({element})", area[3].decode())
        return tag[0]

    def _check_areas(self, what: str, areas: str) -> None:
        if any(one.splits(*self.span) for one in list_areas(areas)):
            low, high = self.span
            raise self._refuse(f"{what} of {areas} holds some of the rows {low} to {high} and not the others", low)

    def _shift_note(self, note: re.Match[bytes]) -> bytes:
        return note[1] + str(self.find(int(note[2]))).encode()

    def _shift_drawn(self, drawn: re.Match[bytes]) -> bytes:
        """The row of a note, from 0, and its frame, whose third and seventh figures are rows."""
        row = _DRAWN_ROW.search(drawn[0])
        if row is None:
            return drawn[0]
        by = self.find(int(row[2]) + 1) - int(row[2]) - 1

        def shift_frame(frame: re.Match[bytes]) -> bytes:
            figures = frame[2].split(b",")
            if len(figures) == 8:
                figures[2], figures[6] = (b" %d" % max(0, int(figures[at]) + by) for at in (2, 6))
            return frame[1] + b",".join(figures)

        text = _DRAWN_ROW.sub(lambda m: b"%s%d" % (m[1], int(m[2]) + by), drawn[0], count=1)
        return _DRAWN_FRAME.sub(shift_frame, text, count=1)

    def _check_formulas(self, own: str, end: int) -> None:
        for path, xml in self.parts.list_xml():
            for at, _, formula in list_formulas(xml):
                is_cell = path != own or at < end
                if leads_anywhere(formula, self.place.sheet, is_own=path == own) or any(
                    rows.splits(*self.span) for rows in self._list_rows(formula, path == own, is_cell)
                ):
                    raise self._refuse(f"a formula leads to some of its rows by their place: {formula[:60]}")
            for source in _SOURCE.findall(xml):
                if self.place.sheet.encode() in source and (area := _AREA.search(source)):
                    self._check_areas("a source", area[3].decode())

    def _list_rows(self, formula: str, is_own: bool, is_cell: bool) -> Iterator[Rows]:
        """The rows that a formula names. Rules of areas that all rows share count from each cell, unless fixed."""
        named = list_named(formula, self.place.sheet, is_own=is_own)
        return (one for one in named if is_cell or one.fixed)

    def _refuse(self, reason: str, row: int = 1, column: int = 1) -> Refused:
        return refuse_edit(self.place.file, reason, self.place._replace(line=row, column=column))
