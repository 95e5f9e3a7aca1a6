"""Placings that are their own mirror image, for rules under which differences may repeat.

Where only two-signal products count, pairs about the middle of a window do nothing to each other that one of them
would not do, so that half of the places decide. Nothing in it depends on clock or chance.
"""

from collections.abc import Callable

from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.search.dice import Dice

_STEP_WORK = 100
"""What a step costs beside the shifts in it, in their measure."""


def place_mirrored(problem: Problem, empty: Occupancy, number: int, until: int, stop: Callable[[], bool]) -> list[int]:
    """The most places for one group that are found until the problem's meter has passed `until`: pairs about the
    middle of what it may take, some taken away and placed again, many times."""
    group = problem.groups[number]
    free = group.allowed & ~empty.total[group.comb]
    if not free:
        return []
    both = (free & -free).bit_length() - 1 + free.bit_length() - 1
    dice = Dice()
    current: list[int] = []
    best: list[int] = []
    while problem.meter.work < until and len(best) < len(group.wants) and not stop():
        problem.meter.work += _STEP_WORK
        keep = list(current)
        for _ in range(dice.below(len(keep) // 2 + 2)):
            if keep:
                keep.pop(dice.below(len(keep)))
        lower = _fill_pairs(empty.copy(), group.comb, free, both, keep, dice)
        places = sorted({*lower, *(both - place for place in lower)})
        if len(lower) >= len(current):
            current = lower
        if len(places) > len(best):
            best = places
    return best[: len(group.wants)]  # of the last pair one may be too many


def _fill_pairs(occupancy: Occupancy, comb: int, free: int, both: int, keep: list[int], dice: Dice) -> list[int]:
    """The lower places of as many pairs as come to stand, those to keep first."""
    chosen: list[int] = []
    half = free & (1 << both // 2 + 1) - 1
    while left := half & ~occupancy.total[comb]:
        low = (left & -left).bit_length() - 1
        start = keep.pop() if keep else low + dice.below(left.bit_length() - low)
        if not left >> start:
            continue
        place = start + ((left >> start) & -(left >> start)).bit_length() - 1
        half &= ~(1 << place)
        effect = occupancy.effect(comb, place)
        other = both - place
        if not free >> other & 1 or (occupancy.total[comb] | effect[comb] * (other != place)) >> other & 1:
            continue
        occupancy.add(comb, place, effect)
        if other != place:
            occupancy.add(comb, other)
        chosen.append(place)
    return chosen
