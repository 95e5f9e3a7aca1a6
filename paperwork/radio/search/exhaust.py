"""Every placing there is, cut short where it cannot have enough channels: finds one, or proves that there is none."""

from dataclasses import dataclass

from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.search.fill import Placing

_NODE_WORK = 20
"""What looking at one occupancy costs beside the shifts, in their measure."""


class OutOfWork(Exception):
    """The work allowed was spent before there was an answer."""


@dataclass(slots=True)
class Exhaustion:
    """A search that gives up, with `OutOfWork`, when the problem's meter has passed `until`."""

    problem: Problem
    until: int

    def place(self, occupancy: Occupancy, left: tuple[int, ...], need: int) -> Placing | None:
        """A placing of `need` more channels, at most `left` of each group, on an occupancy; None if there is none."""
        allowed = tuple(group.allowed for group in self.problem.groups)
        return self._place(occupancy, allowed, left, need)

    def _place(
        self, occupancy: Occupancy, allowed: tuple[int, ...], left: tuple[int, ...], need: int
    ) -> Placing | None:
        """A place that was tried without success is tried by nobody of its group below: alike channels, one order."""
        if need <= 0:
            return []
        if self.problem.meter.work > self.until:
            raise OutOfWork
        self.problem.meter.work += _NODE_WORK
        groups = self.problem.groups
        free = [
            bits & ~occupancy.total[group.comb] if count else 0
            for bits, group, count in zip(allowed, groups, left, strict=True)
        ]
        fits = [count_fitting(occupancy, group.comb, *one) for group, *one in zip(groups, free, left, strict=True)]
        chosen = min((i for i, bits in enumerate(free) if bits), key=lambda i: free[i].bit_count(), default=None)
        while chosen is not None and sum(fits) >= need and free[chosen]:
            place = (free[chosen] & -free[chosen]).bit_length() - 1
            fewer = tuple(count - (i == chosen) for i, count in enumerate(left))
            fuller = occupancy.copy()
            fuller.add(groups[chosen].comb, place)
            found = self._place(fuller, tuple(free), fewer, need - 1)
            if found is not None:
                return [(chosen, place), *found]
            free[chosen] ^= 1 << place
            fits[chosen] = count_fitting(occupancy, groups[chosen].comb, free[chosen], left[chosen])
        if chosen is None or sum(fits) < need:
            return None
        return self._place(occupancy, tuple(free), left, need)


def count_fitting(occupancy: Occupancy, comb: int, free: int, count: int) -> int:
    """No more channels of a comb than this fit into free places, by the spacing between them alone; `count` at most."""
    clear = occupancy.reach(comb) + 1
    if not clear:  # they never meet, and may share a place
        return count if free else 0
    fits = 0
    while free and fits < count:
        low = (free & -free).bit_length() - 1
        free = free >> low + clear << low + clear
        fits += 1
    return fits
