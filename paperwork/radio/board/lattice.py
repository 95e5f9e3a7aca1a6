"""The lattice that a search works on, and the places where a channel may go before any carrier is placed.

Every carrier and every candidate is a whole number of lattice units above the base, and an offset. The unit is
the coarsest on which all offsets are 0. Where odd frequencies would make that finer than 1 kHz, the unit is that
of the candidates, and carriers of one offset are a comb of their own (`Comb`), so that every sum stays exact. Only
when there are more offsets than `MOST_OFFSETS` are the rarest rounded, and what they take part in is widened by
what that rounding can add up to: the search then stays on the safe side.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import chain
from math import gcd
from typing import NamedTuple

from paperwork.frozen import frozen
from paperwork.radio.bands import BlockedRange, Range, check_range, merge_ranges
from paperwork.radio.carrier import Carrier, Family
from paperwork.radio.products.sums import MIN_RASTER_HZ

# The work of a search grows with the offsets: each makes combs of its own.
MOST_OFFSETS = 8


@frozen
class Want:
    """A channel that wants a frequency. The carrier's own `hz` is where it is now, or 0.

    `ranges`: where the whole bandwidth must lie (window and tuning range already intersected). `step_hz`, `origin_hz`:
    what the unit can be tuned to. `avoid`: a centre in one of these is second choice, taken where nothing else is
    lost. `spots`: the only centres that count, all on the step; empty for all.
    """

    carrier: Carrier
    ranges: tuple[Range, ...]
    step_hz: int = 25_000
    origin_hz: int = 0
    avoid: tuple[Range, ...] = ()
    spots: frozenset[int] = frozenset()


class Comb(NamedTuple):
    """Carriers that are alike in everything but name and position: `offset_hz` above their position, give or take
    `slack_hz`."""

    family: Family
    offset_hz: int = 0
    slack_hz: int = 0


@frozen
class Lattice:
    """Position p of a comb is `base_hz` + p * `unit_hz` + the comb's offset. `offsets` are those that are kept exactly;
    any other is rounded to the middle of one of `parts` parts of the unit."""

    base_hz: int
    unit_hz: int
    size: int
    offsets: frozenset[int] = frozenset({0})
    parts: int = MOST_OFFSETS

    def position(self, hz: int) -> int:
        """The position at or below a frequency; negative below the base."""
        return (hz - self.base_hz) // self.unit_hz

    def comb(self, family: Family, hz: int) -> Comb:
        """The comb of a carrier of this family at a frequency."""
        offset = (hz - self.base_hz) % self.unit_hz
        if offset in self.offsets:
            return Comb(family, offset)
        part = offset * self.parts // self.unit_hz
        middle = (2 * part + 1) * self.unit_hz // (2 * self.parts)
        return Comb(family, middle, self.unit_hz // (2 * self.parts) + 1)


def candidate_frequencies_hz(want: Want) -> list[int]:
    """All centres on the channel's step with the whole bandwidth inside one of its ranges, lowest first."""
    return list(chain.from_iterable(_list_runs(want)))


