"""Sweeps as power: sums against a second integration in floating point, and what must not depend on the width of bins."""

from math import log10

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from paperwork.radio.sweep import Bin, Segment, Sweep, hold, make_bins, spread, to_level, to_power
from tests.few import few_examples

MHZ = 1_000_000
LIMIT = to_power(-8_500)

levels = st.integers(-11_000, -3_000)
bins = st.lists(
    st.tuples(st.integers(0, 50), st.integers(1, 20), levels).map(lambda b: Bin(b[0], b[0] + b[1], b[2])), max_size=12
)
"""Overlapping bins of a few hertz."""

wide_bins = st.lists(st.tuples(st.sampled_from((25_200, 50_400, 100_800, 252_000)), levels), min_size=1, max_size=40)
"""Widths and levels of bins in a row; each width can be cut into up to ten equal parts."""


def in_a_row(some, low=500 * MHZ):
    made = []
    for width, level in some:
        made.append(Bin(low, low + width, level))
        low += width
    return made


def hertz_by_hertz(some):
    """The power of each hertz in mW, by floating point: the highest density of all bins over it."""
    density = np.zeros(100)
    for low, high, level in some:
        np.maximum(density[low:high], 10 ** (level / 1_000) / (high - low), out=density[low:high])
    return density


@given(bins, st.integers(0, 60), st.integers(1, 40))
def test_power_is_the_sum_over_all_hertz_of_the_highest_density(some, low, width):
    sweep, density = Sweep(spread(some)), hertz_by_hertz(some)
    assert sweep.power(low, low + width) == pytest.approx(density[low : low + width].sum() * 1e36, rel=1e-9)
    missing = {hz for part in sweep.missing(low, low + width) for hz in range(*part)}
    assert missing == {hz for hz in range(low, low + width) if not density[hz]}
    assert (sweep.level(low, low + width) is None) == (len(missing) == width)


@pytest.mark.parametrize("level", (-20_000, -9_730, -8_500, -1, 0, 301, 10_000))
def test_a_level_is_a_power_and_back_again(level):
    assert to_level(to_power(level)) == level
    assert to_power(level) == pytest.approx(10 ** (36 + level / 1_000), rel=1e-12)
    assert to_power(level) < to_power(level + 1 if level < 10_000 else level) or level == 10_000


