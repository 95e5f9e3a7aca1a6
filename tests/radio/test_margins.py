"""What each carrier has to spare, against every neighbour and every product made one by one."""

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from paperwork.radio.carrier import Carrier, Rules, guard_hz
from paperwork.radio.products.forms import FORMS
from paperwork.radio.products.hits import list_hits
from paperwork.radio.products.margins import find_neighbours, find_products
from paperwork.radio.spacing import list_close_pairs
from tests.radio.twins import BASE_HZ, PRODUCT_KINDS, carrier_sets, iterate_products, radiate_together

_WIDTHS = st.sampled_from([25_000, 200_000, 200_001, 6_000_000])


@st.composite
def plans(draw):
    """Carriers of several widths, and rules of which some guards are stated and the others follow from the widths."""
    carriers = [
        Carrier(**{name: getattr(one, name) for name in one.__slots__} | {"bandwidth_hz": draw(_WIDTHS)})
        for one in draw(carrier_sets(most=7))
    ]
    stated = draw(st.lists(st.tuples(st.sampled_from(["", "x"]), st.sampled_from(PRODUCT_KINDS)), unique=True))
    guards = {pair: draw(st.sampled_from([0, 1, 50_001, 110_000])) for pair in stated}
    apart = draw(st.sampled_from([{}, {("x", ""): 0}, {("x", "x"): 350_001}]))
    kinds = tuple(kind for kind in PRODUCT_KINDS if draw(st.booleans()))
    extra = draw(st.sampled_from([0, 7_000]))
    return carriers, Rules(kinds, guards, apart, close_quarters=draw(st.booleans()), extra_hz=extra)


def brute_products(carriers, rules):
    """The least to spare by victim and kind, over all products of all makers."""
    makers = [one for one in carriers if one.makes or rules.close_quarters]
    found = {}
    for form in FORMS:
        for hz, used in iterate_products(form, makers) if form.kind in rules.kinds else ():
            for victim in carriers:
                own = form.lands_on_maker and victim is used[form.victim]
                if form.lands_on_maker != own or (victim in used and not own) or not victim.listens:
                    continue
                guard = guard_hz(rules, form.kind, victim, used, form.weights)
                if guard and radiate_together([*used] if own else [*used, victim]):
                    found.setdefault((victim.id, form.kind), []).append(abs(hz - victim.hz) - guard)
    return {key: min(spares) for key, spares in found.items()}


@given(plans())
def test_what_products_leave_to_spare_is_the_least_over_all_combinations(plan):
    found = find_products(*plan)
    assert {key: margin.spare_hz for key, margin in found.items()} == brute_products(*plan)


@given(plans())
def test_the_product_that_is_named_lands_where_it_says(plan):
    carriers, rules = plan
    by_name = {one.id: one for one in carriers}
    weights = {form.text: form.weights for form in FORMS}
    for (victim, kind), margin in find_products(carriers, rules).items():
        makers = [by_name[name] for name in margin.names]
        product = sum(weight * one.hz for weight, one in zip(weights[margin.text], makers, strict=True))
        assert abs(product - by_name[victim].hz) == margin.distance_hz
        assert guard_hz(rules, kind, by_name[victim], makers, weights[margin.text]) == margin.wanted_hz


@given(plans())
def test_the_neighbour_is_the_one_with_least_to_spare_of_all_that_meet(plan):
    carriers, rules = plan
    wanted = {("x", "x"): rules.apart.get(("x", "x"), rules.apart.get(("x", ""), 100_000))}
    one_sided = rules.apart.get(("x", ""), 100_000)
    found = {}
    for one, two in combinations(carriers, 2):
        if radiate_together([one, two]):
            if "x" in (one.kind, two.kind):
                silent = one if two.kind else two
                want = wanted["x", "x"] if one.kind == two.kind else max(one_sided, 100_000 * silent.listens)
            else:
                want = 100_000
            doubled = 2 * abs(one.hz - two.hz) - one.bandwidth_hz - two.bandwidth_hz
            for name in (one.id, two.id):
                found.setdefault(name, []).append(doubled // 2 - want - rules.extra_hz)
    spares = {name: margin.spare_hz for name, margin in find_neighbours(carriers, rules).items()}
    assert spares == {name: min(values) for name, values in found.items()}


@given(plans())
def test_less_than_nothing_to_spare_is_what_the_check_finds(plan):
    carriers, rules = plan
    products = find_products(carriers, rules)
    assert {key for key, one in products.items() if one.spare_hz < 0} == {
        (hit.victim, hit.kind) for hit in list_hits(carriers, rules)
    }
    near = {name for pair in list_close_pairs(carriers, rules) for name in (pair.lower, pair.upper)}
    assert {name for name, one in find_neighbours(carriers, rules).items() if one.spare_hz < 0} == near


def test_of_two_products_the_nearer_to_being_a_hit_is_named_not_the_nearer():
    """A wide maker makes wide products: 2a-b with it is farther off, and leaves less."""
    wide = Carrier("wide", BASE_HZ, 6_000_000)
    carriers = [wide, Carrier("a", BASE_HZ + 10_000_000, 200_000), Carrier("v", BASE_HZ + 30_000_000, 200_000)]
    margin = find_products([*carriers, Carrier("b", BASE_HZ + 14_500_000, 200_000)], Rules())["v", "third2"]
    assert margin.names == ("b", "wide") and margin.distance_hz == 1_000_000
