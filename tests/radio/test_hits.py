from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings

from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.products.counts import count_hits
from paperwork.radio.products.forms import FORMS, Judge
from paperwork.radio.products.hits import gather, iterate_hits, list_hits
from tests.few import few_examples
from tests.radio.twins import (
    BASE_HZ,
    PRODUCT_KINDS,
    RASTER_HZ,
    STEP_RULES,
    brute_hits,
    canonical,
    carrier_sets,
    figures,
    iterate_products,
    on_channels,
    rules_with_all_guards,
)


@settings(max_examples=few_examples(150), deadline=None)
@given(carrier_sets(), rules_with_all_guards())
def test_listed_hits_are_those_of_brute_force(carriers, rules):
    found = sorted(canonical(hit.kind, hit.text, hit.makers, hit.victim) for hit in iterate_hits(carriers, rules))
    assert found == brute_hits(carriers, rules)


@settings(max_examples=few_examples(60), deadline=None)
@given(carrier_sets(), rules_with_all_guards())
def test_shifting_all_carriers_shifts_all_products_with_them(carriers, rules):
    moved = [replace(carrier, hz=carrier.hz + 1_234_567) for carrier in carriers]
    assert list_hits(carriers, rules) == list_hits(moved, rules)


def test_a_hit_names_makers_victim_and_offset():
    carriers = [
        Carrier("Anna", 500_000_000, 200_000),
        Carrier("Ben", 500_600_000, 200_000),
        Carrier("Cora", 501_170_000, 200_000),
    ]
    hit = list_hits(carriers, Rules(kinds=("third2",)))[0]
    assert (hit.kind, hit.text, hit.makers, hit.victim) == ("third2", "2a-b", ("Ben", "Cora"), "Anna")
    assert hit.offset_hz == 2 * 500_600_000 - 501_170_000 - 500_000_000


def test_exactly_at_the_guard_is_clean():
    carriers = [
        Carrier("a", 500_000_000, 200_000),
        Carrier("b", 500_600_000, 200_000),
        Carrier("v", 499_500_000, 200_000),
    ]
    rules = Rules(kinds=("third2",))
    assert not [hit for hit in list_hits(carriers, rules) if hit.victim == "v"]
    closer = [*carriers[:2], replace(carriers[2], hz=499_499_999)]
    assert [hit.offset_hz for hit in list_hits(closer, rules) if hit.victim == "v"] == [-99_999]


def test_three_evenly_spaced_carriers_are_one_finding():
    hits = list_hits(on_channels([0, 4, 8]), STEP_RULES)
    assert [(hit.text, hit.makers, hit.victim) for hit in hits] == [
        ("2a-b", ("4", "8"), "0"),
        ("a+b-c", ("0", "8", "4"), "4"),
        ("2a-b", ("4", "0"), "8"),
    ]
    (clash,) = gather(hits)
    assert set(clash.carriers) == {"0", "4", "8"}
    assert [hit.victim for hit in clash.hits] == ["0", "4", "8"]


def test_equal_sums_of_two_pairs_are_one_finding():
    hits = list_hits(on_channels([0, 1, 3, 4]), STEP_RULES)
    assert len(hits) == 4
    (clash,) = gather(hits)
    assert [hit.victim for hit in clash.hits] == ["0", "1", "3", "4"]


def test_a_product_is_no_hit_on_its_own_makers_but_for_the_middle():
    near = [Carrier("a", 500_000_000, 200_000), Carrier("b", 500_010_000, 200_000)]
    assert list_hits(near, Rules(kinds=PRODUCT_KINDS)) == ()


def test_types_that_make_none_are_victims_and_make_some_in_close_quarters():
    quiet = [
        Carrier("a", 500_000_000, 200_000, makes=False),
        Carrier("b", 500_600_000, 200_000),
        Carrier("c", 501_200_000, 200_000),
    ]
    rules = Rules(kinds=("third2",))
    assert [(hit.makers, hit.victim) for hit in list_hits(quiet, rules)] == [(("b", "c"), "a")]
    assert len(list_hits(quiet, replace(rules, close_quarters=True))) == 2


