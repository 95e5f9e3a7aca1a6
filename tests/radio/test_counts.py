from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.carrier import Rules
from paperwork.radio.products.counts import count_hits, count_scattered
from paperwork.radio.products.hits import iterate_hits
from paperwork.radio.products.sums import PackedSums, SortedSums, choose_sums, common_raster_hz
from tests.few import few_examples
from tests.radio.twins import (
    BASE_HZ,
    STEP_RULES,
    brute_hits,
    canonical,
    carrier_sets,
    figures,
    on_channels,
    rules_with_all_guards,
)


def brute_counts(carriers, rules):
    """What is said twice, a+b-c on its own c, is left out."""
    tally = Counter(victim for _, makers, victim in brute_hits(carriers, rules) if victim not in makers)
    return {carrier.id: tally[carrier.id] for carrier in carriers}


def two_and_three(carriers, rules):
    """The hits on each carrier of 2a-b, and those of a+b-c."""
    return [list(count_hits(carriers, replace(rules, kinds=(kind,))).values()) for kind in ("third2", "third3")]


def midway(count):
    """By carrier of an evenly spaced row, the pairs that it lies in the middle of."""
    return [min(r - 1, count - r) for r in range(1, count + 1)]


@settings(max_examples=few_examples(150), deadline=None)
@given(carrier_sets(), rules_with_all_guards())
def test_counts_are_those_of_brute_force(carriers, rules):
    assert count_hits(carriers, rules) == brute_counts(carriers, rules)


@settings(max_examples=few_examples(80), deadline=None)
@given(
    carriers=carrier_sets(raster_hz=25_000),
    rules=rules_with_all_guards(),
    sums=st.sampled_from([lambda positions: PackedSums(positions, 25_000), SortedSums]),
)
def test_both_ways_of_counting_agree_with_brute_force(carriers, rules, sums):
    with pytest.MonkeyPatch.context() as patch:
        if carriers:
            patch.setattr("paperwork.radio.products.counts.choose_sums", lambda positions, heaviest: sums(positions))
        assert count_hits(carriers, rules) == brute_counts(carriers, rules)


@settings(max_examples=few_examples(60), deadline=None)
@given(st.lists(st.tuples(st.integers(0, 60), st.sets(st.sampled_from("abcdefgh"))), min_size=6, max_size=9))
def test_carriers_that_each_have_times_of_their_own_are_counted_as_by_brute_force(drawn):
    """As sessions of a day that overlap: there are as many kinds of them as carriers."""
    carriers = [
        replace(one, id=f"c{n}", hz=BASE_HZ + 25_000 * at, times=frozenset({f"own {n}", *moments}))
        for n, (one, (at, moments)) in enumerate(zip(on_channels(range(len(drawn))), drawn, strict=True))
    ]
    assert count_hits(carriers, STEP_RULES) == brute_counts(carriers, STEP_RULES)


