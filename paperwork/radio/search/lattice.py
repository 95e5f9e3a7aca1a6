"""The lattice that a search works on, and the places where a channel may go before any carrier is placed.

Every carrier and every candidate is a whole number of lattice units above the base. When odd frequencies
make that unit finer than 1 kHz, positions are rounded and every guard is widened by what the rounding can
add up to: the search then stays on the safe side.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import gcd

from paperwork.radio.bands import BlockedRange, Range, check_range, merge_ranges
from paperwork.radio.carrier import Carrier
from paperwork.radio.products.sums import MIN_RASTER_HZ


@dataclass(frozen=True, slots=True)
class Want:
    """A channel that wants a frequency. The carrier's own `hz` is where it is now, or 0.

    `ranges`: where the whole bandwidth must lie (window and tuning range already intersected).
    `step_hz`, `origin_hz`: what the unit can be tuned to. `avoid`: a centre in one of these is
    second choice, taken where nothing else is lost.
    """

    carrier: Carrier
    ranges: tuple[Range, ...]
    step_hz: int = 25_000
    origin_hz: int = 0
    avoid: tuple[Range, ...] = ()


@dataclass(frozen=True, slots=True)
class Lattice:
    """Position p is `base_hz` + p * `unit_hz`. `slack_hz` is the error of a rounded position."""

    base_hz: int
    unit_hz: int
    size: int
    slack_hz: int = 0

    def position(self, hz: int) -> int:
        """The position nearest to a frequency; negative below the base."""
        return (2 * (hz - self.base_hz) + self.unit_hz) // (2 * self.unit_hz)


def candidate_frequencies_hz(want: Want) -> list[int]:
    """All centres on the channel's step with the whole bandwidth inside one of its ranges, lowest first."""
    if want.step_hz <= 0:
        raise ValueError(f"step of {want.carrier.id} is {want.step_hz} Hz")
    half_hz = -(-want.carrier.bandwidth_hz // 2)
    found: list[int] = []
    for low, high in merge_ranges(want.ranges):
        first = low + half_hz
        first += -(first - want.origin_hz) % want.step_hz
        found.extend(range(first, high - half_hz + 1, want.step_hz))
    return found


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
        unit_hz = max(MIN_RASTER_HZ, gcd(*steps, *(want.origin_hz - anchor for want in wants)))
        slack_hz = unit_hz // 2
    else:
        slack_hz = 0
    low_hz = min([carrier.hz for carrier in carriers] + edges, default=anchor) - margin_hz
    high_hz = max([carrier.hz for carrier in carriers] + edges, default=anchor)
    base_hz = low_hz - (low_hz - anchor) % unit_hz
    return Lattice(base_hz, unit_hz, (high_hz - base_hz) // unit_hz + 2, slack_hz)


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


def block_candidates(
    frequencies_hz: Sequence[int], bandwidth_hz: int, blocks: Iterable[BlockedRange]
) -> dict[str, set[int]]:
    """By cause, the indices of the ordered frequencies that blocks with that cause take away."""
    taken: dict[str, set[int]] = {}
    half_hz = -(-bandwidth_hz // 2)
    for block in blocks:
        if not block.holds_for(bandwidth_hz):
            continue
        check_range(block.low_hz, block.high_hz)
        first = bisect_left(frequencies_hz, block.low_hz - half_hz + 1)
        end = bisect_left(frequencies_hz, block.high_hz + half_hz)
        if first < end:
            taken.setdefault(block.cause, set()).update(range(first, end))
    return taken
