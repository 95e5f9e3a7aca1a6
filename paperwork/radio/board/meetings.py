"""Which families of carriers can be on the air together, two by two and all at once."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import reduce
from operator import or_

from paperwork.radio.board.lattice import bits_of
from paperwork.radio.carrier import Family


def list_meetings(families: Sequence[Family]) -> list[int]:
    """For each family, by number, a bit set of those that it can meet; itself among them where two of it can."""
    groups = _mark([family.exclusive] for family in families)
    zones = _mark([family.zone] for family in families)
    times = _mark(family.times or [""] for family in families)
    everyone = (1 << len(families)) - 1
    known: dict[tuple[str, str, frozenset[str]], int] = {}
    for family in families:
        key = exclusive, zone, when = family.exclusive, family.zone, family.times
        if key not in known:
            there = zones.get("", 0) | zones[zone] if zone else everyone
            then = reduce(or_, map(times.__getitem__, when), times.get("", 0)) if when else everyone
            known[key] = there & then & ~(groups[exclusive] if exclusive else 0)
    return [known[family.exclusive, family.zone, family.times] for family in families]


def _mark(names: Iterable[Iterable[str]]) -> dict[str, int]:
    """By name, the numbers that have it, as a bit set."""
    numbers: defaultdict[str, list[int]] = defaultdict(list)
    for number, some in enumerate(names):
        for name in some:
            numbers[name].append(number)
    return {name: bits_of(some) for name, some in numbers.items()}
