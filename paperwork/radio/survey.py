"""What a window of spectrum holds: free ranges, what eats the rest, and how many carriers fit."""

from collections.abc import Sequence
from dataclasses import replace

from paperwork.frozen import frozen
from paperwork.radio.bands import (
    BlockedRange,
    Range,
    block_ranges,
    check_range,
    intersect_ranges,
    subtract_ranges,
    width_hz,
)
from paperwork.radio.board.lattice import Want, candidate_frequencies_hz
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules, are_together, wanted_apart_hz
from paperwork.radio.products.forms import Judge
from paperwork.radio.search.assign import assign
from paperwork.radio.search.bound import bound_alike, pick_apart
from paperwork.radio.search.exhaust import Exhaustion, OutOfWork
from paperwork.radio.spacing import carrier_edges_hz, centres_apart_hz

MOST_CARRIERS = 120
"""A search looks for no more of a type in a window; how many fit at most is printed beside it. Our choice."""

TRIED_WORK = 40_000
"""What trying everything may cost to prove that no more fit, in the measure of a search: a tenth of a second or two.
Choice of this project."""


@frozen
class Fit:
    """How many channels fit: `by_spacing` alone; the frequencies of a set that is clean together under all the rules;
    and the `most` that can be, which is proved."""

    by_spacing: int
    places: tuple[int, ...]
    most: int

    @property
    def least(self) -> int:
        """How many are sure."""
        return len(self.places)


def survey_spectrum(
    low_hz: int, high_hz: int, blocks: Sequence[BlockedRange]
) -> tuple[tuple[Range, ...], tuple[tuple[str, int], ...]]:
    """The ranges of a window that no block takes, and what each cause takes. ValueError when it runs backwards.

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
    sample: Want, carriers: Sequence[Carrier], blocks: Sequence[BlockedRange], rules: Rules, *, effort: int
) -> Fit:
    """How many channels like the sample fit into its ranges beside the carriers that are there.

    Carriers that can make no product are counted exactly. Of others a set is searched for with some effort, and held
    against what fits at most; where only a few places are left, one more is proved to be none by trying all.
    """
    like = sample.carrier
    taken = block_ranges([*blocks, *block_carriers(like, carriers, rules)])
    spacing_hz = max(1, like.bandwidth_hz + wanted_apart_hz(rules, like, like))
    room = replace(sample, ranges=subtract_ranges(sample.ranges, taken))
    by_spacing = len(pick_apart(candidate_frequencies_hz(room), spacing_hz))
    alone = replace(sample, carrier=replace(like, exclusive=""))
    problem = Problem([alone], carriers, blocks, rules)
    clean = problem.list_clean_hz(0, problem.occupancy())
    is_exact = problem.is_exact
    if not Judge(rules).may_make(like):
        places = tuple(pick_apart(clean, centres_apart_hz(rules, like, like)))
        return Fit(by_spacing, places, len(places) if is_exact else by_spacing)
    most = bound_alike(clean, alone.carrier, rules) if is_exact else by_spacing
    wants = [
        replace(alone, carrier=replace(alone.carrier, id=f"{like.id} {number}"))
        for number in range(min(most, MOST_CARRIERS))
    ]
    placed = assign(wants, carriers, blocks, rules, effort=effort).placed if wants else {}
    found = Fit(by_spacing, tuple(sorted(placed.values())), most)
    return _prove(found, wants, carriers, blocks, rules) if is_exact else found


def _prove(
    fit: Fit, wants: Sequence[Want], carriers: Sequence[Carrier], blocks: Sequence[BlockedRange], rules: Rules
) -> Fit:
    """The fit with one more and one more, as long as trying everything finds it, or proves that there is none."""
    work = TRIED_WORK
    while fit.least < min(fit.most, len(wants)):
        problem = Problem(wants[: fit.least + 1], carriers, blocks, rules)
        empty, count = problem.occupancy(), fit.least + 1
        try:
            found = Exhaustion(problem, problem.meter.work + work).place(empty, (count,), count)
        except OutOfWork:
            return fit
        work -= problem.meter.work
        places = tuple(sorted(problem.places[0].hz_at(place) for _, place in found or ()))
        fit = replace(fit, places=places) if found else replace(fit, most=fit.least)
    return fit
