"""Channels that never meet are searched each for themselves, and those that are alike once."""

from dataclasses import replace

import pytest

from paperwork.radio.board.lattice import Want
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.search import assign as module
from paperwork.radio.search.assign import assign
from tests.radio.test_search import assert_clean

MHZ = 1_000_000
WINDOW = ((500 * MHZ, 506 * MHZ),)


def wanted(count, zone="", **changes):
    return [Want(Carrier(f"{zone or 'all'} {at}", 0, 200_000, zone=zone, **changes), WINDOW) for at in range(count)]


def test_stages_out_of_reach_of_each_other_are_planned_as_one_is_alone_and_for_the_effort_of_one():
    stages = [f"stage {at}" for at in range(20)]
    wants = [want for stage in stages for want in wanted(10, stage)]
    plan, alone = (assign(some, (), (), Rules(), effort=60) for some in (wants, wanted(10, "stage 0")))
    assert (len(plan.placed), plan.margin_hz, plan.spent) == (20 * len(alone.placed), alone.margin_hz, alone.spent)
    assert (plan.is_most, plan.is_widest) == (alone.is_most, alone.is_widest)
    assert_clean(plan, wants, (), (), Rules())


def test_a_neighbour_of_one_stage_changes_the_plan_of_that_stage_alone():
    wants = [*wanted(4, "east"), *wanted(4, "west")]
    there = [Carrier("neighbour", 503 * MHZ, 200_000, zone="west", makes=False, listens=False)]
    before, after = (assign(wants, fixed, (), Rules(), effort=40) for fixed in ((), there))
    assert {id: hz for id, hz in after.placed.items() if "east" in id} == {
        id: hz for id, hz in before.placed.items() if "east" in id
    }
    assert before.placed != after.placed
    assert_clean(after, wants, there, (), Rules())


def test_those_who_meet_everybody_are_placed_first_where_there_are_many_and_all_else_is_clean_beside_them(monkeypatch):
    monkeypatch.setattr(module, "MOST_JOINT", 10)
    wants = [*wanted(3), *(want for at in range(5) for want in wanted(4, f"stage {at}"))]
    plan = assign(wants, (), (), Rules(), effort=40)
    assert len(plan.placed) == 23 and plan.is_most and not plan.is_widest
    assert_clean(plan, wants, (), (), Rules())


def test_no_margin_is_called_the_widest_where_a_narrower_part_has_no_proof(monkeypatch):
    """A part in a narrow window is proved, one of 12 channels in 6 MHz is not."""
    few = [replace(want, ranges=((500 * MHZ, 500_400_000),)) for want in wanted(1, "east")]
    assert assign(few, (), (), Rules(), effort=20).is_widest
    many = wanted(9, "west")
    assert not assign([*few, *many], (), (), Rules(), effort=20).is_widest


@pytest.mark.parametrize("count", (9, 15))
def test_an_odd_number_of_radios_that_make_no_products_gets_no_place_too_many(count):
    """Placings that are their own mirror image come in pairs: one was counted for a channel that nobody wanted."""
    silent = [Want(Carrier(f"silent {at}", 0, 300_000, "x", makes=False), WINDOW) for at in range(count)]
    wants = [*silent, *wanted(count - 2)]
    plan = assign(wants, (), (), Rules(apart={("x", ""): 50_000}), effort=60)
    assert len(plan.placed) + len(plan.unplaced) == len(wants)
    assert_clean(plan, wants, (), (), Rules(apart={("x", ""): 50_000}))


def test_a_stop_is_obeyed_in_every_part_and_each_has_its_first_places():
    wants = [*wanted(20, "east"), *(replace(want, step_hz=50_000) for want in wanted(20, "west"))]
    plan = assign(wants, (), (), Rules(), effort=500, stop=lambda: True)
    assert plan.stopped and {id.split()[0] for id in plan.placed} == {"east", "west"}


def test_progress_counts_over_all_parts():
    told = []
    wants = [*wanted(20, "east"), *(replace(want, step_hz=50_000) for want in wanted(20, "west"))]
    plan = assign(wants, (), (), Rules(), effort=60, progress=lambda *one: told.append(one))
    assert [one[0] for one in told] == sorted(one[0] for one in told)
    assert {one[1] for one in told} == {120} and told[-1][2] <= len(plan.placed)
