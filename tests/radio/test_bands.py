import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.radio.bands import (
    BlockedRange,
    RasterRun,
    block_tv,
    blocks_on,
    find_tv_channel,
    intersect_ranges,
    list_tv_channels,
    merge_ranges,
    subtract_ranges,
    width_hz,
)
from tests.radio.twins import figures

MHZ = 1_000_000
EUROPE = (RasterRun(5, 12, 174 * MHZ, 7 * MHZ, prefix="E"), RasterRun(21, 69, 470 * MHZ, 8 * MHZ))
UNITED_STATES = (
    RasterRun(2, 4, 54 * MHZ, 6 * MHZ),
    RasterRun(5, 6, 76 * MHZ, 6 * MHZ),
    RasterRun(7, 13, 174 * MHZ, 6 * MHZ),
    RasterRun(14, 37, 470 * MHZ, 6 * MHZ),
)
AUSTRALIA = (
    RasterRun(6, 9, 174 * MHZ, 7 * MHZ),
    RasterRun(9, 9, 202 * MHZ, 7 * MHZ, suffix="A"),
    RasterRun(10, 12, 209 * MHZ, 7 * MHZ),
    RasterRun(28, 51, 526 * MHZ, 7 * MHZ),
)
JAPAN = (RasterRun(13, 52, 470 * MHZ, 6 * MHZ),)
CHINA = (RasterRun(13, 24, 470 * MHZ, 8 * MHZ), RasterRun(25, 36, 606 * MHZ, 8 * MHZ))
EAST = (RasterRun(6, 12, 174 * MHZ, 8 * MHZ, prefix="R"),)

small_ranges = st.lists(
    st.tuples(st.integers(0, 60), st.integers(1, 20)).map(lambda p: (p[0], p[0] + p[1])), max_size=6
)


def hertz_in(ranges):
    return {hz for low, high in ranges for hz in range(low, high)}


@given(small_ranges, small_ranges)
def test_range_arithmetic_is_that_of_sets(one, two):
    assert hertz_in(merge_ranges(one)) == hertz_in(one)
    assert hertz_in(subtract_ranges(one, two)) == hertz_in(one) - hertz_in(two)
    assert hertz_in(intersect_ranges(one, two)) == hertz_in(one) & hertz_in(two)
    assert width_hz(one) == len(hertz_in(one))


def test_a_range_that_runs_backwards_is_refused_with_its_edges():
    with pytest.raises(ValueError, match="runs backwards or is empty: 520000000 to 470000000 Hz"):
        merge_ranges([(520 * MHZ, 470 * MHZ)])


def test_touching_a_block_is_not_overlapping_it():
    block = BlockedRange(506 * MHZ, 514 * MHZ, "tv", "26")
    assert blocks_on([block], 505_900_000, 200_000) == ()
    assert blocks_on([block], 505_900_001, 200_000) == (block,)
    assert blocks_on([block], 514_100_000, 200_000) == ()


@pytest.mark.parametrize(
    "raster, names",
    [
        (EUROPE, ("europe_uhf_8mhz", "europe_vhf3_7mhz")),
        (UNITED_STATES, ("us_6mhz",)),
        (AUSTRALIA, ("australia_7mhz",)),
        (JAPAN, ("japan_uhf_6mhz",)),
        (CHINA, ("china_uhf_8mhz",)),
        (EAST, ("oirt_vhf3_8mhz",)),
    ],
)
def test_channel_formulas_give_the_published_edges(raster, names):
    channels = list_tv_channels(raster)
    for name in names:
        for row in figures()["tv_rasters"][name]["rows"]:
            channel = find_tv_channel(channels, str(row["channel"]))
            assert (channel.low_hz, channel.high_hz) == (row["low_mhz"] * MHZ, row["high_mhz"] * MHZ)


def test_channels_are_found_by_name():
    channels = list_tv_channels(EUROPE)
    assert find_tv_channel(channels, " e5 ").low_hz == 174 * MHZ
    assert find_tv_channel(channels, "99") is None


def test_a_channel_in_use_blocks_its_whole_width():
    channel = find_tv_channel(list_tv_channels(EUROPE), "30")
    assert block_tv(channel) == BlockedRange(542 * MHZ, 550 * MHZ, "tv", "30")
