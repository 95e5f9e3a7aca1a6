"""A day parted into its times, each with those that are on then."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import NamedTuple

from paperwork.radio.carrier import Carrier, in_time_order, thin_times

WORTH = 4
"""A day is looked at time by time where all pairs of all times are at most so many times all pairs."""

Part = tuple[Carrier, ...]


class Times(NamedTuple):
    """`parts`: each time, in order, with those that are on then, who are on always among them. `is_parted`: whether looking at
    them one by one costs less than at all carriers. `is_even`: nobody is on, off and on again in that order."""

    parts: tuple[tuple[int, Part], ...]
    is_parted: bool
    is_even: bool
    ranks: dict[frozenset[str], frozenset[int]]

    def first_of(self, carriers: Iterable[Carrier]) -> int:
        """The first time that all of these share; -1 for none."""
        shared = [self.ranks[carrier.times] for carrier in carriers if carrier.times]
        return min(frozenset.intersection(*shared), default=-1) if shared else 0


def say_briefly(carriers: Sequence[Carrier]) -> tuple[Carrier, ...]:
    """The carriers with as few times as say who meets whom: of those who are on at one moment all have the same."""
    thin = thin_times(carrier.times for carrier in carriers if carrier.times)
    return tuple(replace(one, times=thin[one.times]) if one.times else one for one in carriers)


def split_by_time(carriers: Sequence[Carrier]) -> Times:
    """The times of some carriers, as few of them as say who meets whom."""
    thin = thin_times(carrier.times for carrier in carriers if carrier.times)
    order = {
        time: at for at, time in enumerate(sorted({one for some in thin.values() for one in some}, key=in_time_order))
    }
    ranks = {times: frozenset(order[time] for time in few) for times, few in thin.items()}
    there: defaultdict[int, list[Carrier]] = defaultdict(list)
    for carrier in carriers:
        for at in ranks[carrier.times] if carrier.times else range(len(order)):
            there[at].append(carrier)
    pairs = sum(len(some) ** 2 for some in there.values())
    is_even = all(max(some) - min(some) < len(some) for some in ranks.values())
    parts = tuple((at, tuple(there[at])) for at in range(len(order)))
    return Times(parts, len(order) > 1 and pairs <= WORTH * len(carriers) ** 2, is_even, ranks)
