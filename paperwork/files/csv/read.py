"""Separated text to a grid: encoding and separator found, quotes kept honest, every cell at its line and column."""

import codecs
import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from paperwork import limits
from paperwork.files.decode import BOM, decode_text
from paperwork.files.encodings import ENCODINGS, list_signs, rank_encodings
from paperwork.files.grid import Book, Grid, GridCell, clip_text, find_in_cells
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.place import Place

SEPARATORS = {"\t": "tab", ";": "semicolon", "|": "bar", ",": "comma"}
"""In the order in which they are preferred where a file can be parted by several."""

_TRIED = 400
_LOOKED_AT = 100_000
"""Rows, and characters, that are looked at to find the separator."""

_SEP_LINE = re.compile(r"sep=(.)\r?\n?", re.IGNORECASE)
_GUARDED = re.compile(r"\t(?=[=+\-@\t\r])")
"""The tab that keeps a text from being a formula, which our own writer puts in front. Common practice, no source."""


class CsvField(NamedTuple):
    """One value with the line and the column, from 1, at which it stands in the text."""

    text: str
    line: int
    column: int


def read_csv(data: bytes, name: str) -> Book:
    """The one table of a file of separated values. Raises Refused if it is too large or no text."""
    found: list[Finding] = []
    text, encodings = _decode(data, name, found)
    remarks = (f"the text is read as {ENCODINGS[encodings[0]]}",) if encodings else ()
    match = _SEP_LINE.match(text)
    separator = match[1] if match and match[1] in SEPARATORS else find_separator(text)
    skip = match.end() if match and match[1] in SEPARATORS else 0
    rows = split_rows(text, separator, skip)
    words = SEPARATORS.get(separator, "nothing: one column")
    remarks = (*remarks, f"values are parted by {words}")
    return Book(name, (_make_grid(rows, name, found),), tuple(found), remarks, encodings)


def _decode(data: bytes, name: str, found: list[Finding]) -> tuple[str, tuple[str, ...]]:
    """The text, and the encodings that it may be in, the one that was taken first; none for UTF-8."""
    try:
        return decode_text(data, name).removeprefix(BOM), ()
    except Refused as refused:
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            raise
        encodings = rank_encodings(data)
        text, words = data.decode(encodings[0], "replace"), ENCODINGS[encodings[0]]
        if encodings[0] == "cp1252":  # any other is asked about where the list is understood
            signs = list_signs(text)
            found.append(find("csv-encoding", refused.finding.place, name=name, encoding=words, signs=signs))
        return text, encodings


def find_separator(text: str) -> str:
    """The separator that parts most rows into one and the same number of values; "" if none parts them."""
    best, best_score = "", 0.0
    text = text[:_LOOKED_AT]
    for separator in SEPARATORS:
        widths: dict[int, int] = {}
        for number, row in enumerate(split_rows(text, separator)):
            if number >= _TRIED:
                break
            if any(field.text.strip() for field in row):
                widths[len(row)] = widths.get(len(row), 0) + 1
        parted = {width: count for width, count in widths.items() if width > 1}
        if not parted:
            continue
        score = max(parted.values()) / sum(widths.values())
        if score > best_score + 1e-9:
            best, best_score = separator, score
    return best if best_score >= 0.3 else ""


def split_rows(text: str, separator: str, start: int = 0) -> Iterator[list[CsvField]]:
    """Rows of fields. A quoted field may hold separators and line breaks; a stray quote is an ordinary character."""
    stop = re.escape(separator) if separator else "(?!)"
    kept = f"[^{stop if separator else ''}\\r\\n]*"
    pattern = re.compile(f'(?:"([^"]*(?:""[^"]*)*)"[ ]*(?={stop}|[\\r\\n]|\\Z)|({kept}))({stop}|\\r\\n|\\r|\\n|\\Z)')
    line, line_start, position = text.count("\n", 0, start) + 1, start, start
    row: list[CsvField] = []
    while position <= len(text):
        match = pattern.match(text, position)
        if match is None:
            break
        quoted, plain, end = match.groups()
        value = plain if quoted is None else quoted.replace('""', '"')
        row.append(CsvField(value, line, position - line_start + 1))
        if len(row) > limits.SHEET_COLUMNS:
            yield row  # the caller refuses it; the rest could be millions
            return
        breaks = len(re.findall(r"\r\n|\r|\n", quoted)) if quoted else 0
        if breaks:
            line += breaks
            line_start = max(text.rfind("\n", position, match.end(1)), text.rfind("\r", position, match.end(1))) + 1
        position = match.end()
        if end != separator or not separator:
            if row != [CsvField("", line, 1)] or position < len(text):
                yield row
            row = []
            line += 1
            line_start = position
        if not end:
            break


def restore_text(text: str) -> str:
    """A value without the tab or the apostrophe that kept it from being taken as a formula or a number."""
    text = _GUARDED.sub("", text, count=1) if text.startswith("\t") else text
    return text[1:] if re.match(r"'+[=+\-@0-9]", text) else text


def _make_grid(rows: Iterable[list[CsvField]], name: str, found: list[Finding]) -> Grid:
    cells: dict[tuple[int, int], GridCell] = {}
    for number, row in enumerate(rows, 1):
        if number > limits.SHEET_ROWS or len(row) > limits.SHEET_COLUMNS or len(cells) > limits.SHEET_CELLS:
            what = f"the table holds more than {limits.SHEET_ROWS:,} rows or {limits.SHEET_COLUMNS} columns"
            raise Refused(find("sheet-large", Place(name, row[0].line, 1), what=what))
        for column, field in enumerate(row, 1):
            text, removed, is_cut = clip_text(restore_text(field.text))
            if text or removed:
                place = Place(name, field.line, field.column)
                cell = GridCell(number, column, text, place, kept=text, removed=removed, is_cut=is_cut)
                found += find_in_cells((cell,))
                if text:
                    cells[number, column] = cell
    return Grid("", cells)
