"""A plan in which all are placed and as many as can be are where they were: homes first, then whatever is free.

What is away is taken back or put somewhere else, some of those at home are taken away, and what is no worse is kept.
Nothing in it depends on clock or chance.
"""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence

from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.fill import Placing, fill, sample

Homes = Mapping[tuple[int, int], Sequence[int]]
"""By (group, place), what it is worth that each of those whose home it is stays there, the dearest first."""

_STEP_WORK = 100
"""What a step costs beside the shifts in it, in their measure."""


def bring_home(
    problem: Problem,
    base: Occupancy,
    pinned: Placing,
    homes: Homes,
    start: Placing,
    until: int,
    stop: Callable[[], bool],
) -> Placing:
    """The best placing found until the problem's meter has passed `until`: most channels, then most worth at home.

    `base` holds all that never moves; `pinned` are channels of the problem among them, and begin every placing.
    """
    dice, current, best = Dice(), start, start
    value = top = len(start), _worth(start, homes)
    while problem.meter.work < until and not stop():
        problem.meter.work += _STEP_WORK
        placing = _step(problem, base.copy(), [*pinned], homes, current, dice)
        new = len(placing), _worth(placing, homes)
        if new >= value:
            current, value = placing, new
        if new > top:
            best, top = placing, new
    return best


def _worth(placing: Placing, homes: Homes) -> int:
    counts = Counter(one for one in placing if one in homes)
    return sum(sum(homes[one][:count]) for one, count in counts.items())


def _step(
    problem: Problem, occupancy: Occupancy, placing: Placing, homes: Homes, before: Placing, dice: Dice
) -> Placing:
    """What was there before, after one of those that are away was put home or anywhere, or some were taken away."""
    left = [len(group.wants) for group in problem.groups]
    for number, _ in placing:
        left[number] -= 1
    there = _shuffle(before[len(placing) :], dice)
    counts = Counter(there)
    empty = _shuffle([one for one, worth in homes.items() if counts[one] < len(worth)], dice)
    way = dice.below(3)
    if way == 0:
        first = empty[:1]
    elif way == 1:
        first = _pick(problem, occupancy, left, before, homes, dice)
    else:
        first = []
        there = there[dice.below(3 + len(there) // 3) :]
    there.sort(key=lambda one: one not in homes)
    for number, place in [*first, *there, *empty]:
        comb = problem.groups[number].comb
        if left[number] and not occupancy.total[comb] >> place & 1:
            occupancy.add(comb, place)
            placing.append((number, place))
            left[number] -= 1
    fill(occupancy, problem, placing, dice)
    return placing


def _pick(
    problem: Problem, occupancy: Occupancy, left: Sequence[int], before: Placing, homes: Homes, dice: Dice
) -> Placing:
    """Somewhere for one of those that are away or nowhere."""
    counts = Counter(number for number, _ in before)
    numbers = [number for number, place in before if (number, place) not in homes and place >= 0]
    numbers += [at for at, group in enumerate(problem.groups) if left[at] and counts[at] < len(group.wants)]
    if not numbers:
        return []
    number = numbers[dice.below(len(numbers))]
    group = problem.groups[number]
    free = group.allowed & ~occupancy.total[group.comb]
    return [(number, sample(free, 2, dice)[-1])] if free else []


def _shuffle(some: Placing, dice: Dice) -> Placing:
    for at in range(len(some) - 1, 0, -1):
        other = dice.below(at + 1)
        some[at], some[other] = some[other], some[at]
    return some
