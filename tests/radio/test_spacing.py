from dataclasses import replace
from itertools import combinations

from hypothesis import given, settings

from paperwork.radio.carrier import Carrier, Rules, guard_hz, wanted_apart_hz
from paperwork.radio.spacing import ClosePair, centres_apart_hz, is_inside, list_close_pairs, list_crowded
from tests.few import few_examples
from tests.radio.twins import carrier_sets, radiate_together, rules_with_all_guards

NARROW = Carrier("n", 500_000_000, 200_000, "narrow")
BROAD = Carrier("b", 500_700_000, 600_000, "broad")


def test_unlike_types_are_spaced_edge_to_edge():
    rules = Rules(apart={("broad", "narrow"): 350_000})
    assert centres_apart_hz(rules, NARROW, BROAD) == 100_000 + 300_000 + 350_000
    assert list_close_pairs([BROAD, NARROW], rules) == (ClosePair("n", "b", 300_000, 350_000),)
    assert list_close_pairs([replace(BROAD, hz=500_750_000), NARROW], rules) == ()


def test_overlapping_carriers_have_a_negative_distance():
    (pair,) = list_close_pairs([NARROW, replace(NARROW, id="m")], Rules())
    assert pair.apart_hz == -200_000


def test_a_pair_without_an_entry_takes_the_larger_of_its_halves():
    rules = Rules(apart={("narrow", ""): 50_000, ("", "broad"): 70_000}, apart_hz=10_000)
    assert wanted_apart_hz(rules, NARROW, BROAD) == 70_000
    assert wanted_apart_hz(rules, NARROW, NARROW) == 50_000
    assert wanted_apart_hz(rules, replace(NARROW, kind="other"), replace(NARROW, kind="other")) == 10_000


def test_who_wants_nothing_does_not_speak_for_a_neighbour_who_states_nothing():
    rules = Rules(apart={("narrow", ""): 0})
    silent = replace(NARROW, kind="")
    assert wanted_apart_hz(rules, NARROW, silent) == wanted_apart_hz(rules, silent, NARROW) == 100_000
    assert wanted_apart_hz(rules, NARROW, NARROW) == 0
    assert wanted_apart_hz(rules, NARROW, replace(silent, listens=False)) == 0
    assert wanted_apart_hz(rules, silent, replace(silent, listens=False)) == 100_000


@settings(max_examples=few_examples(60))
@given(carrier_sets())
def test_close_pairs_are_those_of_looking_at_every_pair(carriers):
    rules = Rules(apart={("x", "x"): 300_000, ("", "x"): 0}, apart_hz=120_000)
    wanted = {
        (kinds, listens): {"": 120_000, "xx": 300_000}.get(kinds, 120_000 * listens)
        for kinds in ("", "x", "xx")
        for listens in (False, True)
    }
    expected = {
        frozenset((one.id, two.id))
        for one, two in combinations(carriers, 2)
        if radiate_together((one, two))
        and abs(one.hz - two.hz) - 200_000 < wanted[one.kind + two.kind, (one if two.kind else two).listens]
    }
    assert {frozenset((pair.lower, pair.upper)) for pair in list_close_pairs(carriers, rules)} == expected


def test_the_whole_bandwidth_lies_inside():
    assert is_inside(NARROW, 499_900_000, 500_100_000)
    assert not is_inside(NARROW, 499_900_001, 500_200_000)
    assert not is_inside(NARROW, 499_000_000, 500_099_999)


def test_default_guards_follow_from_the_bandwidths():
    three = (NARROW, NARROW, NARROW)
    assert guard_hz(Rules(), "third3", NARROW, three, (1, 1, -1)) == (600_000 + 200_000) // 2 * 25 // 100
    assert guard_hz(Rules(), "fifth2", NARROW, three[:2], (3, -2)) == (1_000_000 + 200_000) // 2 * 15 // 100


def test_a_guard_of_the_house_replaces_the_narrow_part_and_zero_stays_off():
    rules = Rules(guards={("narrow", "third2"): 60_000, ("", "third3"): 0}, extra_hz=5_000)
    assert guard_hz(rules, "third2", NARROW, (NARROW, NARROW), (2, -1)) == 65_000
    assert guard_hz(rules, "third2", NARROW, (BROAD, NARROW), (2, -1)) == 65_000 + 600_000
    assert guard_hz(rules, "third3", NARROW, (NARROW,) * 3, (1, 1, -1)) == 0


@given(carrier_sets(most=9), rules_with_all_guards())
def test_who_is_crowded_is_who_is_in_a_close_pair(carriers, rules):
    pairs = list_close_pairs(carriers, rules)
    expected = {name for pair in pairs for name in (pair.lower, pair.upper)}
    assert list_crowded(carriers, rules) == tuple(carrier.id for carrier in carriers if carrier.id in expected)
