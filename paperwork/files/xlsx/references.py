"""What in a workbook names cells by their place: areas of a sheet, and formulas wherever they are.

Forms of references: ECMA-376 part 1, 18.17.2.3; what holds formulas: 18.3.1.40, 18.3.1.43, 18.3.1.32, 18.2.5,
21.2.2.61.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple
from xml.sax.saxutils import unescape

from paperwork import limits

_QUOTES = {"&quot;": '"', "&apos;": "'"}
_LITERAL = re.compile(r'"(?:[^"]|"")*"')
_PREFIX = r"(?:(?P<sheet>'(?:[^']|'')+'|[^\s'!(),;+*/&=<>^-]+)!)?"
_CELLS = re.compile(
    _PREFIX + r"(?<![\w.])\$?[A-Za-z]{1,3}(?P<fixed>\$?)(?P<first>[0-9]{1,7})"
    r"(?::\$?[A-Za-z]{1,3}(?P<also>\$?)(?P<last>[0-9]{1,7}))?(?![\w.(])"
)
_ROWS = re.compile(
    _PREFIX + r"(?<![\w.:])(?P<fixed>\$?)(?P<first>[0-9]{1,7}):(?P<also>\$?)(?P<last>[0-9]{1,7})(?![\w.:])"
)
_AREA = re.compile(r"\$?[A-Z]{1,3}\$?([0-9]{1,7})(?::\$?[A-Z]{1,3}\$?([0-9]{1,7}))?")
_FORMULA = re.compile(rb"<(?:[\w.-]+:)?(f|formula[12]?|definedName)\b[^<>]*>([^<>]+)<")
_LED_ASTRAY = re.compile(r"\b(?:INDIRECT|OFFSET)\s*\(", re.IGNORECASE)
"""Functions that make a reference of text or counts, so that no text of a formula says where it leads."""


class Rows(NamedTuple):
    """Rows that are named, from the first to the last. Not `fixed`: counted from the cell of the formula."""

    first: int
    last: int
    fixed: bool = True

    def splits(self, low: int, high: int) -> bool:
        """Whether some rows from `low` to `high` are among them, and others are not."""
        return self.first <= high and self.last >= low and not (self.first <= low and self.last >= high)


def list_areas(text: str) -> Iterator[Rows]:
    """The rows of each area of a list, as in `B2:D9 F4`; whole columns are all rows."""
    for part in text.split():
        match = _AREA.fullmatch(part)
        yield Rows(int(match[1]), int(match[2] or match[1])) if match else Rows(1, limits.SHEET_ROWS)


def list_formulas(xml: bytes) -> Iterator[tuple[int, str, str]]:
    """Each formula of a part: where it begins, the name of its element, its text."""
    for match in _FORMULA.finditer(xml):
        yield match.start(), match[1].decode(), unescape(match[2].decode("utf-8", "replace"), _QUOTES)


def list_named(formula: str, title: str, *, is_own: bool) -> Iterator[Rows]:
    """The rows of the sheet `title` that a formula names; `is_own`: it is on that sheet, and needs no name for it."""
    text = _LITERAL.sub('""', formula)
    for match in (*_CELLS.finditer(text), *_ROWS.finditer(text)):
        sheet = match["sheet"]
        if _is_meant(sheet, title) if sheet else is_own:
            first, last = sorted((int(match["first"]), int(match["last"] or match["first"])))
            yield Rows(first, last, bool(match["fixed"] or match["also"]))


def leads_anywhere(formula: str, title: str, *, is_own: bool) -> bool:
    """Whether only a calculation knows which rows of the sheet a formula leads to."""
    return bool(_LED_ASTRAY.search(_LITERAL.sub('""', formula))) and (is_own or title.lower() in formula.lower())


def _is_meant(sheet: str, title: str) -> bool:
    """`'my show'!` and `channels!`; a span of sheets may hold it."""
    plain = sheet.strip("'").replace("''", "'").rpartition("]")[2]
    return plain.lower() == title.lower() or ":" in plain
