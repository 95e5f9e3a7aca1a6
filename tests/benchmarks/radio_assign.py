"""Channels placed by `assign` against a general constraint solver (OR-Tools CP-SAT) on thirty mixed cases.

    python -m tests.benchmarks.radio_assign [--seconds 20] [--effort 10000] [first case] [end]

Needs the `bench` extra. One core each. The solver has two models of the same rules and is credited with the
better: `differences` knows carriers by place on a 100 kHz raster and forbids equal differences; `slots` has
one integer a channel on the full raster and every product as a disjunction. Both start from a hint, the
plan that a lowest-first allocator makes on their raster.
"""

import argparse
import sys
import time
from collections import defaultdict
from dataclasses import replace
from itertools import combinations

from ortools.sat.python import cp_model

from paperwork.radio.bands import blocks_on
from paperwork.radio.board.lattice import candidate_frequencies_hz, positions_of
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import FIFTH2, THIRD2, Carrier, Rules
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search.assign import assign
from paperwork.radio.spacing import centres_apart_hz, list_close_pairs
from tests.benchmarks.radio_cases import RULES, Case, read_cases

RASTER_HZ = 100_000
GRAIN_HZ = 25_000


def samples_of(case: Case) -> dict[str, tuple[Carrier, int, list[int]]]:
    """By type a sample carrier, how many are wanted, and where they may go."""
    types: dict[str, tuple[Carrier, int, list[int]]] = {}
    for want in case.wants:
        kind = want.carrier.kind
        if kind in types:
            types[kind] = (types[kind][0], types[kind][1] + 1, types[kind][2])
        else:
            places = [
                hz for hz in candidate_frequencies_hz(want) if not blocks_on(case.blocks, hz, want.carrier.bandwidth_hz)
            ]
            types[kind] = (want.carrier, 1, places)
    return types


def lowest_first(case: Case, raster_hz: int) -> list[Carrier]:
    """What the simplest allocator places: digital and analogue in turn, each at its lowest clean place."""
    problem = Problem(case.wants, case.fixed, case.blocks, RULES)
    occupancy: Occupancy = problem.occupancy()
    placed = []
    for i, want in enumerate(case.wants):
        family = problem.targets[i]
        for place in positions_of(problem.places[i].allowed):
            hz = problem.places[i].hz_at(place)
            if hz % raster_hz == 0 and not occupancy.total[family] >> place & 1:
                occupancy.add(family, place)
                placed.append(replace(want.carrier, hz=hz))
                break
    return placed


def guard(kind: str, product: str) -> int:
    return RULES.guards.get((kind, product), RULES.guards["", product])


def solve_differences(case: Case, seconds: float) -> tuple[int, bool]:
    """Channels placed on the 100 kHz raster, and whether that is proved the most there."""
    model = cp_model.CpModel()
    items: list[tuple[Carrier, object]] = [(carrier, None) for carrier in case.fixed]
    by_type = defaultdict(list)
    hint = {(carrier.kind, carrier.hz) for carrier in lowest_first(case, RASTER_HZ)}
    for sample, count, places in samples_of(case).values():
        for hz in places:
            carrier = replace(sample, hz=hz)
            if hz % RASTER_HZ == 0 and not any(
                abs(hz - other.hz) < centres_apart_hz(RULES, carrier, other) for other in case.fixed
            ):
                chosen = model.new_bool_var(f"{sample.kind} {hz}")
                model.add_hint(chosen, (sample.kind, hz) in hint)
                items.append((carrier, chosen))
                by_type[sample.kind].append(chosen)
        model.add(sum(by_type[sample.kind]) <= count)
    items.sort(key=lambda item: item[0].hz)
    _forbid_close(model, items)
    _forbid_equal_differences(model, items, case)
    _forbid_fifth(model, items)
    model.maximize(sum(chosen for group in by_type.values() for chosen in group))
    return _run(model, seconds)


def _clause(model, chosen) -> None:
    """Not all of these at once; fixed carriers are always there."""
    free = [one for one in dict.fromkeys(chosen) if one is not None]
    if free:
        model.add_bool_or([~one for one in free])


def _forbid_close(model, items) -> None:
    for i, (one, chosen) in enumerate(items):
        for other, also in items[i + 1 :]:
            if other.hz - one.hz > 2_000_000:
                break
            if other.hz - one.hz < centres_apart_hz(RULES, one, other):
                _clause(model, [chosen, also])


