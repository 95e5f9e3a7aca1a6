"""Values of facts as people read them, in one place for the screen and for paper."""

from collections.abc import Mapping
from typing import Any

from paperwork.model import Slot
from paperwork.units import Range, format_clock, format_khz, format_level, format_mhz, format_range

NOTHING = "\u2013"
"""Printed where a fact is not told."""


def format_fact(field: str, value: Any, w: Mapping[str, str]) -> str:
    """One value in words: a frequency in MHz, a time as `h:mm`, a list with commas; a dash where nothing is told."""
    if isinstance(value, bool):
        return w["yes"] if value else w["no"]
    if value is None or value == "" or value == ():
        return NOTHING
    if isinstance(value, Range):
        return f"{format_range(value)} MHz"
    if isinstance(value, tuple):
        return ", ".join(format_fact(field, item, w) for item in value)
    if isinstance(value, int):
        return _format_number(field, value)
    return str(value)


def _format_number(field: str, value: int) -> str:
    if field in ("hz", "asked_hz", "granted_hz"):
        return f"{format_mhz(value)} MHz"
    if field.endswith("_hz"):
        return f"{format_khz(value)} kHz"
    if field.endswith("_cdbm"):
        return f"{format_level(value)} dBm"
    if field.endswith("_hundredths"):
        return f"{value // 100}.{value % 100:02d}"
    if field in ("swap_s", "swap_handheld_s", "crossing_s"):
        return f"{value} s"
    return format_clock(value) if field.endswith("_s") else str(value)


def split_list(old: tuple[Any, ...], new: tuple[Any, ...]) -> tuple[tuple[Any, ...], tuple[Any, ...]]:
    """What only the old list and what only the new one holds."""
    return tuple(item for item in old if item not in new), tuple(item for item in new if item not in old)


def is_plain_list(value: Any) -> bool:
    """Whether a value is a list of ids or names, told best by what joined and what left."""
    return isinstance(value, tuple) and bool(value) and all(isinstance(item, str | Slot) for item in value)
