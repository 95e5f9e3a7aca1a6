"""What a reader of sweeps gathers: levels by range, in whatever unit the file has, and the lines that hold none."""

from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation

from paperwork.files.sweep.units import list_units

WIDEST_CDB = 30_000
"""Levels between which a number is taken for a reading, in hundredths of any decibel."""


@dataclass(slots=True)
class Levels:
    """`held` is the highest level of each range of hertz, in hundredths of the file's unit. `units` are those that it names,
    `bad` the numbers of lines that are no part of a sweep."""

    held: dict[tuple[int, int], int] = field(default_factory=dict)
    units: set[str] = field(default_factory=set)
    bad: list[int] = field(default_factory=list)

    def hold(self, low_hz: int, high_hz: int, level: int) -> None:
        """Takes in one level."""
        key = low_hz, high_hz
        if self.held.get(key, level) <= level:
            self.held[key] = level

    def name_units(self, text: str) -> None:
        """Takes in the units that a text names."""
        self.units |= list_units(text)


def parse_level(text: str) -> int | None:
    """The level in hundredths; None for what is none, as `nan` and `-inf`."""
    try:
        level = Decimal(text.strip().replace(",", ".")) * 100
    except InvalidOperation:
        return None
    return scale_level(level)


def scale_level(level: Decimal) -> int | None:
    """The same of a number of hundredths."""
    return round(level) if level.is_finite() and -WIDEST_CDB <= level <= WIDEST_CDB else None
