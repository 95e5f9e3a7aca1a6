"""Values of facts as people read them, in one place for the screen and for paper."""

from collections.abc import Mapping
from typing import Any

from paperwork.model import Slot
from paperwork.model.row import Field
from paperwork.text.units import Range, format_range

NOTHING = "\u2013"
"""Printed where a fact is not given."""


def format_fact(field: Field, value: Any, w: Mapping[str, str]) -> str:
    """One value of a field in words: a frequency in MHz, a time as `h:mm`, a list with commas; a dash where it is empty."""
    if isinstance(value, bool):
        return w["yes"] if value else w["no"]
    if value is None or value == "" or value == ():
        return NOTHING
    if isinstance(value, Range):
        return f"{format_range(value)} MHz"
    if isinstance(value, tuple) and field.kind.reads == "pairs":
        return ", ".join(map(": ".join, value))
    if isinstance(value, tuple):
        return ", ".join(format_fact(field, item, w) for item in value)
    return field.kind.format(value) if isinstance(value, int) else str(value)


def split_list(old: tuple[Any, ...], new: tuple[Any, ...]) -> tuple[tuple[Any, ...], tuple[Any, ...]]:
    """What only the old list and what only the new one holds."""
    return tuple(item for item in old if item not in new), tuple(item for item in new if item not in old)


def is_plain_list(value: Any) -> bool:
    """Whether a value is a list of ids or names, best said by what joined and what left."""
    return isinstance(value, tuple) and bool(value) and all(isinstance(item, str | Slot) for item in value)