def _forbid_equal_differences(model, items, case) -> None:
    """a+b-c on v says that v-b and a-c are nearly equal: pairs by difference, a flag for each and class."""
    pairs = defaultdict(list)
    for (one, chosen), (other, also) in combinations(items, 2):
        if one.makes or other.makes:
            kinds = tuple(sorted((one.kind, other.kind)))
            pairs[(other.hz - one.hz) // GRAIN_HZ, kinds].append((chosen, also))
    flags = {}
    for (difference, kinds), members in pairs.items():
        flag = model.new_bool_var(f"difference {difference} {kinds}")
        literals = []
        sure = False
        for chosen, also in members:
            both = [one for one in (chosen, also) if one is not None]
            sure |= not both
            if len(both) == 2:
                pair = model.new_bool_var("")
                model.add_bool_or([~both[0], ~both[1], pair])
                literals.append(pair)
            elif both:
                literals.append(both[0])
        if "digital" not in kinds and len(literals) > 1:
            model.add_at_most_one(literals)
        for literal in literals:
            model.add_implication(literal, flag)
        if sure:
            model.add(flag == 1)
            if "digital" not in kinds:
                for literal in literals:
                    model.add(literal == 0)
        flags[difference, kinds] = flag
    by_difference = defaultdict(list)
    for (difference, kinds), flag in flags.items():
        by_difference[difference].append((kinds, flag))
    sure_flags = {key for key, members in pairs.items() if any(one is None and two is None for one, two in members)}
    for (difference, kinds), flag in flags.items():
        for near in range(difference, difference + 6):
            for others, second in by_difference.get(near, ()):
                if second is flag or (near == difference and others < kinds):
                    continue
                digital = (*kinds, *others).count("digital")
                if digital > 1 or ((difference, kinds) in sure_flags and (near, others) in sure_flags):
                    continue
                strictest = max(guard(kind, THIRD2) for kind in (*kinds, *others))
                limit = guard("digital", THIRD2) if digital else strictest
                if (near - difference) * GRAIN_HZ < limit:
                    model.add_bool_or([~flag, ~second])


def _forbid_fifth(model, items) -> None:
    makers = [(carrier, chosen) for carrier, chosen in items if carrier.makes]
    reach = max(guard(kind, FIFTH2) for kind in ("analogue", "digital", "in-ear")) - 1
    at = defaultdict(list)
    for carrier, chosen in items:
        at[carrier.hz // GRAIN_HZ].append((carrier, chosen))
    for a, first in makers:
        for b, second in makers:
            if a is b:
                continue
            lands = (3 * a.hz - 2 * b.hz) // GRAIN_HZ
            for near in range(lands - reach // GRAIN_HZ, lands + reach // GRAIN_HZ + 1):
                for victim, third in at.get(near, ()):
                    if victim not in (a, b) and abs(near - lands) * GRAIN_HZ < guard(victim.kind, FIFTH2):
                        _clause(model, [first, second, third])


def solve_slots(case: Case, seconds: float) -> tuple[int, bool]:
    """Channels placed on the full raster, and whether that is proved the most."""
    model = cp_model.CpModel()
    start = lowest_first(case, GRAIN_HZ)
    slots = []
    for carrier in case.fixed:
        slots.append((carrier, model.new_constant(carrier.hz // GRAIN_HZ), None))
    presences = []
    for sample, count, places in samples_of(case).values():
        hinted = sorted(carrier.hz for carrier in start if carrier.kind == sample.kind)
        domain = cp_model.Domain.from_values([hz // GRAIN_HZ for hz in places] or [0])
        row = []
        for i in range(count if places else 0):
            place = model.new_int_var_from_domain(domain, f"{sample.kind} {i}")
            present = model.new_bool_var(f"{sample.kind} {i} present")
            model.add_hint(present, i < len(hinted))
            model.add_hint(place, (hinted[i] if i < len(hinted) else places[-1]) // GRAIN_HZ)
            if row:
                model.add_implication(present, row[-1][2])
                least = -(-centres_apart_hz(RULES, sample, sample) // GRAIN_HZ)
                model.add(place >= row[-1][1] + least).only_enforce_if(present)
            row.append((sample, place, present))
            presences.append(present)
        slots.extend(row)

    def apart(expression, limit_hz, members):
        least = -(-limit_hz // GRAIN_HZ)
        side = model.new_bool_var("")
        there = list(dict.fromkeys(present for _, _, present in members if present is not None))
        if there:
            model.add(expression >= least).only_enforce_if([*there, side])
            model.add(expression <= -least).only_enforce_if([*there, ~side])

    for one, two in combinations(slots, 2):
        if one[0].kind != two[0].kind or one[2] is None or two[2] is None:
            apart(one[1] - two[1], centres_apart_hz(RULES, one[0], two[0]), (one, two))
    makers = [slot for slot in slots if slot[0].makes]
    for a in makers:
        for b in makers:
            if a is b:
                continue
            for v in slots:
                if v is not a and v is not b:
                    apart(3 * a[1] - 2 * b[1] - v[1], guard(v[0].kind, FIFTH2), (a, b, v))
    for a in makers:
        for b, v in combinations([slot for slot in slots if slot is not a], 2):
            victims = [x[0].kind for x, y in ((b, v), (v, b)) if y[0].makes]
            if victims:
                apart(2 * a[1] - b[1] - v[1], max(guard(kind, THIRD2) for kind in victims), (a, b, v))
    for four in combinations(slots, 4):
        digital = [slot for slot in four if not slot[0].makes]
        if len(digital) > 1:
            continue
        limit = guard("digital", THIRD2) if digital else max(guard(slot[0].kind, THIRD2) for slot in four)
        a, b, c, d = four
        for p, q, r, s in ((a, b, c, d), (a, c, b, d), (a, d, b, c)):
            apart(p[1] + q[1] - r[1] - s[1], limit, four)
    model.maximize(sum(presences))
    return _run(model, seconds)


def _run(model, seconds: float) -> tuple[int, bool]:
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return 0, False
    return round(solver.objective_value), status == cp_model.OPTIMAL


def check_plan(case: Case, placed: dict[str, int], rules: Rules) -> None:
    """Stop when a plan is not clean: a benchmark of dirty plans is worth nothing."""
    carriers = [
        *case.fixed,
        *(replace(want.carrier, hz=placed[want.carrier.id]) for want in case.wants if want.carrier.id in placed),
    ]
    if list_hits(carriers, rules) or list_close_pairs(carriers, rules):
        raise SystemExit(f"{case.name}: the plan is not clean")


def main(arguments: list[str] | None = None) -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seconds", type=float, default=20)
    parser.add_argument("--effort", type=int, default=10_000)
    parser.add_argument("--models", default="slots,differences")
    parser.add_argument("first", type=int, nargs="?", default=0)
    parser.add_argument("end", type=int, nargs="?", default=30)
    options = parser.parse_args(arguments)
    behind = gained = unproved = 0
    for case in read_cases()[options.first : options.end]:
        began = time.perf_counter()
        plan = assign(case.wants, case.fixed, case.blocks, RULES, effort=options.effort)
        took = time.perf_counter() - began
        check_plan(case, plan.placed, RULES)
        simple = len(lowest_first(case, GRAIN_HZ))
        results = {}
        for name in filter(None, options.models.split(",")):
            began = time.perf_counter()
            results[name] = (*globals()[f"solve_{name}"](case, options.seconds), time.perf_counter() - began)
        solver = max((placed for placed, _, _ in results.values()), default=0)
        proved = results.get("slots", (0, False))[1]
        behind += len(plan.placed) < solver
        if results and not proved:
            unproved += 1
            gained += len(plan.placed) - solver
        told = "  ".join(
            f"{name} {placed}{' proved' if sure else ''} ({spent:.0f} s)"
            for name, (placed, sure, spent) in results.items()
        )
        print(
            f"{case.name:15} wanted {len(case.wants):2}  assign {len(plan.placed):2} ({took:.1f} s, margin "
            f"{(plan.margin_hz or 0) // 1000} kHz)  lowest first {simple:2}  {told}",
            flush=True,
        )
    print(
        f"behind the solver in {behind} cases; where it proved nothing ({unproved} cases), "
        f"{gained / max(1, unproved):+.2f} channels on average"
    )
    sys.exit(bool(behind))


if __name__ == "__main__":
    main()
