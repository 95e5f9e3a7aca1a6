"""The rows of general sweep utilities: date, time, lowest Hz, highest Hz, width of a bin in Hz, number of samples, levels."""

import re
from collections.abc import Iterable
from decimal import Decimal, InvalidOperation

from paperwork import limits
from paperwork.files.sweep.levels import Levels, parse_level
from paperwork.text.units import GHZ

DATED = re.compile(r"\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*,(?:[^,]*,){5}")
"""How such a row begins."""

_COLUMNS = 6


def read_rows(lines: Iterable[str]) -> Levels:
    """The bins of all rows at their highest."""
    found = Levels()
    for number, line in enumerate(lines, 1):
        if not line:
            continue
        if line.startswith("#"):
            found.name_units(line)
            continue
        row = _split_row(line)
        if row is None:
            found.bad.append(number)
            continue
        low, width, levels = row
        for index, level in enumerate(levels):
            found.hold(round(low + index * width), round(low + (index + 1) * width), level)
        if len(found.held) > limits.SWEEP_LEVELS:
            break
    return found


def _split_row(line: str) -> tuple[Decimal, Decimal, list[int]] | None:
    """Where a row starts, the width of its bins and their levels; None for a line that is no row."""
    parts = line.rstrip(", ").split(",")
    try:
        low, high, width = map(Decimal, parts[2:5])
    except (InvalidOperation, ValueError):
        return None
    levels = [level for part in parts[_COLUMNS:] if (level := parse_level(part)) is not None]
    if not levels or len(levels) < len(parts) - _COLUMNS or not all(one.is_finite() for one in (low, high, width)):
        return None
    fits = 0 <= low < high <= 100 * GHZ and 1 <= width <= GHZ and low + (len(levels) - 1) * width <= high
    return (low, width, levels) if fits else None