def test_carriers_of_one_exclusive_group_make_nothing_together():
    row = on_channels([0, 4, 8])
    assert len(list_hits(row, STEP_RULES)) == 3
    assert not list_hits([replace(row[0], exclusive="g"), row[1], replace(row[2], exclusive="g")], STEP_RULES)
    assert not list_hits([replace(row[0], zone="north"), row[1], replace(row[2], zone="south")], STEP_RULES)
    moments = ("12", "23", "31")
    apart = [replace(carrier, times=frozenset(times)) for carrier, times in zip(row, moments, strict=True)]
    assert not list_hits(apart, STEP_RULES)


def test_a_wide_maker_counts_as_a_band():
    wide = [
        Carrier("wide", 500_000_000, 6_000_000),
        Carrier("b", 510_000_000, 200_000),
        Carrier("v", 522_900_000, 200_000),
    ]
    rules = Rules(kinds=("third2",))
    guard = 75_000 + 3_000_000
    for off, hit in ((guard - 1, True), (guard, False)):
        moved = [*wide[:2], replace(wide[2], hz=2 * wide[1].hz - wide[0].hz + off)]
        assert any(found.makers == ("b", "wide") for found in list_hits(moved, rules)) is hit


def test_an_impossible_show_has_no_hits_and_no_error():
    assert list_hits([], Rules()) == ()
    assert list_hits(on_channels([3]), Rules()) == ()


@pytest.mark.parametrize("row", figures()["golomb_rulers"]["rows"], ids=lambda row: str(row["order"]))
def test_published_optimal_rulers_have_no_third_order_hit(row):
    assert list_hits(on_channels(row["marks"]), STEP_RULES) == ()


def test_every_published_ruler_and_babcock_set_is_free_of_hits():
    sets = [marks for row in figures()["golomb_all_optimal"]["rows"] for marks in row["rulers"]]
    sets += [channels for row in figures()["babcock_1953"]["rows"] for channels in row["sets"]]
    assert len(sets) == 38
    assert not any(list_hits(on_channels(channels), STEP_RULES) for channels in sets)


@pytest.mark.parametrize(
    "name, kinds",
    [("two_signal_3rd_and_5th", ("third2", "fifth2")), ("third_and_3A2B", ("third2", "third3", "fifth2"))],
)
def test_minimum_sets_for_fifth_order_rules_are_free_of_hits(name, kinds):
    rules = replace(STEP_RULES, kinds=kinds)
    channels = figures()["minimum_span_by_rule"]["example_sets"][f"{name}_n8"]
    assert list_hits(on_channels(channels), rules) == ()
    assert list_hits(on_channels([*channels, channels[-1] + 1]), rules)


def test_published_four_channel_example_is_clean_and_the_bad_five_have_four_hits():
    rows = figures()["published_frequency_sets"]["rows"]
    sets = [[Carrier(str(mhz), round(mhz * 1_000_000), 200_000) for mhz in row["mhz"]] for row in rows]
    rules = replace(STEP_RULES, guards={("", kind): 100_000 for kind in PRODUCT_KINDS})
    assert list_hits(sets[0], rules) == ()
    assert list_hits(sets[1], rules) == ()
    assert Counter(hit.kind for hit in list_hits(sets[2], rules)) == {"third3": 4}
    assert len(gather(list_hits(sets[2], rules))) == 1


@pytest.mark.parametrize(
    "rule, kinds",
    [("no_third_order_hit_A005282", ("third2", "third3")), ("no_two_signal_third_order_hit_A003278", ("third2",))],
)
def test_lowest_first_gives_the_published_sequence(rule, kinds):
    wanted = figures()["greedy_lowest_first"][rule][:14]
    rules = replace(STEP_RULES, kinds=kinds)
    chosen: list[int] = []
    for channel in range(1, wanted[-1] + 1):
        if not any(True for _ in iterate_hits(on_channels([*chosen, channel]), rules)):
            chosen.append(channel)
    assert chosen == wanted


