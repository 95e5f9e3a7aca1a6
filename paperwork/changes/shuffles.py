"""Facts that changed places among records: what a column sorted by itself, or shifted by a row, leaves behind."""

from collections import Counter
from collections.abc import Sequence

from paperwork.changes.lines import Entry
from paperwork.changes.values import NOTHING
from paperwork.frozen import frozen

FEWEST = 3
"""Two that change places are an exchange, which is often meant. Choice of this project."""


@frozen
class Shuffle:
    """One fact, by its printed `field`, of some records of a section: each has now what another of them had."""

    section: str
    field: str
    ids: tuple[str, ...]


def list_shuffles(entries: Sequence[Entry]) -> tuple[Shuffle, ...]:
    """Every fact that at least three records passed on among each other. Where a column slipped by a row, one value is gone
    and one is new: then it takes one more."""
    held: dict[tuple[str, str, str], list[Entry]] = {}
    for entry in entries:
        if entry.sign in ("changed", "moved") and NOTHING not in (entry.old, entry.new) and entry.name != "order":
            held.setdefault((entry.section, entry.name, entry.field), []).append(entry)
    found = []
    for (section, _, field), several in held.items():
        shared = (Counter(one.old for one in several) & Counter(one.new for one in several)).total()
        is_lively = len({one.old for one in several}) >= FEWEST
        if is_lively and shared >= FEWEST and shared >= len(several) - 1:
            found.append(Shuffle(section, field, tuple(one.id for one in several)))
    return tuple(found)
