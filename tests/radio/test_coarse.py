"""Boards of many kinds and times: the same meetings in fewer words, then coarser ones that stay on the safe side."""

from dataclasses import replace
from itertools import combinations, combinations_with_replacement

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.board import coarse
from paperwork.radio.board.coarse import MOST_EQUATIONS, count_equations, make_board
from paperwork.radio.board.lattice import Comb, Lattice, Want, candidate_frequencies_hz
from paperwork.radio.board.meetings import list_meetings
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Family, Rules, in_time_order
from paperwork.radio.products.hits import list_hits
from paperwork.radio.spacing import list_close_pairs
from tests.few import few_examples
from tests.radio.twins import radiate_together, rules_with_all_guards

WINDOW = ((499_900_000, 502_000_000),)
LATTICE = Lattice(500_000_000, 25_000, 100)
TIMES = st.sets(st.sampled_from([f"time {number}" for number in range(6)]), max_size=3).map(frozenset)


@st.composite
def mixed_carriers(draw, least=0, most=9):
    """Carriers of many widths, kinds, groups, zones and times, on a raster or off it."""
    is_apart, is_odd = draw(st.booleans()), draw(st.booleans())
    groups = st.sampled_from(["", "", "g", "h"]) if is_apart else st.just("")
    zones = st.sampled_from(["", "", "north", "south"]) if is_apart else st.just("")
    off_hz = st.sampled_from([0, 0, 2_137, 9_001, 24_999]) if is_odd else st.just(0)
    return [
        Carrier(
            f"c{number}",
            500_000_000 + 25_000 * draw(st.integers(0, 80)) + draw(off_hz),
            draw(st.sampled_from([200_000, 200_000, 25_000, 400_000, 600_000])),
            draw(st.sampled_from(["", "x", "y"])),
            draw(st.sampled_from([True, True, False])),
            draw(st.sampled_from([True, True, True, False])),
            draw(groups),
            draw(zones),
            draw(TIMES),
        )
        for number in range(draw(st.integers(least, most)))
    ]


@st.composite
def rules_of_kinds(draw):
    """Rules in which some kinds state distances and guards, and some pairs a distance of their own."""
    rules = draw(rules_with_all_guards())
    guards = {key: hz for key, hz in rules.guards.items() if draw(st.booleans())}
    pairs = st.sampled_from([("x", ""), ("y", ""), ("x", "x"), ("x", "y")])
    apart = draw(st.dictionaries(pairs, st.sampled_from([0, 50_000, 300_000, -50_000]), max_size=3))
    return replace(rules, guards=guards, apart=apart, kinds=rules.kinds or ("third2",))


def meetings_among(combs):
    """Which sets of up to four carriers of these combs are on the air together, by brute force."""
    numbers = range(len(combs))
    carriers = [_one_of(comb.family, "") for comb in combs]
    twins = [_one_of(comb.family, "'") for comb in combs]
    found = set()
    for size in (1, 2, 3, 4):
        for some in combinations_with_replacement(numbers, size):
            chosen = [(twins if number in some[:at] else carriers)[number] for at, number in enumerate(some)]
            if radiate_together(chosen):
                found.add(some)
    return found


def _one_of(family, mark):
    return Carrier(mark, 0, *family)


@settings(max_examples=few_examples(300), deadline=None)
@given(mixed_carriers(most=6))
def test_what_is_said_in_fewer_times_meets_as_before(carriers):
    combs = tuple(Comb(carrier.family) for carrier in carriers)
    board = make_board(combs, len(combs), LATTICE, Rules())
    assert board.is_same
    assert meetings_among(board.combs) == meetings_among(combs)
    times = {
        time: {at for at, comb in enumerate(board.combs) if time in comb.family.times} for time in _times_of(board)
    }
    assert not [one for one in times for other in times if one != other and times[one] <= times[other]]


def _times_of(board):
    return {time for comb in board.combs for time in comb.family.times}


@given(mixed_carriers())
def test_the_bit_sets_of_meetings_say_who_meets_whom(carriers):
    found = list_meetings([carrier.family for carrier in carriers])
    for at, one in enumerate(carriers):
        for other, two in enumerate(carriers):
            beside = replace(two, id="twin") if other == at else two
            assert bool(found[at] >> other & 1) == radiate_together([one, beside])


@settings(max_examples=few_examples(100), deadline=None)
@given(mixed_carriers(most=6), mixed_carriers(least=1, most=1), rules_of_kinds())
def test_what_coarser_and_coarser_boards_offer_is_clean_in_truth(fixed, new, rules):
    want = Want(replace(new[0], id="new"), WINDOW)
    clean = [hz for hz in candidate_frequencies_hz(want) if _is_clean([*fixed, replace(want.carrier, hz=hz)], rules)]
    for problem in coarser_and_coarser(want, fixed, rules):
        offered = problem.list_clean_hz(0, problem.occupancy())
        assert set(offered) <= set(clean)
        twins_in_place = len({(other.hz, other.family) for other in fixed}) < len(fixed)
        assert offered == clean or twins_in_place or not problem.is_exact


