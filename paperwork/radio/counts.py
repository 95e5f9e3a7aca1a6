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
from dataclasses import dataclass
from functools import cache
from itertools import product
from math import factorial

from paperwork.radio.alternates import iterate_ways_of_alternates
from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3, Carrier, Family, Rules, split_by_zone
from paperwork.radio.products import Form, Judge
from paperwork.radio.sums import Key, Positions, choose_sums


@dataclass(frozen=True, slots=True)
class Counts:
    """Products that strike one carrier. `midway` are a+b-c on the carrier c itself, which lies midway between
    a and b: they restate two of `third2` and are left out of `total`."""

    third2: int = 0
    third3: int = 0
    midway: int = 0
    fifth2: int = 0
    fifth3: int = 0

    @property
    def total(self) -> int:
        """All hits on the carrier, the restated ones left out."""
        return self.third2 + self.third3 + self.fifth2 + self.fifth3


def count_hits(carriers: Sequence[Carrier], rules: Rules) -> dict[str, Counts]:
    """Counts by carrier id, in the given order; equal to counting `hits.iterate_hits`, at any size."""
    judge = Judge(rules)
    tallies = {carrier.id: Counter[str]() for carrier in carriers}
    everywhere: dict[str, Counter[str]] = {}
    for zone, reached in split_by_zone(carriers):
        found = _tally_group(reached, judge)
        everywhere = everywhere if zone else found
        for id, tally in found.items():
            tallies[id].update(tally)
            if zone and id in everywhere:
                tallies[id].subtract(everywhere[id])  # what holds nobody of this zone is counted already
    return {
        id: Counts(tally[THIRD2], tally[THIRD3], tally["midway"], tally[FIFTH2], tally[FIFTH3])
        for id, tally in tallies.items()
    }


def _tally_group(carriers: Sequence[Carrier], judge: Judge) -> dict[str, Counter[str]]:
    """Counts by kind for each carrier, of carriers of which no two are in different zones."""
    groups: dict[Family, list[int]] = defaultdict(list)
    for i, carrier in enumerate(carriers):
        groups[carrier.family._replace(exclusive="")].append(i)
    families = tuple(groups)
    positions: Positions = [[carriers[i].hz for i in groups[family]] for family in families]
    sums = choose_sums(positions, heaviest=3 if any(len(form.coefs) == 4 for form in judge.forms) else 2)
    tallies = [Counter[str]() for _ in carriers]
    for form in judge.forms:
        name = "midway" if form.lands_on_maker else form.kind
        ordered = [0] * len(carriers)
        for filled in product(range(len(families)), repeat=len(form.coefs)):
            slots = tuple(families[i] for i in filled)
            guard = judge.guard_of(form, slots)
            if guard and judge.together(slots):
                victims = groups[slots[-1]]
                found = _count_ways(form, filled, positions, sums, guard)
                for i, ways in zip(victims, found, strict=True):
                    ordered[i] += ways
        for way in iterate_ways_of_alternates(form, carriers, judge):
            ordered[way[-1]] -= 1
        for i, ways in enumerate(ordered):
            tallies[i][name] += ways // (2 if form.alike else 1)
    return {carrier.id: tally for carrier, tally in zip(carriers, tallies, strict=True)}


def _count_ways(form: Form, filled: tuple[int, ...], positions: Positions, sums, guard_hz: int) -> list[int]:
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