@pytest.mark.parametrize("count", range(2, 41))
def test_equally_spaced_carriers_have_the_closed_form_of_hits(count):
    two, three = two_and_three(on_channels(range(1, count + 1)), STEP_RULES)
    odd = count % 2
    for r, (of_two, of_three, restated) in enumerate(zip(two, three, midway(count), strict=True), 1):
        assert of_two == (count - 2 - odd * (-1) ** r) // 2
        assert 4 * (of_three + restated) == 2 * r * (count - r + 1) + (count - 3) ** 2 - 5 - odd * (-1) ** (count + r)
    assert sum(two) == 2 * ((count - 1) ** 2 // 4)


@pytest.mark.parametrize("row", figures()["equal_spaced_hits"]["rows"], ids=lambda row: str(row["N"]))
def test_equally_spaced_carriers_match_the_table(row):
    two, three = two_and_three(on_channels(range(row["N"])), STEP_RULES)
    assert two == row["two_signal"]
    assert [found + restated for found, restated in zip(three, midway(row["N"]), strict=True)] == row["three_signal"]


def test_forty_carriers_in_a_window_have_the_closed_form_at_a_real_guard():
    carriers = [
        replace(carrier, hz=BASE_HZ + number * 600_000, bandwidth_hz=200_000)
        for number, carrier in enumerate(on_channels(range(40)))
    ]
    two, three = two_and_three(carriers, Rules())
    row = next(row for row in figures()["equal_spaced_hits"]["rows"] if row["N"] == 40)
    assert two == row["two_signal"]
    assert [found + restated for found, restated in zip(three, midway(40), strict=True)] == row["three_signal"]


@settings(max_examples=few_examples(200), deadline=None)
@given(st.data(), rules_with_all_guards())
def test_counts_and_hits_of_a_day_are_those_by_brute_force(data, rules):
    """Acts that follow each other, overlap, come back, and carriers that are always on."""
    rules = replace(rules, kinds=rules.kinds or ("third2",))
    channels = data.draw(st.lists(st.integers(0, 14), min_size=3, max_size=9))
    is_even = data.draw(st.booleans())
    spans = st.tuples(st.integers(0, 5), st.integers(0, 3)).map(lambda one: range(one[0], one[0] + one[1]))
    times = spans if is_even else st.sets(st.integers(0, 5), max_size=3)
    carriers = [
        replace(one, id=str(at), times=frozenset(f"time {number}" for number in data.draw(times)))
        for at, one in enumerate(on_channels(channels))
    ]
    assert count_hits(carriers, rules) == brute_counts(carriers, rules)
    found = sorted(canonical(hit.kind, hit.text, hit.makers, hit.victim) for hit in iterate_hits(carriers, rules))
    assert found == brute_hits(carriers, rules)


def test_what_is_listed_to_be_counted_is_known_beforehand():
    own_times = [
        replace(one, times=frozenset((f"time {at}", f"time {at * 7 % 30}", f"time {at * 11 % 30}")))
        for at, one in enumerate(on_channels(range(30)))
    ]
    assert count_scattered(own_times) == 30
    assert count_scattered([replace(one, times=frozenset(("all",))) for one in own_times]) == 0
    assert count_scattered([replace(one, zone=f"zone {at % 2}") for at, one in enumerate(own_times)]) == 15


def test_total_leaves_out_what_is_said_twice():
    assert count_hits(on_channels([0, 4, 8]), STEP_RULES) == {"0": 1, "4": 0, "8": 1}


def test_a_raster_finer_than_a_kilohertz_is_counted_from_lists():
    assert isinstance(choose_sums([[BASE_HZ, BASE_HZ + 137]], 3), SortedSums)
    assert isinstance(choose_sums([list(range(BASE_HZ, BASE_HZ + 1_000 * 25_000, 25_000))], 3), PackedSums)
    assert common_raster_hz([BASE_HZ, BASE_HZ + 75_000, BASE_HZ + 200_000]) == 25_000


def test_nobody_is_hit_when_there_is_nobody():
    assert count_hits([], Rules()) == {}
    assert count_hits(on_channels([7]), Rules()) == {"7": 0}


def test_counts_of_many_carriers_agree_on_two_rasters():
    channels = sorted({number * number * 7 % 3001 for number in range(160)})
    coarse = on_channels(channels)
    fine = [replace(carrier, hz=BASE_HZ + (carrier.hz - BASE_HZ) // 25_000 * 137) for carrier in coarse]
    assert count_hits(coarse, STEP_RULES) == count_hits(fine, STEP_RULES)


@pytest.mark.parametrize("many", (10, 1_000, 70_000))
def test_ways_are_counted_whatever_number_of_bytes_they_take(many):
    """As many carriers on one frequency, twice: every pair sums to the same."""
    sums = PackedSums([[BASE_HZ] * many, [BASE_HZ, BASE_HZ + 25_000]], 25_000)
    two = ((1, 0), (1, 0))
    assert sums.count(two, [2 * BASE_HZ, 2 * BASE_HZ + 25_000], 1) == [many * many, 0]
    assert sums.count(two, [2 * BASE_HZ + 25_000], 25_001) == [many * many]
    three = ((1, 0), (1, 0), (-1, 1))
    assert sums.count(three, [BASE_HZ - 25_000, BASE_HZ, BASE_HZ + 25_000], 1) == [many * many, many * many, 0]


@pytest.mark.parametrize("many", (65_535, 65_536))
def test_a_number_of_ways_that_just_fits_and_one_more(many):
    sums = PackedSums([[BASE_HZ] * many, [BASE_HZ]], 25_000)
    assert sums.count(((1, 0), (1, 1)), [2 * BASE_HZ, 0], 1) == [many, 0]


def test_a_sum_of_nobody_is_nought():
    for sums in (PackedSums([[BASE_HZ]], 25_000), SortedSums([[BASE_HZ]])):
        assert sums.count((), [-1, 0, 1], 1) == [0, 1, 0]
