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

Positions = list[list[int]]  # Hz, by family
Key = tuple[tuple[int, int], ...]  # (coefficient, family) of each carrier in the sum

# Cost on the machine of the measurement; they only choose between two exact ways. Measured, processor time:
# 1,000 carriers over 224 MHz take 0.09 s packed on 25 kHz, 0.8 s on 5 kHz, 15 s on 1 kHz, and 6 to 8 s sorted
# on any raster; 125 to 4,000 carriers on 25 kHz take 0.04 to 0.16 s packed.
_BISECTION_SECONDS = 0.7e-6  # times n^2 log2(n) of them
_KILOBIT_SECONDS = 1.7e-6  # times kilobits ^ log2(3), Karatsuba's exponent
_KARATSUBA = 1.585


class PackedSums:
    """Counts by multiplying packed integers; all positions on one raster of `unit_hz`."""

    def __init__(self, positions: Positions, unit_hz: int) -> None:
        self._base_hz = min(min(hz) for hz in positions)
        self._unit_hz = unit_hz
        self._points = [sorted((hz - self._base_hz) // unit_hz for hz in family) for family in positions]
        self._packed: dict[tuple[int, ...], tuple[int, int]] = {}
        self._running: dict[Key, tuple[list[int], int]] = {}

    def count(self, key: Key, centres_hz: Sequence[int], guard_hz: int) -> list[int]:
        """For each centre the number of ways with |sum - centre| < guard. Positions are absolute Hz, and the
        key's coefficients and the centre's must balance, as they do in every product."""
        if not key:
            return [1 if abs(centre) < guard_hz else 0 for centre in centres_hz]
        reach = (guard_hz - 1) // self._unit_hz
        shift = sum(coef for coef, _ in key) * self._base_hz
        centres = [(centre - shift) // self._unit_hz for centre in centres_hz]
        if len(key) == 2 and len(centres) == 1:
            return [self._count_by_bisection(key, centres[0], reach)]
        running, lowest = self._running_of(key)
        top = len(running) - 1
        found = []
        for centre in centres:
            low = centre - lowest - reach
            high = centre - lowest + reach + 1
            if high > 0 and low < top:
                found.append(running[min(top, high)] - running[max(0, low)])
            else:
                found.append(0)
        return found

    def _count_by_bisection(self, key: Key, centre: int, reach: int) -> int:
        """The ways for one centre alone: not worth a multiplication."""
        (first, family), (second, other) = key
        scaled = sorted(second * point for point in self._points[other])
        wanted = [centre - first * point for point in self._points[family]]
        return sum(bisect_right(scaled, at + reach) - bisect_left(scaled, at - reach) for at in wanted)

    def _running_of(self, key: Key) -> tuple[list[int], int]:
        """Running totals of the number of ways, and the sum at the first point."""
        if key not in self._running:
            most = max(Counter(self._points[key[0][1]]).values())
            for _, family in key[1:]:
                most *= len(self._points[family]) * max(Counter(self._points[family]).values())
            width = next(size for size in (2, 4, 8, 16, 32) if most < 1 << 8 * size)
            ways, lowest = self._ways_of_two(key, width) if len(key) == 2 else self._ways(key, width)
            self._running[key] = list(accumulate(ways, initial=0)), lowest
        return self._running[key]

    def _ways(self, key: Key, width: int) -> tuple[Sequence[int], int]:
        """The ways to each sum, and the lowest sum. Equal factors come first: squaring is cheaper."""
        packed, lowest = 0, 0
        for number, (coef, family) in enumerate(reversed(key)):
            factor, low = self._pack(coef, family, 1, 0, width)
            packed = packed * factor if number else factor
            lowest += low
        return _unpack(packed, width), lowest

    def _ways_of_two(self, key: Key, width: int) -> tuple[Sequence[int], int]:
        """As `_ways`, for pa + qb. With a taken by its rest modulo q and b by its rest modulo p, every pair
        of rests has its own rest modulo pq: 6 short multiplications do the work of a long one for 3a - 2b."""
        (p, family), (q, other) = key
        if gcd(p, q) > 1 or abs(p * q) == 1:
            return self._ways(key, width)
        stride = abs(p * q)
        parts = []
        for rest in range(abs(q)):
            left, left_low = self._pack(1 if p > 0 else -1, family, abs(q), rest, width)
            for other_rest in range(abs(p)):
                right, right_low = self._pack(1 if q > 0 else -1, other, abs(p), other_rest, width)
                if left and right:
                    lowest = stride * (left_low + right_low) + p * rest + q * other_rest
                    parts.append((lowest, _unpack(left * right, width)))
        first = min(lowest for lowest, _ in parts)
        ways = [0] * (max(lowest + stride * len(part) for lowest, part in parts) - first)
        for lowest, part in parts:
            ways[lowest - first : lowest - first + stride * len(part) : stride] = part
        return ways, first

    def _pack(self, coef: int, family: int, modulus: int, rest: int, width: int) -> tuple[int, int]:
        """The family's points with that rest, divided by the modulus and multiplied by the coefficient, as
        one integer with `width` bytes a point, and the point at its low end; 0 when there are none."""
        key = coef, family, modulus, rest, width
        if key not in self._packed:
            values = Counter(coef * (point // modulus) for point in self._points[family] if point % modulus == rest)
            lowest = min(values, default=0)
            cells = bytearray((max(values, default=0) - lowest + 1) * width)
            for value, times in values.items():
                at = (value - lowest) * width
                cells[at : at + width] = times.to_bytes(width, "little")
            self._packed[key] = int.from_bytes(cells, "little"), lowest
        return self._packed[key]


def _unpack(packed: int, width: int) -> Sequence[int]:
    cells = packed.to_bytes((packed.bit_length() // (8 * width) + 1) * width, "little")
    if width > 8:
        return [int.from_bytes(cells[at : at + width], "little") for at in range(0, len(cells), width)]
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
            return [
                bisect_left(sums, centre + guard_hz) - bisect_right(sums, centre - guard_hz) for centre in centres_hz
            ]
        sums = self._sums_of(key[1:])
        coef, family = key[0]
        shifts = [coef * hz for hz in self._positions[family]]
        return [
            sum(
                bisect_left(sums, at + guard_hz) - bisect_right(sums, at - guard_hz)
                for at in (centre - shift for shift in shifts)
            )
            for centre in centres_hz
        ]

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
    packed_seconds = _KILOBIT_SECONDS * kilobits**_KARATSUBA
    sorted_seconds = _BISECTION_SECONDS * count ** (heaviest - 1) * count.bit_length()
    return PackedSums(positions, unit_hz) if packed_seconds < sorted_seconds else SortedSums(positions)
