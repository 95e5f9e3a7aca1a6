"""What a week with a tour, an outside broadcast and a conference missed on its papers."""

import pytest

from paperwork.build import build_show
from paperwork.sheets.rack import battery_plan, frequency_list, line_check, spectrum
from paperwork.sheets.rounds import check_sheet, week_grids
from paperwork.sheets.running import timetable
from paperwork.sheets.wardrobe import cover_chart
from tests.sheet_texts import texts_of
from tests.shows_text import raw_of


def said(paper, text: str) -> list[str]:
    """Every text of a paper's sheets."""
    return [one for sheet in paper.make_sheets(build_show(raw_of(text)).show) for one in texts_of(sheet)]


BROADCAST = """
day: {times: clock, power-up: "06:30", bows: "15:30"}
radios: {belt: {tunes: 470-526, bandwidth: 200 kHz, hours: 6}, talk: {tunes: 654-678, bandwidth: 25 kHz}}
groups: {build-up: {kind: bill, from: "08:30", until: "09:30"}, race: {kind: bill, from: "09:30", until: "13:00"}}
channels:
  1: {role: HOST, radio: belt, mhz: 478.100}
  2: {role: CHOIR, radio: belt, mhz: 485.300, bill: "build-up, race"}
  SP1: {spare: belt, mhz: 488.400}
others: {TALK: {kind: intercom, radio: talk, mhz: 662.0125}, DESK: {kind: intercom, mhz: 663.000, bandwidth: 12.5 kHz}}
racks: {R1: {channels: 1 2 SP1, analogue 1: OB 1-3}}
scenes:
  one: {kind: segment, at: "08:30", until: "12:30", live: HOST CHOIR}
  two: {kind: segment, at: "12:30", until: "15:00", live: HOST}
"""


def test_the_bandwidth_of_an_intercom_is_that_of_its_radio_type_where_it_states_none():
    listed = said(frequency_list, BROADCAST)
    assert "25 kHz" in listed and "12.5 kHz" in listed and listed.count("200 kHz") == 3


def test_parts_of_the_bill_that_follow_each_other_are_one_time():
    assert "build-up and race 08:30–13:00" in said(frequency_list, BROADCAST)


def test_a_scene_without_an_end_does_not_outlast_the_part_of_the_bill_in_which_it_begins():
    """The frequency list had the time of the part, and the timetable the begin of the next scene."""
    text = BROADCAST.replace('bill: "build-up, race"', "bill: build-up").replace(', until: "12:30"', "")
    assert "build-up 08:30–09:30" in said(frequency_list, text) and "08:30–09:30" in said(timetable, text)


def test_a_margin_is_whole_kilohertz_rounded_down():
    """A number of nine signs had no room in its column, and lost its middle."""
    figures = [text for text in said(spectrum, BROADCAST) if text.isdigit() and len(text) > 3]
    assert figures and not [
        text for text in said(spectrum, BROADCAST) if text.endswith(("625", "375")) and len(text) > 8
    ]


def test_a_spare_whose_number_is_a_name_has_that_name_on_the_desk():
    assert "SP1" in said(line_check, BROADCAST) and "SP SP1" not in said(line_check, BROADCAST)
    assert "SP 3" in said(line_check, BROADCAST.replace("SP1", "3"))


@pytest.mark.parametrize(("kind", "words"), (("segment", "between parts"), ("set", "between acts")))
def test_batteries_are_changed_between_what_the_show_has(kind, words):
    text = BROADCAST.replace("kind: segment", f"kind: {kind}").replace("live: HOST}", "live: HOST CHOIR}")
    assert any(words in one for one in said(battery_plan, text.replace("hours: 6", "hours: 5")))


RUN = """
day: {power-up: "13:00, 18:00", checks: "13:20, 18:20", half: "13:55, 18:55", curtain: "14:30, 19:30", bows: "2:20"}
roles: {VERA: {by: Ann}, HOST: {by: Ben}}
radios: {belt: {}, hand: {kind: handheld}}
channels:
  1: {role: VERA, radio: belt, capsule: tan 1}
  2: {role: VERA, doubles: 1, radio: belt, capsule: tan 2}
  3: {role: HOST, radio: hand}
covers: {c1: {role: VERA, by: Sue}, c2: {role: VERA, by: Ida, capsule: cocoa 4}}
scenes: {s1: {at: "0:00", live: VERA}, s2: {at: "0:40", live: HOST}}
performances: {Wed: {date: 2027-02-10}, Thu: {date: 2027-02-11, curtain: "19:30", checks: "18:20", half: "18:55"}}
"""


def test_a_check_sheet_says_when_a_handheld_is_first_on():
    assert "15:10" in said(check_sheet, RUN) and "20:10" in said(check_sheet, RUN)


def test_the_week_has_a_square_for_each_check_of_a_day_of_two_shows():
    _, checks, *_ = week_grids.make_sheets(build_show(raw_of(RUN)).show)
    rows = [row for group in checks.blocks[0].groups for row in group.rows[1:]]
    assert {tuple(map(len, row.cells[2:])) for row in rows} == {(2, 1)}


def test_a_cover_of_two_packs_finds_both_capsules():
    listed = said(cover_chart, RUN)
    assert "tan 1 + tan 2" in listed and "cocoa 4 + tan 2" in listed
