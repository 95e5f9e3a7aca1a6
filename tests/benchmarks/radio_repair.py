"""Plans that something made wrong, mended by `repair` and by a general constraint solver (OR-Tools CP-SAT).

    python -m tests.benchmarks.radio_repair [--effort 4000] [--seconds 10] [first case] [end]

Needs the `bench` extra. One core each. The solver has one integer a channel on its raster and a flag that it moves, and
minimises moves. Disjunctions for spacing and products are added as plans break them: what it then proves of few rules
holds for all, and a plan that breaks none is the best there is. It begins from the plan as it is.
"""

import argparse
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from ortools.sat.python import cp_model

from paperwork.radio.bands import BlockedRange, block_tv, blocks_on
from paperwork.radio.board.lattice import Want, candidate_frequencies_hz
from paperwork.radio.carrier import Carrier, are_together, guard_hz
from paperwork.radio.moves.repair import list_conflicts, repair
from paperwork.radio.products.forms import FORMS
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search.assign import assign
from paperwork.radio.spacing import centres_apart_hz
from tests.benchmarks.radio_cases import ANALOGUE, CHANNELS, DIGITAL, IN_EAR, MHZ, RULES

SIZES = (30, 40, 50, 60)
EVENTS = ("television", "refused", "guest", "noise", "all of it")


@dataclass(frozen=True)
class Broken:
    """A plan that was clean, and what came over it."""

    name: str
    wants: tuple[Want, ...]
    fixed: tuple[Carrier, ...]
    blocks: tuple[BlockedRange, ...]

    @property
    def wrong(self) -> frozenset[str]:
        """The channels that cannot stay, whatever the others do."""
        return frozenset(
            want.carrier.id for want in self.wants if blocks_on(self.blocks, want.carrier.hz, want.carrier.bandwidth_hz)
        )


def list_cases() -> list[Broken]:
    """Four plans of 30 to 60 channels in two to four windows, a fifth of them backups, and five events each."""
    return [case for size in SIZES for case in _break(size)]


