"""What a window of spectrum holds: free ranges, what eats the rest, and how many carriers fit."""

from collections.abc import Sequence
from dataclasses import replace

from paperwork.radio.bands import (
    BlockedRange,
    Range,
    block_ranges,
    check_range,
    intersect_ranges,
    pack_evenly,
    subtract_ranges,
    width_hz,
)
from paperwork.radio.carrier import THIRD2, THIRD3, Carrier, Rules, are_together, wanted_apart_hz
from paperwork.radio.search.assign import assign
from paperwork.radio.search.lattice import Want
from paperwork.radio.spacing import carrier_edges_hz

# More carriers of one type than this in one window are no plan any more but a list; the search stops there.
MOST_CARRIERS = 120


def survey_spectrum(
    low_hz: int, high_hz: int, blocks: Sequence[BlockedRange]
) -> tuple[tuple[Range, ...], tuple[tuple[str, int], ...]]:
    """The ranges of a window that no block takes, and the spectrum that each cause takes. ValueError when it runs backwards.

    Causes are in the order of their first appearance; where two overlap the first has it, so that all add up with what
    is free to the width of the window.
    """
    left: tuple[Range, ...] = (check_range(low_hz, high_hz),)
    eaten = []
    for cause in dict.fromkeys(block.cause for block in blocks):
        gone = block_ranges(blocks, cause)
        eaten.append((cause, width_hz(intersect_ranges(left, gone))))
        left = subtract_ranges(left, gone)
    return left, tuple(eaten)


def block_carriers(sample: Carrier, carriers: Sequence[Carrier], rules: Rules) -> tuple[BlockedRange, ...]:
    """Blocks with the cause "spacing" that keep a carrier like the sample away from the others."""
    blocks = []
    for other in carriers:
        if are_together((sample, other)):
            low, high = carrier_edges_hz(other)
            apart = wanted_apart_hz(rules, sample, other)
            if low - apart < high + apart:
                blocks.append(BlockedRange(low - apart, high + apart, "spacing", other.id))
    return tuple(blocks)


def fit_carriers(
    sample: Want, carriers: Sequence[Carrier], blocks: Sequence[BlockedRange], rules: Rules, *, effort: int = 60
) -> tuple[int, tuple[int, ...]]:
    """How many channels like the sample fit into its ranges beside the carriers that are there, by spacing alone; and the
    frequencies of a set free of third-order hits too (found by search, so more may be possible)."""
    like = sample.carrier
    taken = block_ranges([*blocks, *block_carriers(like, carriers, rules)])
    spacing_hz = max(1, like.bandwidth_hz + wanted_apart_hz(rules, like, like))
    by_spacing = len(
        pack_evenly(
            subtract_ranges(sample.ranges, taken), like.bandwidth_hz, spacing_hz, sample.step_hz, sample.origin_hz
        )
    )
    third = replace(rules, kinds=tuple(kind for kind in rules.kinds if kind in (THIRD2, THIRD3)))
    wants = [
        replace(sample, carrier=replace(like, id=f"{like.id} {number}", exclusive=""))
        for number in range(min(by_spacing, MOST_CARRIERS))
    ]
    plan = assign(wants, carriers, blocks, third, effort=effort)
    return by_spacing, tuple(sorted(plan.placed.values()))
