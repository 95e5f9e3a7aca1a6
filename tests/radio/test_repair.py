"""The fewest moves, against every set of moves there is."""

from dataclasses import replace
from itertools import combinations, pairwise, product

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from paperwork.radio.bands import BlockedRange, blocks_on
from paperwork.radio.board.lattice import Want, candidate_frequencies_hz
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.moves.repair import list_conflicts, repair
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search.assign import assign
from paperwork.radio.spacing import list_close_pairs
from tests.few import few_examples
from tests.radio.test_proofs import least_to_spare

KHZ, MHZ = 1_000, 1_000_000
RULES = Rules(kinds=("third2", "third3"), guards={("", "third2"): 60_000, ("", "third3"): 60_000}, apart_hz=50_000)


@st.composite
def plans(draw):
    """Up to four channels somewhere in a window of a few places, in its conflicts, a television block and a stranger."""
    window = ((500 * MHZ, 500 * MHZ + draw(st.integers(10, 18)) * 100 * KHZ),)
    steps = draw(st.lists(st.integers(0, 8), min_size=2, max_size=4))
    wants = [
        Want(Carrier(f"w{at}", 500 * MHZ + (1 + 2 * step) * 100 * KHZ, 100 * KHZ), window, 200 * KHZ, 100 * KHZ)
        for at, step in enumerate(steps)
    ]
    low = 500 * MHZ + draw(st.integers(0, 16)) * 100 * KHZ
    fixed = [Carrier("f", 500 * MHZ + draw(st.integers(0, 1_800)) * KHZ, 100 * KHZ)] if draw(st.booleans()) else []
    granted = draw(st.sets(st.sampled_from([want.carrier.id for want in wants]), max_size=1))
    return wants, fixed, (BlockedRange(low, low + 300 * KHZ, "tv"),), granted


def list_wrong(wants, blocks):
    return {
        want.carrier.id
        for want in wants
        if blocks_on(blocks, want.carrier.hz, want.carrier.bandwidth_hz)
        or want.carrier.hz not in candidate_frequencies_hz(want)
    }


def is_clean(wants, fixed, carriers):
    least = least_to_spare(fixed, carriers, RULES)
    return least is None or least >= 0


def fewest_of_all(wants, fixed, blocks, granted):
    """The least price of a set of moves after which all are clean; None where there is none."""
    wrong = list_wrong(wants, blocks)
    prices = []
    for count in range(len(wants) + 1):
        for movers in combinations(range(len(wants)), count):
            names = {wants[at].carrier.id for at in movers}
            price = sum(len(wants) + 1 if name in granted - wrong else 1 for name in names)
            if wrong - names or any(price >= known for known in prices):
                continue
            places = [
                [hz for hz in candidate_frequencies_hz(wants[at]) if not blocks_on(blocks, hz, 100 * KHZ)]
                for at in movers
            ]
            for choice in product(*places):
                moved = dict(zip(movers, choice, strict=True))
                carriers = [replace(want.carrier, hz=moved.get(at, want.carrier.hz)) for at, want in enumerate(wants)]
                if is_clean(wants, fixed, carriers):
                    prices.append(price)
                    break
    return min(prices, default=None)


def _list_carriers(wants, found):
    return [replace(want.carrier, hz=found.moved.get(want.carrier.id, want.carrier.hz)) for want in wants]


def assert_fewest(wants, fixed, blocks, granted):
    wrong = list_wrong(wants, blocks)
    found = repair(wants, fixed, blocks, RULES, wrong=wrong, costly=granted - wrong, effort=2_000)
    fewest = fewest_of_all(wants, fixed, blocks, granted)
    if fewest is None:
        assert found.stuck and not found.is_fewest
        carriers = _list_carriers(wants, found)
        left = list_conflicts([*fixed, *carriers], RULES)
        assert all(one <= {*found.stuck, "f"} for one in left), "what moved is not clean beside what stays"
        return
    carriers = _list_carriers(wants, found)
    assert is_clean(wants, fixed, carriers) and not found.stuck and found.is_fewest
    assert all(not blocks_on(blocks, one.hz, one.bandwidth_hz) for one in carriers)
    assert sum(len(wants) + 1 if name in granted - wrong else 1 for name in found.moved) == fewest


@settings(max_examples=6, phases=[Phase.generate], deadline=None)
@given(plans())
def test_no_set_of_moves_that_mends_a_small_plan_is_cheaper(plan):
    assert_fewest(*plan)


