"""Wardrobe's papers: everybody is on them, in the order of the house, and no frequency is."""

import re
from dataclasses import replace

import pytest

from paperwork.document import Tick
from paperwork.model import Person
from paperwork.plan.bodies.events import list_events
from paperwork.plan.handovers import Handover
from paperwork.plan.walls import put_on_walls
from paperwork.render.layout import lay_out
from tests.metrics import load_metrics
from tests.render.proofs import texts
from tests.sheet_texts import texts_of
from tests.sheets.reading import example, make, printed, rows_of, titles_of
from tests.shows_text import reading_of, show_of

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
        assert rows[name][2][0] == person.pouch and rows[name][3] == [person.belt]
    assert rows["Kwame Boateng"] == [["Kwame Boateng", "INNKEEPER"], ["10"], ["10"], ["L"], ["8"], [], []]


def test_second_packs_and_in_ears_hang_ready_with_the_first():
    rows = {row[0][0]: row for row in rows_of(make("dressing-list")[0])}
    assert rows["Noor Haddad"][1:5] == [["01", "22", "EARS 2"], ["01", "01B, second", "in-ears"], ["S"], ["5", "5"]]
    assert rows["Aoife Ní Bhriain"][0] == ["Aoife Ní Bhriain", "WIDOW", "covers ELSPETH"]
    assert rows["Bertil Åkesson"][5] == ["handheld H1 for 1.5"]
    (table,) = make("dressing-list")[0].blocks
    ticks = sum(
        isinstance(item, Tick)
        for group in table.groups
        for row in group.rows
        for parts in row.cells
        for part in parts
        for item in part.items
    )
    noted = [int(group.note.split()[-1]) for group in table.groups]
    assert ticks == sum(noted) == 25 + 3 + 4


EARS = """
others: {EARS: {kind: in-ear, mhz: 640, listeners: "Ida Voss, pit"}}
people: {Ida Voss: {room: 2}, Mara Lind: {room: 1}}
channels: {01: {role: VERA, by: Mara Lind}}
"""


def test_somebody_with_in_ears_alone_is_on_the_list_and_a_place_that_is_nobody_is_not(tmp_path):
    rows = rows_of(make("dressing-list", show_of(EARS, tmp_path))[0])
    assert [(row[0][0], row[1]) for row in rows] == [("Mara Lind", ["01"]), ("Ida Voss", ["EARS"])]
    (sheet,) = make("pouch-cards", show_of(EARS, tmp_path))
    assert [card.key.text for block in sheet.blocks for card in block.cards] == ["01", "EARS"]
    (sheet,) = make("mic-table-squares", show_of(EARS, tmp_path))
    assert [(card.key.text, card.items[0].text) for block in sheet.blocks for card in block.cards] == [
        ("01", "VERA"),
        ("EARS", "Ida Voss"),
        ("EARS", "pit"),
    ]


def test_the_dressing_list_says_to_whom_a_pack_goes_and_back():
    rows = {row[0][0]: row for row in rows_of(make("dressing-list")[0])}
    assert rows["Ștefan Ionescu"][5] == [
        "11 to Maja Đukić before 2.3",
        "11 from Maja Đukić before 2.6",
        "11 to Maja Đukić before 2.7",
    ]
    assert titles_of(make("dressing-list")[0]) == [f"Room {number}" for number in range(1, 8)]


def test_the_quick_changes_lead_and_keep_the_numbers_of_the_swap_sheets():
    (sheet,) = make("quick-changes")
    assert titles_of(sheet) == ["Under five minutes", "Five minutes or more"]
    rows = rows_of(sheet)
    assert [row[0] for row in rows] == [["7"], ["1"], ["2"]]
    assert rows[0][1:7] == [
        ["2.7", "2:12:10"],
        ["Ștefan Ionescu", "Maja Đukić"],
        ["11"],
        ["1  pack 11 off Ștefan Ionescu", "2  wipe it, into pouch 11B", "3  pack 11 on Maja Đukić"],
        ["off SL", "on SL"],
        ["4:30", "min:s"],
    ]
    assert "more time are on the swap sheets: 3, 4, 5, 6." in printed("quick-changes")
    swaps = {event.number: event for event in list_events(example()) if isinstance(event.change, Handover)}
    assert set(swaps) == {3, 4, 5, 6, 7} and [number for number, event in swaps.items() if event.is_quick] == [7]


