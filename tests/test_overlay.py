"""Overlays: a venue changes what it may, a slip in a row is found in the row, everything else stays."""

import pytest

from paperwork.overlay import TONIGHT, VENUE, apply_rows, apply_venue, check_rows, read_rows
from paperwork.reading import read_show
from tests.shows_text import raw_of

TEXT = """
show: {title: Glass, venue: Harbour Hall}
racks:
  R1: {channels: "01", window: 480-504}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
venues:
  v1: {venue: Town Hall, section: show, field: venue, value: "Town Hall, Saltmarsh"}
  v2: {venue: Town Hall, section: channels, record: 01, field: mhz, value: 520.200}
  v3: {venue: Town Hall, section: racks, record: r1, field: window, value: 514-538}
  v4: {venue: Town Hall, section: day, field: crossing, value: 40 s}
  v5: {venue: Barn, section: channels, record: 01, field: mhz, value: %s}
"""


def read(tmp_path, venue: str, barn: str = "562.200"):
    path = tmp_path / "show.yaml"
    path.write_text(TEXT % barn, encoding="utf-8")
    return read_show(path, "show.yaml", venue=venue)


def test_without_a_venue_the_rows_change_nothing(tmp_path):
    show = read(tmp_path, "").show
    assert (show.channels["01"].hz, show.production.venue) == (486_200_000, "Harbour Hall")


def test_a_venue_changes_frequency_rack_house_and_day_and_keeps_the_rest(tmp_path):
    reading = read(tmp_path, "town hall")
    assert reading.findings == ()
    show = reading.show
    assert (show.channels["01"].hz, show.racks["R1"].window.low_hz) == (520_200_000, 514_000_000)
    assert (show.production.venue, show.day.crossing_s) == ("Town Hall, Saltmarsh", 40)
    assert (show.production.title, show.roles["VERA"].by) == ("Glass", "Mara Lind")


def test_a_slip_in_a_value_is_found_in_its_row(tmp_path):
    (finding,) = read(tmp_path, "Barn", "loud").findings
    assert (finding.place.line, finding.code) == (12, "frequency-unreadable")


def test_a_venue_that_is_not_there_prints_nothing(tmp_path):
    reading = read(tmp_path, "Town Hal")
    assert reading.show is None
    assert [(f.code, f.fix) for f in reading.findings] == [
        ("venue-unknown", "the venues are Town Hall and Barn; did you mean Town Hall?")
    ]


def test_one_wrong_row_is_not_half_applied():
    raw = raw_of(
        TEXT % "562.200" + "  v6: {venue: Town Hall, section: roles, record: VERA, field: by, value: Ana Cole}\n"
    )
    overlaid, findings = apply_venue(raw, "Town Hall")
    assert overlaid == raw and [finding.code for finding in findings] == ["overlay-field-barred"]


def test_tonight_may_change_a_frequency_and_not_a_rack():
    raw = raw_of(TEXT % "562.200")
    rows = read_rows(raw)
    assert {finding.code for finding in check_rows(raw, rows[2:3], TONIGHT)} == {"overlay-field-barred"}
    assert not list(check_rows(raw, rows[1:2], TONIGHT)) and apply_rows(raw, rows[1:2]) != raw


def test_a_night_changes_who_is_on_what_they_wear_and_a_frequency_and_nothing_else():
    assert {section: set(names) for section, names in TONIGHT.items()} == {
        "roles": {"by"},
        "channels": {"by", "shared", "pack", "tape", "capsule", "spare", "backs", "mhz", "backup"},
    }


def test_a_venue_never_changes_who_plays_what():
    assert not {"roles", "covers", "looks", "capsules", "transmitters", "radios"} & set(VENUE)
    assert set(VENUE["scenes"]) == {"at", "until", "live", "cut"}
    assert set(VENUE["moves"]) == {"enter", "exit", "from", "to"}


@pytest.mark.parametrize(
    "rows, told",
    (
        ("", (None, None)),
        (
            "  v6: {venue: Town Hall, section: channels, record: '01', field: granted, value: 520.200}\n",
            (None, 520_200_000),
        ),
    ),
)
def test_another_house_answers_anew_for_another_frequency(tmp_path, rows, told):
    """What the first house asked for and was granted is for the first house's frequency."""
    path = tmp_path / "show.yaml"
    text = TEXT.replace("mhz: 486.200}", "mhz: 486.200, asked: 486.900, granted: 486.200}") % "562.200" + rows
    path.write_text(text, encoding="utf-8")
    reading = read_show(path, "show.yaml", venue="Town Hall")
    channel = reading.show.channels["01"]
    assert reading.findings == () and (channel.asked_hz, channel.granted_hz) == told
    home = read_show(path, "show.yaml").show.channels["01"]
    assert (home.asked_hz, home.granted_hz) == (486_900_000, 486_200_000)


def test_a_row_finds_its_record_as_a_reader_would(tmp_path):
    path = tmp_path / "show.yaml"
    path.write_text(
        TEXT.replace("record: 01, field: mhz, value: 520.200", "record: 1, field: mhz, value: 520.200") % "562.200",
        encoding="utf-8",
    )
    reading = read_show(path, "show.yaml", venue="Town Hall")
    assert reading.findings == () and reading.show.channels["01"].hz == 520_200_000
