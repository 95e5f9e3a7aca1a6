"""The most channels: some are taken away and placed again, many times, and what is no worse is kept.

It begins from a filling, from lowest-first placings and from algebraic rulers. Nothing in it depends on clock or
chance.
"""

from collections.abc import Callable
from math import isqrt

from paperwork.radio.board.lattice import bits_of, positions_of
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem, WantGroup
from paperwork.radio.carrier import THIRD3
from paperwork.radio.products.forms import FORMS, Judge
from paperwork.radio.search.bound import bound_alike
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.exhaust import Exhaustion, OutOfWork, count_fitting
from paperwork.radio.search.fill import Placing, add_all, fill, keep_clean
from paperwork.radio.search.mirror import place_mirrored
from paperwork.radio.search.rulers import find_ruler, iterate_cuts, modular_sets

# Turning a set by every residue is worth its time in short spans only.
_TURNS = 600
_RULER_SPAN = 700
_KEPT = 12


def list_starts(allowed: int, stride: int, unit: int, least_gap: int) -> list[list[int]]:
    """Up to `_KEPT` lists of allowed places, the fullest first.

    `stride`: lattice places between neighbouring candidates. `unit`: lattice places a mark must stand for,
    so that unequal sums differ by the guard. `least_gap`: lattice places between neighbours.
    """
    unit = -(-unit // stride) * stride
    places = positions_of(allowed)
    if not places:
        return []
    found: list[tuple[int, list[int]]] = []
    for offset in range(0, unit, max(stride, unit // 2 // stride * stride)):
        first = places[0] + offset
        marks = [(place - first) // unit for place in places if place >= first and (place - first) % unit == 0]
        if not marks:
            continue
        if marks[-1] <= _RULER_SPAN and len(marks) == marks[-1] + 1:
            chosen = [list(find_ruler(marks[-1], -(-least_gap // unit)))]
        else:
            chosen = _lay_over(bits_of(marks), marks[-1] + 1)
        found.extend((len(some), [first + mark * unit for mark in some]) for some in chosen)
    found.sort(key=lambda item: -item[0])
    return [some for _, some in found[:_KEPT]]


def _lay_over(allowed: int, span: int) -> list[list[int]]:
    size = isqrt(min(span, allowed.bit_count() * 2)) + 2
    found: list[tuple[int, int]] = []
    for residues, modulus in modular_sets(max(2, size - 3), size + 6):
        whole = (1 << modulus) - 1
        for cut in iterate_cuts(residues, modulus):
            bits = bits_of(cut)
            for turn in range(0, modulus, max(1, modulus * 20 // _TURNS)):
                marks = bits >> turn & whole & allowed
                found.append((marks.bit_count(), marks))
            if len(found) > 5000:
                found = sorted(found, reverse=True)[:_KEPT]
    return [positions_of(marks) for _, marks in sorted(found, reverse=True)[:_KEPT]]


WORK_A_UNIT = 2_000
"""Shifts of narrow bit sets in one unit of effort: about a thousandth of a second on one core of the machine of the
measurements, be the band narrow or wide."""

_DOWNHILL_PERCENT = 3
"""How often, in a hundred, one channel less is accepted to get away from a dead end; chosen by measuring."""

_STEP_WORK = 100
"""What a step costs beside the shifts in it, in their measure."""

_PROOF_SHARE, _PROOF_LEAST = 6, 20
"""What part of the effort trying everything may take, and the units that it always may."""


class Climb:
    """One search: the problem, the effort spent on it, and the moves."""

    def __init__(
        self, problem: Problem, effort: int, stop: Callable[[], bool], progress: Callable[[int, int, int], None]
    ) -> None:
        self.problem, self.effort, self._stop, self._progress = problem, effort, stop, progress
        self.goal = len(problem.wants)
        self.stopped = False

    @property
    def spent(self) -> int:
        """The effort spent so far."""
        return -(-self.problem.meter.work // WORK_A_UNIT)

    @property
    def proof_work(self) -> int:
        """What trying everything may cost."""
        return max(_PROOF_LEAST, self.effort // _PROOF_SHARE) * WORK_A_UNIT

    def _bound(self, empty: Occupancy) -> int:
        """No more channels fit than this."""
        return sum(self._bound_group(empty, group) for group in self.problem.groups)

    def _bound_group(self, empty: Occupancy, group: WantGroup) -> int:
        want, free = group.wants[0], group.allowed & ~empty.total[group.comb]
        fits = count_fitting(empty, group.comb, free, len(group.wants))
        if empty.reach(group.comb) < 0:
            return fits
        clean = self.problem.list_clean_hz(want, empty)
        return min(fits, bound_alike(clean, self.problem.wants[want].carrier, self.problem.rules))

    def place_most(self) -> tuple[Placing, bool]:
        """The placing with most channels that nine tenths of the effort find, and whether it is proved the most."""
        empty = self.problem.occupancy()
        first: Placing = []
        fill(empty.copy(), self.problem, first, Dice())
        if len(first) < self.goal:
            self.goal = self._bound(empty)
        if len(first) >= self.goal:
            return first, True
        may_repeat = self._may_repeat()
        rulers = [] if may_repeat else self._begin_from_rulers(empty)
        best = max([first, *rulers], key=len)
        if len(best) >= self.goal:
            return best, True
        best, proved = self.exceed(best, empty)
        if proved:
            return best, True
        numbers = tuple(range(len(self.problem.groups)))
        packed = [self._lowest_first(empty, order) for order in (numbers, numbers[::-1])]
        rulers = [self._begin_mirrored(empty)] if may_repeat else rulers
        # The three kinds of beginning lead to different places, so each is followed for a while.
        runs = [first if best in rulers else best, max(packed, key=len), *sorted(rulers, key=len, reverse=True)[:2]]
        share = self.effort * 9 // 10
        best = max([best, *runs], key=len)
        for run in runs:
            found = self.improve(run, empty, self.goal, self.spent + share // 5, run)
            best = max(best, found, key=len)
        best = self.improve(best, empty, self.goal, share, best)
        return best, len(best) >= self.goal

    def exceed(self, best: Placing, empty: Occupancy) -> tuple[Placing, bool]:
        """A placing with more channels, by trying everything as far as its share of the effort goes; and whether that
        proves that there are no more."""
        until = self.problem.meter.work + self.proof_work
        left = tuple(len(group.wants) for group in self.problem.groups)
        try:
            while len(best) < self.goal:
                found = Exhaustion(self.problem, until).place(empty, left, len(best) + 1)
                if found is None:
                    return best, True
                best = found
        except OutOfWork:
            return best, False
        return best, True

    def _lowest_first(self, empty: Occupancy, order: tuple[int, ...]) -> Placing:
        """What the simplest allocator places, group by group; it packs tightly and can be hard to beat."""
        occupancy, placing = empty.copy(), []
        for number in order:
            group = self.problem.groups[number]
            for _ in group.wants:
                free = group.allowed & ~occupancy.total[group.comb]
                if free:
                    place = (free & -free).bit_length() - 1
                    occupancy.add(group.comb, place)
                    placing.append((number, place))
        return placing

    @property
    def _largest(self) -> int:
        return max(range(len(self.problem.groups)), key=lambda i: len(self.problem.groups[i].wants))

    def _may_repeat(self) -> bool:
        """Whether differences may, between channels of the largest group."""
        family, judge = self.problem.combs[self.problem.groups[self._largest].comb].family, Judge(self.problem.rules)
        three = (form for form in judge.forms if form.kind == THIRD3)
        return not any(judge.guard_of(form, (family,) * len(form.coefs)) for form in three)

    def _begin_mirrored(self, empty: Occupancy) -> Placing:
        """A placing that is its own mirror image."""
        problem, number = self.problem, self._largest
        until = problem.meter.work + self.effort * WORK_A_UNIT // 3
        placing = [(number, place) for place in place_mirrored(problem, empty, number, until, self._stop)]
        fill(add_all(empty.copy(), problem, placing), problem, placing, Dice())
        return placing

    def _begin_from_rulers(self, empty: Occupancy) -> list[Placing]:
        problem, number = self.problem, self._largest
        group = problem.groups[number]
        family, judge, unit_hz = problem.combs[group.comb].family, Judge(problem.rules), problem.lattice.unit_hz
        guard_hz = max(judge.guard_of(form, (family,) * len(form.coefs)) for form in FORMS if form.kind == THIRD3)
        gap_hz = family.bandwidth_hz + problem.rules.apart_hz
        step = max(1, problem.wants[group.wants[0]].step_hz // unit_hz)
        guard, gap = (max(1, -(-hz // unit_hz)) for hz in (guard_hz, gap_hz))
        runs = []
        for marks in list_starts(group.allowed, step, guard, gap):
            occupancy = empty.copy()
            placing = keep_clean(occupancy, problem, [(number, place) for place in marks])[: len(group.wants)]
            if len(placing) == len(group.wants):
                occupancy = add_all(empty.copy(), problem, placing)
            fill(occupancy, problem, placing, Dice())
            runs.append(placing)
        return runs

    def improve(self, start: Placing, empty: Occupancy, goal: int, until: int, best: Placing) -> Placing:
        """The best placing met by taking channels away and placing again, until `goal` channels are placed or so much
        effort is spent."""
        current, dice = start, Dice()
        best = max(best, start, key=len)
        while len(best) < goal and self.spent < until and not self.is_stopped():
            self.problem.meter.work += _STEP_WORK
            count = len(current)
            away = 1 + dice.below(max(1, min(count, 3 + count // 3)))
            keep = list(current)
            for _ in range(min(away, count)):
                keep.pop(dice.below(len(keep)))
            fill(add_all(empty.copy(), self.problem, keep), self.problem, keep, dice, is_rough=True)
            if len(keep) >= count or (len(keep) == count - 1 and dice.below(100) < _DOWNHILL_PERCENT):
                current = keep
            if len(current) > len(best):
                best = current
            self._progress(self.spent, self.effort, len(best))
        return best

    def is_stopped(self) -> bool:
        """Whether the caller cut the search short."""
        self.stopped = self.stopped or self._stop()
        return self.stopped
