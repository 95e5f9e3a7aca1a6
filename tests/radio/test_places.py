"""Where a channel may go, as sets of places: held against every frequency tried alone."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.bands import BlockedRange, blocks_on
from paperwork.radio.board.lattice import Places, Want, candidate_frequencies_hz, choose_lattice, positions_of
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules
from tests.few import few_examples

KHZ, MHZ = 1_000, 1_000_000

ENDS = st.lists(st.integers(0, 4_000), min_size=2, max_size=2, unique=True).map(sorted)
RANGES = st.lists(ENDS.map(lambda pair: tuple(500 * MHZ + end * KHZ for end in pair)), min_size=1, max_size=3)
BLOCKS = st.lists(
    st.builds(
        lambda pair, cause, odd: BlockedRange(*(500 * MHZ + end * KHZ + odd for end in pair), cause),
        ENDS,
        st.sampled_from(("tv", "keep-clear", "sweep")),
        st.sampled_from((0, 0, 1, 999)),
    ),
    max_size=4,
)
STEPS = st.sampled_from((1_000, 5_000, 12_500, 25_000, 100_000))
SPOTS = st.none() | st.frozensets(st.integers(0, 4_000), min_size=1, max_size=20)


def want_of(ranges, step, origin, spots):
    carrier = Carrier("m", 0, 200 * KHZ)
    if spots is None:
        return Want(carrier, tuple(ranges), step, origin)
    return Want(carrier, tuple(ranges), 1_000, 500 * MHZ, spots=frozenset(500 * MHZ + spot * KHZ for spot in spots))


@settings(max_examples=few_examples(100))
@given(RANGES, BLOCKS, STEPS, st.integers(0, 99).map(lambda n: n * 125), SPOTS)
def test_places_are_those_of_the_frequencies_that_no_block_overlaps(ranges, blocks, step, origin, spots):
    """Counted by the first cause that takes each, causes in the order in which they first take any; and every place gives
    its frequency back."""
    want = want_of(ranges, step, origin, spots)
    lattice = choose_lattice([want], [], 0)
    places = Places(want, blocks, lattice)
    frequencies = candidate_frequencies_hz(want)
    free = [hz for hz in frequencies if not blocks_on(blocks, hz, 200 * KHZ)]
    assert places.list_hz(places.every) == frequencies
    assert places.list_hz(places.allowed) == free
    assert [places.hz_at(place) for place in positions_of(places.allowed)] == free
    found = [{block.cause for block in blocks_on(blocks, hz, 200 * KHZ)} for hz in frequencies]
    taking = [block for block in blocks if any(blocks_on([block], hz, 200 * KHZ) for hz in frequencies)]
    order = list(dict.fromkeys(block.cause for block in taking))
    taken = Counter(min(causes, key=order.index) for causes in found if causes)
    problem = Problem([want], [], blocks, Rules())
    assert dict(problem.count_causes(0, problem.occupancy())) == dict(taken)


def test_of_frequencies_finer_than_the_lattice_one_counts_in_each_place():
    """A step of 250 Hz is searched in kilohertz: nothing is said twice, and nothing that cannot be set."""
    want = Want(Carrier("m", 0, 200 * KHZ), ((500 * MHZ, 501 * MHZ),), 250)
    lattice = choose_lattice([want], [], 0)
    places = Places(want, (), lattice)
    assert lattice.unit_hz == KHZ and places.every.bit_count() == len(set(places.list_hz(places.every))) == 801
    assert set(places.list_hz(places.every)) <= set(candidate_frequencies_hz(want))
