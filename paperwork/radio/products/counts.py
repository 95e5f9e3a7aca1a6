"""How many products strike each carrier, exactly, without making them.

All carriers sit on their common raster. A form such as a+b-c-v is counted on every victim v at once: the
positions of each family are written as one big integer, a fixed number of bits a raster point, and the
product of such integers holds, point by point, in how many ways the makers sum to it (the multiplication
is a convolution). Makers must be different carriers and not the victim; ways in which slots coincide are
taken out by Moebius inversion over the partitions of the slots: each partition merges slots into blocks, a
block of b slots weighs (-1)^(b-1) (b-1)!, and merged slots simply add their coefficients.

Where the raster is too fine for that, the same sums are counted from sorted lists (`sums`). Both are exact.
Carriers of one exclusive group are put right afterwards: the ways that hold two of one group are listed
and taken off.
"""

from collections import Counter, defaultdict
from collections.abc import Sequence
from functools import cache
from itertools import product
from math import factorial

from paperwork.radio.carrier import Carrier, Family, Rules, split_by_zone
from paperwork.radio.products.alternates import iterate_ways_of_alternates
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.products.sums import Key, PackedSums, Positions, SortedSums, choose_sums


def count_hits(carriers: Sequence[Carrier], rules: Rules) -> dict[str, int]:
    """How many products strike each carrier, by id in the given order; equal to counting `hits.iterate_hits`, at any size.

    a+b-c on the carrier c itself, midway between a and b, restates two hits of 2a-b and is left out.
    """
    judge = Judge(rules)
    totals = {carrier.id: 0 for carrier in carriers}
    everywhere: dict[str, int] = {}
    for zone, reached in split_by_zone(carriers):
        found = _count_group(reached, judge)
        everywhere = everywhere if zone else found
        for id, count in found.items():
            # What holds nobody of this zone is counted already.
            totals[id] += count - (everywhere.get(id, 0) if zone else 0)
    return totals


def _count_group(carriers: Sequence[Carrier], judge: Judge) -> dict[str, int]:
    """The hits on each carrier, of carriers of which no two are in different zones."""
    groups: dict[Family, list[int]] = defaultdict(list)
    for i, carrier in enumerate(carriers):
        groups[carrier.family._replace(exclusive="")].append(i)
    families = tuple(groups)
    positions: Positions = [[carriers[i].hz for i in groups[family]] for family in families]
    sums = choose_sums(positions, heaviest=3 if any(len(form.coefs) == 4 for form in judge.forms) else 2)
    totals = [0] * len(carriers)
    for form in judge.forms:
        if form.lands_on_maker:
            continue
        ordered = [0] * len(carriers)
        for filled in product(range(len(families)), repeat=len(form.coefs)):
            slots = tuple(families[i] for i in filled)
            guard = judge.guard_of(form, slots)
            if guard and judge.together(slots):
                found = _count_ways(form, filled, positions, sums, guard)
                for i, ways in zip(groups[slots[-1]], found, strict=True):
                    ordered[i] += ways
        for way in iterate_ways_of_alternates(form, carriers, judge):
            ordered[way[-1]] -= 1
        for i, ways in enumerate(ordered):
            totals[i] += ways // (2 if form.alike else 1)
    return {carrier.id: count for carrier, count in zip(carriers, totals, strict=True)}


def _count_ways(
    form: Form, filled: tuple[int, ...], positions: Positions, sums: PackedSums | SortedSums, guard_hz: int
) -> list[int]:
    """For each carrier of the last slot's family, the ordered ways to fill the other slots with different
    carriers so that the form is within the guard."""
    victims = positions[filled[-1]]
    counts = [0] * len(victims)
    for (key, coef), weight in _plan(form.coefs, filled, tuple(map(len, positions))).items():
        if coef:
            found = sums.count(key, [-coef * hz for hz in victims], guard_hz)
        else:
            found = sums.count(key, [0], guard_hz) * len(victims)
        counts = [count + weight * ways for count, ways in zip(counts, found, strict=True)]
    return counts


def _plan(coefs: tuple[int, ...], filled: tuple[int, ...], sizes: tuple[int, ...]) -> dict[tuple[Key, int], int]:
    """What to add up: by (the sum to count, the victim's own coefficient) the weight."""
    plan: Counter[tuple[Key, int]] = Counter()
    last = len(coefs) - 1
    for blocks, weight in _partitions(len(coefs)):
        if any(len({filled[slot] for slot in block}) > 1 for block in blocks):
            continue
        key = []
        own = 0
        for block in blocks:
            coef = sum(coefs[slot] for slot in block)
            if last in block:
                own = coef
            elif coef:
                key.append((coef, filled[block[0]]))
            else:
                weight *= sizes[filled[block[0]]]
        plan[tuple(sorted(key)), own] += weight
    return {item: weight for item, weight in plan.items() if weight}


@cache
def _partitions(size: int) -> tuple[tuple[tuple[tuple[int, ...], ...], int], ...]:
    """All partitions of the slots into blocks, each with its weight in the inversion."""
    found: list[list[list[int]]] = [[]]
    for slot in range(size):
        joined = [blocks[:i] + [[*blocks[i], slot]] + blocks[i + 1 :] for blocks in found for i in range(len(blocks))]
        found = joined + [[*blocks, [slot]] for blocks in found]
    result = []
    for blocks in found:
        weight = 1
        for block in blocks:
            weight *= (-1) ** (len(block) - 1) * factorial(len(block) - 1)
        result.append((tuple(map(tuple, blocks)), weight))
    return tuple(result)
