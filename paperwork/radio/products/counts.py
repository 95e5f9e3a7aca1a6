"""How many products strike each carrier, exactly, without making them.

All carriers sit on their common raster. A form such as a+b-c-v is counted on every victim v at once: the
positions of each family are written as one big integer, a fixed number of bits a raster point, and the
product of such integers holds, point by point, in how many ways the makers sum to it (the multiplication
is a convolution). Makers must be different carriers and not the victim; ways in which slots coincide are
taken out by Moebius inversion over the partitions of the slots: each partition merges slots into blocks, a
block of b slots weighs (-1)^(b-1) (b-1)!, and merged slots simply add their coefficients.

Where the raster is too fine for that, the same sums are counted from sorted lists (`sums`). Both are exact.
Carriers of one exclusive group are put right afterwards: the ways that hold two of one group are listed
and taken off. Where nearly every carrier is of a family of its own, as in many parts of a bill that overlap, the hits
are listed and counted: there are fewer of them than ways to fill the slots with families. Where few are on at one time,
times are counted one after the other.
"""

from bisect import bisect_left, bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from itertools import combinations, permutations, product
from math import factorial

from paperwork.radio.carrier import Carrier, Family, Rules, split_by_zone
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.products.hits import iterate_met, widest_guard
from paperwork.radio.products.sums import Key, PackedSums, Positions, SortedSums, choose_sums
from paperwork.radio.products.times import Times, say_briefly, split_by_time


def count_hits(carriers: Sequence[Carrier], rules: Rules) -> dict[str, int]:
    """How many products strike each carrier, by id in the given order; as counting `hits.iterate_hits`, at any size.

    a+b-c on the carrier c itself, midway between a and b, restates two hits of 2a-b and is left out.
    """
    judge = Judge(rules)
    totals = {carrier.id: 0 for carrier in carriers}
    everywhere: dict[str, int] = {}
    for zone, reached in split_by_zone(say_briefly(carriers)):
        found = _count_in(reached, judge)
        everywhere = everywhere if zone else found
        for id, count in found.items():
            # What holds nobody of this zone is counted already.
            totals[id] += count - (everywhere.get(id, 0) if zone else 0)
    return totals


def count_scattered(carriers: Sequence[Carrier]) -> int:
    """How many carriers of one zone are nearly each of a family of its own, and on at times that cannot be counted one after the
    other: hits of so many are listed to be counted, which takes the third power of them."""
    return max(
        (
            len(some)
            for _, some in split_by_zone(say_briefly(carriers))
            if _is_scattered(some) and not _is_by_times(split_by_time(some))
        ),
        default=0,
    )


def _count_in(carriers: Sequence[Carrier], judge: Judge) -> Counter[str]:
    """The hits on each carrier, of carriers of which no two are in different zones."""
    day = split_by_time(carriers)
    if _is_by_times(day):
        return _count_by_times(day, judge)
    return _count_listed(carriers, judge) if _is_scattered(carriers) else _count_group(carriers, judge)


def _is_by_times(day: Times) -> bool:
    return day.is_parted and day.is_even


def _count_by_times(day: Times, judge: Judge) -> Counter[str]:
    """As `_count_group`, one time after the other: what lasts from one to the next is counted in both, and taken off once.
    Nobody who is on always or in one stretch meets others in two."""
    found: Counter[str] = Counter()
    before: frozenset[str] = frozenset()
    for _, there in day.parts:
        now = [replace(carrier, times=frozenset()) for carrier in there]
        found.update(_count_group(now, judge))
        found.subtract(_count_group([carrier for carrier in now if carrier.id in before], judge))
        before = frozenset(carrier.id for carrier in there)
    return found


def _is_scattered(carriers: Sequence[Carrier]) -> bool:
    """Whether carriers are of so many families that listing hits, of which there are at most n^3/3, costs less. Measured: to
    fill the slots once takes some ten times as long as a hit."""
    families = {carrier.family._replace(exclusive="") for carrier in carriers}
    return len(families) > 4 and len(carriers) ** 3 < 10 * len(families) ** 4


def _count_listed(carriers: Sequence[Carrier], judge: Judge) -> Counter[str]:
    """As `_count_group`, hit by hit."""
    return Counter(filled[-1].id for form, filled in iterate_met(carriers, judge) if not form.lands_on_maker)


def _count_group(carriers: Sequence[Carrier], judge: Judge) -> Counter[str]:
    """The hits on each carrier, by families."""
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
    return Counter({carrier.id: count for carrier, count in zip(carriers, totals, strict=True)})


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


def iterate_ways_of_alternates(form: Form, carriers: Sequence[Carrier], judge: Judge) -> Iterator[tuple[int, ...]]:
    """Every ordered way, as indices by slot, with the form within its guard, all slots different, zones and
    times allowing it, and two slots or more in one exclusive group. Each way comes once."""
    groups: dict[str, list[int]] = defaultdict(list)
    for i, carrier in enumerate(carriers):
        if carrier.exclusive:
            groups[carrier.exclusive].append(i)
    if all(len(group) < 2 for group in groups.values()):
        return
    plain = [carrier.family._replace(exclusive="") for carrier in carriers]
    guard = widest_guard(form, plain, judge)
    order = sorted(range(len(carriers)), key=lambda i: carriers[i].hz)
    sorted_hz = [carriers[i].hz for i in order]
    for way, first in _iterate_near(form, carriers, groups, order, sorted_hz, guard):
        if len(set(way)) < len(way) or _first_pair(way, carriers) != first:
            continue
        filled = tuple(plain[i] for i in way)
        total = sum(coef * carriers[i].hz for coef, i in zip(form.coefs, way, strict=True))
        if abs(total) < judge.guard_of(form, filled) and judge.together(filled):
            yield way


def _iterate_near(
    form: Form,
    carriers: Sequence[Carrier],
    groups: dict[str, list[int]],
    order: list[int],
    sorted_hz: list[int],
    guard: int,
) -> Iterator[tuple[tuple[int, ...], tuple[int, int]]]:
    slots = range(len(form.coefs))
    for pair in combinations(slots, 2):
        *free, last = (slot for slot in slots if slot not in pair)
        way = [-1] * len(form.coefs)
        for group in groups.values():
            for way[pair[0]], way[pair[1]] in permutations(group, 2):
                for filler in range(len(carriers)) if free else (-1,):
                    if free:
                        way[free[0]] = filler
                    rest = sum(form.coefs[slot] * carriers[way[slot]].hz for slot in slots if slot != last)
                    centre = -rest // form.coefs[last]
                    low = bisect_left(sorted_hz, centre - guard - 1)
                    for at in range(low, bisect_right(sorted_hz, centre + guard + 1)):
                        way[last] = order[at]
                        yield tuple(way), pair


def _first_pair(way: tuple[int, ...], carriers: Sequence[Carrier]) -> tuple[int, int] | None:
    """The first two slots in one exclusive group."""
    for one, two in combinations(range(len(way)), 2):
        if carriers[way[one]].exclusive and carriers[way[one]].exclusive == carriers[way[two]].exclusive:
            return one, two
    return None
