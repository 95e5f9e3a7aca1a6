"""Wardrobe's papers: everybody is on them, in the order of the house, and no frequency is."""

import re

import pytest

from paperwork.plan.events import list_events
from paperwork.plan.handovers import Handover
from paperwork.plan.walls import put_on_walls
from paperwork.sheetfacts import texts_of
from tests.sheets.reading import example, make, printed, rows_of, titles_of
from tests.shows_text import show_of

NAMES = ("dressing-list", "quick-changes", "placement-notes")


@pytest.mark.parametrize("name", NAMES)
def test_no_frequency_is_on_a_paper_of_wardrobe(name):
    assert not re.search(r"\d{3}\.\d{3}|MHz", printed(name))


@pytest.mark.parametrize("name", NAMES)
def test_a_show_of_eight_lines_has_none_of_them(tmp_path, name):
    assert make(name, show_of("show: {title: Gala}\nchannels: {1: {by: Imke Vos, mhz: 486.2}}\n", tmp_path)) == ()


def test_the_dressing_list_has_everybody_with_pouch_and_belt():
    rows = {row[0][0]: row for row in rows_of(make("dressing-list")[0])}
    worn = {name for one in example().channels.values() if one.radio != "hand" for name in example().performers_of(one)}
    assert set(rows) == worn
    for name in worn:
        person = example().people[name]
        assert rows[name][2:4] == [[person.pouch], [person.belt]]
    assert rows["Kwame Boateng"] == [["Kwame Boateng", "INNKEEPER"], ["10"], ["10"], ["L"], ["8"], [], []]


def test_the_dressing_list_says_to_whom_a_pack_goes_and_back():
    rows = {row[0][0]: row for row in rows_of(make("dressing-list")[0])}
    assert rows["Ștefan Ionescu"][5] == [
        "11 to Maja Đukić before 2.3", "11 from Maja Đukić before 2.6", "11 to Maja Đukić before 2.7",
    ]
    assert titles_of(make("dressing-list")[0]) == [f"Room {number}" for number in range(1, 8)]


def test_the_quick_changes_lead_and_keep_the_numbers_of_the_swap_sheets():
    (sheet,) = make("quick-changes")
    assert titles_of(sheet) == ["Under five minutes", "Five minutes or more"]
    rows = rows_of(sheet)
    assert [row[0] for row in rows] == [["7"], ["1"], ["2"]]
    assert rows[0][1:7] == [
        ["2.7", "2:12:10"], ["Ștefan Ionescu", "Maja Đukić"], ["11"],
        ["1  pack 11 off Ștefan Ionescu", "2  wipe it, into pouch 11B", "3  pack 11 on Maja Đukić"], ["off SL", "on SL"], ["4:30", "min : s"],
    ]
    assert "more time are on the swap sheets: 3, 4, 5, 6." in printed("quick-changes")
    swaps = {event.number: event for event in list_events(example()) if isinstance(event.change, Handover)}
    assert set(swaps) == {3, 4, 5, 6, 7} and [number for number, event in swaps.items() if event.is_quick] == [7]


def test_a_change_of_costume_with_time_has_its_steps_in_the_order_of_the_garments():
    row = rows_of(make("quick-changes")[0])[1]
    assert row[:5] == [
        ["1"], ["1.7", "0:49"], ["Noor Haddad"], ["01  22"],
        ["1  off: school dress", "2  pack: small of back → inner pocket", "3  second pack stays: thigh", "4  on: oilskin and sou'wester",
         "5  capsule: hairline → hat brim"],
    ]
    assert row[6] == ["28 min", "or more"]


TWICE = """
day: {bows: "1:00"}
people: {Ana Cole: {pouch: 05B}, Max Ried: {}}
channels: {05: {shared: {SAILOR: Max Ried, WIDOW: Ana Cole}}, 06: {role: COOK, by: Ana Cole}}
scenes:
  a: {at: "0:00", live: SAILOR COOK}
  b: {at: "0:20", live: COOK}
  c: {at: "0:30", live: WIDOW}
  d: {at: "0:50", live: SAILOR}
moves:
  m: {role: COOK, scene: b, exit: SL, to: "0:29"}
  n: {role: WIDOW, scene: c, enter: SL, from: "0:30:30", exit: SL, to: "0:40"}
looks:
  x: {by: Ana Cole, wears: apron, sits: back}
  y: {by: Ana Cole, scene: c, wears: veil, sits: thigh}
"""


