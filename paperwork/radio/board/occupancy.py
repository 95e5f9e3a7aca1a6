"""Which places of a lattice are forbidden to which comb of carriers, kept up as carriers are placed.

A set of places is one Python integer, a bit a place. When a carrier x joins, every equation that holds x, a new
carrier y and carriers already there is solved for y. The sums that one or two of those give, over a whole comb or a
pair of combs, are kept as bit sets (`sums`): with x fixed, all solutions of an equation are one shift of such a set,
and the guard spreads its bits. So joining costs the same however many carriers are there: some dozens of shifts of a
few thousand bits. What can never be on the air together is left out of all of it: stages out of each other's reach
cost what they would cost alone.
"""

from collections.abc import Iterable, Mapping

from paperwork.radio.board.equations import CAUSES, ROUGHLY, Meter, Plan, Setup, Sum
from paperwork.radio.board.lattice import Comb, Lattice
from paperwork.radio.carrier import Rules

Effect = Mapping[int, int]
"""By target, the places that a carrier forbids."""


class Occupancy:
    """Placed carriers and forbidden places. Combs are numbered in the order given; the first `target_count` of
    them want places. The meter counts what is shifted, here and in every copy."""

    def __init__(
        self, rules: Rules, combs: tuple[Comb, ...], target_count: int, lattice: Lattice, meter: Meter | None = None
    ) -> None:
        self._setup = Setup(rules, combs, target_count, lattice, meter or Meter())
        self.targets = range(target_count)
        self.total = [0] * target_count
        self._sums = [0] * self._setup.size
        self._placed: list[tuple[int, int]] = []

    def copy(self) -> "Occupancy":
        """An occupancy that can go on by itself."""
        return self._twin(self.total, self._sums, self._placed)

    def _twin(self, total: list[int], sums: list[int], placed: list[tuple[int, int]]) -> "Occupancy":
        twin = object.__new__(Occupancy)
        twin._setup, twin.targets = self._setup, self.targets
        twin.total, twin._sums, twin._placed = total.copy(), sums.copy(), placed.copy()
        return twin

    def add(self, comb: int, position: int, effect: Effect | None = None) -> None:
        """Place a carrier. `effect` saves the work for the targets that it holds."""
        for target in self._setup.met_by(comb):
            if effect and target in effect:
                self.total[target] |= effect[target]
            else:
                self.total[target] |= self._effect_on(target, comb, position)
        self._join(comb, position)

    def add_all(self, carriers: Iterable[tuple[int, int]]) -> None:
        """Place many carriers, by comb and position: all of a comb are spread together."""
        by_comb: dict[int, list[int]] = {}
        for comb, position in carriers:
            by_comb.setdefault(comb, []).append(position)
        setup = self._setup
        for comb, positions in by_comb.items():
            plans = [
                (target, setup.plan_of(target, comb), [0] * setup.plan_of(target, comb).size)
                for target in setup.met_by(comb)
            ]
            for position in positions:
                for target, plan, gathered in plans:
                    self._gather(plan, position, gathered)
                    self.total[target] |= self._spacing_on(target, comb, position)
                self._join(comb, position)
            for target, plan, gathered in plans:
                setup.meter.work += (len(positions) * plan.shifts + plan.spreads) * setup.shift_cost
                self.total[target] = (self.total[target] | plan.spread(gathered, setup.full)) & setup.full

    def _join(self, comb: int, position: int) -> None:
        pairs, singles = self._setup.sums_of(comb)
        for pair, coef, other in pairs:  # before the carrier itself is among them: nobody is on the air twice
            self._put(pair, coef * position, other)
        for single, coef in singles:
            quotient, rest = divmod(coef * position, single.divisor)
            self._sums[single.at + rest] |= 1 << quotient + single.lift
        self._placed.append((comb, position))
        self._setup.meter.work += len(pairs) * self._setup.shift_cost

    def reach(self, target: int) -> int:
        """How many places on either side of its own a carrier forbids to one like it, by spacing alone; -1 for none."""
        return self._setup.spacing(target, target)[1]

    def effect(self, comb: int, position: int) -> dict[int, int]:
        """By target that it can meet, the places that become forbidden when the carrier joins."""
        return {target: self._effect_on(target, comb, position) for target in self._setup.met_by(comb)}

    def effect_on(self, target: int, comb: int, position: int, *, is_rough: bool) -> int:
        """The places that become forbidden to a target when the carrier joins; `is_rough`: most of them."""
        return self._effect_on(target, comb, position, ROUGHLY if is_rough else None)

    def list_forbidden(self, target: int) -> list[int]:
        """By cause, the places forbidden to a target. Everything is placed once more to tell the causes apart."""
        again = self._twin([0] * len(self.targets), [0] * self._setup.size, [])
        forbidden = [0] * len(CAUSES)
        for comb, position in self._placed:
            forbidden[0] |= again._spacing_on(target, comb, position) & self._setup.full
            for cause in range(1, len(CAUSES)):
                plan = self._setup.plan_of(target, comb, cause)
                forbidden[cause] |= again._shift(plan, position)
            again.add(comb, position, dict.fromkeys(self.targets, 0))
        return forbidden

    def _effect_on(self, target: int, comb: int, position: int, cause: int | None = None) -> int:
        setup = self._setup
        plan = setup.plan_of(target, comb, cause)
        setup.meter.work += (plan.shifts + plan.spreads) * setup.shift_cost
        return (self._spacing_on(target, comb, position) | self._shift(plan, position)) & setup.full

    def _spacing_on(self, target: int, comb: int, position: int) -> int:
        low, high = self._setup.spacing(target, comb)
        if low > high:
            return 0
        bits = (1 << high - low + 1) - 1
        return bits << position + low if position + low >= 0 else bits >> -position - low

    def _shift(self, plan: Plan, position: int) -> int:
        """All solutions of the equations of a plan."""
        gathered = [0] * plan.size
        self._gather(plan, position, gathered)
        return plan.spread(gathered, self._setup.full)

    def _gather(self, plan: Plan, position: int, gathered: list[int]) -> None:
        """Add the solutions of the equations of a plan, each under the window that its guard makes of it."""
        sums = self._sums
        for at, coef, lift, window in plan.plain:
            if sums[at]:
                shift = coef * position - lift
                gathered[window] |= sums[at] << shift if shift >= 0 else sums[at] >> -shift
        for at, coef, lift, divisor, windows in plan.divided:
            whole, part = divmod(coef * position, divisor)
            shift = whole - lift
            for rest in range(divisor):
                bits = sums[at + rest]
                if bits:
                    gathered[windows[rest + part]] |= bits << shift if shift >= 0 else bits >> -shift

    def _put(self, pair: Sum, fixed: int, other: Sum) -> None:
        """Add the sums of a fixed number and each of another set's to a set."""
        whole, part = divmod(fixed, pair.divisor)
        for rest in range(pair.divisor):
            bits = self._sums[other.at + rest]
            if bits:
                more, left = divmod(part + rest, pair.divisor)
                self._sums[pair.at + left] |= bits << whole + more + pair.lift - other.lift
