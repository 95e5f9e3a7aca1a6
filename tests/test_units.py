"""Text to hertz and seconds: read right, or a doubt; never wrong."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from paperwork.text.units import (
    HIGHEST_HZ,
    LOWEST_HZ,
    Doubt,
    Range,
    format_clock,
    format_khz,
    format_mhz,
    format_range,
    parse_clock,
    parse_date,
    parse_frequency,
    parse_hours,
    parse_range,
    parse_width,
)

SAME_FREQUENCY = (
    "518.2",
    "518.20",
    "518.200",
    "518.2000",
    "518,2",
    "518,200",
    "518.200 MHz",
    "518.200MHz",
    "518.200 Mhz.",
    "518.200 mhz ",
    "518200 kHz",
    "518.200 kHz",
    "518,200 kHz",
    "518200000 Hz",
    "518.200.000 Hz",
    "0.5182 GHz",
    "\uff15\uff11\uff18\uff0e\uff12\uff10\uff10",
)


@pytest.mark.parametrize("text", SAME_FREQUENCY)
def test_every_plain_spelling_of_a_frequency_is_the_same_number(text):
    assert parse_frequency(text) == 518_200_000


@pytest.mark.parametrize(
    "text",
    (
        "518200",
        "0.5182",
        "518 200",
        "518.2 / 520.4",
        "1.518,200",
        "1,518.200",
        "1e3",
        "5.182E+02",
        "-518.2",
        "0",
        "5182",
        "Null",
        "G2 Ch 04",
        "38-4",
        "518.2.5",
        "518.2 m",
        "~518.2",
        "518.2000001",
        "1.880",
        "",
        "MHz",
        "٥١٨٫٢",
        "518..2",
        "518.2,",
    ),
)
def test_a_doubtful_frequency_is_asked_about_and_never_guessed(text):
    with pytest.raises(Doubt):
        parse_frequency(text)


def test_a_bare_number_of_kilohertz_is_told_how_to_be_written():
    with pytest.raises(Doubt, match=r"518200 kHz would be 518\.200 MHz"):
        parse_frequency("518200")


@given(st.integers(LOWEST_HZ, HIGHEST_HZ))
def test_a_printed_frequency_reads_back_as_itself_in_any_unit_and_with_a_comma(hz):
    printed = format_mhz(hz)
    assert parse_frequency(printed) == hz
    assert parse_frequency(printed.replace(".", ",")) == hz
    assert parse_frequency(f"{printed} MHz") == hz
    assert parse_frequency(f"{hz} Hz") == hz
    assert parse_frequency(f"{Decimal(hz) / 1000:f} kHz") == hz


@pytest.mark.parametrize(
    ("hz", "printed"),
    (
        (518_200_000, "518.200"),
        (518_206_250, "518.20625"),
        (518_212_500, "518.2125"),
        (473_142_857, "473.142857"),
        (500_000_000, "500.000"),
        (518_000_001, "518.000001"),
    ),
)
def test_a_frequency_has_at_least_three_decimals_and_as_many_as_it_needs(hz, printed):
    assert format_mhz(hz) == printed


@pytest.mark.parametrize(
    ("text", "hz"),
    (("25 kHz", 25_000), ("6.25 kHz", 6_250), ("12,5kHz", 12_500), ("8 MHz", 8_000_000), ("0.2 MHz", 200_000)),
)
def test_a_width_is_read_with_its_unit(text, hz):
    assert parse_width(text) == hz


@pytest.mark.parametrize("text", ("25", "wide", "0.0001 kHz", "1.000.000 Hz", "kHz", "-25 kHz"))
def test_a_width_without_a_unit_or_sense_is_a_doubt(text):
    with pytest.raises(Doubt):
        parse_width(text)


@pytest.mark.parametrize(
    "text", ("486-508", "486 - 508", "486 to 508", "486\u2013508 MHz", "486000-508000 kHz", "486.0 MHz - 508.000 MHz")
)
def test_a_range_is_read_however_its_dash_is_written(text):
    assert parse_range(text) == Range(486_000_000, 508_000_000)
    assert format_range(parse_range(text)) == "486 to 508"


@pytest.mark.parametrize("text", ("508-486", "486", "486-", "486-508-510", "low-high", "486-486"))
def test_a_range_that_runs_backwards_or_lacks_an_end_is_a_doubt(text):
    with pytest.raises(Doubt):
        parse_range(text)


@pytest.mark.parametrize(
    ("text", "seconds"),
    (
        ("0:00", 0),
        ("1:05", 3900),
        ("01:05", 3900),
        ("0:01:30", 90),
        ("19:30", 70_200),
        ("90 s", 90),
        ("15 min", 900),
        ("2.5 h", 9000),
    ),
)
def test_times_are_hours_and_minutes_and_never_base_sixty_numbers(text, seconds):
    assert parse_clock(text) == seconds


@pytest.mark.parametrize("text", ("65", "1:5", "1:60", "noon", "1:05:99", "0.0001 s", "90"))
def test_a_time_that_is_none_is_a_doubt(text):
    with pytest.raises(Doubt):
        parse_clock(text)


@given(st.integers(0, 99 * 3600))
def test_a_printed_time_reads_back_as_itself(seconds):
    assert parse_clock(format_clock(seconds)) == seconds


@pytest.mark.parametrize(("text", "seconds"), (("8", 28_800), ("6.5", 23_400), ("6,5 h", 23_400), ("6:30", 23_400)))
def test_hours_are_read_as_people_write_them(text, seconds):
    assert parse_hours(text) == seconds


def test_only_an_unambiguous_date_is_a_date():
    assert parse_date("2027-03-02") == "2027-03-02"
    for text in ("3/4/25", "2.3.2027", "2027-02-30", "2027-3-2", "tomorrow"):
        with pytest.raises(Doubt):
            parse_date(text)


def test_kilohertz_are_printed_exactly():
    assert [format_khz(hz) for hz in (12_500, 6_250, 400_000, -75_000)] == ["12.5", "6.25", "400", "-75"]


@pytest.mark.parametrize(
    ("parse", "most", "more"),
    (
        (parse_width, "400 MHz", "400.001 MHz"),
        (parse_width, "400000 kHz", "9999999 MHz"),
        (parse_clock, "744 h", "745 h"),
        (parse_clock, "2678400 s", "2678401 s"),
    ),
)
def test_what_is_wider_or_longer_than_anything_is_doubted(parse, most, more):
    assert parse(most)
    with pytest.raises(Doubt):
        parse(more)
