"""What a sheet has no room for: each text that gave way is kept, and those of one kind and size are one finding.

A column of a thousand rows in which every second name is cut is one problem with one answer, not five hundred.
"""

from collections.abc import Iterable
from typing import Any

from paperwork.codes import CODES
from paperwork.finding import Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.place import Place

EXAMPLES = 3
"""So many texts more are named where several gave way in one column."""

EXAMPLE_LENGTH = 100
"""Characters of each of them: a note may have thousands."""

_ONE = {"channels": "channel", "others": "other", "hires": "hire", "scenes": "scene", "roles": "role", "people": ""}
"""What one record of a section is called."""


@frozen
class Shortfall:
    """One text, number or row without whole room: where its owner is written, what it shows, the facts of the finding.

    `column` sets apart what stands in one kind of type from what stands in another on the same sheet: the height of its
    capitals at the least, in micrometres; 0 where there is none.
    """

    code: str
    where: Place
    subjects: tuple[Subject, ...]
    column: int
    facts: tuple[tuple[str, str], ...]


def find_shortfalls(sheet: str, shortfalls: Iterable[Shortfall]) -> tuple[Finding, ...]:
    """The findings of a sheet: of a kind that floods one for each column, about all its records, at the first place."""
    columns: dict[tuple[object, ...], dict[Shortfall, None]] = {}
    for one in shortfalls:
        key = (one.code, one.column) if CODES[one.code].floods else (one,)
        columns.setdefault(key, {})[one] = None
    return tuple(_find_column(sheet, tuple(own)) for own in columns.values())


def _find_column(sheet: str, own: tuple[Shortfall, ...]) -> Finding:
    first = own[0]
    subjects = tuple(dict.fromkeys(subject for one in own for subject in one.subjects))
    who = " ".join(f"{_ONE.get(subject.section, subject.section)} {subject.id}" for subject in first.subjects[:1])
    who = who.strip() or "the sheet"
    facts: dict[str, Any] = {"sheet": sheet, "who": who, "more": _name_more(own), **dict(first.facts)}
    return find(first.code, first.where, about=subjects, **facts)


def _name_more(own: tuple[Shortfall, ...]) -> str:
    """` (17 more like it, as TOM; VERA)`, or ""."""
    if len(own) == 1:
        return ""
    texts = dict.fromkeys(one.facts[0][1] for one in own if one.facts)
    others = [*texts][1 : EXAMPLES + 1]
    clipped = (text if len(text) <= EXAMPLE_LENGTH else f"{text[:EXAMPLE_LENGTH]}…" for text in others)
    named = f", as {'; '.join(clipped)}" if others else ""
    return f" ({len(own) - 1} more like it{named})"
