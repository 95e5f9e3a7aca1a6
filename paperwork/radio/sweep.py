"""The level of the air under a carrier, from a sweep. Levels are whole hundredths of a dBm (`_cdbm`).

A part that the sweep does not cover is unknown, and never taken for clean.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from paperwork.radio.bands import Range, merge_ranges, subtract_ranges


@dataclass(frozen=True, slots=True, order=True)
class Bin:
    """One level, valid from `low_hz` up to `high_hz`."""

    low_hz: int
    high_hz: int
    level_cdbm: int


def make_bins(points: Iterable[tuple[int, int]]) -> tuple[Bin, ...]:
    """Bins from (Hz, level) points: each reaches half way to its neighbours, twice the usual step at most, so
    that a gap in the points stays a gap. Points at one frequency keep the highest. One point alone covers
    1 Hz, since nothing says how wide it is."""
    held: dict[int, int] = {}
    for hz, level in points:
        held[hz] = max(level, held.get(hz, level))
    centres = sorted(held)
    if len(centres) < 2:
        return tuple(Bin(hz, hz + 1, held[hz]) for hz in centres)
    steps = sorted(upper - lower for lower, upper in pairwise(centres))
    usual_hz = steps[len(steps) // 2]
    bins = []
    for i, hz in enumerate(centres):
        below = hz - centres[i - 1] if i else usual_hz
        above = centres[i + 1] - hz if i + 1 < len(centres) else usual_hz
        low_hz = hz - min(below, 2 * usual_hz) // 2
        bins.append(Bin(low_hz, hz + (min(above, 2 * usual_hz) + 1) // 2, held[hz]))
    return tuple(bins)


class Sweep:
    """One or several sweeps held at their highest level, ready to be asked."""

    def __init__(self, bins: Iterable[Bin]) -> None:
        self.bins: Sequence[Bin] = sorted(bins)
        self.covered: tuple[Range, ...] = merge_ranges((one.low_hz, one.high_hz) for one in self.bins)
        self._lows = [one.low_hz for one in self.bins]
        self._widest_hz = max((one.high_hz - one.low_hz for one in self.bins), default=0)

    def level_under(self, hz: int, bandwidth_hz: int) -> int | None:
        """The highest level under the bandwidth of a carrier at `hz`; None where no bin reaches under it.

        A low level is no proof of clean air where a part is `missing`.
        """
        half_hz = -(-bandwidth_hz // 2)
        low_hz, high_hz = hz - half_hz, hz + half_hz
        first = bisect_right(self._lows, low_hz - self._widest_hz)
        near = self.bins[first : bisect_left(self._lows, high_hz)]
        return max((one.level_cdbm for one in near if one.high_hz > low_hz), default=None)

    def missing(self, low_hz: int, high_hz: int) -> tuple[Range, ...]:
        """The parts of [low, high) that no bin covers."""
        return subtract_ranges([(low_hz, high_hz)], self.covered)

    def louder_than(self, limit_cdbm: int) -> tuple[Range, ...]:
        """The ranges with a level above the limit."""
        return merge_ranges((one.low_hz, one.high_hz) for one in self.bins if one.level_cdbm > limit_cdbm)