@pytest.mark.sweep
@settings(max_examples=few_examples(400), deadline=None)
@given(plans())
def test_no_set_of_moves_that_mends_any_plan_is_cheaper(plan):
    assert_fewest(*plan)


def test_a_clean_plan_is_left_as_it_is():
    wants = [Want(Carrier("a", 502 * MHZ, 200 * KHZ), ((500 * MHZ, 510 * MHZ),))]
    found = repair(wants, (), (), Rules(), effort=50)
    assert found.moved == {} and found.is_fewest and not found.stuck


def test_one_move_is_enough_where_one_channel_is_in_every_conflict():
    hz = [500.2, 501.2, 502.2, 505.0, 509.8]
    wants = [
        Want(Carrier(f"c{at}", round(one * MHZ), 200 * KHZ), ((500 * MHZ, 510 * MHZ),)) for at, one in enumerate(hz)
    ]
    found = repair(wants, (), (), Rules(), effort=200)
    assert len(found.moved) == 1 and next(iter(found.moved)) in ("c0", "c1", "c2") and found.is_fewest


def test_what_finds_no_place_is_named_and_stays():
    wants = [Want(Carrier("a", 500_100_000, 200 * KHZ), ((500 * MHZ, 500_200_000),))]
    found = repair(wants, (), (BlockedRange(500 * MHZ, 501 * MHZ, "tv"),), Rules(), wrong={"a"}, effort=50)
    assert (found.moved, found.stuck, found.is_fewest) == ({}, ("a",), False)


def test_what_stays_wrong_is_on_the_air_for_those_that_move():
    """`a` was granted a place that it cannot be set to, and stays; the only other place of `b` is clean but for `a`."""
    stays = Want(Carrier("a", 501_100_000, 200 * KHZ, makes=False), ((500 * MHZ, 500_100_000),))
    moves = Want(
        Carrier("b", 503_100_000, 200 * KHZ, makes=False), ((501 * MHZ, 501_200_000), (505 * MHZ, 505_200_000))
    )
    blocks = (BlockedRange(503 * MHZ, 504 * MHZ, "tv"),)
    found = repair([stays, moves], (), blocks, Rules(), wrong={"a", "b"}, effort=50)
    assert found.stuck == ("a",) and found.moved == {"b": 505_100_000}


def chain(length):
    """Channels of which each can only go where the next one is, the last one somewhere free; the first one's place is taken."""
    places = [(low * MHZ, low * MHZ + 200 * KHZ) for low in range(500, 501 + length)]
    wants = [
        Want(Carrier(f"c{at}", here[0] + 100 * KHZ, 200 * KHZ, makes=False), (here, after))
        for at, (here, after) in enumerate(pairwise(places))
    ]
    return wants, (BlockedRange(*places[0], "tv"),)


@pytest.mark.parametrize("length", (2, 3, 5))
def test_a_chain_moves_whole_where_nothing_less_is_enough(length):
    wants, blocks = chain(length)
    found = repair(wants, (), blocks, Rules(), wrong={"c0"}, effort=500)
    assert len(found.moved) == length and found.is_fewest and not found.stuck


def test_where_trying_the_fewest_first_is_too_much_work_all_are_placed_all_the_same():
    """Twenty have to move, and there is no work to find that out by trying smaller sets."""
    wants, blocks = chain(20)
    found = repair(wants, (), blocks, Rules(), wrong={"c0"}, effort=20)
    assert len(found.moved) == 20 and not found.stuck and not found.is_fewest


def test_a_dense_plan_of_thirty_is_mended_with_few_moves_and_all_others_stay():
    window = ((470 * MHZ, 590 * MHZ),)
    wants = [Want(Carrier(f"c{at}", 0, 200 * KHZ, makes=at % 3 < 2), window) for at in range(30)]
    placed = assign(wants, (), (), RULES, effort=40).placed
    wants = [replace(want, carrier=replace(want.carrier, hz=placed[want.carrier.id])) for want in wants]
    blocks = tuple(BlockedRange(one.carrier.hz, one.carrier.hz + 1, "sweep") for one in wants[:3])
    found = repair(wants, (), blocks, RULES, wrong={"c0", "c1", "c2"}, effort=1_000)
    carriers = [replace(want.carrier, hz=found.moved.get(want.carrier.id, want.carrier.hz)) for want in wants]
    assert not list_hits(carriers, RULES) and not list_close_pairs(carriers, RULES)
    assert {"c0", "c1", "c2"} <= found.moved.keys() and len(found.moved) <= 5 and not found.stuck