@pytest.mark.parametrize("row", figures()["product_counts"]["rows"][:6], ids=lambda row: str(row["n"]))
def test_number_of_products_is_the_published_one(row):
    carriers = on_channels(range(row["n"]))
    for form in (form for form in FORMS if not form.lands_on_maker):
        assert sum(1 for _ in iterate_products(form, carriers)) == row[form.text.upper()]


def spectrum_of(bins: list[int], order: int) -> dict[int, float]:
    """Amplitude by bin of the `order`-th power of three tones, in the zone of the carriers."""
    points = 1 << 15
    phase = 2 * np.pi * np.arange(points) / points
    wave = sum(np.cos(number * phase) for number in bins)
    amplitude = np.abs(np.fft.rfft(wave**order)) * 2 / points
    zone = range(min(bins) // 2, min(bins) * 3 // 2)
    return {number: float(amplitude[number]) for number in zone if amplitude[number] > 1e-6}


def test_a_cubic_makes_exactly_our_third_order_products():
    bins = [4000, 4100, 4310, 4745]
    carriers = [Carrier(str(number), number, 0) for number in bins]
    expected = {}
    for form in FORMS[:2]:
        coefficient = {"2a-b": 3 / 4, "a+b-c": 3 / 2}[form.text]
        expected |= {hz: coefficient for hz, _ in iterate_products(form, carriers)}
    found = spectrum_of(bins, 3)
    assert set(found) - set(bins) == set(expected)
    assert all(found[number] == pytest.approx(expected[number], rel=1e-6) for number in expected)
    assert 20 * np.log10((3 / 2) / (3 / 4)) == pytest.approx(
        figures()["nonlinearity_coefficients"]["extra"]["triple_beat_over_two_tone_db"], abs=1e-4
    )


def test_a_quintic_makes_exactly_our_third_and_fifth_order_products():
    bins = [4000, 4100, 4310]
    carriers = [Carrier(str(number), number, 0) for number in bins]
    rows = {row["product"].lower(): row["coefficient"] for row in figures()["nonlinearity_coefficients"]["rows"]}
    found = spectrum_of(bins, 5)
    expected = set()
    for form in (form for form in FORMS if not form.lands_on_maker):
        for hz, _ in iterate_products(form, carriers):
            expected.add(hz)
            if form.kind.startswith("fifth"):
                assert found[hz] == pytest.approx(rows[form.text], rel=1e-6)
    assert set(found) - set(bins) == expected


def test_listing_copes_with_a_large_show():
    carriers = [Carrier(str(number), BASE_HZ + number * number * RASTER_HZ, 200_000) for number in range(120)]
    hits = list(iterate_hits(carriers, replace(STEP_RULES, kinds=("third2",))))
    assert all(2 * int(hit.makers[0]) ** 2 - int(hit.makers[1]) ** 2 == int(hit.victim) ** 2 for hit in hits)
    assert hits


def _work_of(zones: int, monkeypatch: pytest.MonkeyPatch) -> tuple[int, int]:
    """How many combinations are looked at, listing and counting, where every zone uses the same frequencies."""
    looked: list[object] = []
    guard_of = Judge.guard_of
    monkeypatch.setattr(Judge, "guard_of", lambda *given: looked.append(given) or guard_of(*given))
    carriers = [
        Carrier(f"{zone}.{hz}", hz, 200_000, kind, zone=f"zone {zone}")
        for zone in range(zones)
        for hz, kind in ((470_000_000, "a"), (471_000_000, "b"), (473_000_000, "b"))
    ]
    list_hits(carriers, Rules())
    listed = len(looked)
    count_hits(carriers, Rules())
    monkeypatch.undo()
    return listed, len(looked) - listed


def test_work_grows_with_the_zones_and_not_with_their_power(monkeypatch):
    """Twenty stages on the same frequencies are twenty small plans, not one large one."""
    listed, counted = _work_of(5, monkeypatch)
    twice_listed, twice_counted = _work_of(10, monkeypatch)
    assert (twice_listed, twice_counted) == (2 * listed, 2 * counted)
    assert listed and counted
