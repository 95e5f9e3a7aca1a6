"""The survey: the published forty fits, everything adds up, and what is not known is said."""

import json

import pytest
from click.testing import CliRunner

from paperwork.commands.assign import command as assign
from paperwork.commands.survey import command
from paperwork.coordinate.survey import list_windows, survey_show
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from tests.shows_text import EXAMPLES, show_of

BELT = "radios: {belt: {tunes: 470-700, step: 25 kHz, bandwidth: 200 kHz, apart: 400 kHz}}\n"
AIR = BELT + "spectrum: {region: Europe, tv: [24, 26], weak tv: 25, keep clear: 500-504}\nchannels: {1: {by: Ann}}\n"


def run(*arguments) -> object:
    return (
        CliRunner()
        .invoke(command, [str(one) for one in arguments], standalone_mode=False, catch_exceptions=False)
        .return_value
    )


def test_forty_200_khz_channels_600_khz_apart_fit_24_mhz_with_their_whole_bandwidth(tmp_path):
    """Common practice: 24 MHz hold forty at 600 kHz; points on both edges would be 41."""
    (one,) = survey_show(
        show_of(BELT + "channels: {1: {by: Ann}}\n", tmp_path), ((470_000_000, 494_000_000),), effort=5
    )
    (fit,) = one.fits
    assert fit.by_spacing == 40 and 10 <= fit.clean < 40 and one.free_hz == 24_000_000


@pytest.mark.parametrize("window", ((494, 518), (490, 530), (502, 503), (471, 473), (480, 540)))
def test_free_and_eaten_add_up_to_the_window(tmp_path, window):
    low, high = (mhz * 1_000_000 for mhz in window)
    (one,) = survey_show(show_of(AIR, tmp_path), ((low, high),), effort=2)
    assert one.free_hz + sum(hz for _, hz in one.eaten) == high - low
    assert one.free_hz == sum(end - start for start, end in one.free)
    assert not one.swept and one.unswept == ()


def test_what_two_things_take_is_counted_once_and_weak_television_is_free(tmp_path):
    (one,) = survey_show(show_of(AIR, tmp_path), ((494_000_000, 518_000_000),), effort=2)
    assert dict(one.eaten) == {"keep-clear": 4_000_000, "tv": 14_000_000}
    assert one.free_hz == one.weak_hz == 6_000_000


def test_windows_are_ranked_by_what_they_hold(tmp_path):
    windows = ((494_000_000, 518_000_000), (518_000_000, 542_000_000), (518_000_000, 530_000_000))
    found = survey_show(show_of(AIR, tmp_path), windows, effort=5)
    assert [(one.low_hz, one.high_hz) for one in found] == [windows[1], windows[2], windows[0]]


def test_windows_are_those_of_racks_along_their_antennas_else_of_radios(tmp_path):
    racks = (
        "racks: {R1: {slots: 2, window: 470-494, antenna: mast, place: 1}, R2: {slots: 2, window: 480-504, antenna: mast, place: 2}, "
        "R3: {slots: 2, window: 470-494}}\n"
    )
    show = show_of(BELT + racks + "channels: {1: {by: Ann}}\n", tmp_path)
    assert list_windows(show) == [
        ("racks R1 and R3", (470_000_000, 494_000_000)),
        ("rack R2", (480_000_000, 494_000_000)),
    ]
    assert list_windows(show_of(BELT + "channels: {1: {by: Ann}}\n", tmp_path)) == [
        ("radio belt", (470_000_000, 700_000_000))
    ]
    assert list_windows(show_of("channels: {1: {by: Ann}}\n", tmp_path)) == []


def test_radio_types_that_are_alike_are_counted_together_and_those_out_of_reach_not_at_all(tmp_path):
    radios = "radios: {a: {tunes: 470-500}, b: {like: a}, c: {like: a, bandwidth: 400 kHz}, d: {tunes: 600-700}}\n"
    (one,) = survey_show(
        show_of(radios + "channels: {1: {by: Ann}}\n", tmp_path), ((470_000_000, 480_000_000),), effort=2
    )
    assert [fit.radios for fit in one.fits] == [("a", "b"), ("c",)]


def test_channels_on_the_air_leave_less_room_beside_them_than_there_is_in_all(tmp_path):
    text = BELT + "channels: {1: {by: Ann, mhz: 474.000}, 2: {by: Bo, mhz: 475.300}}\n"
    (one,) = survey_show(show_of(text, tmp_path), ((470_000_000, 480_000_000),), effort=20)
    (fit,) = one.fits
    assert fit.more < fit.clean <= fit.more + 3