def _plan(size: int) -> tuple[list[Want], list[Carrier]]:
    """A clean plan that is not full: two thirds analogue, five windows of 48 MHz, in-ears among them; from 40 channels on a hall
    and two stages that do not hear each other."""
    windows = [((470 * MHZ + at * 44 * MHZ, 518 * MHZ + at * 44 * MHZ),) for at in range(5)]
    zones = ("", "north", "south") if size > 30 else ("",)
    theirs = [replace(IN_EAR, id=f"ears {at}", hz=475 * MHZ + at * 29_200_000) for at in range(size // 10)]
    wants = []
    for at in range(size):
        sample, name = (DIGITAL, "digital") if at % 3 == 2 else (ANALOGUE, "analogue")
        name = "backup" if at % 5 == 4 else name
        carrier = replace(sample, id=f"{name} {at}", zone=zones[at // 2 % len(zones)])
        wants.append(Want(carrier, windows[at % len(windows)]))
    placed = assign(wants, theirs, (), RULES, effort=300).placed
    plan = [
        replace(one, carrier=replace(one.carrier, hz=placed[one.carrier.id]))
        for one in wants
        if one.carrier.id in placed
    ]
    return plan, theirs


def _break(size: int) -> list[Broken]:
    """The plan when a television channel comes on over the first channel, two frequencies are refused, a guest act brings four
    carriers, a sweep is loud where the first four channels are, or all of it together."""
    wants, theirs = _plan(size)
    tv = tuple(
        block_tv(one) for one in CHANNELS if any(one.low_hz < want.carrier.hz < one.high_hz for want in wants[:1])
    )
    refused = _around(wants[1 : size : size // 2], 100_000, "refused")
    noise = _around(wants[:4], 150_000, "sweep")
    guests = [replace(ANALOGUE, id=f"guest {at}", hz=476_300_000 + at * 5_650_000) for at in range(4)]
    given = (([], tv), ([], refused), (guests, ()), ([], noise), (guests, (*tv, *refused, *noise)))
    return [
        Broken(f"{len(wants)}, {event}", tuple(wants), (*theirs, *more), tuple(blocks))
        for event, (more, blocks) in zip(EVENTS, given, strict=True)
    ]


def _around(wants: Sequence[Want], reach_hz: int, cause: str) -> tuple[BlockedRange, ...]:
    return tuple(BlockedRange(one.carrier.hz - reach_hz, one.carrier.hz + reach_hz, cause) for one in wants)


def check_mended(case: Broken, moved: dict[str, int]) -> None:
    """Stop when a plan is not clean: a benchmark of dirty plans is worth nothing."""
    carriers = [replace(want.carrier, hz=moved.get(want.carrier.id, want.carrier.hz)) for want in case.wants]
    blocked = [one.id for one in carriers if blocks_on(case.blocks, one.hz, one.bandwidth_hz)]
    ours = {one.id for one in carriers}
    if blocked or any(ours & names for names in list_conflicts([*case.fixed, *carriers], RULES)):
        raise SystemExit(f"{case.name}: the plan is not clean {blocked}")


class Model:
    """The solver's model of one case, which grows by the rules that its plans break."""

    def __init__(self, case: Broken) -> None:
        self.case, self.model = case, cp_model.CpModel()
        self.places: dict[str, object] = {one.id: one.hz // MODEL_HZ for one in case.fixed}
        self.carriers = {one.id: one for one in case.fixed} | {want.carrier.id: want.carrier for want in case.wants}
        self.moves = {}
        for want in case.wants:
            name = want.carrier.id
            free = [
                hz // MODEL_HZ
                for hz in candidate_frequencies_hz(want)
                if not blocks_on(case.blocks, hz, want.carrier.bandwidth_hz)
            ]
            now = want.carrier.hz // MODEL_HZ
            self.places[name] = self.model.new_int_var_from_domain(cp_model.Domain.from_values([*free, now]), name)
            self.moves[name] = self.model.new_bool_var(f"{name} moves")
            self.model.add(self.places[name] == now).only_enforce_if(~self.moves[name])
            self.model.add(self.places[name] != now).only_enforce_if(self.moves[name])
            if name in case.wrong:
                self.model.add(self.moves[name] == 1)
        self.model.minimize(sum(self.moves.values()))
        self.known: set[tuple[object, ...]] = set()
        for one, two in combinations(self.carriers.values(), 2):
            self.part(one, two)

    def part(self, one: Carrier, two: Carrier) -> None:
        if (one.id in self.moves or two.id in self.moves) and are_together((one, two)):
            self.keep_off({one.id: 1, two.id: -1}, centres_apart_hz(RULES, one, two))

    def keep_off(self, terms: dict[str, int], least_hz: int) -> None:
        key = tuple(sorted(terms.items()))
        if key in self.known or not least_hz:
            return
        self.known.add(key)
        total = sum(weight * self.places[name] for name, weight in terms.items())
        least, side = -(-least_hz // MODEL_HZ), self.model.new_bool_var("")
        self.model.add(total >= least).only_enforce_if(side)
        self.model.add(total <= -least).only_enforce_if(~side)

    def plan(self, solver) -> dict[str, int]:
        return {name: solver.value(self.places[name]) * MODEL_HZ for name in self.moves}

    def learn(self, plan: dict[str, int]) -> bool:
        """Add the rules that a plan breaks; whether it breaks any."""
        carriers = [replace(one, hz=plan.get(one.id, one.hz)) for one in self.carriers.values()]
        before = len(self.known)
        for hit in list_hits(carriers, RULES):
            form = next(form for form in FORMS if form.text == hit.text)
            makers = [self.carriers[name] for name in hit.makers]
            victim = self.carriers[hit.victim]
            if any(one.id in self.moves for one in (*makers, victim)):
                terms: dict[str, int] = {}
                for one, weight in (*zip(makers, form.weights, strict=True), (victim, -1)):
                    terms[one.id] = terms.get(one.id, 0) + weight
                self.keep_off(terms, guard_hz(RULES, form.kind, victim, makers, form.weights))
        return len(self.known) > before


MODEL_HZ = 25_000


def solve(case: Broken, seconds: float) -> tuple[dict[str, int] | None, int, float]:
    """The moves of the solver, None where it has no clean plan in time; how many it proved to be needed; and the time."""
    began = time.process_time()
    model, needed, best = Model(case), 0, None
    model.learn({want.carrier.id: want.carrier.hz for want in case.wants})
    while (left := seconds - (time.process_time() - began)) > 0:
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = left
        solver.parameters.num_workers = 1
        status = solver.solve(model.model)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            break
        needed = max(needed, round(solver.best_objective_bound))
        plan = model.plan(solver)
        model.model.clear_hints()
        for name, hz in plan.items():
            model.model.add_hint(model.places[name], hz // MODEL_HZ)
        if not model.learn(plan):
            best = {
                want.carrier.id: plan[want.carrier.id]
                for want in case.wants
                if plan[want.carrier.id] != want.carrier.hz
            }
            break
    return best, needed, time.process_time() - began


def main(arguments: Sequence[str] | None = None) -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seconds", type=float, default=10)
    parser.add_argument("--effort", type=int, default=4_000)
    parser.add_argument("first", type=int, nargs="?", default=0)
    parser.add_argument("end", type=int, nargs="?", default=20)
    options = parser.parse_args(arguments)
    behind = 0
    for case in list_cases()[options.first : options.end]:
        began = time.process_time()
        found = repair(case.wants, case.fixed, case.blocks, RULES, wrong=case.wrong, effort=options.effort)
        took = time.process_time() - began
        told = f"{len(found.moved)} moved"
        if found.stuck:
            told += f", {len(found.stuck)} stuck"
        else:
            check_mended(case, found.moved)
        told += ", proved" if found.is_fewest else ""
        theirs, needed, spent = solve(case, options.seconds) if options.seconds else (None, 0, 0.0)
        behind += theirs is not None and (bool(found.stuck) or len(theirs) < len(found.moved))
        if theirs is not None:
            check_mended(case, theirs)
        solver = "none" if theirs is None else f"{len(theirs)} moved"
        print(
            f"{case.name:16} wrong {len(case.wrong):2}  repair {told} ({took:.1f} s)  solver {solver}, "
            f"{needed} proved to be needed ({spent:.0f} s)",
            flush=True,
        )
    print(f"behind the solver in {behind} cases")
    sys.exit(bool(behind))


if __name__ == "__main__":
    main()
