"""Power on the air, from sweeps: what a carrier, or a television channel, gets in its own bandwidth.

Levels are whole hundredths of a dBm (`_cdbm`). Powers are whole numbers of 10^-36 mW, densities of 10^-36 mW in a hertz,
so that sums are exact and the same everywhere. What is rounded: a power by 1 in 10^16, and the density of -200 dBm in a
bin of 1 GHz, the lowest that is read, by 1 in 10^7, which is 0.0000005 dB. A level that is read is rounded to 0.01 dB.

A bin that reaches only partly into a bandwidth counts in proportion, as if its power lay evenly in it. A part that the
sweep does not cover is unknown, and never taken for clean.
"""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from decimal import Context, Decimal
from functools import cache, cached_property
from itertools import accumulate, pairwise
from math import log10
from typing import NamedTuple

from paperwork.radio.bands import Range, merge_ranges, subtract_ranges

MILLIWATT = 10**36
"""One milliwatt in units of power."""

PIECE_HZ, PIECES, QUIET_SHARE = 1_000_000, 5, 5
"""The noise floor: the width of a piece, how many are wanted, the share of the quietest. Our own choices."""

NARROWEST_HZ = 10_000
"""A narrower carrier is searched for as one of this width, so that a search ends. Choice of this project, no source."""

_EXACT = Context(prec=40)
_ROOT = Decimal("1.002305238077899671915404889328110554054")
"""A thousandth of a bel as a factor, 10 to the power of 0.001: its whole powers cost a tenth of other powers of ten."""

_STEPS_HZ = (25_000, 2_500, 500)
_STEPS_IN_BANDWIDTH = 40


class Bin(NamedTuple):
    """One level, the power between `low_hz` and `high_hz`."""

    low_hz: int
    high_hz: int
    level_cdbm: int


class Segment(NamedTuple):
    """A part of the spectrum with one density of power."""

    low_hz: int
    high_hz: int
    density: int


@cache
def _mantissa(rest: int) -> int:
    return int((_EXACT.power(_ROOT, rest) * 10**16).to_integral_value())


@cache
def to_power(level_cdbm: int) -> int:
    """The power of a level of at least -200 dBm."""
    bels, rest = divmod(level_cdbm, 1_000)
    power: int = _mantissa(rest) * 10 ** (20 + bels)
    return power