def test_the_text_says_what_eats_the_rest_and_what_was_not_swept(tmp_path):
    (tmp_path / "show.yaml").write_text(
        "spectrum: {region: Europe, tv: 24, sweeps: sweep.csv, own transmitters: off}\n"
        + BELT
        + "channels: {1: {by: Ann}}\n",
        encoding="utf-8",
    )
    (tmp_path / "sweep.csv").write_text(
        "".join(f"{490 + n / 10:.1f},{-60 if n == 5 else -97}\n" for n in range(200)), encoding="utf-8"
    )
    done = run(tmp_path / "show.yaml", "--window", "490-514")
    assert done.code == 0
    assert "490 to 514 MHz: 15.9 of 24 MHz free" in done.text
    assert "TV channels in use take 8 MHz" in done.text and "what the sweep heard takes 0.1 MHz" in done.text
    assert "not swept: 509.95 to 514 MHz" in done.text and "Free is not permitted. In Europe" in done.text


def test_json_says_the_same_as_the_survey(tmp_path):
    (tmp_path / "show.yaml").write_text(AIR, encoding="utf-8")
    (plain,) = json.loads(run(tmp_path / "show.yaml", "--window", "494-518", "--format", "json").text)
    assert plain["eaten_hz"] == {"keep-clear": 4_000_000, "tv": 14_000_000} and plain["free_hz"] == 6_000_000
    assert plain["fits"][0]["radios"] == ["belt"] and plain["window"]["low_hz"] == 494_000_000


def test_the_example_has_three_windows_swept_whole():
    found = survey_show(read_show(EXAMPLES / "show.yaml", "show.yaml").show, effort=3)
    assert [one.name for one in found] == ["racks R1 and R2", "racks R3 and R4", "racks R5 and R6"]
    assert all(one.swept and not one.unswept and one.free_hz == 24_000_000 for one in found)
    assert [fit.radios for one in found for fit in one.fits] == [("low",), ("mid",), ("high", "hand")]


@pytest.mark.parametrize(("window", "said"), (("494-470", "runs backwards"), ("x", "is not a range")))
def test_a_window_that_is_none_is_told(window, said):
    result = CliRunner().invoke(command, [str(EXAMPLES / "show.yaml"), "--window", window])
    assert result.exit_code == 2 and said in result.output


def test_a_show_without_a_window_says_what_would_give_one():
    done = run(EXAMPLES / "first_show.yaml")
    assert done.code == 1 and "--window" in done.text


UNKNOWN_AIR = {
    "a region that is in no table": "region: Atlantis, tv: 24",
    "channels of nobody's raster": "tv: 24",
    "a channel that the raster has not": "region: Europe, tv: 99",
    "a sweep that is not there": "region: Europe, tv: 24, sweeps: [gone.csv]",
    "a sweep elsewhere": "region: Europe, tv: 24, sweeps: [../gone.csv]",
}


@pytest.mark.parametrize("spectrum", UNKNOWN_AIR.values(), ids=UNKNOWN_AIR.keys())
def test_where_the_air_is_not_known_nothing_is_called_free_and_every_frequency_is_doubted(tmp_path, spectrum):
    """Nobody is given a frequency under a television channel because its region was misspelt."""
    path = tmp_path / "show.yaml"
    path.write_text(
        f"{BELT}spectrum: {{{spectrum}}}\nchannels: {{1: {{by: Ann}}, 2: {{by: Bo, mhz: 498.2}}}}\n", encoding="utf-8"
    )
    for outcome, said in (
        (run(path), "no window was looked at"),
        (CliRunner().invoke(assign, [str(path), "-o", str(tmp_path / "new.yaml")], standalone_mode=False).return_value,
         "nothing was written"),
    ):  # fmt: skip
        assert (outcome.code, outcome.text) == (1, "") and said in outcome.aside
    assert not (tmp_path / "new.yaml").exists()
    reading = read_show(path, "show.yaml")
    stamps = {one.path: " ".join(one.stamps) for one in make_papers(reading.show, reading.findings).printed}
    assert "ch 2: what is on the air is not known" in stamps["rack/channel-chart.pdf"]
    assert stamps["wardrobe/pack-labels.pdf"] and not stamps["wardrobe/mic-table-squares.pdf"]


def test_a_window_is_looked_at_as_it_is_in_another_house(tmp_path):
    path = tmp_path / "show.yaml"
    rows = "venues: {v1: {venue: Pier, section: spectrum, field: tv, value: '25, 27'}}\n"
    path.write_text(AIR + rows, encoding="utf-8")
    here, there = (run(path, "--window", "494-518", *more).text for more in ((), ("--venue", "pier")))
    assert (here.splitlines()[0], there.splitlines()[0]) == (
        "494 to 518 MHz: 6 of 24 MHz free",
        "494 to 518 MHz: 14 of 24 MHz free",
    )
    assert "did you mean Pier?" in run(path, "--venue", "Peer").aside
