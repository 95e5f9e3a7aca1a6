"""What a search says is proved, against every placing there is."""

from dataclasses import replace
from itertools import combinations, product

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from paperwork.radio.board.lattice import Want, candidate_frequencies_hz
from paperwork.radio.carrier import Carrier, Rules, guard_hz, wanted_apart_hz
from paperwork.radio.products.forms import FORMS
from paperwork.radio.search.assign import assign
from tests.few import few_examples
from tests.radio.twins import PRODUCT_KINDS, iterate_products, radiate_together

KHZ, MHZ = 1_000, 1_000_000


def least_to_spare(fixed, placed, rules):
    """The least over all pairs and products in which a placed carrier has part, made one by one; None without any."""
    everyone = [*fixed, *placed]
    new = {one.id for one in placed}
    found = []
    for one, two in combinations(everyone, 2):
        if {one.id, two.id} & new and radiate_together([one, two]):
            gap_hz = (2 * abs(one.hz - two.hz) - one.bandwidth_hz - two.bandwidth_hz) // 2
            found.append(gap_hz - wanted_apart_hz(rules, one, two))
    makers = [one for one in everyone if one.makes or rules.close_quarters]
    for form in FORMS:
        for hz, used in iterate_products(form, makers) if form.kind in rules.kinds else ():
            for victim in everyone:
                own = form.lands_on_maker and victim is used[form.victim]
                if form.lands_on_maker != own or (victim in used and not own) or not victim.listens:
                    continue
                together = [*used] if own else [*used, victim]
                guard = guard_hz(rules, form.kind, victim, used, form.weights)
                if guard and radiate_together(together) and new & {one.id for one in together}:
                    found.append(abs(hz - victim.hz) - guard)
    return min(found, default=None)


def best_of_all(wants, fixed, rules):
    """The most that can be placed, and the widest worst margin of as many: every placing tried."""
    most, widest = 0, None
    for choice in product(*([None, *candidate_frequencies_hz(want)] for want in wants)):
        placed = [replace(want.carrier, hz=hz) for want, hz in zip(wants, choice, strict=True) if hz is not None]
        if len(placed) < most:
            continue
        least = least_to_spare(fixed, placed, rules)
        spare = 10**12 if least is None else least
        if spare >= 0 and (len(placed) > most or widest is None or spare > widest):
            most, widest = len(placed), spare
    return most, widest


@st.composite
def worlds(draw):
    """Up to four channels of two kinds in a window of a few places, beside up to two carriers that stay."""
    width = draw(st.integers(8, 12))
    ranges = ((500 * MHZ, 500 * MHZ + width * 100 * KHZ),)
    kinds = draw(st.lists(st.sampled_from(["", "x"]), min_size=2, max_size=4))
    zone = draw(st.sampled_from(["", "A"]))
    wants = [
        Want(
            Carrier(
                f"w{at}",
                0,
                100 * KHZ,
                kind,
                makes=not kind,
                exclusive=draw(st.sampled_from(["", "", "pair"])),
                zone=draw(st.sampled_from(["", "", "A", "B"])),
                times=draw(st.sampled_from([frozenset(), frozenset(), frozenset("1"), frozenset("23")])),
            ),
            ranges,
            (400 if len(kinds) > 3 else 200) * KHZ,
            draw(st.sampled_from([50, 100])) * KHZ,
        )
        for at, kind in enumerate(kinds)
    ]
    fixed = [
        Carrier(f"f{at}", 500 * MHZ + hz * KHZ, 100 * KHZ, zone=zone)
        for at, hz in enumerate(draw(st.lists(st.integers(-500, 2_500), max_size=1)))
    ]
    guards = {("", kind): draw(st.sampled_from([0, 40, 110])) * KHZ for kind in PRODUCT_KINDS}
    return wants, fixed, Rules(PRODUCT_KINDS, guards, apart_hz=draw(st.sampled_from([0, 50])) * KHZ)


def assert_best(wants, fixed, rules):
    plan = assign(wants, fixed, (), rules, effort=2_000)
    most, widest = best_of_all(wants, fixed, rules)
    placed = [
        replace(want.carrier, hz=plan.placed[want.carrier.id]) for want in wants if want.carrier.id in plan.placed
    ]
    assert len(placed) == most and plan.is_most and plan.is_widest
    assert plan.margin_hz == least_to_spare(fixed, placed, rules)
    assert not placed or (10**12 if plan.margin_hz is None else plan.margin_hz) == widest


@settings(max_examples=8, phases=[Phase.generate], deadline=None)
@given(worlds())
def test_a_small_plan_has_the_most_channels_and_the_widest_worst_margin_of_all_plans(world):
    assert_best(*world)


@pytest.mark.sweep
@settings(max_examples=few_examples(300), deadline=None)
@given(worlds())
def test_every_small_plan_is_the_best_of_all(world):
    assert_best(*world)


def test_more_is_not_denied_where_it_is_not_proved():
    wants = [Want(Carrier(f"m{at}", 0, 200_000), ((500 * MHZ, 524 * MHZ),)) for at in range(24)]
    plan = assign(wants, (), (), Rules(), effort=20)
    assert len(plan.placed) < 24 and not plan.is_most


def test_one_channel_is_put_in_the_middle_of_its_window_and_two_at_its_ends():
    wants = [Want(Carrier(f"m{at}", 0, 200_000), ((500 * MHZ, 504 * MHZ),)) for at in range(2)]
    assert assign(wants[:1], (), (), Rules()).placed == {"m0": 502 * MHZ}
    assert sorted(assign(wants, (), (), Rules()).placed.values()) == [500_100_000, 503_900_000]


def test_no_channel_could_be_moved_alone_to_where_it_has_more_room_and_as_much_margin():
    window = 500 * MHZ, 516 * MHZ
    wants = [Want(Carrier(f"m{at}", 0, 200_000), (window,), 200 * KHZ) for at in range(7)]
    plan = assign(wants, (), (), Rules(), effort=300)
    placed = [replace(want.carrier, hz=plan.placed[want.carrier.id]) for want in wants]

    def room(hz, others):
        return min([abs(hz - one.hz) for one in others] + [2 * min(hz - window[0], window[1] - hz)])

    for one in placed:
        others = [other for other in placed if other is not one]
        for hz in candidate_frequencies_hz(wants[0]):
            if room(hz, others) > room(one.hz, others):
                assert least_to_spare([], [*others, replace(one, hz=hz)], Rules()) < plan.margin_hz
