"""Ways to fill a form with two carriers of one exclusive group, which are never powered together."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import combinations, permutations

from paperwork.radio.carrier import Carrier
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.products.hits import widest_guard


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
