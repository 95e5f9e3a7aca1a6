"""Days as people write them above a list: `14.3.2026`, `12 June 2026`, `2-20 March 2027`; and what may be two days."""

import re
from collections.abc import Iterator
from functools import cache

from paperwork.text.vocabulary import fold_word, listed_words

_ISO = re.compile(r"\b([0-9]{4})-([0-9]{2})-([0-9]{2})\b")
_DOTTED = re.compile(r"(?<![0-9.])([0-9]{1,2})\.\s?([0-9]{1,2})\.\s?([0-9]{4}|[0-9]{2}(?![0-9:]))(?![0-9])")
_SLASHED = re.compile(r"(?<![0-9/])([0-9]{1,2})\s*/\s*([0-9]{1,2})\s*/\s*([0-9]{4}|[0-9]{2})(?![0-9/])")
_DASHED = re.compile(r"(?<![0-9\-])([0-9]{1,2})-([0-9]{1,2})-([0-9]{4})(?![0-9\-])")
_WORDED = re.compile(
    r"(?<![0-9])(?P<day>[0-9]{1,2})(?:st|nd|rd|th|er)?\.?\s+(?:de\s+|of\s+)?(?P<month>[^\W\d_]{3,12})\.?,?(?:\s+(?:de\s+)?(?P<year>[0-9]{4}))?"
)
_MONTH_FIRST = re.compile(r"(?P<month>[^\W\d_]{3,12})\.?\s+(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?,?\s+(?P<year>[0-9]{4})")
_SPAN = re.compile(
    r"(?<![0-9])([0-9]{1,2})(?:st|nd|rd|th)?\.?\s*(?:-|\u2013|\u2014|to|bis|au|al|a|tot|till|until|and|und|et|y|e|en|och|&|\+|/)\s*$"
)
"""The first day of a span, in front of its last: `2-` of `2-20 March 2027`."""


@cache
def _months() -> dict[str, int]:
    return {word: number for number in range(1, 13) for word in listed_words(f"month_{number}")}


def read_days(text: str) -> tuple[tuple[str, ...], ...]:
    """The days that a text names in their order, each as the ISO dates that it can be: one, or two for `04/11/2026`."""
    found = sorted(_find(text))
    return tuple(days for _, days in found if days)


def is_day(text: str) -> bool:
    """Whether a text begins with a day, with or without its year: `6 Dec`, `24 Dec (carols)`, `Sat 12 June`."""
    words = fold_word(text).split()
    weekdays = listed_words("weekday") | listed_words("weekday_short")
    if words and words[0] in weekdays:
        words = words[1:]
    is_worded = len(words) > 1 and sorted(map(str.isdigit, words[:2])) == [False, True]
    return bool(read_days(text)) or (is_worded and any(word in _months() for word in words[:2]))


def is_span(text: str) -> bool:
    """Whether a text says from one day to another: two days, each of them certain."""
    days = read_days(text)
    return len(days) == 2 and all(len(one) == 1 for one in days) and days[0] < days[1]


def _find(text: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    for match in _ISO.finditer(text):
        yield match.start(), _iso(match[1], match[2], match[3])
    for match in _DOTTED.finditer(text):
        yield match.start(), _iso(_year(match[3]), match[2], match[1])
    for match in (*_SLASHED.finditer(text), *_DASHED.finditer(text)):
        day_first, month_first = (
            _iso(_year(match[3]), *order) for order in ((match[2], match[1]), (match[1], match[2]))
        )
        yield match.start(), tuple(dict.fromkeys(day_first + month_first))
    if not _ISO.search(text):
        yield from _find_worded(text)


def _find_worded(text: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Days with the month as a word. One without a year has that of the next; in front of it may be the first of a span."""
    matches = [match for shape in (_WORDED, _MONTH_FIRST) for match in shape.finditer(text)]
    matches = [match for match in matches if fold_word(match["month"]) in _months()]
    year = next((match["year"] for match in reversed(matches) if match["year"]), "")
    for match in matches if year else ():
        month = str(_months()[fold_word(match["month"])])
        if first := _SPAN.search(text[: match.start()]):
            yield first.start(), _iso(match["year"] or year, month, first[1])
        yield match.start(), _iso(match["year"] or year, month, match["day"])


def _year(text: str) -> str:
    return text if len(text) == 4 else f"20{text}"


def _iso(year: str, month: str, day: str) -> tuple[str, ...]:
    return (f"{year}-{int(month):02d}-{int(day):02d}",) if 1 <= int(month) <= 12 and 1 <= int(day) <= 31 else ()
