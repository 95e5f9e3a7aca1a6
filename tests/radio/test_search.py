from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.bands import BlockedRange, blocks_on, width_hz
from paperwork.radio.board.lattice import Want, candidate_frequencies_hz, positions_of
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search.assign import FrequencyPlan, assign
from paperwork.radio.search.rulers import SHORTEST_LENGTHS
from paperwork.radio.spacing import is_inside, list_close_pairs
from paperwork.radio.survey import fit_carriers, survey_spectrum
from tests.benchmarks.radio_cases import RULES, read_cases
from tests.clean_places import find_clean_hz
from tests.few import few_examples
from tests.radio.twins import BASE_HZ, PRODUCT_KINDS, RASTER_HZ, STEP_RULES, carrier_sets, figures

MHZ = 1_000_000
WINDOW = ((500 * MHZ, 524 * MHZ),)


def wanted(count, ranges=WINDOW, **changes):
    return [Want(replace(Carrier(f"m{number:02}", 0, 200_000), **changes), ranges) for number in range(count)]


def channels_wanted(count, channels):
    """Wants for a raster of so many channels, numbered from 0."""
    ranges = ((BASE_HZ - RASTER_HZ // 2, BASE_HZ + (channels - 1) * RASTER_HZ + RASTER_HZ // 2),)
    return [Want(Carrier(f"m{number}", 0, RASTER_HZ), ranges) for number in range(count)]


def carriers_of(plan: FrequencyPlan, wants, fixed=()):
    return [
        *fixed,
        *(replace(want.carrier, hz=plan.placed[want.carrier.id]) for want in wants if want.carrier.id in plan.placed),
    ]


def assert_clean(plan, wants, fixed, blocks, rules):
    """Judged by the hit lister and the pair lister, not by the search's own bits."""
    new = {want.carrier.id for want in wants}
    carriers = carriers_of(plan, wants, fixed)
    strict = rules.with_extra(plan.margin_hz or 0)
    assert not [hit for hit in list_hits(carriers, strict) if new & {hit.victim, *hit.makers}]
    assert not [pair for pair in list_close_pairs(carriers, strict) if new & {pair.lower, pair.upper}]
    for want in wants:
        if want.carrier.id in plan.placed:
            carrier = replace(want.carrier, hz=plan.placed[want.carrier.id])
            assert any(is_inside(carrier, low, high) for low, high in want.ranges)
            assert (carrier.hz - want.origin_hz) % want.step_hz == 0
            assert not blocks_on(blocks, carrier.hz, carrier.bandwidth_hz)
    assert len(plan.placed) + len(plan.unplaced) == len(wants)


@settings(max_examples=few_examples(25), deadline=None)
@given(carrier_sets(most=6), st.integers(0, 5), st.integers(0, 3), st.booleans())
def test_an_assigned_show_is_clean(fixed, plain, others, close):
    rules = Rules(kinds=PRODUCT_KINDS, guards={("x", "third2"): 50_000}, close_quarters=close)
    wants = wanted(plain, ((499 * MHZ, 506 * MHZ),)) + [
        Want(Carrier(f"x{number}", 0, 300_000, "x", False, exclusive="pair"), ((501 * MHZ, 504 * MHZ),), 12_500)
        for number in range(others)
    ]
    blocks = [BlockedRange(502 * MHZ, 503 * MHZ, "tv")]
    assert_clean(assign(wants, fixed, blocks, rules, effort=6), wants, fixed, blocks, rules)


def test_the_same_effort_gives_the_same_plan():
    wants = wanted(20)
    assert assign(wants, [], [], Rules(), effort=40) == assign(wants, [], [], Rules(), effort=40)


def test_a_full_window_is_planned_well_and_says_why_the_rest_found_no_place():
    wants = wanted(20)
    plan = assign(wants, [], [], Rules(), effort=60)
    assert_clean(plan, wants, [], [], Rules())
    assert len(plan.placed) >= 15
    missing = plan.unplaced[0]
    assert missing.candidates == 953
    assert sum(count for _, count in missing.causes) == 953


def test_a_wide_margin_is_kept_from_carriers_outside_the_window_too():
    fixed = [Carrier("low", 480 * MHZ, 200_000), Carrier("high", 490_012_500, 200_000)]
    wants = wanted(2)
    plan = assign(wants, fixed, [], Rules(), effort=40)
    assert plan.margin_hz > 1_000_000 and plan.is_widest
    assert_clean(plan, wants, fixed, [], Rules())


def test_a_product_below_the_window_limits_the_margin():
    fixed = [Carrier("a", 504_100_000, 200_000), Carrier("b", 508_950_000, 200_000)]
    wants = wanted(1, ((500 * MHZ, 500_400_000),))
    plan = assign(wants, fixed, [], Rules(kinds=("third2",)), effort=40)
    assert 2 * fixed[0].hz - fixed[1].hz == 499_250_000
    assert (plan.placed, plan.margin_hz, plan.is_widest) == ({"m00": 500_300_000}, 950_000, True)
    assert_clean(plan, wants, fixed, [], Rules(kinds=("third2",)))


def test_no_fewer_are_placed_than_by_taking_the_lowest_clean_place_each():
    case = read_cases()[19]
    placed = list(case.fixed)
    for want in case.wants:
        clean = find_clean_hz(want, placed, case.blocks, RULES)
        placed += [replace(want.carrier, hz=hz) for hz in clean[:1]]
    plan = assign(case.wants, case.fixed, case.blocks, RULES, effort=1)
    assert len(plan.placed) >= len(placed) - len(case.fixed) > 15
    assert_clean(plan, case.wants, case.fixed, case.blocks, RULES)


def test_few_channels_get_a_wide_margin():
    wants = wanted(6)
    plan = assign(wants, [], [], Rules(), effort=80)
    assert plan.margin_hz >= 300_000
    assert_clean(plan, wants, [], [], Rules())


def test_what_is_avoided_decides_where_the_margin_leaves_a_choice():
    wants = [replace(want, avoid=((500 * MHZ, 512 * MHZ),)) for want in wanted(3)]
    plan = assign(wants, [], [], Rules(kinds=()), effort=5)
    assert all(hz >= 512 * MHZ for hz in plan.placed.values())


def test_locked_carriers_in_conflict_stay_and_the_others_find_a_place():
    locked = [
        Carrier("a", 505 * MHZ, 200_000),
        Carrier("b", 505 * MHZ, 200_000),
        Carrier("c", 505 * MHZ + 50_000, 200_000),
    ]
    wants = wanted(4)
    plan = assign(wants, locked, [], Rules(), effort=10)
    assert len(plan.placed) == 4
    assert_clean(plan, wants, locked, [], Rules())


def test_impossible_demands_are_answered_with_reasons():
    nowhere = assign(wanted(1, ((500 * MHZ, 500_100_000),)), [], [], Rules())
    assert nowhere.unplaced[0].candidates == 0
    blocked = assign(wanted(2), [], [BlockedRange(490 * MHZ, 530 * MHZ, "tv")], Rules())
    assert [missing.causes for missing in blocked.unplaced] == [(("tv", 953),)] * 2
    assert assign([], [], [], Rules()).placed == {}
    assert assign([], [Carrier("a", 505 * MHZ, 200_000)], [], Rules()).unplaced == ()
    with pytest.raises(ValueError, match="runs backwards"):
        assign(wanted(1, ((524 * MHZ, 500 * MHZ),)), [], [], Rules())
    with pytest.raises(ValueError, match="step of m00 is 0 Hz"):
        assign([replace(want, step_hz=0) for want in wanted(1)], [], [], Rules())


def test_a_stop_is_obeyed_and_reported_and_progress_is_told():
    seen = []
    calls = iter([False, False, False, True] + [True] * 9)
    plan = assign(
        wanted(30), [], [], Rules(), effort=500, stop=lambda: next(calls), progress=lambda *told: seen.append(told)
    )
    assert plan.stopped
    assert len(seen) == 3
    assert plan.spent >= seen[-1][0] > 0
    assert len(plan.placed) >= 12


def test_members_of_an_exclusive_group_may_share_a_frequency():
    narrow = ((500 * MHZ, 500_200_000),)
    wants = wanted(2, narrow, exclusive="understudy")
    assert assign(wants, [], [], Rules(), effort=3).placed == {"m00": 500_100_000, "m01": 500_100_000}
    assert len(assign(wanted(2, narrow), [], [], Rules(), effort=3).placed) == 1


def test_odd_frequencies_of_others_are_kept_clear_of():
    fixed = [Carrier("odd", 510_123_457, 200_000), Carrier("odder", 513_000_001, 200_000)]
    wants = wanted(8)
    plan = assign(wants, fixed, [], Rules(), effort=10)
    assert len(plan.placed) == 8
    assert_clean(plan, wants, fixed, [], Rules())


@pytest.mark.parametrize("odd_hz", [1, 500, 12_345])
def test_one_odd_carrier_costs_no_place(odd_hz):
    wants = wanted(30, ((590 * MHZ, 614 * MHZ),))
    plain = [Carrier("neighbour", 600 * MHZ, 200_000, makes=False, listens=False)]
    odd = [replace(plain[0], hz=600 * MHZ + odd_hz)]
    plan = assign(wants, odd, [], Rules(), effort=200)
    assert len(plan.placed) >= len(assign(wants, plain, [], Rules(), effort=200).placed)
    assert_clean(plan, wants, odd, [], Rules())


def test_an_odd_carrier_that_makes_products_costs_only_the_places_that_they_come_too_near():
    wants = wanted(30, ((590 * MHZ, 614 * MHZ),))
    odd = [Carrier("neighbour", 600_000_500, 200_000, listens=False)]
    plan = assign(wants, odd, [], Rules(), effort=200)
    assert len(plan.placed) >= 13
    assert_clean(plan, wants, odd, [], Rules())


@pytest.mark.parametrize("count", [8, 10, 12, 17, 20, 24])
def test_a_plain_window_of_a_ruler_s_length_is_filled_as_the_ruler_fills_it(count):
    wants = channels_wanted(count, SHORTEST_LENGTHS[count - 1] + 1)
    plan = assign(wants, [], [], STEP_RULES, effort=30)
    assert len(plan.placed) >= (count if count <= 12 else count - 1)
    assert_clean(plan, wants, [], [], STEP_RULES)


def assert_two_signal_rule(channels):
    rules = replace(STEP_RULES, kinds=("third2",))
    most = figures()["salem_spencer_r3"]["values"][channels]
    need = -(-9 * most // 10)
    wants = channels_wanted(need, channels)
    plan = assign(wants, [], [], rules)
    assert len(plan.placed) >= need
    assert_clean(plan, wants, [], [], rules)


@pytest.mark.parametrize("channels", [1, 2, 9, 20, 41, 58, 74, 104, 120])
def test_the_two_signal_rule_alone_reaches_nine_tenths_of_the_most(channels):
    assert_two_signal_rule(channels)


@pytest.mark.parametrize("channels", (1, 2, 14, 74))
def test_the_most_there_is_by_the_two_signal_rule_is_found_as_its_own_mirror_image(channels):
    """OEIS A003002, in the file of figures; 74 channels were one short without it. One more is wanted, to see it denied."""
    most = figures()["salem_spencer_r3"]["values"][channels]
    wants, rules = channels_wanted(most + 1, channels), replace(STEP_RULES, kinds=("third2",))
    plan = assign(wants, [], [], rules, effort=400)
    assert len(plan.placed) == most
    assert_clean(plan, wants, [], [], rules)


@pytest.mark.sweep
@pytest.mark.parametrize("channels", range(1, 121))
def test_the_two_signal_rule_reaches_nine_tenths_at_every_size(channels):
    assert_two_signal_rule(channels)


def test_clean_frequencies_are_those_without_a_block_a_close_pair_or_a_hit():
    row = [Carrier(f"c{number}", 500_200_000 + number * 600_000, 200_000) for number in range(6)]
    blocks = [BlockedRange(512 * MHZ, 520 * MHZ, "tv")]
    want = Want(row[2], WINDOW)
    found = find_clean_hz(want, row, blocks, Rules())
    others = [carrier for carrier in row if carrier.id != "c2"]
    for hz in candidate_frequencies_hz(want):
        everyone = [*others, replace(row[2], hz=hz)]
        clean = (
            not blocks_on(blocks, hz, 200_000)
            and not list_close_pairs(everyone, Rules())
            and not [hit for hit in list_hits(everyone, Rules()) if "c2" in (hit.victim, *hit.makers)]
        )
        assert (hz in found) == clean
    assert find_clean_hz(want, row, [BlockedRange(490 * MHZ, 530 * MHZ, "tv")], Rules()) == ()


def test_survey_adds_up_and_says_what_eats_the_rest():
    blocks = [
        BlockedRange(498 * MHZ, 506 * MHZ, "tv"),
        BlockedRange(505 * MHZ, 507 * MHZ, "keep-clear"),
        BlockedRange(520 * MHZ, 521 * MHZ, "tv"),
    ]
    free, eaten = survey_spectrum(500 * MHZ, 524 * MHZ, blocks)
    assert free == ((507 * MHZ, 520 * MHZ), (521 * MHZ, 524 * MHZ))
    assert eaten == (("tv", 7 * MHZ), ("keep-clear", 1 * MHZ))
    assert width_hz(free) + sum(width for _, width in eaten) == 24 * MHZ


def test_forty_fit_24_mhz_by_spacing_and_the_clean_ones_are_clean():
    rules = Rules(apart_hz=400_000)
    sample = Want(Carrier("m", 0, 200_000), WINDOW)
    fit = fit_carriers(sample, [], [], rules, effort=20)
    assert fit.by_spacing == 40
    assert 14 <= fit.least <= fit.most < 40
    there = [Carrier(f"c{number}", hz, 200_000) for number, hz in enumerate(fit.places)]
    assert list_hits(there, rules) == ()
    assert fit_carriers(sample, [Carrier("o", 512 * MHZ, 6 * MHZ)], [], rules, effort=1).by_spacing == 30


def test_positions_of_a_bit_set():
    assert positions_of(0b1001010) == [1, 3, 6]
    assert positions_of(0b1) == [0]
    assert positions_of(0) == []
