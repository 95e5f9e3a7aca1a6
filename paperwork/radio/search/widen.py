"""The widest worst margin with as many channels, and then places as far from all others as that leaves them."""

from dataclasses import replace

from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier
from paperwork.radio.products.margins import find_least_hz
from paperwork.radio.search.climb import WORK_A_UNIT, Climb
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.exhaust import Exhaustion, OutOfWork
from paperwork.radio.search.fill import Placing, fill, keep_clean

_GRAIN_HZ = 5_000
"""Margins are tried in steps of this, or of the lattice where that is coarser, before everything is tried."""

_MOST_CARRIERS = 120
"""The margin of more carriers takes longer than it is worth: what is kept is known without."""

_FIRST = 5
"""The first step from no margin to some is worth so many times the work of another."""

_FILLINGS = 40
"""A margin is given up after the work of so many fillings a thousand of effort: where so many fail, more buy little."""


def carriers_of(problem: Problem, placing: Placing) -> list[Carrier]:
    """The placed channels as carriers, by group in the order of their places."""
    waiting = [list(group.wants) for group in problem.groups]
    placed = []
    for number, place in sorted(placing):
        want = waiting[number].pop(0)
        placed.append(replace(problem.wants[want].carrier, hz=problem.places[want].hz_at(place)))
    return placed


def find_margin_hz(problem: Problem, placing: Placing, known_hz: int = 0) -> int | None:
    """The least that any placed channel has to spare, or leaves to another; None where nothing is near any. Of a large
    plan what is known to be kept."""
    placed = carriers_of(problem, placing)
    if len(problem.fixed) + len(placed) > _MOST_CARRIERS:
        return known_hz
    return find_least_hz([*problem.fixed, *placed], problem.rules, frozenset(carrier.id for carrier in placed))


def widen(climb: Climb, placing: Placing) -> tuple[Placing, int, bool]:
    """The placing of as many channels with the widest worst margin found, the margin, and whether none is wider.

    The margin is doubled while that goes well, then narrowed down; at last everything is tried, as far as that goes.
    """
    problem = climb.problem
    grain_hz = max(problem.lattice.unit_hz, _GRAIN_HZ)
    best, good_hz, bad_hz = placing, find_margin_hz(problem, placing), problem.most_margin_hz + 1
    if good_hz is None:
        return placing, 0, True
    good_hz = max(0, good_hz)
    trial_hz = good_hz + max(grain_hz, good_hz)
    while trial_hz < bad_hz and not climb.is_stopped() and climb.spent < climb.effort:
        found = _place_with(climb, trial_hz, best, 1 if good_hz else _FIRST)
        if found:
            best, good_hz = found, find_margin_hz(problem, found, trial_hz) or 0
        else:
            bad_hz = trial_hz
        step_hz = good_hz if bad_hz > problem.most_margin_hz else (bad_hz - good_hz) // 2
        trial_hz = good_hz + max(grain_hz, step_hz // grain_hz * grain_hz)
    return _try_all(climb, best, good_hz)


def _place_with(climb: Climb, extra_hz: int, before: Placing, times: int) -> Placing | None:
    """As many channels as before with a margin, beginning from scratch and from what of those before has it."""
    problem = climb.problem
    empty = problem.occupancy(extra_hz)
    began = problem.meter.work
    start: Placing = []
    fill(empty.copy(), problem, start, Dice())
    if len(start) >= len(before):
        return start
    cost = (problem.meter.work - began) // WORK_A_UNIT + 1
    occupancy = empty.copy()
    kept = keep_clean(occupancy, problem, before)
    fill(occupancy, problem, kept, Dice())
    start = max(start, kept, key=len)
    until = min(climb.effort, climb.spent + times * cost * _FILLINGS * climb.effort // 1_000)
    found = climb.improve(start, empty, len(before), until, start)
    return found if len(found) >= len(before) else None


def _try_all(climb: Climb, best: Placing, good_hz: int) -> tuple[Placing, int, bool]:
    problem = climb.problem
    until = problem.meter.work + climb.proof_work
    left = tuple(len(group.wants) for group in problem.groups)
    try:
        while good_hz < problem.most_margin_hz and not climb.is_stopped():
            found = Exhaustion(problem, until).place(problem.occupancy(good_hz + 1), left, len(best))
            if found is None:
                return best, good_hz, True
            best, good_hz = found, max(good_hz + 1, find_margin_hz(problem, found) or 0)
    except OutOfWork:
        return best, good_hz, False
    return best, good_hz, good_hz >= problem.most_margin_hz
