"""Placing channels one by one, each where it leaves the most places open to the others."""

from collections.abc import Sequence

from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.search.dice import Dice

WIDTH = 8
"""Places looked at for each channel, chosen by measuring on windows of 24 and 66 MHz, rulers and two-signal sets."""

Placing = list[tuple[int, int]]
"""A set of (group, place), in the order of placing."""


def add_all(occupancy: Occupancy, problem: Problem, placing: Sequence[tuple[int, int]]) -> Occupancy:
    """The occupancy with a placing too."""
    occupancy.add_all((problem.groups[group].comb, place) for group, place in placing)
    return occupancy


def keep_clean(occupancy: Occupancy, problem: Problem, placing: Sequence[tuple[int, int]]) -> Placing:
    """What of a placing can be placed on the occupancy, in its order; it is on the occupancy then."""
    kept: Placing = []
    for number, place in placing:
        group = problem.groups[number]
        if not occupancy.total[group.comb] >> place & 1:
            occupancy.add(group.comb, place)
            kept.append((number, place))
    return kept


def fill(occupancy: Occupancy, problem: Problem, placing: Placing, dice: Dice, *, is_rough: bool = False) -> None:
    """Place more channels on the occupancy and in `placing`, the scarcest group first, each where it leaves the
    most places open to all, of some places looked at; `is_rough`: nearly the most, in a fraction of the time."""
    groups = problem.groups
    left = [len(group.wants) for group in groups]
    for number, _ in placing:
        left[number] -= 1
    while True:
        free = {i: group.allowed & ~occupancy.total[group.comb] for i, group in enumerate(groups) if left[i]}
        free = {i: bits for i, bits in free.items() if bits}
        if not free:
            return
        chosen = min(free, key=lambda i: (free[i].bit_count(), i))
        comb = groups[chosen].comb
        left[chosen] -= 1
        if len(free) == 1 and not left[chosen]:  # nobody is left to be open for
            place = (free[chosen] & -free[chosen]).bit_length() - 1
            occupancy.add(comb, place)
            placing.append((chosen, place))
            return
        by_comb: dict[int, list[int]] = {}
        for i, bits in free.items():
            by_comb.setdefault(groups[i].comb, []).append(bits)
        best, least = -1, -1
        for place in sample(free[chosen], WIDTH, dice):
            lost = 0
            for target, open_to in by_comb.items():
                gone = occupancy.effect_on(target, comb, place, is_rough=is_rough)
                lost += sum((bits & gone).bit_count() for bits in open_to)
            if least < 0 or lost < least:
                best, least = place, lost
        occupancy.add(comb, best)
        placing.append((chosen, best))


def sample(bits: int, count: int, dice: Dice) -> list[int]:
    """Up to `count` different places of a bit set that is not empty, the lowest always among them."""
    low = (bits & -bits).bit_length() - 1
    top = bits.bit_length()
    found = {low: None}
    for _ in range(count - 1):
        start = low + dice.below(top - low)
        rest = bits >> start
        found.setdefault(start + (rest & -rest).bit_length() - 1)
    return list(found)
