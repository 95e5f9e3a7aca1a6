from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.carrier import Carrier, Rules, are_together
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search import occupancy as board
from paperwork.radio.search.lattice import Want, candidate_frequencies_hz, choose_lattice, positions_of
from paperwork.radio.search.occupancy import CAUSES, Occupancy
from paperwork.radio.spacing import centres_apart_hz, list_close_pairs
from tests.radio.twins import carrier_sets, rules_with_all_guards

MHZ = 1_000_000


@settings(max_examples=60, deadline=None)
@given(
    carrier_sets(most=7, raster_hz=25_000),
    carrier_sets(most=1),
    rules_with_all_guards(),
    st.sampled_from([0, -100_000, 60_000]),
)
def test_forbidden_places_are_those_at_which_the_listers_object(fixed, new, rules, apart_hz):
    rules = replace(rules, apart_hz=apart_hz)
    for carrier in new:
        want = Want(replace(carrier, id="new"), ((499_900_000, 502_000_000),))
        lattice = choose_lattice([want], fixed, 2 * MHZ)
        families = tuple(dict.fromkeys([carrier.family, *(other.family for other in fixed)]))
        occupancy = Occupancy(rules, families, 1, lattice)
        for other in fixed:
            occupancy.add(families.index(other.family), lattice.position(other.hz))
        old = len(list_close_pairs(fixed, rules))
        for hz in candidate_frequencies_hz(want):
            everyone = [*fixed, replace(want.carrier, hz=hz)]
            causes = {hit.kind for hit in list_hits(everyone, rules) if "new" in (hit.victim, *hit.makers)}
            if len(list_close_pairs(everyone, rules)) > old:
                causes.add("spacing")
            found = {
                cause
                for cause, bits in zip(CAUSES, occupancy.forbidden[0], strict=True)
                if bits >> lattice.position(hz) & 1
            }
            twins_in_place = len({(other.hz, other.family) for other in fixed}) < len(fixed)
            assert causes <= found if twins_in_place else causes == found


def find_forbidden(carriers, rules):
    """What is forbidden to every family of these carriers once all are placed, by cause."""
    want = Want(Carrier("new", 0, 200_000), ((499_900_000, 502_000_000),))
    lattice = choose_lattice([want], carriers, 2 * MHZ)
    families = tuple(dict.fromkeys(carrier.family for carrier in carriers))
    occupancy = Occupancy(rules, families, len(families), lattice)
    for carrier in carriers:
        occupancy.add(families.index(carrier.family), lattice.position(carrier.hz))
    return occupancy.forbidden


@settings(max_examples=60, deadline=None)
@given(carrier_sets(most=9, raster_hz=25_000), rules_with_all_guards())
def test_leaving_out_what_can_never_meet_forbids_the_same_places(carriers, rules):
    found = find_forbidden(carriers, rules)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(board._Setup, "can_meet", lambda *_: True)
        patch.setattr(board._Setup, "company_of", lambda setup, *_: tuple(range(len(setup._families))))
        patch.setattr(board._Setup, "spacing", _spacing_of_all)
        assert find_forbidden(carriers, rules) == found


def _spacing_of_all(setup, target, family):
    one, two = setup._families[target], setup._families[family]
    least_hz = centres_apart_hz(setup._rules, one, two)
    return (least_hz - 1 + 2 * setup._lattice.slack_hz) // setup._lattice.unit_hz if are_together((one, two)) else -1


def count_shifts(stages, monkeypatch):
    """How many equations are looked up in bit sets when four carriers of each stage are placed."""
    piled = []
    pile = Occupancy._pile
    with monkeypatch.context() as patch:
        patch.setattr(Occupancy, "_pile", lambda *given: piled.append(given) or pile(*given))
        find_forbidden(
            [
                Carrier(f"c{number} {stage}", 500 * MHZ + number * 700_000, 200_000, zone=f"stage {stage}")
                for stage in range(stages)
                for number in range(4)
            ],
            Rules(),
        )
    return len(piled)


def test_stages_out_of_reach_cost_what_they_would_cost_alone(monkeypatch):
    assert count_shifts(5, monkeypatch) == 5 * count_shifts(1, monkeypatch) > 0


def test_one_carrier_alone_forbids_the_places_around_it_and_no_other():
    carrier = Carrier("a", 512 * MHZ, 200_000)
    lattice = choose_lattice([Want(carrier, ((500 * MHZ, 524 * MHZ),))], [carrier], MHZ)
    occupancy = Occupancy(Rules(), (carrier.family,), 1, lattice)
    occupancy.add(0, lattice.position(carrier.hz))
    near = range(512 * MHZ - 275_000, 512 * MHZ + 300_000, 25_000)
    assert positions_of(occupancy.total[0]) == [lattice.position(hz) for hz in near]
    assert occupancy.forbidden[0][1:] == [0] * (len(CAUSES) - 1)