def coarser_and_coarser(want, fixed, rules):
    """The exact board of a want, and each that has fewer equations than the one before it."""
    most = 10**9
    while most >= 0:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(coarse, "MOST_EQUATIONS", most)
            patch.setattr(coarse, "MOST_KINDS", 2)
            problem = Problem([want], fixed, (), rules)
        yield problem
        most = min(most, count_equations(problem.combs, problem.target_count, most)) - 1
        most = -1 if len(problem.combs) == 1 else most


def _is_clean(everyone, rules):
    """Whether the last carrier is clean and makes no hit, by the listers in exact hertz."""
    before = everyone[:-1]
    return len(list_close_pairs(everyone, rules)) == len(list_close_pairs(before, rules)) and not any(
        "new" in (hit.victim, *hit.makers) for hit in list_hits(everyone, rules)
    )


@settings(max_examples=few_examples(60), deadline=None)
@given(mixed_carriers(most=8), st.sampled_from([0, 1, 5, 20, 60]))
def test_a_board_is_as_small_as_was_asked_or_has_one_comb(carriers, most):
    combs = tuple(dict.fromkeys(Comb(carrier.family, carrier.hz % 7) for carrier in carriers))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(coarse, "MOST_EQUATIONS", most)
        board = make_board(combs, len(combs), LATTICE, Rules())
    assert count_equations(board.combs, len(combs), 10**9) <= most or len(set(board.combs)) == 1


@given(mixed_carriers(most=6))
def test_equations_are_counted_by_who_meets_two_by_two(carriers):
    combs = tuple(dict.fromkeys(Comb(carrier.family) for carrier in carriers))
    pairs = {one for one in meetings_among(combs) if len(one) == 2}
    meet = lambda *some: all(tuple(sorted(pair)) in pairs for pair in combinations(some, 2))  # noqa: E731
    expected = 0
    for target in range(len(combs)):
        for comb in range(len(combs)):
            for other in range(len(combs)):
                if meet(target, comb, other):
                    expected += 1 + sum(meet(target, comb, other, two) for two in range(other, len(combs)))
    assert count_equations(combs, len(combs), 10**9) == expected


def sessions(count, length):
    """Sessions of a day, one after the other begun, each with a carrier of its own."""
    return [
        Carrier(
            f"session {number}",
            470_000_000 + number * 175_000,
            200_000,
            times=frozenset(f"time {at}" for at in range(number, number + length)),
        )
        for number in range(count)
    ]


@pytest.mark.parametrize(("count", "length"), [(40, 40), (400, 400), (400, 20), (400, 1)])
def test_sessions_that_overlap_make_a_board_that_can_be_searched(count, length):
    carriers = sessions(count, length)
    problem = Problem([Want(replace(carriers[0], id="new"), ((470_000_000, 520_000_000),))], carriers, (), Rules())
    assert count_equations(problem.combs, problem.target_count, 10**9) <= MOST_EQUATIONS


def test_sessions_that_are_all_on_at_one_moment_are_searched_exactly():
    carriers = sessions(60, 60)
    assert all("time 59" in carrier.times for carrier in carriers)
    problem = Problem([Want(replace(carriers[0], id="new"), ((470_000_000, 520_000_000),))], carriers, (), Rules())
    assert problem.is_exact and len(problem.combs) == 1


def test_acts_that_follow_each_other_stay_apart_however_many():
    carriers = sessions(300, 1)
    wants = [Want(carrier, ((470_000_000, 520_000_000),)) for carrier in carriers]
    problem = Problem(wants, [], (), Rules())
    assert problem.is_exact and problem.target_count == 300


def test_a_kind_that_stands_for_many_asks_for_the_most_of_any():
    kinds = [Family(200_000 + number, f"k{number}", True, True, "", "", frozenset()) for number in range(60)]
    rules = Rules(
        guards={("k7", "third2"): 900_000}, apart={("k9", ""): 700_000}, kinds=("third2", "third3", "fifth2", "fifth3")
    )
    board = make_board([Comb(kind) for kind in kinds], 60, LATTICE, rules)
    assert not board.is_same
    assert len(set(board.combs)) == coarse.MOST_KINDS
    assert board.rules.guards[coarse.ANY_KIND, "third2"] == 900_000
    assert board.rules.apart[coarse.ANY_KIND, ""] == 700_000
    assert max(comb.family.bandwidth_hz for comb in board.combs) == 200_059


def test_times_come_in_the_order_of_their_numbers_whatever_others_are_called():
    names = ["time 99", "time 100", "time 9", "part ab", "part abcd", "scene 1", "\0", "\0" + "3"]
    ordered = sorted(names, key=in_time_order)
    assert ordered == ["\0", "\0" + "3", "part ab", "part abcd", "scene 1", "time 9", "time 99", "time 100"]