def find_edge(level):
    """The least whole power that rounds to a level of hundredths of a dBm or more, by whole numbers alone."""
    low, high = 0, 10 ** (level // 1_000 + 38)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if middle**2_000 >= 10 ** (2 * (level + 36_000) - 1) else (middle, high)
    return high


@pytest.mark.parametrize("level", (-20_000, -8_500, 0))
def test_a_power_on_either_side_of_the_edge_between_two_levels_has_its_own(level):
    edge = find_edge(level)
    near = 1 + edge // 10**20
    assert (to_level(edge - near), to_level(edge + near)) == (level - 1, level)


def test_the_lowest_density_that_is_read_is_exact_to_a_ten_millionth():
    (one,) = spread([Bin(0, 10**9, -20_000)])
    assert one.density * 10**9 == pytest.approx(to_power(-20_000), rel=1e-7)


def test_what_no_bin_covers_is_unknown_not_clean():
    assert Sweep([]).level(499_900_000, 500_100_000) is None
    sweep = Sweep(spread([Bin(499 * MHZ, 500 * MHZ, -9_500)]))
    assert sweep.missing(499_500_000, 501 * MHZ) == ((500 * MHZ, 501 * MHZ),)
    assert sweep.level(500 * MHZ, 501 * MHZ) is None


def test_a_bin_counts_in_proportion_to_how_far_it_reaches_in():
    sweep = Sweep(spread([Bin(500 * MHZ, 501 * MHZ, -6_000)]))
    assert sweep.level(500_400_000, 500_600_000) == -6_000 + round(1_000 * log10(0.2))
    assert sweep.level(499_900_000, 500_100_000) == -6_000 + round(1_000 * log10(0.1))


def test_points_reach_half_way_to_their_neighbours_and_leave_gaps_open():
    made = make_bins([(100, -5000), (110, -6000), (120, -7000), (200, -8000), (110, -5500)])
    assert made == (Bin(95, 105, -5000), Bin(105, 115, -5500), Bin(115, 130, -7000), Bin(190, 205, -8000))
    assert make_bins([(100, -5000)]) == (Bin(100, 101, -5000),)
    assert make_bins([]) == ()


def test_where_bins_overlap_the_higher_density_is_held():
    low, high = Segment(0, 10, 5), Segment(4, 6, 9)
    assert hold([high, low]) == [Segment(0, 4, 5), Segment(4, 6, 9), Segment(6, 10, 5)]
    assert hold([Segment(4, 6, 5), Segment(0, 4, 9)]) == [Segment(0, 4, 9), Segment(4, 6, 5)]


@settings(max_examples=few_examples(60), deadline=None)
@given(wide_bins, st.integers(2, 9).filter(lambda n: 25_200 % n == 0), st.integers(0, 20), st.integers(1, 12))
def test_cutting_each_bin_into_equal_parts_changes_no_power_and_no_verdict(some, parts, start, span):
    """A part has the level of the bin less 10 log10 of their number. Levels are written to 0.01 dB, so that is the error."""
    whole = in_a_row(some)
    cut = in_a_row(
        [(width // parts, level - round(1_000 * log10(parts))) for width, level in some for _ in range(parts)]
    )
    one, two = Sweep(spread(whole)), Sweep(spread(cut))
    low = 500 * MHZ + 20_000 * start
    before, after = one.level(low, low + 25_000 * span), two.level(low, low + 25_000 * span)
    assert (before is None) == (after is None)
    if before is not None:
        assert abs(before - after) <= 1
        assert abs(before + 8_500) <= 1 or (before > -8_500) == (after > -8_500)
    assert one.covered == two.covered


@settings(max_examples=few_examples(60), deadline=None)
@given(wide_bins, st.sampled_from((12_500, 50_000, 200_000, 400_000, 6 * MHZ)), st.integers(-9_500, -5_000))
def test_no_carrier_that_gets_too_much_is_clear_of_the_loud_ranges(some, bandwidth, limit):
    sweep = Sweep(spread(in_a_row(some)))
    loud = sweep.list_loud(bandwidth, to_power(limit))
    half = bandwidth // 2
    for hz in range(500 * MHZ - half, sweep.covered[-1][1] + half, 3_700):
        if sweep.power(hz - half, hz + half) > to_power(limit):
            assert any(hz - half < high and hz + half > low for low, high in loud), hz


def test_loud_ranges_are_no_wider_than_the_signal_and_half_a_bandwidth():
    quiet = [(100_000, -10_500)] * 100
    one = Sweep(spread(in_a_row([*quiet, (100_000, -6_000), *quiet])))
    assert one.list_loud(200_000, LIMIT) == ((510 * MHZ, 510_100_000),)
    wide = Sweep(spread(in_a_row([*quiet, *[(100_000, -8_000)] * 60, *quiet])))
    ((low, high),) = wide.list_loud(200_000, LIMIT)
    # At -80 dBm in 100 kHz a carrier of 200 kHz may reach in by 10^-0.5 of 100 kHz, which is 31.6 kHz.
    assert 510_029_000 <= low <= 510_031_623 and 515_968_377 <= high <= 515_971_000
    assert Sweep(spread(in_a_row(quiet))).list_loud(200_000, LIMIT) == ()
    # A weak one is only loud for a carrier right over it, and what is left of the range is a hertz.
    ((low, high),) = Sweep(spread(in_a_row([*quiet, (100_000, -8_490), *quiet]))).list_loud(200_000, LIMIT)
    assert 510 * MHZ <= low < high <= 510_100_000


def test_the_search_for_loud_ranges_ends_however_wide_the_bins_and_narrow_the_carriers():
    sweep = Sweep(spread([Bin(25 * MHZ, 50_000 * MHZ, -1_000), Bin(50_000 * MHZ, 99_000 * MHZ, 5_000)]))
    assert sweep.list_loud(1, to_power(-12_000))[-1][1] >= 98_999 * MHZ


def test_the_noise_floor_is_that_of_the_quiet_fifth_and_does_not_scatter():
    rng = np.random.default_rng(5)
    noise = [(10_000, round(-11_000 + 1_000 * log10(x))) for x in rng.exponential(size=2_000)]
    television = [(10_000, -8_000)] * 6_000
    sweep = Sweep(spread(in_a_row([*television[:3_000], *noise, *television[3_000:]])))
    assert sweep.floor is not None and abs(to_level(sweep.floor * 10_000) + 11_000) < 100
    assert Sweep(spread(in_a_row([(100_000, -9_000)] * 44))).floor is None, "less than 5 MHz"


def test_bins_that_our_own_carriers_reach_into_and_those_beside_them_are_left_out():
    sweep = Sweep(spread(in_a_row([(100_000, -9_000)] * 10)))
    left = sweep.without([(500_320_000, 500_380_000)])
    assert left.covered == ((500 * MHZ, 500_200_000), (500_500_000, 501 * MHZ))
