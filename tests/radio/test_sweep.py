from hypothesis import given
from hypothesis import strategies as st

from paperwork.radio.sweep import Bin, Sweep, make_bins

bins = st.lists(
    st.tuples(st.integers(0, 50), st.integers(1, 20), st.integers(-11000, -3000)).map(
        lambda b: Bin(b[0], b[0] + b[1], b[2])
    ),
    max_size=12,
)


@given(bins, st.integers(0, 60), st.integers(1, 20))
def test_the_level_is_that_of_the_highest_bin_and_gaps_are_missing(some, low, half):
    high = low + 2 * half
    touching = [one for one in some if one.low_hz < high and low < one.high_hz]
    covered = {hz for one in some for hz in range(one.low_hz, one.high_hz)}
    sweep = Sweep(some)
    assert sweep.level_under(low + half, 2 * half) == max((one.level_cdbm for one in touching), default=None)
    missing = {hz for part in sweep.missing(low, high) for hz in range(*part)}
    assert missing == set(range(low, high)) - covered


def test_what_no_bin_covers_is_unknown_not_clean():
    assert Sweep([]).level_under(500_000_000, 200_000) is None
    sweep = Sweep([Bin(499_000_000, 500_000_000, -9_500)])
    assert sweep.level_under(500_000_000, 200_000) == -9_500
    assert sweep.missing(499_500_000, 501_000_000) == ((500_000_000, 501_000_000),)


def test_points_reach_half_way_to_their_neighbours_and_leave_gaps_open():
    made = make_bins([(100, -5000), (110, -6000), (120, -7000), (200, -8000), (110, -5500)])
    assert made == (Bin(95, 105, -5000), Bin(105, 115, -5500), Bin(115, 130, -7000), Bin(190, 205, -8000))
    assert make_bins([(100, -5000)]) == (Bin(100, 101, -5000),)
    assert make_bins([]) == ()


def test_loud_ranges_are_merged():
    sweep = Sweep([Bin(0, 10, -4000), Bin(10, 20, -5000), Bin(30, 40, -4500), Bin(40, 50, -9000)])
    assert sweep.louder_than(-6000) == ((0, 20), (30, 40))
    assert sweep.louder_than(-4500) == ((0, 10),)
