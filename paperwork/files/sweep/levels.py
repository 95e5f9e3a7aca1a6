"""What a reader of sweeps gathers: levels by range, in whatever unit the file has, and the lines that hold none."""

from collections.abc import Iterable
from decimal import Decimal, InvalidOperation

from paperwork.files.sweep.units import list_units
from paperwork.text.units import GHZ, HIGHEST_HZ, KHZ, LOWEST_HZ, MHZ

FINE = 10**9
"""Frequencies are whole billionths of the file's unit until that is known."""

WIDEST_CDB = 30_000
"""Levels between which a number is taken for a reading, in hundredths of any decibel."""


class Levels:
    """`held` is the highest level of each range of hertz, in hundredths of the file's unit. `units` are those that it
    names, `bad` the numbers of lines that are no part of a sweep."""

    def __init__(self, held: dict[tuple[int, int], int] | None = None, bad: Iterable[int] = ()) -> None:
        self.held = {} if held is None else held
        self.units: set[str] = set()
        self.bad = list(bad)

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


def choose_units(in_cells: set[str], in_head: set[str]) -> set[str]:
    """The units that cells name, else those of the head."""
    return {one for unit in in_cells for one in list_units(unit) or {unit}} or set(in_head)


def guess_hertz(fine: dict[tuple[int, int], int]) -> int:
    """What the frequencies of a file count in: bands up to 6 GHz in MHz, kHz and Hz do not meet, and what is too low
    for MHz can be GHz alone. 0: nothing that a radio uses."""
    lowest, highest = min((key[0] for key in fine), default=0), max((key[1] for key in fine), default=0)
    if highest < 25 * FINE:
        is_ghz = lowest * GHZ >= LOWEST_HZ * FINE and highest * GHZ <= HIGHEST_HZ * FINE
        return GHZ if is_ghz else 0
    return MHZ if highest < 25_000 * FINE else KHZ if highest < 25_000_000 * FINE else 1
