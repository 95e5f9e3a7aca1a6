"""The equations of an occupancy, solved for a new carrier, and the sets of sums that they ask for."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations
from typing import NamedTuple

from paperwork.radio.board.lattice import Comb, Lattice, positions_of
from paperwork.radio.board.meetings import list_meetings
from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3, Rules
from paperwork.radio.products.forms import Judge
from paperwork.radio.spacing import centres_apart_hz

CAUSES = ("spacing", THIRD2, THIRD3, FIFTH2, FIFTH3)

ROUGHLY = -1
"""In place of a cause: what is enough to tell places apart."""

NARROW = 2_000
"""A shift of so many bits costs as much as what goes with it; measured on big integers of Python 3.11."""

Terms = tuple[tuple[int, int], ...]
"""One or two combs, each with the coefficient that its carrier has in the sum."""

# (cause, guard, coefficients of the new carrier, negative, of the one that joins, and of the others)
Equation = tuple[int, int, tuple[int, ...]]


class Sum(NamedTuple):
    """The sums of one carrier of each comb of its terms, all different carriers: `divisor` bit sets from number `at`
    on, one for each rest. Quotient q is bit q + `lift`."""

    at: int
    terms: Terms
    divisor: int
    lift: int


class Part(NamedTuple):
    """One set to shift: its number, the coefficient of the carrier that joins, how far the set is lifted, and what the
    places are divided by. `windows`: the lowest and highest place that a bit stands for, by the rests of the two added
    up; backwards for none. `others`: how many carriers a sum has."""

    cause: int
    at: int
    coef: int
    lift: int
    divisor: int
    windows: tuple[tuple[int, int], ...]
    others: int


class Plan:
    """Parts whose bits are gathered by window and spread together: `plain` ones of divisor 1, and `divided` ones, each
    with the number of its window, or of each rest.

    A wide window is a narrow one around bits that were copied to its ends before: one spread serves many windows.
    """

    def __init__(self, parts: Sequence[Part]) -> None:
        windows = tuple(dict.fromkeys(pair for part in parts for pair in part.windows if pair[0] <= pair[1]))
        number = {pair: at for at, pair in enumerate(windows)}
        nowhere = len(windows)
        self.size = nowhere + 1
        self.plain = [(one.at, one.coef, one.lift, number[one.windows[0]]) for one in parts if one.divisor == 1]
        self.divided = [
            (one.at, one.coef, one.lift, one.divisor, [number.get(pair, nowhere) for pair in one.windows])
            for one in parts
            if one.divisor > 1
        ]
        self.cores = _share_cores(windows)
        self.shifts = len(self.plain) + sum(one[3] for one in self.divided)
        self.spreads = 3 * len(self.cores)

    def spread(self, gathered: Sequence[int], full: int) -> int:
        """The places, among those of `full`, that the bits gathered under each window stand for."""
        found = 0
        for low, high, members in self.cores:
            bits = 0
            for window, below, above in members:
                more = gathered[window]
                if above:
                    more |= more << above
                bits |= more | more >> below if below else more
            if bits:
                found |= _spread(bits, low, high)
        return found & full


def _spread(bits: int, low: int, high: int) -> int:
    """Every bit copied to all places from `low` to `high` above it (below, where negative)."""
    width, have = high - low + 1, 1
    while have < width:
        step = min(have, width - have)
        bits |= bits << step
        have += step
    return bits << low if low >= 0 else bits >> -low


def _share_cores(windows: Sequence[tuple[int, int]]) -> list[tuple[int, int, list[tuple[int, int, int]]]]:
    """Windows that can be spread together: lowest and highest place of what they share, and for each its number and
    how far it reaches below and above that."""
    cores: list[tuple[int, int, list[tuple[int, int, int]]]] = []
    for number, (low, high) in sorted(enumerate(windows), key=lambda one: one[1][1] - one[1][0]):
        for at, (inner_low, inner_high, members) in enumerate(cores):
            core = max(low, inner_low), min(high, inner_high)
            reach = max(max(inner_low - windows[n][0], windows[n][1] - inner_high) for n, _, _ in members)
            reach = max(reach + max(core[0] - inner_low, inner_high - core[1]), core[0] - low, high - core[1])
            if core[0] <= core[1] and reach <= core[1] - core[0] + 1:
                numbers = [*(n for n, _, _ in members), number]
                cores[at] = *core, [(n, core[0] - windows[n][0], windows[n][1] - core[1]) for n in numbers]
                break
        else:
            cores.append((low, high, [(number, 0, 0)]))
    return cores


@dataclass(slots=True)
class Meter:
    """What a search cost so far: `work` counts shifts of bit sets as wide as `NARROW`, which is what takes its time."""

    work: int = 0


class Setup:
    """What an occupancy never changes: for each target and comb that joins, the sums to shift; for each comb, the sums
    that it adds to."""

    def __init__(
        self, rules: Rules, combs: tuple[Comb, ...], target_count: int, lattice: Lattice, meter: Meter
    ) -> None:
        self._judge, self._rules, self._combs, self._lattice = Judge(rules), rules, combs, lattice
        sorts = [comb.family._replace(exclusive="", zone="", times=frozenset()) for comb in combs]
        self._families = tuple(dict.fromkeys(sorts))  # guards ask for nothing else, and there are far fewer of them
        self._kinds = tuple(map(self._families.index, sorts))
        self._equations: dict[tuple[int, ...], tuple[Equation, ...]] = {}
        self._sums: dict[tuple[Terms, int], Sum] = {}
        self._spacings: dict[tuple[int, int], tuple[int, int]] = {}
        self.full = (1 << lattice.size) - 1
        self.shift_cost = 1 + lattice.size // NARROW
        self.size, self.meter = 0, meter
        self._meets = list_meetings([comb.family for comb in combs])
        self._met = [tuple(positions_of(mask & (1 << target_count) - 1)) for mask in self._meets]
        self._parts = {
            (target, comb): self._solve(target, comb)
            for target in range(target_count)
            for comb in positions_of(self._meets[target])
        }
        self._plans: dict[tuple[int, int, int | None], Plan] = {}
        self._uses = [self._list_uses(comb) for comb in range(len(combs))]

    def plan_of(self, target: int, comb: int, cause: int | None = None) -> Plan:
        """What to shift when a carrier of the comb joins: for all causes, for one, or (`ROUGHLY`) for those of which
        there are most, if there are such: with two others."""
        key = target, comb, cause
        if key not in self._plans:
            parts = self._parts.get((target, comb), [])
            if cause == ROUGHLY:
                parts = [one for one in parts if one.others > 1] or parts
            elif cause is not None:
                parts = [one for one in parts if one.cause == cause]
            self._plans[key] = Plan(parts)
        return self._plans[key]

    def met_by(self, comb: int) -> tuple[int, ...]:
        """The targets that a carrier of the comb may forbid places to."""
        return self._met[comb]

    def sums_of(self, comb: int) -> tuple[list[tuple[Sum, int, Sum]], list[tuple[Sum, int]]]:
        """What a carrier of the comb adds to: sums of two with its coefficient and the sum of the other alone; sums of
        one with its coefficient."""
        return self._uses[comb]

    def spacing(self, target: int, comb: int) -> tuple[int, int]:
        """The lowest and highest place that the spacing rule forbids, from a carrier's position; backwards for none."""
        key = target, comb
        if key not in self._spacings:
            one, two = self._combs[target], self._combs[comb]
            can_meet = self._meets[target] >> comb & 1
            least_hz = centres_apart_hz(self._rules, one.family, two.family) if can_meet else 0
            slack_hz = one.slack_hz + two.slack_hz
            self._spacings[key] = self._within(two.offset_hz - one.offset_hz, least_hz, slack_hz)
        return self._spacings[key]

    def _within(self, offset_hz: int, guard_hz: int, slack_hz: int) -> tuple[int, int]:
        """The lowest and highest whole number of units that is less than a guard away from an offset; backwards for
        none."""
        reach_hz = guard_hz + slack_hz - 1 if guard_hz > 0 else -self._lattice.unit_hz
        return -((reach_hz - offset_hz) // self._lattice.unit_hz), (reach_hz + offset_hz) // self._lattice.unit_hz

    def _solve(self, target: int, comb: int) -> list[Part]:
        """All equations of a new carrier, one that joins, and one or two others."""
        found: dict[Part, None] = {}
        near = self._meets[target] & self._meets[comb]
        alone = [(one,) for one in positions_of(near)]
        pairs = [(one, two) for (one,) in alone for two in positions_of(near & self._meets[one]) if one <= two]
        for others in [*alone, *pairs]:
            members = (target, comb, *others)
            if not self._judge.together(tuple(self._combs[at].family for at in members)):
                continue
            for cause, guard_hz, coefs in self._equations_of(tuple(self._kinds[at] for at in members)):
                terms = tuple(zip(others, coefs[2:], strict=True))
                if terms != tuple(sorted(terms)):
                    continue
                offset_hz = sum(coef * self._combs[at].offset_hz for coef, at in zip(coefs, members, strict=True))
                slack_hz = sum(abs(coef) * self._combs[at].slack_hz for coef, at in zip(coefs, members, strict=True))
                windows = self._windows(self._within(offset_hz, guard_hz, slack_hz), -coefs[0])
                if any(low <= high for low, high in windows):
                    total = self._sum(terms, -coefs[0])
                    found[Part(cause, total.at, coefs[1], total.lift, total.divisor, windows, len(others))] = None
        return list(found)

    def _windows(self, within: tuple[int, int], divisor: int) -> tuple[tuple[int, int], ...]:
        """The places from a quotient, by what the two rests add up to."""
        low, high = within
        return tuple((-((-low - rest) // divisor), (rest + high) // divisor) for rest in range(2 * divisor - 1))

    def _sum(self, terms: Terms, divisor: int) -> Sum:
        """The set of these sums, which is new where nobody asked for it yet; with it those of each term alone."""
        key = terms, divisor
        if key not in self._sums:
            below = -sum(coef for _, coef in terms if coef < 0) * self._lattice.size
            self._sums[key] = Sum(self.size, terms, divisor, below // divisor + 1 if below else 0)
            self.size += divisor
            for term in terms if len(terms) > 1 else ():
                self._sum((term,), divisor)
        return self._sums[key]

    def _list_uses(self, comb: int) -> tuple[list[tuple[Sum, int, Sum]], list[tuple[Sum, int]]]:
        pairs, singles = [], []
        for total in self._sums.values():
            terms = total.terms
            if len(terms) == 1:
                singles += [(total, coef) for at, coef in terms if at == comb]
            else:
                for mine, other in dict.fromkeys((terms, terms[::-1])):
                    if mine[0] == comb:
                        pairs.append((total, mine[1], self._sums[(other,), total.divisor]))
        return pairs, singles

    def _equations_of(self, kinds: tuple[int, ...]) -> tuple[Equation, ...]:
        """Every way to fill the slots of a form with the new carrier, the one that joins and the others, solved for
        the new carrier."""
        if kinds not in self._equations:
            families = tuple(self._families[kind] for kind in kinds)
            guards: dict[tuple[int, tuple[int, ...]], int] = {}
            for form in self._judge.forms:
                for order in permutations(range(len(kinds))) if len(form.coefs) == len(kinds) else ():
                    guard = self._judge.guard_of(form, tuple(families[i] for i in order))
                    if guard:
                        coefs = dict(zip(order, form.coefs, strict=True))
                        sign = -1 if coefs[0] > 0 else 1
                        key = CAUSES.index(form.kind), tuple(sign * coefs[i] for i in range(len(kinds)))
                        guards[key] = max(guards.get(key, 0), guard)
            self._equations[kinds] = tuple((cause, guard, coefs) for (cause, coefs), guard in guards.items())
        return self._equations[kinds]
