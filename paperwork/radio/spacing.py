"""Distances edge to edge, and a carrier's place inside a range with its whole bandwidth.

Half hertz are avoided by doubling. Exactly the wanted distance is enough; a carrier whose edge lies on the
edge of its range is inside.
"""

from collections.abc import Sequence

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
    ordered = sorted(carriers, key=lambda carrier: (carrier.hz, carrier.id))
    reach_hz = (
        max((carrier.bandwidth_hz for carrier in ordered), default=0)
        + max([rules.apart_hz, *rules.apart.values()])
        + rules.extra_hz
    )
    pairs = []
    for i, lower in enumerate(ordered):
        for upper in ordered[i + 1 :]:
            distance = upper.hz - lower.hz
            if distance >= reach_hz:
                break
            wanted = wanted_apart_hz(rules, lower, upper)
            gap = (2 * distance - lower.bandwidth_hz - upper.bandwidth_hz) // 2
            if distance < centres_apart_hz(rules, lower, upper) and are_together((lower, upper)):
                pairs.append(ClosePair(lower.id, upper.id, gap, wanted))
    return tuple(pairs)


def carrier_edges_hz(carrier: Carrier) -> tuple[int, int]:
    """Lower and upper edge, rounded outwards."""
    return carrier.hz - -(-carrier.bandwidth_hz // 2), carrier.hz + -(-carrier.bandwidth_hz // 2)


def is_inside(carrier: Carrier, low_hz: int, high_hz: int) -> bool:
    """Whether the whole bandwidth lies between the two edges."""
    centre, width = 2 * carrier.hz, carrier.bandwidth_hz
    return 2 * low_hz <= centre - width and centre + width <= 2 * high_hz
