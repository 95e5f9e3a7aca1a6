"""Which places of a lattice are forbidden to which family, kept up as carriers are placed.

A set of places is one Python integer, a bit a place. When a carrier x joins, every equation that holds x,
a new carrier y and the carriers already there is solved for y. With x (and one more carrier) fixed, all
the solutions over a whole family are one shift of the family's bit set, scaled by the coefficient that the
family has in the equation; the guard then spreads the bits. So placing costs about 2n shifts of a few
thousand bits instead of n^3 products. What can never be on the air together is left out of all of it: stages
out of each other's reach cost what they would cost alone.
"""

from itertools import permutations

from paperwork.radio.carrier import FIFTH2, FIFTH3, THIRD2, THIRD3, Family, Rules
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.search.lattice import Lattice
from paperwork.radio.spacing import centres_apart_hz

SPACING = "spacing"
CAUSES = (SPACING, THIRD2, THIRD3, FIFTH2, FIFTH3)

# (cause, family of the set, its coefficient, coefficient of x, of the other fixed carrier, divisor, reach)
Step = tuple[int, int, int, int, int, int, int]


class Occupancy:
    """Placed carriers and forbidden places. Families are numbered in the order given; the first
    `target_count` of them want places."""

    def __init__(self, rules: Rules, families: tuple[Family, ...], target_count: int, lattice: Lattice) -> None:
        self._setup = _Setup(rules, families, lattice)
        self.targets = range(target_count)
        self._placed: list[list[int]] = [[] for _ in families]
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

    def add(self, family: int, position: int, effect: list[list[int]] | None = None) -> None:
        """Place a carrier. `effect` saves the work when it is known already."""
        for target, masks in zip(self.targets, effect or self.effect(family, position), strict=True):
            held = self.forbidden[target]
            for cause, bits in enumerate(masks):
                if bits:
                    held[cause] |= bits
                    self.total[target] |= bits
        setup = self._setup
        for (coef, divisor), at in setup.slots[family].items():
            quotient, rest = divmod(coef * position, divisor)
            self._sets[at + rest] |= 1 << quotient + setup.lift(coef, divisor)
        if position in self._placed[family]:
            self._doubled |= {(family, position)}
        self._placed[family].append(position)

    def effect(self, family: int, position: int) -> list[list[int]]:
        """By target and cause, the places that become forbidden when the carrier joins."""
        return [self._effect_on(target, family, position) for target in self.targets]

    def _effect_on(self, target: int, family: int, position: int) -> list[int]:
        setup = self._setup
        masks = [0] * len(CAUSES)
        if not setup.can_meet(target, family):
            return masks
        piles: dict[tuple[int, int, int], int] = {}
        for step in setup.steps_of_two(target, family):
            self._pile(piles, step, step[3] * position, None)
        for other in setup.company_of(target, family):
            steps = setup.steps_of_three(target, family, other) if self._placed[other] else ()
            for at in self._placed[other] if steps else ():
                # Two carriers on one place share a bit, which must then stay: the other one is still there.
                without = None if (other, at) in self._doubled else at
                for step in steps:
                    fixed = step[3] * position + step[4] * at
                    self._pile(piles, step, fixed, without if step[1] == other else None)
        reach = setup.spacing(target, family)
        if reach >= 0:
            masks[0] = spread(1, position - reach, position + reach)
        for (cause, low, high), bits in piles.items():
            masks[cause] |= spread(bits, low, high)
        return [bits & setup.full for bits in masks]

    def _pile(self, piles: dict[tuple[int, int, int], int], step: Step, fixed: int, without: int | None) -> None:
        """Add the unspread solutions of one equation to the piles, by cause and spread."""
        cause, family, coef, _, _, divisor, reach = step
        setup = self._setup
        first = setup.slots[family][coef, divisor]
        lift = setup.lift(coef, divisor)
        whole, part = divmod(fixed, divisor)
        for rest in range(divisor):
            bits = self._sets[first + rest]
            if without is not None and coef * without % divisor == rest:
                bits ^= 1 << coef * without // divisor + lift
            if not bits:
                continue
            key = cause, -((reach - rest - part) // divisor), (rest + part + reach) // divisor
            if key[1] > key[2]:
                continue
            shift = whole - lift
            piles[key] = piles.get(key, 0) | (bits << shift if shift >= 0 else bits >> -shift)


class _Setup:
    """What a occupancy never changes: the equations, solved for a new carrier, by family."""

    def __init__(self, rules: Rules, families: tuple[Family, ...], lattice: Lattice) -> None:
        self._judge = Judge(rules)
        self._rules = rules
        self._families = families
        self._lattice = lattice
        self._solved: dict[tuple[int, ...], tuple[Step, ...]] = {}
        self._spacings: dict[tuple[int, int], int] = {}
        self._meetings: dict[tuple[int, int], bool] = {}
        self._companies: dict[tuple[int, int], tuple[int, ...]] = {}
        self.full = (1 << lattice.size) - 1
        self.slots: list[dict[tuple[int, int], int]] = []
        self.set_count = 0
        scales = _scales(self._judge.forms)
        for _ in families:
            places = {}
            for coef, divisor in scales:
                places[coef, divisor] = self.set_count
                self.set_count += divisor
            self.slots.append(places)

    def lift(self, coef: int, divisor: int) -> int:
        """How far a set is lifted so that no scaled position is negative."""
        return 0 if coef > 0 else -coef * self._lattice.size // divisor + 1

    def can_meet(self, target: int, family: int) -> bool:
        """Whether carriers of the two can ever be on the air together."""
        key = target, family
        if key not in self._meetings:
            self._meetings[key] = self._judge.together((self._families[target], self._families[family]))
        return self._meetings[key]

    def company_of(self, target: int, family: int) -> tuple[int, ...]:
        """The families of which a carrier can be on the air together with one of each of these two."""
        key = target, family
        if key not in self._companies:
            two = self._families[target], self._families[family]
            self._companies[key] = tuple(
                number for number, one in enumerate(self._families) if self._judge.together((*two, one))
            )
        return self._companies[key]

    def spacing(self, target: int, family: int) -> int:
        """The reach of the spacing rule in lattice units; negative for none."""
        key = target, family
        if key not in self._spacings:
            one, two = self._families[target], self._families[family]
            least_hz = centres_apart_hz(self._rules, one, two)
            self._spacings[key] = (least_hz - 1 + 2 * self._lattice.slack_hz) // self._lattice.unit_hz
        return self._spacings[key]

    def steps_of_two(self, target: int, family: int) -> tuple[Step, ...]:
        """The three-carrier equations of a new target, the carrier that joins, and a set."""
        return self._solve(target, (family,), 3)

    def steps_of_three(self, target: int, family: int, other: int) -> tuple[Step, ...]:
        """The four-carrier equations with one more fixed carrier."""
        return self._solve(target, (family, other), 4)

    def _solve(self, target: int, fixed: tuple[int, ...], size: int) -> tuple[Step, ...]:
        key = (target, *fixed)
        if key not in self._solved:
            reaches: dict[Step, int] = {}
            for group in self.company_of(target, fixed[0]):
                members = (target, *fixed, group)
                if not self._judge.together(tuple(self._families[i] for i in members)):
                    continue
                for form in self._judge.forms:
                    if len(form.coefs) == size:
                        self._solve_form(form, members, reaches)
            self._solved[key] = tuple((*step[:6], reach) for step, reach in reaches.items())
        return self._solved[key]

    def _solve_form(self, form: Form, members: tuple[int, ...], reaches: dict[Step, int]) -> None:
        """Note every way to fill the form's slots with the new carrier, the fixed ones and a set's member."""
        for order in permutations(range(len(members))):
            filled = tuple(self._families[members[i]] for i in order)
            guard = self._judge.guard_of(form, filled)
            if not guard:
                continue
            coefs = dict(zip(order, form.coefs, strict=True))
            divisor = abs(coefs[0])
            sign = -1 if coefs[0] > 0 else 1
            x, other, own = coefs[1], coefs[2] if len(members) == 4 else 0, coefs[len(members) - 1]
            if len(members) == 4 and (sign * own, members[3]) < (sign * other, members[2]):
                continue
            slack_hz = self._lattice.slack_hz * sum(map(abs, form.coefs))
            step = (CAUSES.index(form.kind), members[-1], sign * own, sign * x, sign * other, divisor, 0)
            reaches[step] = max(reaches.get(step, 0), (guard - 1 + slack_hz) // self._lattice.unit_hz)


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
