from dataclasses import replace
from functools import reduce
from operator import or_

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.board import equations
from paperwork.radio.board.equations import CAUSES, Meter, Setup
from paperwork.radio.board.lattice import MOST_OFFSETS, Want, candidate_frequencies_hz, choose_lattice, positions_of
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules, are_together
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import centres_apart_hz, list_close_pairs
from tests.clean_places import find_clean_hz
from tests.few import few_examples
from tests.radio.twins import carrier_sets, rules_with_all_guards

MHZ = 1_000_000


WINDOW = ((499_900_000, 502_000_000),)


def board_of(want, carriers, rules):
    """An occupancy with these carriers, for one want, and its lattice."""
    problem = Problem([want], carriers, (), rules)
    return problem.occupancy(), problem.lattice


def assert_forbidden_as_listed(want, fixed, rules, most=10**6):
    """Each place of the want is forbidden for the very causes that the listers name in exact hertz."""
    occupancy, lattice = board_of(want, fixed, rules)
    old = len(list_close_pairs(fixed, rules))
    twins_in_place = len({(other.hz, other.family) for other in fixed}) < len(fixed)
    for hz in candidate_frequencies_hz(want)[:most]:
        everyone = [*fixed, replace(want.carrier, hz=hz)]
        causes = {hit.kind for hit in list_hits(everyone, rules) if "new" in (hit.victim, *hit.makers)}
        if len(list_close_pairs(everyone, rules)) > old:
            causes.add("spacing")
        found = {
            cause
            for cause, bits in zip(CAUSES, occupancy.list_forbidden(0), strict=True)
            if bits >> lattice.position(hz) & 1
        }
        assert causes <= found if twins_in_place else causes == found


@settings(max_examples=few_examples(60), deadline=None)
@given(
    carrier_sets(most=7, raster_hz=25_000),
    carrier_sets(most=1),
    rules_with_all_guards(),
    st.sampled_from([0, -100_000, 60_000]),
)
def test_forbidden_places_are_those_at_which_the_listers_object(fixed, new, rules, apart_hz):
    rules = replace(rules, apart_hz=apart_hz)
    for carrier in new:
        assert_forbidden_as_listed(Want(replace(carrier, id="new"), WINDOW), fixed, rules)


@settings(max_examples=few_examples(60), deadline=None)
@given(
    carrier_sets(most=7, raster_hz=25_000),
    st.lists(st.integers(-12_499, 12_499), min_size=7, max_size=7),
    carrier_sets(most=1),
    st.integers(0, 24_999),
    rules_with_all_guards(),
)
def test_carriers_in_whole_hertz_forbid_what_the_listers_object_to_and_no_more(fixed, odd_hz, new, origin_hz, rules):
    fixed = [replace(carrier, hz=carrier.hz + hz) for carrier, hz in zip(fixed, odd_hz, strict=False)]
    for carrier in new:
        assert_forbidden_as_listed(Want(replace(carrier, id="new"), WINDOW, 25_000, origin_hz), fixed, rules)


def test_more_offsets_than_are_kept_err_on_the_safe_side_by_little():
    fixed = [Carrier(f"c{number}", 500_301_003 + number * 1_234_567, 200_000) for number in range(3 * MOST_OFFSETS)]
    want = Want(Carrier("new", 0, 200_000), ((500 * MHZ, 530 * MHZ),))
    rules = Rules(kinds=("third2",))
    found = set(find_clean_hz(want, fixed, (), rules))
    wider = set(find_clean_hz(want, fixed, (), rules.with_extra(6_500)))
    exact = {
        hz
        for hz in candidate_frequencies_hz(want)
        if not list_close_pairs([replace(want.carrier, hz=hz), *fixed], rules)
        and not [
            hit
            for hit in list_hits([replace(want.carrier, hz=hz), *fixed], rules)
            if "new" in (hit.victim, *hit.makers)
        ]
    }
    assert wider <= found <= exact


def place_all(carriers, rules, meter=None):
    """An occupancy with all carriers, of which every comb wants places."""
    lattice = choose_lattice([Want(Carrier("new", 0, 200_000), WINDOW)], carriers, 2 * MHZ)
    combs = tuple(dict.fromkeys(lattice.comb(carrier.family, carrier.hz) for carrier in carriers))
    occupancy = Occupancy(rules, combs, len(combs), lattice, meter)
    for carrier in carriers:
        occupancy.add(combs.index(lattice.comb(carrier.family, carrier.hz)), lattice.position(carrier.hz))
    return occupancy


def find_forbidden(carriers, rules):
    """What is forbidden to every comb of these carriers once all are placed, by cause."""
    occupancy = place_all(carriers, rules)
    return [occupancy.list_forbidden(at) for at in occupancy.targets]


@settings(max_examples=few_examples(60), deadline=None)
@given(carrier_sets(most=9, raster_hz=25_000), rules_with_all_guards())
def test_all_that_is_forbidden_is_what_is_forbidden_for_some_cause(carriers, rules):
    occupancy = place_all(carriers, rules)
    for at in occupancy.targets:
        assert reduce(or_, occupancy.list_forbidden(at)) == occupancy.total[at]


@settings(max_examples=few_examples(60), deadline=None)
@given(carrier_sets(most=9, raster_hz=25_000), rules_with_all_guards())
def test_leaving_out_what_can_never_meet_forbids_the_same_places(carriers, rules):
    found = find_forbidden(carriers, rules)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(equations, "list_meetings", lambda some: [(1 << len(some)) - 1] * len(some))
        patch.setattr(Setup, "spacing", _spacing_of_all)
        assert find_forbidden(carriers, rules) == found


def _spacing_of_all(setup, target, comb):
    one, two = setup._combs[target].family, setup._combs[comb].family
    least_hz = centres_apart_hz(setup._rules, one, two) if are_together((one, two)) else 0
    return setup._within(0, least_hz, 0)


def count_shifts(stages):
    """How many sets are shifted when four carriers of each stage are placed."""
    meter = Meter()
    place_all(
        [
            Carrier(f"c{number} {stage}", 500 * MHZ + number * 700_000, 200_000, zone=f"stage {stage}")
            for stage in range(stages)
            for number in range(4)
        ],
        Rules(),
        meter,
    )
    return meter.work


def test_stages_out_of_reach_cost_what_they_would_cost_alone():
    assert count_shifts(5) == 5 * count_shifts(1) > 0


def test_one_carrier_alone_forbids_the_places_around_it_and_no_other():
    carrier = Carrier("a", 512 * MHZ, 200_000)
    occupancy, lattice = board_of(Want(carrier, ((500 * MHZ, 524 * MHZ),)), [replace(carrier, id="b")], Rules())
    near = range(512 * MHZ - 275_000, 512 * MHZ + 300_000, 25_000)
    assert positions_of(occupancy.total[0]) == [lattice.position(hz) for hz in near]
    assert occupancy.list_forbidden(0)[1:] == [0] * (len(CAUSES) - 1)