def to_level(power: int) -> int:
    """The level of a power above 0, in hundredths of a dBm.

    The logarithm of the machine is some 10^-12 off. Where that could round to another level, the exact one is asked: it
    takes a hundred times as long.
    """
    level = log10(power) * 1_000
    if abs(level % 1 - 0.5) > 0.000_001:
        return round(level) - 36_000
    return round(_EXACT.log10(Decimal(power)) * 1_000) - 36_000


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
    steps = [upper - lower for lower, upper in pairwise(centres)]
    usual_hz = sorted(steps)[len(steps) // 2]
    widths = [min(step, 2 * usual_hz) for step in steps]
    lows = (hz - width // 2 for hz, width in zip(centres, [usual_hz, *widths], strict=True))
    highs = (hz + (width + 1) // 2 for hz, width in zip(centres, [*widths, usual_hz], strict=True))
    return tuple(map(Bin, lows, highs, map(held.__getitem__, centres)))


def spread(bins: Iterable[Bin]) -> list[Segment]:
    """Each bin with its power spread evenly over its width."""
    return [Segment(low, high, (to_power(level) + (high - low) // 2) // (high - low)) for low, high, level in bins]


def hold(segments: Iterable[Segment]) -> list[Segment]:
    """The same spectrum without overlaps, the highest density everywhere, from the lowest frequency up."""
    ordered = sorted(segments)
    if all(one.high_hz <= two.low_hz for one, two in pairwise(ordered)):
        return ordered
    from heapq import heappop, heappush

    held: list[Segment] = []
    open_ones: list[tuple[int, int]] = []  # (-density, upper edge) of what reaches over the current frequency
    marks = sorted({edge for one in ordered for edge in one[:2]})
    following = 0
    for low, high in pairwise(marks):
        while following < len(ordered) and ordered[following].low_hz <= low:
            heappush(open_ones, (-ordered[following].density, ordered[following].high_hz))
            following += 1
        while open_ones and open_ones[0][1] <= low:
            heappop(open_ones)
        if open_ones:
            held.append(Segment(low, high, -open_ones[0][0]))
    return held


class Sweep:
    """One sweep, or several held at their highest, ready to be asked. `floor` is None where too little was swept."""

    def __init__(self, segments: Iterable[Segment]) -> None:
        self.segments = hold(segments)
        self._lows = [one.low_hz for one in self.segments]
        self._sums = [0, *accumulate(one.density * (one.high_hz - one.low_hz) for one in self.segments)]

    @cached_property
    def covered(self) -> tuple[Range, ...]:
        """What was swept."""
        return merge_ranges((one.low_hz, one.high_hz) for one in self.segments)

    @cached_property
    def usual_hz(self) -> int:
        """The width that half of the bins do not exceed; 0 without any."""
        widths = sorted(one.high_hz - one.low_hz for one in self.segments)
        return widths[len(widths) // 2] if widths else 0

    @cached_property
    def floor(self) -> int | None:
        """The density of the noise floor: of the mean densities of all whole megahertz, the one that a fifth does not
        exceed.

        Means of a megahertz hardly scatter, however fine or restless the bins are; and where television takes up to
        four fifths of what was swept, the quiet rest decides. None where less than 5 MHz were swept.
        """
        means = []
        for start in sorted({hz for low, high in self.covered for hz in range(low // PIECE_HZ, -(-high // PIECE_HZ))}):
            low, high = start * PIECE_HZ, (start + 1) * PIECE_HZ
            known = PIECE_HZ - sum(b - a for a, b in self.missing(low, high))
            if 2 * known >= PIECE_HZ:
                means.append(self.power(low, high) // known)
        return sorted(means)[len(means) // QUIET_SHARE] if len(means) >= PIECES else None

    def power(self, low_hz: int, high_hz: int) -> int:
        """The power between two frequencies; 0 where nothing was swept."""
        return self._power_below(high_hz) - self._power_below(low_hz)

    def _power_below(self, hz: int) -> int:
        at = bisect_right(self._lows, hz) - 1
        if at < 0:
            return 0
        low, high, density = self.segments[at]
        return self._sums[at] + density * (min(hz, high) - low)

    def level(self, low_hz: int, high_hz: int) -> int | None:
        """The same as a level; None where nothing was swept. A low level is no proof of clean air where a part is
        `missing`."""
        power = self.power(low_hz, high_hz)
        return to_level(power) if power else None

    def missing(self, low_hz: int, high_hz: int) -> tuple[Range, ...]:
        """The parts of [low, high) that no bin covers."""
        return subtract_ranges([(low_hz, high_hz)], self._covered_near(low_hz, high_hz))

    def width_above(self, low_hz: int, high_hz: int, density: int) -> int:
        """How much of [low, high) has at least some density, in Hz."""
        first = max(bisect_right(self._lows, low_hz) - 1, 0)
        near = self.segments[first : bisect_right(self._lows, high_hz)]
        return sum(
            max(0, min(one.high_hz, high_hz) - max(one.low_hz, low_hz)) for one in near if one.density >= density
        )

    def _covered_near(self, low_hz: int, high_hz: int) -> tuple[Range, ...]:
        first = bisect_right(self.covered, (low_hz, low_hz)) - 1
        return self.covered[max(first, 0) : bisect_right(self.covered, (high_hz, high_hz))]

    def without(self, ranges: Iterable[Range]) -> "Sweep":
        """The sweep without the bins that reach into some ranges, or lie beside what does."""
        taken = merge_ranges(ranges)
        lows = [low for low, _ in taken]

        def is_free(one: Segment) -> bool:
            width = one.high_hz - one.low_hz
            at = bisect_right(lows, one.high_hz + width) - 1
            return at < 0 or taken[at][1] <= one.low_hz - width

        return Sweep(one for one in self.segments if is_free(one))

    def list_loud(self, bandwidth_hz: int, limit: int) -> tuple[Range, ...]:
        """Ranges that a carrier must not overlap to get no more power than `limit` in its bandwidth.

        No loud place is left out. They are exact to a step of a fortieth of the bandwidth or less, and where something
        is loud only for a carrier right over it, up to half a bandwidth too wide. They hold for narrower carriers too.
        """
        width = max(2 * -(-bandwidth_hz // 2), NARROWEST_HZ)
        step = next((step for step in _STEPS_HZ if step * _STEPS_IN_BANDWIDTH <= width), _STEPS_HZ[-1])
        near = (
            (low - width - step, high + step)
            for low, high, density in self.segments
            if density * (width + step) > limit
        )
        loud = []
        for first, end in merge_ranges(near):
            start = None
            for low, is_loud in self._walk(first // step * step, end, width, step, limit):
                if is_loud and start is None:
                    start = low
                elif not is_loud and start is not None:
                    loud.append(_block(start + width, low))
                    start = None
        return merge_ranges(loud)

    def _walk(self, first_hz: int, end_hz: int, width: int, step: int, limit: int) -> Iterator[tuple[int, bool]]:
        """Where the lower edge of a carrier may be, part by part up to the end and one beyond: is one of them loud?"""
        low, far = first_hz, width // 2 // step * step
        while low <= end_hz:
            at = bisect_right(self._lows, low) - 1
            inside_to = (self.segments[at].high_hz - width) // step * step if at >= 0 else low
            if inside_to > low:  # all of them lie in one segment
                yield low, self.segments[at].density * width > limit
                low = inside_to
            elif self._power_below(low + width) - self._power_below(low + far) > limit:  # what all of them share
                yield low, True
                low += far
            else:  # none of them gets more than all together
                yield low, self._power_below(low + step + width) - self._power_below(low) > limit
                low += step
        yield low, False


def _block(low_hz: int, high_hz: int) -> Range:
    """The range between the upper edge of the first carrier that is not loud yet and the lower edge of the first that
    is no longer; 1 Hz between them where they overlap."""
    middle_hz = (low_hz + high_hz) // 2
    return (low_hz, high_hz) if low_hz < high_hz else (middle_hz, middle_hz + 1)
