"""A frequency for every channel that has none: most channels first, then the widest worst margin, then habits."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from paperwork.radio.bands import Block
from paperwork.radio.board import CAUSES, Board
from paperwork.radio.carrier import Carrier, Family, Rules
from paperwork.radio.grid import (
    Lattice,
    Want,
    bits_of,
    block_candidates,
    candidate_frequencies_hz,
    choose_lattice,
)


class Dice:
    """Numbers that look random and are the same every time (a linear congruential generator with the
    constants of Knuth's MMIX, The Art of Computer Programming volume 2, section 3.3.4)."""

    def __init__(self, seed: int = 1) -> None:
        self._state = seed

    def below(self, limit: int) -> int:
        """A number from 0 up to, not including, `limit`."""
        self._state = (self._state * 6364136223846793005 + 1442695040888963407) & (1 << 64) - 1
        return (self._state >> 33) * limit >> 31


@dataclass(frozen=True, slots=True)
class Group:
    """Channels that are alike in everything but name: `wants` are their indices, `allowed` the places where
    they may go before any carrier is placed, `tiers` those places by habit, the dearest left out first."""

    family: int
    allowed: int
    wants: tuple[int, ...]


class Problem:
    """Wants, fixed carriers and blocks on one lattice, for any extra margin."""

    def __init__(self, wants: Sequence[Want], fixed: Sequence[Carrier], blocks: Sequence[Block],
                 rules: Rules) -> None:
        self.wants, self.fixed, self.rules = tuple(wants), tuple(fixed), rules
        self.families: tuple[Family, ...] = tuple(dict.fromkeys(
            [want.carrier.family for want in wants] + [carrier.family for carrier in fixed]))
        self.target_count = len({want.carrier.family for want in wants})
        reach_hz = 4 * max([family.bandwidth_hz for family in self.families], default=0) + max(
            [0, rules.apart_hz, *rules.apart.values(), *rules.guards.values()]) + rules.extra_hz
        self.lattice: Lattice = choose_lattice(wants, fixed, reach_hz)
        self.frequencies = [candidate_frequencies_hz(want) for want in wants]
        self.blocked = [block_candidates(hz, want.carrier.bandwidth_hz, blocks)
                        for hz, want in zip(self.frequencies, wants, strict=True)]
        self.hz_at: list[dict[int, int]] = []
        self.allowed: list[int] = []
        for frequencies, blocked in zip(self.frequencies, self.blocked, strict=True):
            gone = set().union(*blocked.values())
            places = {self.lattice.position(hz): hz for i, hz in enumerate(frequencies) if i not in gone}
            self.hz_at.append(places)
            self.allowed.append(bits_of(places))
        self.groups = self._gather()

    def _gather(self) -> tuple[Group, ...]:
        alike: dict[tuple, list[int]] = {}
        for i, want in enumerate(self.wants):
            family = self.families.index(want.carrier.family)
            alike.setdefault((family, self.allowed[i], want.prefer), []).append(i)
        return tuple(Group(key[0], key[1], tuple(members)) for key, members in alike.items())

    def empty_board(self, extra_hz: int = 0) -> Board:
        """A board with the fixed carriers alone."""
        board = Board(self.rules.with_extra(extra_hz), self.families, self.target_count, self.lattice)
        for carrier in self.fixed:
            board.add(self.families.index(carrier.family), self.lattice.position(carrier.hz))
        return board


# A set of (group, place), in the order of placing.
Placing = list[tuple[int, int]]


def fill(board: Board, problem: Problem, placing: Placing, dice: Dice, width: int) -> None:
    """Place more channels, the scarcest group first, each where it leaves the most places for the rest of
    `width` places looked at."""
    left = [len(group.wants) for group in problem.groups]
    for group, _ in placing:
        left[group] -= 1
    while True:
        free = {i: group.allowed & ~board.total[group.family] for i, group in enumerate(problem.groups) if left[i]}
        open_groups = [i for i, bits in free.items() if bits]
        if not open_groups:
            return
        chosen = min(open_groups, key=lambda i: (free[i].bit_count(), i))
        family = problem.groups[chosen].family
        best = None
        for place in sample(free[chosen], width, dice):
            effect = board.effect(family, place)
            score = 0
            for i in open_groups:
                gone = 0
                for bits in effect[problem.groups[i].family]:
                    gone |= bits
                score += (free[i] & ~gone).bit_count()
            if best is None or score > best[0]:
                best = score, place, effect
        board.add(family, best[1], best[2])
        placing.append((chosen, best[1]))
        left[chosen] -= 1


def sample(bits: int, count: int, dice: Dice) -> list[int]:
    """Up to `count` different places of a bit set, the lowest always among them."""
    low = (bits & -bits).bit_length() - 1
    top = bits.bit_length()
    found = {low: None}
    for _ in range(count - 1):
        start = low + dice.below(top - low)
        rest = bits >> start
        found.setdefault(start + (rest & -rest).bit_length() - 1)
    return list(found)
def improve(problem, extra_hz, effort, dice, width=6, goal=None, start=None):
    base = problem.empty_board(extra_hz)
    goal = goal or sum(len(g.wants) for g in problem.groups)
    cur: Placing = []
    b = base.copy(); fill(b, problem, cur, dice, width)
    best = list(cur); log=[(0,len(cur))]
    for step in range(effort):
        if len(best) >= goal: break
        n=len(cur)
        k = 1 + dice.below(max(1, min(n, 3 + n//3)))
        drop=set()
        while len(drop)<min(k,n): drop.add(dice.below(n))
        keep=[p for i,p in enumerate(cur) if i not in drop]
        b=base.copy()
        for g,p in keep: b.add(problem.groups[g].family,p)
        fill(b, problem, keep, dice, width)
        if len(keep)>=len(cur): cur=keep
        if len(cur)>len(best): best=list(cur); log.append((step,len(best)))
    return best, log
