"""A frequency for every channel that has none: most channels first, then the widest margin, then habits.

The search places channels one by one, the scarcest first, each where it leaves the most places open; then
it takes a few away and places again, many times, and keeps what is no worse. It begins from lowest-first
placings and from algebraic rulers (`starts`) too. Nothing in it depends on clock or chance.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from paperwork.radio.bands import BlockedRange
from paperwork.radio.carrier import THIRD3, Carrier, Rules
from paperwork.radio.products.forms import FORMS, Judge
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.lattice import Want
from paperwork.radio.search.occupancy import Occupancy
from paperwork.radio.search.problem import MOST_MARGIN_HZ, Problem
from paperwork.radio.search.starts import list_starts

# About six seconds on one core of the machine of the measurements.
DEFAULT_EFFORT = 4_000

# A step's time grows with the square of the carriers; one unit of effort is a step of so many.
_CARRIERS_A_UNIT = 16

# Chosen by measuring on windows of 24 and 66 MHz, rulers and two-signal sets: places looked at for each
# channel; and how often, in a hundred, one channel less is accepted to get away from a dead end.
_WIDTH = 8
_DOWNHILL_PERCENT = 3

# A set of (group, place), in the order of placing.
Placing = list[tuple[int, int]]


@dataclass(frozen=True, slots=True)
class Unplaced:
    """A channel without a place: how many frequencies it could be tuned to, and how many of them each cause
    takes away (each counted once, commonest cause first)."""

    id: str
    candidates: int
    causes: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class FrequencyPlan:
    """`placed`: frequency by channel id. `margin_hz`: every guard and distance of the placed channels is kept
    with at least this to spare. `spent` is the effort used; `stopped` when the caller cut it short."""

    placed: dict[str, int]
    unplaced: tuple[Unplaced, ...]
    margin_hz: int
    spent: int
    stopped: bool


def assign(
    wants: Sequence[Want],
    fixed: Sequence[Carrier],
    blocks: Sequence[BlockedRange],
    rules: Rules,
    *,
    effort: int = DEFAULT_EFFORT,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> FrequencyPlan:
    """Places for the wanted channels among the fixed carriers, which stay where they are.

    No placed channel is nearer to another carrier than the rules want, none is hit and none takes part in a
    hit. Conflicts among the fixed carriers themselves are not touched. `effort` is an amount of work, one
    unit being a step with 16 carriers, and the same effort gives the same plan; `stop` is asked before each
    step; `progress` is called with the effort spent, the effort allowed and the channels placed so far. Ids must be unique.
    ValueError for a range that runs backwards or a step that is not positive.
    """
    problem = Problem(wants, fixed, blocks, rules)
    search = _Search(problem, effort, stop or (lambda: False), progress or (lambda *_: None))
    best = search.place_most()
    extra_hz, best = search.widen(best)
    best = search.leave_avoided(best, extra_hz)
    occupancy = search.occupancy_of(best, 0)
    before = len(best)
    fill(occupancy, problem, best, Dice(), _WIDTH)
    return _report(problem, occupancy, best, extra_hz if len(best) == before else 0, search)


def _report(
    problem: Problem, occupancy: Occupancy, placing: Placing, margin_hz: int, search: "_Search"
) -> FrequencyPlan:
    placed: dict[int, int] = {}
    unplaced: dict[int, Unplaced] = {}
    for number, group in enumerate(problem.groups):
        places = sorted(place for which, place in placing if which == number)
        for want, place in zip(group.wants, places, strict=False):
            placed[want] = problem.hz_at[want][place]
        for want in group.wants[len(places) :]:
            causes = problem.count_causes(want, occupancy)
            unplaced[want] = Unplaced(problem.wants[want].carrier.id, len(problem.frequencies[want]), causes)
    return FrequencyPlan(
        {problem.wants[want].carrier.id: placed[want] for want in sorted(placed)},
        tuple(unplaced[want] for want in sorted(unplaced)),
        margin_hz,
        search.spent,
        search.stopped,
    )


class _Search:
    """One run: the problem, the effort spent, and the moves."""

    def __init__(
        self, problem: Problem, effort: int, stop: Callable[[], bool], progress: Callable[[int, int, int], None]
    ) -> None:
        self._problem, self._effort, self._stop, self._progress = problem, effort, stop, progress
        self._goal = sum(len(group.wants) for group in problem.groups if group.allowed)
        self.spent = 0
        self.stopped = False

    def occupancy_of(self, placing: Placing, extra_hz: int) -> Occupancy:
        """The occupancy with the fixed carriers and this placing."""
        return self._add(self._problem.occupancy(extra_hz), placing)

    def _add(self, occupancy: Occupancy, placing: Placing) -> Occupancy:
        for group, place in placing:
            occupancy.add(self._problem.groups[group].comb, place)
        return occupancy

    def place_most(self) -> Placing:
        """The placing with the most channels that two thirds of the effort find."""
        empty = self._problem.occupancy()
        first: Placing = []
        fill(empty.copy(), self._problem, first, Dice(), _WIDTH)
        if len(first) >= self._goal:
            return first
        numbers = tuple(range(len(self._problem.groups)))
        packed = [self._lowest_first(empty, order) for order in (numbers, numbers[::-1])]
        rulers = self._begin_from_rulers(empty)
        # The three kinds of beginning lead to different places, so each is followed for a while.
        runs = [first, max(packed, key=len), *sorted(rulers, key=len, reverse=True)[:2]]
        share = self._effort * 2 // 3
        best = max(runs, key=len)
        for run in runs:
            found = self._improve(run, empty, self._goal, self.spent + share // 5, run)
            best = max(best, found, key=len)
        return self._improve(best, empty, self._goal, share, best)

    def _lowest_first(self, empty: Occupancy, order: tuple[int, ...]) -> Placing:
        """What the simplest allocator places, group by group; it packs tightly and can be hard to beat."""
        occupancy, placing = empty.copy(), []
        for number in order:
            group = self._problem.groups[number]
            for _ in group.wants:
                free = group.allowed & ~occupancy.total[group.comb]
                if free:
                    place = (free & -free).bit_length() - 1
                    occupancy.add(group.comb, place)
                    placing.append((number, place))
        return placing

    def _begin_from_rulers(self, empty: Occupancy) -> list[Placing]:
        problem = self._problem
        number = max(range(len(problem.groups)), key=lambda i: len(problem.groups[i].wants))
        group = problem.groups[number]
        family, judge, unit_hz = problem.combs[group.comb].family, Judge(problem.rules), problem.lattice.unit_hz
        guard_hz = max(judge.guard_of(form, (family,) * len(form.coefs)) for form in FORMS if form.kind == THIRD3)
        gap_hz = family.bandwidth_hz + problem.rules.apart_hz
        step = max(1, problem.wants[group.wants[0]].step_hz // unit_hz)
        guard, gap = (max(1, -(-hz // unit_hz)) for hz in (guard_hz, gap_hz))
        runs = []
        for marks in list_starts(group.allowed, step, guard, gap):
            occupancy = empty.copy()
            placing: list[tuple[int, int]] = []
            for place in marks:
                if len(placing) < len(group.wants) and not occupancy.total[group.comb] >> place & 1:
                    occupancy.add(group.comb, place)
                    placing.append((number, place))
            fill(occupancy, problem, placing, Dice(), _WIDTH)
            runs.append(placing)
        return runs

    def _improve(self, start: Placing, empty: Occupancy, goal: int, until: int, best: Placing) -> Placing:
        """The best placing met by taking channels away and placing again, until `goal` channels stand or
        `until` steps are spent."""
        current, dice = start, Dice()
        best = max(best, start, key=len)
        while len(best) < goal and self.spent < until and not self._is_stopped():
            count = len(current)
            self.spent += self._price(count)
            away = 1 + dice.below(max(1, min(count, 3 + count // 3)))
            keep = list(current)
            for _ in range(min(away, count)):
                keep.pop(dice.below(len(keep)))
            fill(self._add(empty.copy(), keep), self._problem, keep, dice, _WIDTH)
            if len(keep) >= count or (len(keep) == count - 1 and dice.below(100) < _DOWNHILL_PERCENT):
                current = keep
            if len(current) > len(best):
                best = current
            self._progress(self.spent, self._effort, len(best))
        return best

    def widen(self, placing: Placing) -> tuple[int, Placing]:
        """The widest extra margin at which as many channels still find places, and those places. The margin
        is doubled while that goes well, up to `MOST_MARGIN_HZ`, then narrowed down to 5 kHz or the unit."""
        grain_hz = max(self._problem.lattice.unit_hz, 5_000)
        good_hz, best = 0, placing
        bad_hz: int | None = None
        trial_hz = grain_hz
        while (
            placing
            and not self._is_stopped()
            and self.spent < self._effort
            and (bad_hz - good_hz > grain_hz if bad_hz else good_hz < MOST_MARGIN_HZ)
        ):
            found = self._place_with(trial_hz, len(placing))
            if found:
                good_hz, best = trial_hz, found
            else:
                bad_hz = trial_hz
            middle_hz = (good_hz + (bad_hz or 0)) // 2 // grain_hz * grain_hz
            trial_hz = middle_hz if bad_hz else min(2 * good_hz, MOST_MARGIN_HZ)
        return good_hz, best

    def _place_with(self, extra_hz: int, goal: int) -> Placing | None:
        empty = self._problem.occupancy(extra_hz)
        start: Placing = []
        fill(empty.copy(), self._problem, start, Dice(), _WIDTH)
        self.spent += self._price(len(start))
        until = self.spent + max(1, (self._effort - self.spent) // 4)
        found = self._improve(start, empty, goal, until, start)
        return found if len(found) >= goal else None

    def leave_avoided(self, placing: Placing, extra_hz: int) -> Placing:
        """The placing with channels moved off what they avoid where another place is free, margin kept."""
        problem = self._problem
        result = list(placing)
        for at, (number, place) in enumerate(placing):
            group = problem.groups[number]
            want = group.wants[0]
            if not problem.is_avoided(want, problem.hz_at[want][place]):
                continue
            occupancy = self.occupancy_of(result[:at] + result[at + 1 :], extra_hz)
            taken = occupancy.total[group.comb]
            free = [
                (problem.is_avoided(want, hz), abs(other - place), other)
                for other, hz in problem.hz_at[want].items()
                if not taken >> other & 1
            ]
            result[at] = number, min(free, default=(False, 0, place))[2]
        return result

    def _price(self, count: int) -> int:
        """The effort of a step with so many channels placed."""
        return 1 + (count + len(self._problem.fixed)) ** 2 // _CARRIERS_A_UNIT**2

    def _is_stopped(self) -> bool:
        self.stopped = self.stopped or self._stop()
        return self.stopped


def fill(occupancy: Occupancy, problem: Problem, placing: Placing, dice: Dice, width: int) -> None:
    """Place more channels on the occupancy and in `placing`, the scarcest group first, each where it leaves the
    most places open to all, of `width` places looked at."""
    left = [len(group.wants) for group in problem.groups]
    for number, _ in placing:
        left[number] -= 1
    while True:
        free = {i: group.allowed & ~occupancy.total[group.comb] for i, group in enumerate(problem.groups) if left[i]}
        free = {i: bits for i, bits in free.items() if bits}
        if not free:
            return
        chosen = min(free, key=lambda i: (free[i].bit_count(), i))
        comb = problem.groups[chosen].comb
        best: tuple[int, int, list[list[int]]] | None = None
        for place in sample(free[chosen], width, dice):
            effect = occupancy.effect(comb, place)
            lost = 0
            for i, bits in free.items():
                gone = 0
                for mask in effect[problem.groups[i].comb]:
                    gone |= mask
                lost += (bits & gone).bit_count() if gone else 0
            if best is None or lost < best[0]:
                best = lost, place, effect
        assert best is not None
        occupancy.add(comb, best[1], best[2])
        placing.append((chosen, best[1]))
        left[chosen] -= 1


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
