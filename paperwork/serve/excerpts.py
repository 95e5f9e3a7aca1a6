"""Findings beside what they mean: the lines of a text, or the rows of a sheet, with the guilty part marked."""

import re
from collections.abc import Iterable, Mapping, Sequence

from paperwork.files.decode import decode_text
from paperwork.files.grid import Book, GridCell
from paperwork.files.refusal import Refused
from paperwork.files.sniff import sniff
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.place import Place, format_column

MOST_COLUMNS = 24
"""Columns of a sheet that one excerpt shows. A choice of this project, no source."""

_QUOTED = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'")
_KEY = re.compile(r"[^\s:#,{}\[\]][^:#,{}\[\]]*(?=:(?:\s|$))")
_INSIDE = re.compile(r"[^,}\]\s](?:[^,}\]]*[^,}\]\s])?")
_ALONE = re.compile(r"\S(?:.*?\S)??(?=\s+#|\s*$)")
"""From where a finding points to the end of what it means, near enough to mark it: a quoted text, a key, a value
between brackets, or a value that has the rest of its line."""


@frozen
class Fragment:
    """A piece of a line or a cell. `marks` are the numbers of the findings that mean it."""

    text: str
    marks: tuple[int, ...] = ()


@frozen
class ExcerptLine:
    """A line of text or a row of a sheet, and the numbers of the findings about it; none for a row of headings."""

    number: int
    parts: tuple[Fragment, ...]
    findings: tuple[int, ...] = ()


@frozen
class Excerpt:
    """What a sheet or file says where findings point. `columns` are the letters of a sheet's, none for a text."""

    title: str
    columns: tuple[str, ...]
    lines: tuple[ExcerptLine, ...]

    @property
    def idle(self) -> frozenset[int]:
        """The columns, from 0, that a narrow page can do without: not the first two, nor what a finding means."""
        meant = {index for line in self.lines for index, part in enumerate(line.parts) if part.marks}
        return frozenset(range(2, len(self.columns))) - meant


def make_excerpts(data: bytes, name: str, findings: Sequence[Finding]) -> tuple[tuple[Excerpt, ...], tuple[int, ...]]:
    """The excerpts, and the numbers (from 1) of the findings that point to no line of this file."""
    placed: dict[str, dict[int, list[int]]] = {}
    loose = []
    for number, finding in enumerate(findings, 1):
        place = finding.place
        if place.file == name and place.line:
            placed.setdefault(place.sheet, {}).setdefault(place.line, []).append(number)
        else:
            loose.append(number)
    if not placed:
        return (), tuple(loose)
    try:
        kind, _ = sniff(data, name)
        if kind == "yaml":
            return (_excerpt_text(decode_text(data, name), name, placed.get("", {}), findings),), tuple(loose)
        return tuple(_excerpt_book(data, name, kind, placed, findings)), tuple(loose)
    except Refused:
        return (), tuple(range(1, len(findings) + 1))


def _excerpt_text(text: str, name: str, lines: Mapping[int, list[int]], findings: Sequence[Finding]) -> Excerpt:
    source = text.removeprefix("\ufeff").splitlines()
    excerpt = []
    for number, about in sorted(lines.items()):
        line = source[number - 1] if number <= len(source) else ""
        starts: dict[int, list[int]] = {}
        for finding in about:
            starts.setdefault(max(0, findings[finding - 1].place.column - 1), []).append(finding)
        excerpt.append(ExcerptLine(number, tuple(_mark(line, starts)), tuple(about)))
    return Excerpt(name, (), tuple(excerpt))


def _mark(line: str, starts: Mapping[int, list[int]]) -> Iterable[Fragment]:
    at = 0
    for start, about in sorted(starts.items()):
        end = _end_of(line, start)
        if start < at:
            continue
        if line[at:start]:
            yield Fragment(line[at:start])
        yield Fragment(line[start:end] or " ", tuple(about))
        at = end
    if line[at:]:
        yield Fragment(line[at:])


def _end_of(line: str, start: int) -> int:
    before = line[:start]
    is_inside = before.count("{") + before.count("[") > before.count("}") + before.count("]")
    for pattern in (_QUOTED, _KEY, _INSIDE if is_inside else _ALONE):
        if match := pattern.match(line, start):
            return match.end()
    return start + 1


def read_rows(data: bytes, name: str, places: Iterable[Place]) -> dict[Place, tuple[Fragment, ...]]:
    """The row of a sheet in which each place stands, blank cells left out, the cell that is meant with the mark 1."""
    wanted = list(places)
    try:
        kind, _ = sniff(data, name)
        book = _read_book(data, name, kind) if wanted and kind != "yaml" else None
    except Refused:
        return {}
    found = {}
    for grid in book.grids if book else ():
        rows: dict[int, list[GridCell]] = {}
        for _, cell in sorted(grid.cells.items()):
            rows.setdefault(cell.row, []).append(cell)
        for place in (one for one in wanted if one.sheet in (grid.title, "")):
            row = rows.get(place.line, [])
            found[place] = tuple(
                Fragment(cell.text, (1,) if cell.place == place else ()) for cell in row[:MOST_COLUMNS]
            )
    return found


def _read_book(data: bytes, name: str, kind: str) -> Book:
    from paperwork.files.csv.read import read_csv
    from paperwork.files.xlsx.sheet import read_workbook

    return read_csv(data, name) if kind == "csv" else read_workbook(data, name)


def _excerpt_book(
    data: bytes, name: str, kind: str, placed: Mapping[str, Mapping[int, list[int]]], findings: Sequence[Finding]
) -> Iterable[Excerpt]:
    for grid in _read_book(data, name, kind).grids:
        lines = placed.get(grid.title) or (placed.get("") if kind == "csv" else None)
        if not lines:
            continue
        rows: dict[int, dict[int, str]] = {}
        columns = {cell.place: cell.column for cell in grid.cells.values()}
        for (row, column), cell in grid.cells.items():
            rows.setdefault(row, {})[column] = cell.text
        meant = {
            number: columns.get(findings[number - 1].place, findings[number - 1].place.column if kind == "xlsx" else 1)
            for about in lines.values()
            for number in about
        }
        yield _excerpt_grid(grid.title or name, rows, lines, meant)


def _excerpt_grid(
    title: str, rows: Mapping[int, Mapping[int, str]], lines: Mapping[int, list[int]], meant: Mapping[int, int]
) -> Excerpt:
    """The rows that findings mean, under the row of headings: the fullest of the sheet's first twenty.

    `meant` is the column of each finding by its number.
    """
    widest = max((max(row) for row in rows.values()), default=1)
    columns = range(1, min(max(widest, *meant.values()), MOST_COLUMNS) + 1)
    head = max((row for row in rows if row <= 20), key=lambda row: (len(rows[row]), -row), default=0)
    excerpt = []
    if head and head not in lines:
        excerpt.append(ExcerptLine(head, tuple(Fragment(rows[head].get(column, "")) for column in columns)))
    for number, about in sorted(lines.items()):
        by_column: dict[int, list[int]] = {}
        for finding in about:
            by_column.setdefault(min(meant[finding], MOST_COLUMNS), []).append(finding)
        cells = (Fragment(rows.get(number, {}).get(column, ""), tuple(by_column.get(column, ()))) for column in columns)
        excerpt.append(ExcerptLine(number, tuple(cells), tuple(about)))
    return Excerpt(title, tuple(map(format_column, columns)), tuple(excerpt))