def test_what_is_done_in_one_go_with_a_quick_change_is_quick_and_says_so(tmp_path):
    """The pack has been off its first body for ten minutes, but the second body has ninety seconds for pack and veil."""
    (sheet,) = make("quick-changes", show_of(TWICE, tmp_path))
    one, two = rows_of(sheet)
    assert titles_of(sheet) == ["Under five minutes"]
    assert (one[0], one[1], two[0], two[1]) == (["1"], ["c", "0:30:30", "with 2"], ["2"], ["c", "0:30:30", "with 1"])
    assert one[4] == [
        "1  pack 05 off Max Ried", "2  pack 06 off Ana Cole", "3  wipe it, into pouch 05B", "4  pack 05 on Ana Cole", "5  it sits: thigh",
    ]
    assert two[6] == ["1:30", "min : s"]
    assert any("swap sheets: 3." in text for text in texts_of(sheet))


LOOKS = """
day: {bows: "1:00"}
roles: {VERA: {by: Mara Lind}, MAID: {by: Mara Lind}}
channels: {01: {role: "VERA, MAID"}, 02: {role: TOM, by: Ben Arlo}}
scenes:
  z: {at: "0:00", live: VERA}
  a: {at: "0:05", live: VERA TOM}
  b: {at: "0:10", live: TOM}
  c: {at: "0:12", live: MAID}
moves:
  m: {role: VERA, scene: a, exit: SL, to: "0:09:30"}
  n: {role: MAID, scene: c, enter: SR, from: "0:12:15"}
looks:
  x: {by: Mara Lind, wears: gown, sits: back}
  y: {by: Mara Lind, scene: b, wears: apron, sits: back}
"""


def test_the_time_for_a_change_runs_from_the_last_exit_to_the_next_entrance(tmp_path):
    """Off at 9:30, back on at 12:15 as another role: 2 min 45 s, though the look is told for a scene between."""
    (row,) = rows_of(make("quick-changes", show_of(LOOKS, tmp_path))[0])
    assert row[1] == ["c", "0:12:15"] and row[5] == ["off SL", "on SR"] and row[6] == ["2:45", "min : s"]
    assert row[4] == ["1  off: gown", "2  pack stays: back", "3  on: apron"]


def test_placement_notes_have_a_row_for_each_look_and_lines_for_whoever_has_none():
    rows = rows_of(make("placement-notes")[0])
    looks = [row for row in rows if row[1][0] == "Noor Haddad"]
    assert [(row[2], row[3], row[4]) for row in looks] == [
        (["school dress"], ["small of back"], ["hairline"]),
        (["oilskin and sou'wester", "from 1.7"], ["inner pocket"], ["hat brim"]),
        (["mourning dress", "from 2.1"], ["small of back"], ["hairline"]),
    ]
    worn = {name for one in example().channels.values() if one.radio != "hand" for name in example().performers_of(one)}
    assert {row[1][0] for row in rows} == worn
    assert "talks to the cast before curtain up" in printed("placement-notes")


CHILD = """
people: {Pia Lund: {room: 9, child: yes}, Ben Arlo: {room: 9}}
channels: {01: {shared: {GULL: Pia Lund, TOM: Ben Arlo}}}
scenes: {a: {live: GULL}, b: {live: TOM}, c: {live: GULL}}
"""


@pytest.mark.parametrize("name", ("dressing-list", "quick-changes"))
def test_the_name_of_a_child_stays_off_the_wall(tmp_path, name):
    (sheet,) = make(name, put_on_walls(show_of(CHILD, tmp_path)))
    told = " ".join(text for row in rows_of(sheet) for cell in row for text in cell)
    assert "P. L." in told and "Ben Arlo" in told and "Pia" not in told
