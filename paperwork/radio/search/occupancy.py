"""Which places of a lattice are forbidden to which comb of carriers, kept up as carriers are placed.

A set of places is one Python integer, a bit a place. When a carrier x joins, every equation that holds x,
a new carrier y and the carriers already there is solved for y. With x (and one more carrier) fixed, all
the solutions over a whole comb are one shift of the comb's bit set, scaled by the coefficient that the comb
has in the equation; the guard then spreads the bits. So placing costs about 2n shifts of a few
thousand bits instead of n^3 products. What can never be on the air together is left out of all of it: stages
out of each other's reach cost what they would cost alone.
"""

from itertools import permutations

from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3, Rules
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.search.lattice import Comb, Lattice
from paperwork.radio.spacing import centres_apart_hz

SPACING = "spacing"
CAUSES = (SPACING, THIRD2, THIRD3, FIFTH2, FIFTH3)

# (cause, comb of the set, its coefficient, coefficient of x, of the other fixed carrier, divisor, lowest and highest
# number of units by which the divided sum may be off)
Step = tuple[int, int, int, int, int, int, int, int]

# (cause, guard, coefficients of the new carrier, negative, of the fixed ones, and of the set)
Equation = tuple[int, int, tuple[int, ...]]


class Occupancy:
    """Placed carriers and forbidden places. Combs are numbered in the order given; the first `target_count` of
    them want places."""

    def __init__(self, rules: Rules, combs: tuple[Comb, ...], target_count: int, lattice: Lattice) -> None:
        self._setup = _Setup(rules, combs, lattice)
        self.targets = range(target_count)
        self._placed: list[list[int]] = [[] for _ in combs]
        self.forbidden = [[0] * len(CAUSES) for _ in self.targets]
        self.total = [0] * target_count
        self._sets = [0] * self._setup.set_count
        self._doubled: frozenset[tuple[int, int]] = frozenset()

    def copy(self) -> "Occupancy":
        """An occupancy that can go on by itself."""
        twin = object.__new__(Occupancy)
        twin._setup, twin.targets = self._setup, self.targets
        twin._placed = [positions.copy() for positions in self._placed]
        twin.forbidden = [masks.copy() for masks in self.forbidden]
        twin.total = self.total.copy()
        twin._sets = self._sets.copy()
        twin._doubled = self._doubled
        return twin

    def add(self, comb: int, position: int, effect: list[list[int]] | None = None) -> None:
        """Place a carrier. `effect` saves the work when it is known already."""
        for target, masks in zip(self.targets, effect or self.effect(comb, position), strict=True):
            held = self.forbidden[target]
            for cause, bits in enumerate(masks):
                if bits:
                    held[cause] |= bits
                    self.total[target] |= bits
        setup = self._setup
        for (coef, divisor), at in setup.slots[comb].items():
            quotient, rest = divmod(coef * position, divisor)
            self._sets[at + rest] |= 1 << quotient + setup.lift(coef, divisor)
        if position in self._placed[comb]:
            self._doubled |= {(comb, position)}
        self._placed[comb].append(position)

    def effect(self, comb: int, position: int) -> list[list[int]]:
        """By target and cause, the places that become forbidden when the carrier joins."""
        return [self._effect_on(target, comb, position) for target in self.targets]

    def _effect_on(self, target: int, comb: int, position: int) -> list[int]:
        setup = self._setup
        masks = [0] * len(CAUSES)
        if not setup.can_meet(target, comb):
            return masks
        piles: dict[tuple[int, int, int], int] = {}
        for step in setup.steps_of_two(target, comb):
            self._pile(piles, step, step[3] * position, None)
        for other in setup.company_of(target, comb):
            steps = setup.steps_of_three(target, comb, other) if self._placed[other] else ()
            for at in self._placed[other] if steps else ():
                # Two carriers on one place share a bit, which must then stay: the other one is still there.
                without = None if (other, at) in self._doubled else at
                for step in steps:
                    fixed = step[3] * position + step[4] * at
                    self._pile(piles, step, fixed, without if step[1] == other else None)
        low, high = setup.spacing(target, comb)
        if low <= high:
            masks[0] = spread(1, position + low, position + high)
        for (cause, low, high), bits in piles.items():
            masks[cause] |= spread(bits, low, high)
        return [bits & setup.full for bits in masks]

    def _pile(self, piles: dict[tuple[int, int, int], int], step: Step, fixed: int, without: int | None) -> None:
        """Add the unspread solutions of one equation to the piles, by cause and spread."""
        cause, comb, coef, _, _, divisor, low, high = step
        setup = self._setup
        first = setup.slots[comb][coef, divisor]
        lift = setup.lift(coef, divisor)
        whole, part = divmod(fixed, divisor)
        for rest in range(divisor):
            bits = self._sets[first + rest]
            if without is not None and coef * without % divisor == rest:
                bits ^= 1 << coef * without // divisor + lift
            if not bits:
                continue
            key = cause, -((-low - rest - part) // divisor), (rest + part + high) // divisor
            if key[1] > key[2]:
                continue
            shift = whole - lift
            piles[key] = piles.get(key, 0) | (bits << shift if shift >= 0 else bits >> -shift)


class _Setup:
    """What a occupancy never changes: the equations, solved for a new carrier, by comb."""

    def __init__(self, rules: Rules, combs: tuple[Comb, ...], lattice: Lattice) -> None:
        self._judge = Judge(rules)
        self._rules = rules
        self._combs = combs
        self._families = tuple(dict.fromkeys(comb.family for comb in combs))
        self._kinds = tuple(self._families.index(comb.family) for comb in combs)
        self._lattice = lattice
        self._solved: dict[tuple[int, ...], tuple[Step, ...]] = {}
        self._equations: dict[tuple[int, ...], tuple[Equation, ...]] = {}
        self._spacings: dict[tuple[int, int], tuple[int, int]] = {}
        self._meetings: dict[tuple[int, int], bool] = {}
        self._companies: dict[tuple[int, int], tuple[int, ...]] = {}
        self.full = (1 << lattice.size) - 1
        self.slots: list[dict[tuple[int, int], int]] = []
        self.set_count = 0
        scales = _scales(self._judge.forms)
        for _ in combs:
            places = {}
            for coef, divisor in scales:
                places[coef, divisor] = self.set_count
                self.set_count += divisor
            self.slots.append(places)

    def lift(self, coef: int, divisor: int) -> int:
        """How far a set is lifted so that no scaled position is negative."""
        return 0 if coef > 0 else -coef * self._lattice.size // divisor + 1

    def can_meet(self, target: int, comb: int) -> bool:
        """Whether carriers of the two can ever be on the air together."""
        key = target, comb
        if key not in self._meetings:
            self._meetings[key] = self._judge.together((self._combs[target].family, self._combs[comb].family))
        return self._meetings[key]

    def company_of(self, target: int, comb: int) -> tuple[int, ...]:
        """The combs of which a carrier can be on the air together with one of each of these two."""
        key = target, comb
        if key not in self._companies:
            two = self._combs[target].family, self._combs[comb].family
            self._companies[key] = tuple(
                number for number, one in enumerate(self._combs) if self._judge.together((*two, one.family))
            )
        return self._companies[key]

    def spacing(self, target: int, comb: int) -> tuple[int, int]:
        """The lowest and highest place that the spacing rule forbids, from a carrier's position; backwards for none."""
        key = target, comb
        if key not in self._spacings:
            one, two = self._combs[target], self._combs[comb]
            least_hz = centres_apart_hz(self._rules, one.family, two.family)
            self._spacings[key] = self._within(two.offset_hz - one.offset_hz, least_hz, one.slack_hz + two.slack_hz)
        return self._spacings[key]

    def _within(self, offset_hz: int, guard_hz: int, slack_hz: int) -> tuple[int, int]:
        """The lowest and highest whole number of units that is less than a guard away from an offset; backwards for
        none."""
        reach_hz = guard_hz + slack_hz - 1 if guard_hz > 0 else -self._lattice.unit_hz
        return -((reach_hz - offset_hz) // self._lattice.unit_hz), (reach_hz + offset_hz) // self._lattice.unit_hz

    def steps_of_two(self, target: int, comb: int) -> tuple[Step, ...]:
        """The three-carrier equations of a new target, the carrier that joins, and a set."""
        return self._solve(target, (comb,))

    def steps_of_three(self, target: int, comb: int, other: int) -> tuple[Step, ...]:
        """The four-carrier equations with one more fixed carrier."""
        return self._solve(target, (comb, other))

    def _solve(self, target: int, fixed: tuple[int, ...]) -> tuple[Step, ...]:
        key = (target, *fixed)
        if key not in self._solved:
            steps = []
            for group in self.company_of(target, fixed[0]):
                members = (*key, group)
                for cause, guard_hz, coefs in self._equations_of(tuple(self._kinds[i] for i in members)):
                    if len(members) == 4 and (coefs[3], group) < (coefs[2], members[2]):
                        continue
                    combs = [self._combs[i] for i in members]
                    offset_hz = sum(coef * comb.offset_hz for coef, comb in zip(coefs, combs, strict=True))
                    slack_hz = sum(abs(coef) * comb.slack_hz for coef, comb in zip(coefs, combs, strict=True))
                    other = coefs[2] if len(members) == 4 else 0
                    low, high = self._within(offset_hz, guard_hz, slack_hz)
                    steps.append((cause, group, coefs[-1], coefs[1], other, -coefs[0], low, high))
            self._solved[key] = tuple(steps)
        return self._solved[key]

    def _equations_of(self, kinds: tuple[int, ...]) -> tuple[Equation, ...]:
        """Every way to fill the slots of a form with the new carrier, the fixed ones and a set's member, solved for the
        new carrier."""
        if kinds not in self._equations:
            families = tuple(self._families[kind] for kind in kinds)
            guards: dict[tuple[int, tuple[int, ...]], int] = {}
            forms = self._judge.forms if self._judge.together(families) else ()
            for form in forms:
                for order in permutations(range(len(kinds))) if len(form.coefs) == len(kinds) else ():
                    guard = self._judge.guard_of(form, tuple(families[i] for i in order))
                    if guard:
                        coefs = dict(zip(order, form.coefs, strict=True))
                        sign = -1 if coefs[0] > 0 else 1
                        key = CAUSES.index(form.kind), tuple(sign * coefs[i] for i in range(len(kinds)))
                        guards[key] = max(guards.get(key, 0), guard)
            self._equations[kinds] = tuple((cause, guard, coefs) for (cause, coefs), guard in guards.items())
        return self._equations[kinds]


def _scales(forms: tuple[Form, ...]) -> tuple[tuple[int, int], ...]:
    """Every (coefficient, divisor) that a set can have in an equation solved for another slot."""
    scales = {
        ((-1 if form.coefs[i] > 0 else 1) * form.coefs[j], abs(form.coefs[i]))
        for form in forms
        for i in range(len(form.coefs))
        for j in range(len(form.coefs))
        if i != j
    }
    return tuple(sorted(scales))


def spread(bits: int, low: int, high: int) -> int:
    """Every bit copied to all places from `low` to `high` above it (below, where negative)."""
    width, have = high - low + 1, 1
    while have < width:
        step = min(have, width - have)
        bits |= bits << step
        have += step
    return bits << low if low >= 0 else bits >> -low