def test_a_change_of_costume_with_time_has_its_steps_in_the_order_of_the_garments():
    row = rows_of(make("quick-changes")[0])[1]
    assert row[:5] == [
        ["1"],
        ["1.7", "0:49"],
        ["Noor Haddad"],
        ["01  22"],
        [
            "1  off: school dress",
            "2  pack: small of back → inner pocket",
            "3  second pack stays: thigh",
            "4  on: oilskin and sou'wester",
            "5  capsule: hairline → hat brim",
        ],
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
        "1  pack 05 off Max Ried",
        "2  pack 06 off Ana Cole",
        "3  wipe it, into pouch 05B",
        "4  pack 05 on Ana Cole",
        "5  it sits: thigh",
    ]
    assert two[6] == ["1:30", "min:s"]
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
    assert row[1] == ["c", "0:12:15"] and row[5] == ["off SL", "on SR"] and row[6] == ["2:45", "min:s"]
    assert row[4] == ["1  off: gown", "2  pack stays: back", "3  on: apron"]


def test_placement_notes_have_a_row_for_each_look_and_lines_for_whoever_has_none():
    rows = rows_of(make("placement-notes")[0])
    looks = [row for row in rows if row[2][0] == "Noor Haddad"]
    assert [row[:6] for row in looks] == [
        [
            ["01", "22"],
            ["second"],
            ["Noor Haddad", "ELSPETH"],
            ["school dress"],
            ["small of back", "thigh"],
            ["hairline"],
        ],
        [
            ["01", "22"],
            ["second"],
            ["Noor Haddad", "ELSPETH"],
            ["oilskin and sou'wester", "from 1.7"],
            ["inner pocket", "thigh"],
            ["hat brim"],
        ],
        [
            ["01", "22"],
            ["second"],
            ["Noor Haddad", "ELSPETH"],
            ["mourning dress", "from 2.1"],
            ["small of back", "thigh"],
            ["hairline"],
        ],
    ]
    worn = {name for one in example().channels.values() if one.radio != "hand" for name in example().performers_of(one)}
    assert {row[2][0] for row in rows} == worn | {cover.by for cover in example().covers}
    assert titles_of(make("placement-notes")[0]) == ["", "Covers, if they go on"]
    assert (rows[-5][0], rows[-5][2], rows[-5][6]) == (["01"], ["Aoife Ní Bhriain", "ELSPETH"], ["tone 2, omni"])
    assert "talks to the cast before curtain up" in printed("placement-notes")


NOTES = """
people: {Mara Lind: {room: 1}}
capsules: {beige: {type: lavalier}}
channels:
  01: {role: VERA, by: Mara Lind, capsule: beige, notes: ask about tape B, notes for: wardrobe}
  02: {role: MAID, by: Mara Lind, capsule: beige, notes: EQ is a compromise, notes for: deck}
  03: {role: COOK, by: Mara Lind, capsule: beige, notes: comes off for the fight}
"""


@pytest.mark.parametrize("name", ("dressing-list", "placement-notes"))
def test_notes_are_printed_for_those_whom_they_are_for(tmp_path, name):
    told = list(texts_of(make(name, show_of(NOTES, tmp_path))[0]))
    assert "ask about tape B" in told and "comes off for the fight" in told and "EQ is a compromise" not in told


def test_a_look_told_for_a_scene_without_its_performer_counts_from_the_next_one_on_every_paper(tmp_path):
    """The apron is told for b, in which nobody of hers is live: card, notes and change sheet all say c."""
    show = show_of(LOOKS, tmp_path)
    assert rows_of(make("quick-changes", show)[0])[0][1][0] == "c"
    assert rows_of(make("placement-notes", replace(show, people={"Mara Lind": Person("Mara Lind")}))[0])[1][3] == [
        "apron",
        "from c",
    ]


SWING = """
people: {Ines Rau: {pouch: 30, belt: L}, Mara Lind: {}, Ben Arlo: {}}
roles: {VERA: {}, TOM: {}}
channels: {01: {role: VERA, by: Mara Lind}, 02: {role: TOM, by: Ben Arlo}, 03: {role: VERA, doubles: 01}}
covers: {a: {role: VERA, by: Ines Rau}, b: {role: TOM, by: Mara Lind}}
"""


