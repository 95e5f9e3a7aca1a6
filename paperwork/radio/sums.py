"""In how many ways multiples of carriers sum to within a guard of a centre: two exact ways to count.

Measured with `tests/benchmarks/radio_counts.py`; `choose_sums` takes the cheaper one by estimate.
"""

import sys
from array import array
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Sequence
from itertools import accumulate
from math import gcd

MIN_RASTER_HZ = 1_000

Positions = list[list[int]]               # Hz, by family
Key = tuple[tuple[int, int], ...]         # (coefficient, family) of each carrier in the sum

# Cost on the machine of the measurement; they only choose between two exact ways. Measured: 1,000 carriers
# over 224 MHz take 0.13 s packed on 25 kHz, 1.0 s on 5 kHz, 15 s on 1 kHz, and 8 s sorted on any raster.
_BISECTION_SECONDS = 0.7e-6               # times n^2 log2(n) of them
_KILOBIT_SECONDS = 1.7e-6                 # times kilobits ^ log2(3), Karatsuba's exponent
_KARATSUBA = 1.585


class PackedSums:
    """Counts by multiplying packed integers; all positions on one raster of `unit_hz`."""

    def __init__(self, positions: Positions, unit_hz: int) -> None:
        base = min(min(hz) for hz in positions)
        self._unit_hz = unit_hz
        self._points = [[(hz - base) // unit_hz for hz in family] for family in positions]
        self._base = base
        self._packed: dict[tuple[Key, int], tuple[int, int]] = {}
        self._running: dict[Key, tuple[list[int], int]] = {}

    def count(self, key: Key, centres_hz: Sequence[int], guard_hz: int) -> list[int]:
        """For each centre the number of ways with |sum - centre| < guard. Positions are absolute Hz, and the
        key's coefficients and the centre's must balance, as they do in every product."""
        if not key:
            return [1 if abs(centre) < guard_hz else 0 for centre in centres_hz]
        total = sum(coef for coef, _ in key)
        reach = (guard_hz - 1) // self._unit_hz
        running, lowest = self._running_of(key)
        top = len(running) - 1
        shift = total * self._base
        found = []
        for centre in centres_hz:
            at = (centre - shift) // self._unit_hz - lowest
            high = min(max(at + reach + 1, 0), top)
            found.append(running[high] - running[min(max(at - reach, 0), top)])
        return found

    def _running_of(self, key: Key) -> tuple[list[int], int]:
        """Running totals of the number of ways, and the sum at the first point."""
        if key not in self._running:
            most = 1
            for _, family in key:
                most *= max(Counter(self._points[family]).values())
            for _, family in key[1:]:
                most *= len(self._points[family])
            width = next(size for size in (2, 4, 8, 16, 32) if most < 1 << 8 * size)
            packed, lowest = self._pack(tuple(reversed(key)), width)
            self._running[key] = list(accumulate(_unpack(packed, width), initial=0)), lowest
        return self._running[key]

    def _pack(self, key: Key, width: int) -> tuple[int, int]:
        """The packed ways of a key and the sum at its point 0. Equal factors meet first: squaring is cheaper."""
        if (key, width) not in self._packed:
            if len(key) > 1:
                left, left_low = self._pack(key[:-1], width)
                right, right_low = self._pack(key[-1:], width)
                self._packed[key, width] = left * right, left_low + right_low
            else:
                coef, family = key[0]
                values = Counter(coef * point for point in self._points[family])
                lowest = min(values)
                cells = bytearray((max(values) - lowest + 1) * width)
                for value, times in values.items():
                    at = (value - lowest) * width
                    cells[at:at + width] = times.to_bytes(width, "little")
                self._packed[key, width] = int.from_bytes(cells, "little"), lowest
        return self._packed[key, width]


def _unpack(packed: int, width: int) -> Sequence[int]:
    cells = packed.to_bytes((packed.bit_length() // (8 * width) + 1) * width, "little")
    if width > 8:
        return [int.from_bytes(cells[at:at + width], "little") for at in range(0, len(cells), width)]
    numbers = array({2: "H", 4: "I", 8: "Q"}[width])
    numbers.frombytes(cells)
    if sys.byteorder == "big":
        numbers.byteswap()
    return numbers


class SortedSums:
    """Counts by bisection in sorted sums of at most two carriers; indifferent to the raster."""

    def __init__(self, positions: Positions) -> None:
        self._positions = positions
        self._sorted: dict[Key, list[int]] = {}

    def count(self, key: Key, centres_hz: Sequence[int], guard_hz: int) -> list[int]:
        """As `PackedSums.count`."""
        if not key:
            return [1 if abs(centre) < guard_hz else 0 for centre in centres_hz]
        if len(key) < 3:
            sums = self._sums_of(key)
            return [bisect_left(sums, centre + guard_hz) - bisect_right(sums, centre - guard_hz)
                    for centre in centres_hz]
        sums = self._sums_of(key[1:])
        coef, family = key[0]
        shifts = [coef * hz for hz in self._positions[family]]
        return [sum(bisect_left(sums, centre - shift + guard_hz) - bisect_right(sums, centre - shift - guard_hz)
                    for shift in shifts) for centre in centres_hz]

    def _sums_of(self, key: Key) -> list[int]:
        if key not in self._sorted:
            values = [0]
            for coef, family in key:
                values = [value + coef * hz for value in values for hz in self._positions[family]]
            values.sort()
            self._sorted[key] = values
        return self._sorted[key]


def common_raster_hz(frequencies_hz: Sequence[int]) -> int:
    """The greatest common divisor of all differences; 0 when there is no difference."""
    return gcd(*(hz - frequencies_hz[0] for hz in frequencies_hz[1:])) if frequencies_hz else 0


def choose_sums(positions: Positions, heaviest: int) -> PackedSums | SortedSums:
    """The cheaper of the two for sums of up to `heaviest` carriers."""
    every = [hz for family in positions for hz in family]
    unit_hz = common_raster_hz(every) or MIN_RASTER_HZ
    if unit_hz < MIN_RASTER_HZ or not every:
        return SortedSums(positions)
    count = len(every)
    bits = 16 if count ** (heaviest - 1) < 1 << 16 else 32
    kilobits = (max(every) - min(every)) // unit_hz * bits * heaviest / 1000
    packed_seconds = _KILOBIT_SECONDS * kilobits ** _KARATSUBA
    sorted_seconds = _BISECTION_SECONDS * count ** (heaviest - 1) * count.bit_length()
    return PackedSums(positions, unit_hz) if packed_seconds < sorted_seconds else SortedSums(positions)
