"""How many fit at most: held against the shortest rulers, and against trying every set of places."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.bands import BlockedRange, blocks_on
from paperwork.radio.board.lattice import Want, candidate_frequencies_hz
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.products.hits import list_hits
from paperwork.radio.search.bound import bound_by_differences, pick_apart
from paperwork.radio.search.exhaust import Exhaustion, OutOfWork
from paperwork.radio.search.rulers import SHORTEST_LENGTHS
from paperwork.radio.spacing import list_close_pairs
from paperwork.radio.survey import MOST_CARRIERS, fit_carriers
from tests.few import few_examples

MHZ = 1_000_000


def test_no_bound_is_under_a_ruler_that_exists_and_none_is_far_above():
    """OEIS A003022: so many marks fit into so much, and no more."""
    for marks, length in enumerate(SHORTEST_LENGTHS[1:], start=2):
        assert marks <= bound_by_differences(length, 1, 1) <= marks + 3
        assert bound_by_differences(length - 1, 1, 1) >= marks - 1


def test_where_differences_may_repeat_nothing_is_bounded_by_them():
    assert bound_by_differences(10 * MHZ, 300_000, 0) is None
    assert bound_by_differences(0, 300_000, 100_000) == 1


@given(st.sets(st.integers(0, 40), max_size=14), st.integers(1, 6))
def test_the_lowest_first_are_the_most_that_are_apart(places, apart):
    """Held against the best from each place on, counted from the highest down."""
    most = [0] * 60
    for place in range(40, -1, -1):
        most[place] = max(most[place + 1], 1 + most[place + apart] if place in places else 0)
    assert len(pick_apart(sorted(places), apart)) == most[0]


def is_clean(hz, like, others, rules):
    """Whether carriers on these frequencies do nothing to each other nor to the others, judged as a check judges."""
    ours = [Carrier(f"m{number}", one, like.bandwidth_hz, like.kind, like.makes) for number, one in enumerate(hz)]
    names = {one.id for one in ours}
    hits = list_hits([*ours, *others], rules)
    pairs = list_close_pairs([*ours, *others], rules)
    return not any(names & {hit.victim, *hit.makers} for hit in hits) and not any(
        names & {pair.lower, pair.upper} for pair in pairs
    )


def most_by_trying(want, others, blocks, rules):
    """The size of the largest clean set, grown from sets that are clean one smaller."""
    like = want.carrier
    free = [hz for hz in candidate_frequencies_hz(want) if not blocks_on(blocks, hz, like.bandwidth_hz)]
    sets, count = [()], 0
    while True:
        sets = [
            (*one, hz)
            for one in sets
            for hz in free
            if (not one or hz > one[-1]) and is_clean((*one, hz), like, others, rules)
        ]
        if not sets:
            return count
        count += 1


@settings(max_examples=few_examples(12), deadline=None)
@given(
    st.integers(6, 10),
    st.booleans(),
    st.sampled_from((100_000, 200_000)),
    st.sampled_from(((), (501_050_000,), (500_400_000, 501_150_000))),
    st.booleans(),
)
def test_what_is_called_exact_is_exact_and_the_truth_lies_between(steps, makes, step_hz, theirs, blocked):
    want = Want(Carrier("m", 0, 200_000, makes=makes), ((500 * MHZ, 500 * MHZ + steps * 200_000),), step_hz)
    others = [Carrier(f"o{number}", hz, 200_000) for number, hz in enumerate(theirs)]
    blocks = [BlockedRange(501 * MHZ, 501_300_000, "tv")] if blocked else []
    fit = fit_carriers(want, others, blocks, Rules(), effort=5)
    truth = most_by_trying(want, others, blocks, Rules())
    assert fit.least <= truth <= fit.most <= fit.by_spacing
    assert is_clean(fit.places, want.carrier, others, Rules())
    assert makes or fit.least == fit.most


def test_small_windows_are_counted_exactly():
    """Trying everything settles what the bound by differences leaves open."""
    for width, truth in ((1_000_000, 3), (1_600_000, 4), (2_400_000, 5)):
        want = Want(Carrier("m", 0, 200_000), ((500 * MHZ, 500 * MHZ + width),), 100_000)
        fit = fit_carriers(want, [], [], Rules(), effort=5)
        assert (fit.least, fit.most) == (truth, truth)
        assert width > 2_000_000 or truth == most_by_trying(want, [], [], Rules())


@pytest.mark.parametrize(
    ("width", "makes"), ((1_000_000, True), (1_600_000, True), (2_000_000, True), (1_200_000, False))
)
def test_trying_everything_finds_the_most_and_not_one_more(width, makes):
    """And says nothing where the budget runs out."""
    want = Want(Carrier("m", 0, 200_000, makes=makes), ((500 * MHZ, 500 * MHZ + width),), 100_000)
    truth = most_by_trying(want, [], [], Rules())
    wants = [replace(want, carrier=replace(want.carrier, id=f"m{number}")) for number in range(truth + 1)]
    problem = Problem(wants, [], [], Rules())
    empty = problem.occupancy()
    found = Exhaustion(problem, 10**9).place(empty, (truth + 1,), truth)
    places = [problem.places[0].hz_at(place) for _, place in found]
    assert len(set(places)) == truth and is_clean(places, want.carrier, [], Rules())
    assert Exhaustion(problem, 10**9).place(empty, (truth + 1,), truth + 1) is None
    with pytest.raises(OutOfWork):
        Exhaustion(problem, -1).place(empty, (truth + 1,), truth)


def test_a_type_that_makes_nothing_is_counted_without_a_limit():
    """223 by spacing were once told as 120 free: the search had stopped there."""
    want = Want(Carrier("m", 0, 200_000, makes=False), ((500 * MHZ, 567 * MHZ),))
    fit = fit_carriers(want, [], [], Rules(), effort=1)
    assert fit.by_spacing == fit.least == fit.most == 223 > MOST_CARRIERS