def _list_runs(want: Want) -> list[Sequence[int]]:
    """The same by range."""
    if want.step_hz <= 0:
        raise ValueError(f"step of {want.carrier.id} is {want.step_hz} Hz")
    half_hz = -(-want.carrier.bandwidth_hz // 2)
    runs: list[Sequence[int]] = []
    for low, high in merge_ranges(want.ranges):
        first = low + half_hz
        first += -(first - want.origin_hz) % want.step_hz
        last = high - half_hz
        if want.spots:
            runs.append([hz for hz in sorted(want.spots) if first <= hz <= last])
        else:
            runs.append(range(first, last + 1, want.step_hz))
    return runs


class Places:
    """Where a channel may go on a lattice: `every` place on which it has a frequency; by cause, those that blocks take
    away (`blocked`); and what they leave (`allowed`). Of several frequencies on one place the highest counts."""

    def __init__(self, want: Want, blocks: Iterable[BlockedRange], lattice: Lattice) -> None:
        self._lattice = lattice
        runs = _list_runs(want)
        self._frequencies = list(chain.from_iterable(runs))
        self.every = 0
        for run in runs:
            self.every |= _mark_run(run, lattice)
        if self.every.bit_count() < len(self._frequencies):
            self._frequencies = list({lattice.position(hz): hz for hz in self._frequencies}.values())
        self.blocked: dict[str, int] = {}
        half_hz = -(-want.carrier.bandwidth_hz // 2)
        for block in blocks:
            if block.holds_for(want.carrier.bandwidth_hz):
                check_range(block.low_hz, block.high_hz)
                taken = self._between(block.low_hz - half_hz + 1, block.high_hz + half_hz)
                if taken:
                    self.blocked[block.cause] = self.blocked.get(block.cause, 0) | taken
        self.allowed = self.every
        for taken in self.blocked.values():
            self.allowed &= ~taken

    def _between(self, low_hz: int, high_hz: int) -> int:
        """The places of the frequencies from one up to, not including, another."""
        first, end = bisect_left(self._frequencies, low_hz), bisect_left(self._frequencies, high_hz)
        if first == end:
            return 0
        lowest, highest = (self._lattice.position(self._frequencies[at]) for at in (first, end - 1))
        return self.every & (1 << highest - lowest + 1) - 1 << lowest

    def hz_at(self, place: int) -> int:
        """The frequency on one of the places."""
        return self._frequencies[bisect_left(self._frequencies, self._lattice.base_hz + place * self._lattice.unit_hz)]

    def list_hz(self, places: int) -> list[int]:
        """The frequencies on some of the places."""
        return self._frequencies.copy() if places == self.every else list(map(self.hz_at, positions_of(places)))


def _mark_run(run: Sequence[int], lattice: Lattice) -> int:
    """The places of some frequencies. Of even steps a few shifts mark all."""
    if not isinstance(run, range) or run.step % lattice.unit_hz or not run:
        return bits_of(map(lattice.position, run))
    step, bits, have = run.step // lattice.unit_hz, 1, 1
    while have < len(run):
        more = min(have, len(run) - have)
        bits |= bits << more * step
        have += more
    return bits << lattice.position(run[0])


def choose_lattice(wants: Sequence[Want], carriers: Sequence[Carrier], margin_hz: int) -> Lattice:
    """A lattice for these channels and carriers with `margin_hz` free below the lowest, so that what lies
    lower can reach no candidate."""
    steps = [want.step_hz for want in wants]
    marks = [want.origin_hz for want in wants] + [carrier.hz for carrier in carriers]
    edges = [hz for want in wants for pair in want.ranges for hz in check_range(*pair)]
    anchor = marks[0] if marks else 0
    unit_hz = gcd(*steps, *(mark - anchor for mark in marks))
    if unit_hz < MIN_RASTER_HZ:
        anchor = wants[0].origin_hz if wants else 0
        unit_hz = gcd(*steps, *(want.origin_hz - anchor for want in wants))
        unit_hz = max(MIN_RASTER_HZ, unit_hz if unit_hz >= MIN_RASTER_HZ else gcd(*steps))
    low_hz = min([carrier.hz for carrier in carriers] + edges, default=anchor) - margin_hz
    high_hz = max([carrier.hz for carrier in carriers] + edges, default=anchor)
    base_hz = low_hz - (low_hz - anchor) % unit_hz
    size = (high_hz - base_hz) // unit_hz + 2
    if any(step % unit_hz for step in steps):
        return Lattice(base_hz, unit_hz, size, frozenset(), 1)
    own = [(want.origin_hz - base_hz) % unit_hz for want in wants]
    common = Counter((carrier.hz - base_hz) % unit_hz for carrier in carriers).most_common()
    offsets = tuple(dict.fromkeys([*own, *(offset for offset, _ in common)]))[:MOST_OFFSETS]
    return Lattice(base_hz, unit_hz, size, frozenset(offsets))


def bits_of(positions: Iterable[int]) -> int:
    """A bit set of the positions."""
    ordered = sorted(positions)
    if not ordered:
        return 0
    cells = bytearray(ordered[-1] // 8 + 1)
    for position in ordered:
        cells[position >> 3] |= 1 << (position & 7)
    return int.from_bytes(cells, "little")


def positions_of(bits: int) -> list[int]:
    """The positions in a bit set, from the lowest."""
    text = bin(bits)[:1:-1]
    found = []
    at = text.find("1")
    while at >= 0:
        found.append(at)
        at = text.find("1", at + 1)
    return found
