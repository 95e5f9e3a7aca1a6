"""Distances edge to edge, and a carrier's place inside a range with its whole bandwidth.

Half hertz are avoided by doubling. Exactly the wanted distance is enough; a carrier whose edge lies on the
edge of its range is inside.
"""

from collections.abc import Iterator, Sequence

from paperwork.frozen import frozen
from paperwork.radio.carrier import Carrier, Family, Rules, are_together, wanted_apart_hz


@frozen
class ClosePair:
    """Two carriers nearer than they want to be. `apart_hz` is edge to edge, negative when they overlap
    (rounded down), and `wanted_hz` what the rules ask."""

    lower: str
    upper: str
    apart_hz: int
    wanted_hz: int


def centres_apart_hz(rules: Rules, one: Carrier | Family, two: Carrier | Family) -> int:
    """The smallest good distance between the centres: half + half + guard, rounded up."""
    return -(-(one.bandwidth_hz + two.bandwidth_hz + 2 * wanted_apart_hz(rules, one, two)) // 2)


def list_close_pairs(carriers: Sequence[Carrier], rules: Rules) -> tuple[ClosePair, ...]:
    """All pairs that are too near and on the air together, from the lowest up."""
    return tuple(iterate_close_pairs(carriers, rules))


def iterate_close_pairs(carriers: Sequence[Carrier], rules: Rules) -> Iterator[ClosePair]:
    """The same one by one: of carriers that are all in one place there are as many as half their square."""
    for lower, upper in _iterate_near(carriers, rules):
        if _are_close(lower, upper, rules):
            gap = (2 * (upper.hz - lower.hz) - lower.bandwidth_hz - upper.bandwidth_hz) // 2
            yield ClosePair(lower.id, upper.id, gap, wanted_apart_hz(rules, lower, upper))


def list_crowded(carriers: Sequence[Carrier], rules: Rules) -> tuple[str, ...]:
    """The carriers that any other is too near to, in the given order; a pair of which both are known is not looked at."""
    found: set[str] = set()
    for lower, upper in _iterate_near(carriers, rules):
        if not (lower.id in found and upper.id in found) and _are_close(lower, upper, rules):
            found |= {lower.id, upper.id}
    return tuple(carrier.id for carrier in carriers if carrier.id in found)


def _iterate_near(carriers: Sequence[Carrier], rules: Rules) -> Iterator[tuple[Carrier, Carrier]]:
    """Pairs that may be too near, the lower one first, from the lowest up."""
    ordered = sorted(carriers, key=lambda carrier: (carrier.hz, carrier.id))
    widest_hz = max((carrier.bandwidth_hz for carrier in ordered), default=0)
    reach_hz = widest_hz + max([rules.apart_hz, *rules.apart.values()]) + rules.extra_hz
    for i, lower in enumerate(ordered):
        for at in range(i + 1, len(ordered)):
            if ordered[at].hz - lower.hz >= reach_hz:
                break
            yield lower, ordered[at]


def _are_close(lower: Carrier, upper: Carrier, rules: Rules) -> bool:
    return upper.hz - lower.hz < centres_apart_hz(rules, lower, upper) and are_together((lower, upper))


def carrier_edges_hz(carrier: Carrier) -> tuple[int, int]:
    """Lower and upper edge, rounded outwards."""
    return carrier.hz - -(-carrier.bandwidth_hz // 2), carrier.hz + -(-carrier.bandwidth_hz // 2)


def is_inside(carrier: Carrier, low_hz: int, high_hz: int) -> bool:
    """Whether the whole bandwidth lies between the two edges."""
    centre, width = 2 * carrier.hz, carrier.bandwidth_hz
    return 2 * low_hz <= centre - width and centre + width <= 2 * high_hz