def test_a_cover_who_wears_nothing_else_has_a_card_and_a_second_pack_a_line_for_its_pouch(tmp_path):
    (sheet,) = make("pouch-cards", show_of(SWING, tmp_path))
    cards = [
        ([card.key.text, *(item.text for item in card.items)], [item.text for item in card.foot])
        for card in sheet.blocks[0].cards
    ]
    assert cards == [
        (["01", "Mara Lind", "VERA"], []),
        (["02", "Ben Arlo", "TOM"], []),
        (["03", "Mara Lind", "VERA", "second pack of 01"], ["pouch"]),
        (["01", "Ines Rau", "cover for VERA"], ["pouch 30, belt L"]),
    ]


def test_a_square_says_what_lies_there_where_its_number_does_not():
    lines = {card.key.text: [item.text for item in card.items] for card in make("mic-table-squares")[0].blocks[0].cards}
    assert lines["12"] == ["SPARE", "pack S1"] and lines["32"] == ["SPARE", "handheld H4"]
    assert lines["29"] == ["CRIER", "Bertil Åkesson  ·  handheld H1"] and lines["01"] == ["ELSPETH", "Noor Haddad"]
    assert lines["22"] == ["ELSPETH", "Noor Haddad  ·  2nd of 01"]


def test_a_number_with_letters_in_it_is_whole_on_its_square(tmp_path):
    """HH1 is wider than 101: it is lower, and neither left blank nor the reason why the others are."""
    text = "channels: {01: {by: Ana Cole}, HH1: {by: Max Ried}, 101: {by: Ida Moor}}\n"
    (sheet,) = make("mic-table-squares", show_of(text, tmp_path))
    layout = lay_out(sheet, load_metrics())
    caps = {text.text: text.cap_um for page in layout.pages for text in texts(page)}
    assert not layout.findings and caps["HH1"] < caps["101"] == caps["01"]


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


def test_the_cover_chart_says_who_goes_on_with_what_and_which_own_role_that_leaves(tmp_path):
    text = """
    channels:
      1: {role: VERA, by: Ana Cole, pack: P1, capsule: tone 2}
      2: {role: TOM, by: Max Ried, pack: P2, capsule: tone 5}
      3: {role: VERA, by: Ana Cole, pack: P3, capsule: tone 2, doubles: 1}
    roles: {CREW: {group: [TOM]}, VERA: {alternates: Ira Holm}}
    people:
      Ana Cole: {}
      Ira Holm: {pouch: 9, second pouch: 9B, colour: 4}
      Max Ried: {pouch: 7}
      Una Bell: {pouch: 8}
    scenes: {s1: {name: 1.1 Quay, live: "VERA, TOM"}}
    covers:
      c1: {role: VERA, by: Max Ried, scenes: [s1], follows: person}
      c2: {role: CREW, by: Una Bell, capsule: tone 8}
    """
    (sheet,) = make("cover-chart", reading_of(text, tmp_path).show)
    tom, vera = rows_of(sheet)
    assert tom == [["TOM", "usually Max Ried"], ["1  Una Bell"], ["all"], ["2"], ["P2"], ["8"], ["tone 8"]]
    assert vera == [
        ["VERA", "usually Ana Cole"],
        ["1  Ira Holm", "2  Max Ried", "leaves TOM"],
        ["all", "1.1"],
        ["1 + 3", "2"],
        ["P1 + P3", "P2"],
        ["9 + 9B", "7"],
        ["tone 2", "suits: 4", "tone 5"],
    ]


def test_the_cover_chart_names_the_roles_that_nobody_covers():
    uncovered = {role for one in example().channels.values() for role in one.roles} - {
        one.role for one in example().covers
    }
    note = make("cover-chart")[0].blocks[-1]
    assert set(note.facts) == uncovered and note.text.startswith("No cover: ")


def test_no_frequency_and_no_child_is_on_the_cover_chart():
    show = put_on_walls(example())
    told = printed("cover-chart", show)
    assert not re.search(r"\d{3}\.\d{3}|MHz", told)
    assert "GULL" in told and "Sami Orr" not in told and "Pia Lund" not in told
