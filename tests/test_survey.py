"""The survey: the published forty fits, everything adds up, and what is not known is said."""

import json
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from click.testing import CliRunner

from paperwork.commands.assign import command as assign
from paperwork.commands.survey import command
from paperwork.coordinate.survey import divide_band, list_windows, survey_show
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.sheets.production.window_survey import make_sheet
from tests.metrics import load_metrics
from tests.sheets.reading import example, read_back, rows_of, speaking
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
    assert fit.by_spacing == 40 and 10 <= fit.clean.least <= fit.clean.most < 40 and one.free_hz == 24_000_000


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
    assert fit.more.least < fit.clean.least <= fit.clean.most >= fit.more.most


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
    assert "not swept: 509.95 to 514 MHz" in done.text and "Free does not mean permitted. In Europe" in done.text


def test_json_says_the_same_as_the_survey(tmp_path):
    (tmp_path / "show.yaml").write_text(AIR, encoding="utf-8")
    (plain,) = json.loads(run(tmp_path / "show.yaml", "--window", "494-518", "--format", "json").text)
    assert plain["eaten_hz"] == {"keep-clear": 4_000_000, "tv": 14_000_000} and plain["free_hz"] == 6_000_000
    assert plain["tv"] == ["24", "26"] and plain["fits"][0]["more"].keys() == {"least", "most"}
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
    assert "ch 2: not known what else is on the air" in stamps["rack/channel-chart.pdf"]
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


@pytest.mark.parametrize("every", (8, 24, 30, 224, 500))
def test_divisions_are_the_band_without_gaps_and_all_but_the_last_are_of_one_width(every):
    band = (470_000_000, 694_000_000)
    found = divide_band(band, every * 1_000_000)
    assert (found[0][0], found[-1][1]) == band and all(one[1] == two[0] for one, two in pairwise(found))
    assert {high - low for low, high in found[:-1]} <= {every * 1_000_000} and len(found) == -(-224 // every)


def test_each_division_says_its_television_and_how_many_fit_at_least_or_exactly(tmp_path):
    (tmp_path / "show.yaml").write_text(AIR, encoding="utf-8")
    lines = run(tmp_path / "show.yaml", "--band", "486-518", "--every", "8").text.splitlines()
    assert [line for line in lines if line.startswith(("4", "5"))] == [
        "486 to 494 MHz: 8 of 8 MHz free",
        "502 to 510 MHz: 6 of 8 MHz free",
        "494 to 502 MHz: 0 of 8 MHz free",
        "510 to 518 MHz: 0 of 8 MHz free",
    ]
    assert [line.strip() for line in lines if "in use:" in line] == ["TV channels in use: 24", "TV channels in use: 26"]
    assert "radio belt, 200 kHz: exactly 9 fit; beside what is there exactly 9 fit; 14 by spacing alone" in lines[2]
    assert sum("none fits; beside what is there none fits; 0 by spacing alone" in line for line in lines) == 2


def test_the_counts_are_under_the_rules_that_the_show_is_checked_by(tmp_path):
    """Fifth order too: people choose windows by this number."""
    window = ((470_000_000, 482_000_000),)
    strict = BELT.replace("apart: 400 kHz", "apart: 400 kHz, guard fifth-order: 400 kHz")
    loose, tight = (
        survey_show(show_of(text + "channels: {1: {by: Ann}}\n", tmp_path), window, effort=20)[0].fits[0].clean
        for text in (BELT, strict)
    )
    assert tight.least < loose.least


def test_a_band_wants_its_divisions_and_divisions_want_a_band(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(AIR, encoding="utf-8")
    assert run(path, "--every", "24").code == 2 and "--band 470-694" in run(path, "--every", "24").aside
    assert len(json.loads(run(path, "--band", "470-494", "--format", "json").text)) == 1
    assert "searches-many" in run(path, "--band", "470-694", "--every", "1 kHz").aside
    assert run(path, "--band", "470-480", "-o", tmp_path / "windows.txt").code == 2


def test_the_paper_has_a_row_for_each_window_from_the_lowest_up_and_is_written_once(tmp_path):
    path, paper = tmp_path / "show.yaml", tmp_path / "windows.pdf"
    path.write_text(AIR, encoding="utf-8")
    assert run(path, "--band", "486-518", "--every", "8", "-o", paper).code == 0 and paper.read_bytes()[:5] == b"%PDF-"
    assert run(path, "--band", "486-518", "-o", paper).code == 2
    show = read_show(path, "show.yaml").show
    sheet = make_sheet(show, survey_show(show, divide_band((486_000_000, 518_000_000), 8_000_000)))
    assert [row[0] for row in rows_of(sheet)] == [["486–494"], ["494–502"], ["502–510"], ["510–518"]]
    assert [row[2] + row[4] for row in rows_of(sheet)] == [
        ["8", "exactly 9"],
        ["0", "none"],
        ["6", "exactly 7"],
        ["0", "none"],
    ]
    said = read_back((sheet,))
    assert "TV 24" in said and "keep clear" in said and "486–494" in said and "Not swept" in said


@cache
def survey_of_example():
    return survey_show(example(), divide_band((470_000_000, 694_000_000), 24_000_000), effort=1)


@pytest.mark.parametrize("language", ("en", "de", "fr", "es"))
def test_the_paper_has_room_for_all_that_it_says_in_every_language(language):
    show, found = speaking(example(), language), survey_of_example()
    for size in ("A4", "Letter"):
        sized = replace(show, production=replace(show.production, paper=size))
        layout = lay_out(make_sheet(sized, found), load_metrics())
        assert layout.findings == () and len(layout.pages) <= 2
