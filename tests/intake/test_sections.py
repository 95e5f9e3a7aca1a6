"""Every fact of a list is in the section of the show that holds it, and what no section holds is in notes under its heading."""

import pytest

from paperwork.plan.walls import put_on_walls
from paperwork.sheets import SHEETS
from tests.intake.sheets import plain, read, read_data, section, show, workbook
from tests.sheet_texts import texts_of

HEAD = ["Mic", "Actor", "Freq"]
ANA, MAX, JUN = [1, "Ana Cole", 486.2], [2, "Max Ried", 487.4], [3, "Jun Okabe", 489.1]


def beside(heads, *values):
    return [[*HEAD, *heads], *([*row, *more] for row, more in zip((ANA, MAX, JUN), values, strict=False))]


@pytest.mark.parametrize(
    ("heads", "values", "slots"),
    [
        (["Receiver"], [["R1-1"], ["R1-2"], ["R2-1"]], ["R1.1", "R1.2", "R2.1"]),
        (["Rack", "Slot"], [["A", 1], ["A", 2], ["B", 1]], ["A.1", "A.2", "B.1"]),
        (["Gestell", "Einschub"], [["links", 1], ["links", 2], ["rechts", 1]], ["links.1", "links.2", "rechts.1"]),
        (["Rack", "Unit", "Slot"], [["A", 1, 1], ["A", 1, 2], ["A", 2, 1]], ["A.1", "A.2", "A.3"]),
        (["Rack", "Unit", "Slot"], [["A", 1, "A"], ["A", 1, "B"], ["A", 2, "A"]], ["A.1", "A.2", "A.3"]),
        (["Rack", "RX unit"], [["A", 1], ["A", 2], ["A", 3]], ["A.1", "A.2", "A.3"]),
    ],
)
def test_a_place_in_a_receiver_is_read_from_one_column_or_from_several_and_not_asked(heads, values, slots):
    got = read(beside(heads, *values))
    assert [one["slot"] for one in section(got).values()] == slots and {q.kind for q in got.questions} <= {"language"}


def test_a_rack_has_the_units_that_a_column_counts():
    got = read(beside(["Rack", "Unit", "Slot"], ["A", 1, 1], ["A", 1, 2], ["A", 2, 2]))
    assert section(got, "racks") == {"A": {"slots": "4", "units": "2, 2"}}


def test_two_channels_in_one_place_are_a_doubt_about_how_places_are_read():
    got = read(beside(["Receiver"], ["R1-1"], ["R1-1"]))
    assert [question.kind for question in got.questions] == ["receiver"]


def test_a_letter_that_no_other_receiver_has_is_asked_about():
    more = [[n, f"Person {'ABCDEFG'[n]}", 486 + n, place] for n, place in ((4, "2A"), (5, "2B"), (6, "3A"))]
    got = read(beside(["Receiver"], ["1A"], ["1B"], ["3C"]) + more)
    assert [(q.kind, q.about) for q in got.questions] == [("receiver", "3C")]
    assert section(got)["3"]["notes"] == "receiver 3C" and "slot" not in section(got)["3"]


def test_desk_inputs_are_a_patch_and_letters_that_differ_name_the_desks():
    one = read(beside(["Receiver", "Desk"], ["R1-1", "M1"], ["R1-2", "M2"]))
    assert section(one, "racks")["R1"]["analogue 1"] == "FOH 1, FOH 2"
    two = read(beside(["Receiver", "Input"], ["R1-1", "SL 1"], ["R1-2", "SR 1"]))
    assert section(two, "racks")["R1"]["analogue 1"] == "SL 1, SR 1" and set(section(two, "consoles")) == {"SL", "SR"}


@pytest.mark.parametrize(
    ("heads", "values", "box", "jacks"),
    [
        (
            ["Rack", "Slot", "Desk", "Stage box", "Jack"],
            [["A", 1, 5, "SL", 1], ["A", 2, 6, "SL", 2]],
            "SL",
            "-, -, -, -, 1, 2",
        ),
        (["Rack", "Slot", "Desk", "Stage box"], [["A", 1, 1, "SL-3"], ["A", 2, 2, "SL-4"]], "SL", "3, 4"),
        (["Rack", "Slot", "Desk", "SB in"], [["A", 1, 1, "Box A/3"], ["A", 2, 2, "Box B/3"]], "Box", "A3, B3"),
    ],
)
def test_a_stage_box_and_its_jacks_are_those_of_the_desk(heads, values, box, jacks):
    got = read(beside(heads, *values))
    assert section(got, "consoles")["FOH"] == {"name": "Desk", "box": box, "jacks": jacks}
    assert not any("notes" in one for one in section(got).values())


def test_jacks_without_desk_inputs_are_where_the_cables_go():
    got = read(beside(["Rack", "Slot", "Stage box", "Jack"], ["A", 1, "SL", 7], ["A", 2, "SL", 8]))
    assert section(got, "racks")["A"]["analogue 1"] == "SL 7, SL 8"


def test_what_is_set_on_a_transmitter_is_in_its_section():
    heads = ["Pack", "Gain", "Power (mW)", "Batt", "Serial", "Locked", "Display name", "Battery set"]
    got = read(
        beside(
            heads,
            ["P1", "-6", 10, "2 x AA", "S-1", "yes", "ANA", "A"],
            ["P2", "+6", 30, "2 x AA", "S-2", "no", "MAX", "B"],
        )
    )
    assert section(got, "transmitters")["P1"] == {
        "serial": "S-1", "cells": "2 x AA", "gain": "-6 dB", "power": "10 mW", "lock": "yes", "display": "ANA", "set": "A",
    }  # fmt: skip


def test_a_gain_or_power_of_another_unit_stays_in_the_notes_and_a_bare_number_gets_none():
    got = read(beside(["Pack", "Gain", "Power"], ["P1", "30 mW", 50], ["P2", "4", "12 dB"]))
    assert section(got)["1"]["notes"] == "Gain: 30 mW" and section(got)["2"]["notes"] == "Power: 12 dB"
    assert section(got, "transmitters") == {"P1": {"power": "50"}, "P2": {"gain": "4"}}


def test_bands_and_named_types_are_radio_types():
    got = read(beside(["Band", "System"], ["486-510", "slim pack"], ["486-510", "slim pack"]))
    assert section(got, "radios") == {"486-510 slim pack": {"tunes": "486-510"}}
    assert {one["radio"] for one in section(got).values()} == {"486-510 slim pack"}


def test_a_pack_keeps_the_name_that_is_written_on_it_and_a_word_for_pack_is_none():
    got = read(beside(["Pack"], ["BP01"], ["BP02"]))
    assert [one["pack"] for one in section(got).values()] == ["BP01", "BP02"]
    assert not any("pack" in one for one in section(read(beside(["Pack"], ["Pack 1"], ["Pack 2"]))).values())


def test_what_a_row_says_of_its_wearer_is_theirs_also_where_two_share_a_pack():
    heads = ["Scenes", "Room", "Belt", "Colour", "Pouch", "Team", "Placement", "Pack position"]
    rows = beside(heads, ["1.1", "4", "M", "tan", "p1", "red", "hairline", "small of back"])
    rows.append([1, "Max Ried", None, "1.2", "7", "L", "beige", "p2", "blue", "wig", "thigh"])
    got = read(rows)
    assert section(got, "people") == {
        "Ana Cole": {"room": "4", "belt": "M", "pouch": "p1", "colour": "tan", "team": "red"},
        "Max Ried": {"room": "7", "belt": "L", "pouch": "p2", "colour": "beige", "team": "blue"},
    }
    assert section(got, "looks")["Max Ried"] == {"by": "Max Ried", "sits": "thigh", "capsule": "wig"}


def test_a_pouch_that_is_a_place_on_the_body_says_where_the_pack_sits():
    got = read(beside(["Pouch"], ["small of back"], ["p7"]))
    assert section(got, "looks") == {"Ana Cole": {"by": "Ana Cole", "sits": "small of back"}}
    assert section(got, "people")["Max Ried"] == {"pouch": "p7"}


def test_a_table_of_people_without_rooms_is_read_too():
    lists = {"Mics": beside([], [], []), "Wardrobe": [["Name", "Belt", "Mic colour"], ["Ana Cole", "S", "tan"]]}
    assert section(read_data(workbook(lists)), "people")["Ana Cole"] == {"belt": "S", "colour": "tan"}


@pytest.mark.parametrize(
    ("rows", "children"),
    [
        ([["Mic", "Pupil", "Freq"], ANA, MAX], ["Ana Cole", "Max Ried"]),
        ([["Mic", "Actor", "Freq", "Notes"], [*ANA, "child - fitted by chaperone"], [*MAX, "hat"]], ["Ana Cole"]),
        ([["Mic", "Actor", "Freq", "Chaperone"], [*ANA, "Mrs Pell"], [*MAX, None]], ["Ana Cole"]),
        ([["Mic", "Darsteller", "Frequenz", "Klasse"], [*ANA, "7b"], [*MAX, "7c"]], ["Ana Cole", "Max Ried"]),
    ],
)
def test_whom_a_list_speaks_of_as_a_child_is_one_until_it_is_answered(rows, children, tmp_path):
    got = read(rows)
    (question,) = [one for one in got.questions if one.kind == "child"]
    people = section(got, "people")
    assert question.default == "yes" and [name for name, one in people.items() if one.get("child") == "yes"] == children
    no = read(rows, answers={("child", question.about): "no"})
    assert not any(one.get("child") for one in section(no, "people").values())
    papers = put_on_walls(show(tmp_path, rows).show)
    assert not any("Ana Cole" in text for paper in SHEETS for sheet in paper.make(papers) for text in texts_of(sheet))


def test_a_column_that_says_who_is_a_child_is_not_asked_about():
    got = read(beside(["Child?"], ["yes"], ["no"]))
    assert section(got, "people") == {"Ana Cole": {"child": "yes"}, "Max Ried": {"child": "no"}} and got.questions == ()


def test_in_ears_beside_a_microphone_are_carriers_of_their_own_and_shared_by_those_who_hear_one_mix():
    got = read(beside(["IEM", "IEM freq", "IEM mix"], ["E1", 606.2, "3"], ["E1", 606.2, "3"], ["E2", 608.4, "4"]))
    assert section(got, "others") == {
        "E1": {"kind": "in-ear", "mhz": "606.2", "listeners": ["Ana Cole", "Max Ried"], "notes": "IEM mix: 3"},
        "E2": {"kind": "in-ear", "mhz": "608.4", "listeners": ["Jun Okabe"], "notes": "IEM mix: 4"},
    }


def test_a_list_of_in_ears_keeps_packs_and_sends(tmp_path):
    rows = [
        ["IEM", "Musician", "Pack", "Freq", "Send", "Notes"],
        ["IEM 1", "Ana Cole", "BP7", 606.2, "aux 3-4", "own buds"],
    ]
    got = read([["In-ears"], *rows])
    assert section(got, "others") == {
        "IEM 1": {
            "kind": "in-ear",
            "mhz": "606.2",
            "listeners": ["Ana Cole"],
            "packs": ["BP7"],
            "notes": "Send: aux 3-4; own buds",
        }
    }


def test_a_channel_whose_note_names_it_somebodys_second_pack_is_that():
    got = read([[*HEAD, "Notes"], [*ANA, ""], [9, None, 492.2, "Ana Cole 2nd pack"]])
    assert section(got)["9"]["doubles"] == "1" and section(got)["9"]["by"] == "Ana Cole"


@pytest.mark.parametrize(
    ("block", "said"),
    [
        ([["THE GLASS FERRY"], ["Harbour Playhouse - Mic Plot v7"], ["Updated:", "14.3.2026", "No.2: Ira Holm"]],
         {"title": "THE GLASS FERRY", "venue": "Harbour Playhouse", "revision": "7", "revised": "2026-03-14", "contact": "Ira Holm"}),
        ([["Production", "Glass Ferry", "Sound", "Ira Holm"], ["Company", "Quay Players", "Ext.", "214"], ["Dates", "2-20 March 2027"]],
         {"title": "Glass Ferry", "company": "Quay Players", "dates": "2027-03-02 to 2027-03-20", "contact": "Ira Holm, Ext. 214"}),
        ([["Produktion: Faust | Haus: Oper Birkenau | Stand: 3.4.2026 | Ton: K. Ohm"]],
         {"title": "Faust", "venue": "Oper Birkenau", "revised": "2026-04-03", "contact": "K. Ohm"}),
        ([["Spectacle : Le Bac de verre"], ["Lieu : Salle du Port"], ["Dates : 6-8 juin 2026"]],
         {"title": "Le Bac de verre", "venue": "Salle du Port", "dates": "2026-06-06 to 2026-06-08"}),
        ([["HARBOUR LIGHTS - radio mic plot"]], {"title": "HARBOUR LIGHTS"}),
        ([["Radio mics: Glass Ferry"], ["Sound office: ext 9"]], {"title": "Glass Ferry", "contact": "Sound office ext 9"}),
        ([["MIC LIST"]], {"title": "MIC LIST"}),
    ],
)  # fmt: skip
def test_a_title_block_says_what_it_says_of_the_show(block, said):
    assert plain(read([*block, [], HEAD, ANA, MAX]).raw)["show"] == said


def test_the_television_that_a_title_block_names_is_on_the_air():
    assert plain(read([["Glass Ferry"], ["TV on air: 21, 27"], [], HEAD, ANA, MAX]).raw)["spectrum"] == {"tv": "21, 27"}


def test_a_column_of_transmitters_does_not_number_the_channels_where_another_does():
    got = read([["Ch", "Wearer", "TX", "Freq"], [1, "Ana Cole", "BP1", 486.2], [2, "Max Ried", "BP2", 487.4]])
    assert [(id, one["pack"]) for id, one in section(got).items()] == [
        ("1", "BP1"),
        ("2", "BP2"),
    ] and got.questions == ()


def test_a_position_in_words_is_what_somebody_does_and_one_in_numbers_is_a_place():
    said = read(beside(["Position"], ["Ref"], ["Asst ref"]))
    assert [one["role"] for one in section(said).values()] == [["Ref"], ["Asst ref"]]
    assert [one["slot"] for one in section(read(beside(["Position"], ["R1-1"], ["R1-2"]))).values()] == ["R1.1", "R1.2"]


def test_a_unit_and_a_slot_are_a_place_without_a_rack():
    got = read(beside(["RX unit", "RX slot"], ["A", 1], ["A", 2], ["B", 1]))
    assert [one["slot"] for one in section(got).values()] == ["A.1", "A.2", "B.1"]


def test_what_counts_beside_a_box_is_its_jack_and_not_the_desks_input():
    got = read(beside(["Rack", "Slot", "Box", "In", "Desk channel"], ["R", 1, "A", 5, 31], ["R", 2, "A", 6, 32]))
    assert section(got, "racks")["R"]["analogue 1"] == "FOH 31, FOH 32"
    assert section(got, "consoles")["FOH"]["jacks"].endswith("-, 5, 6")


def test_halls_that_use_the_same_inputs_have_desks_of_their_own():
    rows = [
        ["Room", "Rack", "Slot", "Mic", "Freq", "Desk"],
        ["Plenary", "A", 1, "P1", 486.2, 1],
        ["Breakout", "B", 1, "B1", 487.4, 1],
    ]
    got = read(rows)
    racks = section(got, "racks")
    assert (racks["A"]["analogue 1"], racks["B"]["analogue 1"]) == ("Plenary 1", "Breakout 1")
    assert section(got)["P1"]["notes"] == "Room: Plenary"


def test_rooms_that_do_not_part_the_inputs_are_no_halls():
    rows = [["Mic", "Name", "Freq", "Room", "Rack", "Slot", "Desk"]]
    rows += [[*ANA, 4, "A", 1, 7], [*MAX, 4, "A", 2, 7]]
    got = read(rows)
    assert section(got, "racks")["A"]["analogue 1"] == "FOH 7, FOH 7"
    assert section(got, "people")["Max Ried"] == {"room": "4"}


def test_a_table_below_a_list_is_called_what_is_written_between_them():
    rows = [HEAD, ANA, MAX, [], ["In-ears"], ["Pack", "Who", "Freq", "Mix"], ["A", "Jun Okabe", 606.2, "Aux 1"]]
    got = read(rows)
    assert set(section(got)) == {"1", "2"}
    assert section(got, "others") == {
        "A": {"kind": "in-ear", "mhz": "606.2", "listeners": ["Jun Okabe"], "notes": "Mix: Aux 1"}
    }


def test_a_day_is_read_the_way_of_the_lists_language_and_asked_about_in_english():
    french = read([["La Gardienne"], ["Maj : 12/09/2026"], [], ["Voie", "Comédien", "Fréquence"], ANA, MAX])
    assert plain(french.raw)["show"]["revised"] == "2026-09-12" and "day" not in {q.kind for q in french.questions}
    english = read([["The Keeper"], ["Updated: 12/09/2026"], [], HEAD, ANA, MAX])
    assert [q.kind for q in english.questions] == ["day"]


@pytest.mark.parametrize(
    ("heading", "asked"),
    [
        ("Backup MHz", []),
        ("Backup", ["second"]),
        ("Freq 2", ["second"]),
        ("Ersatzfrequenz", []),
        ("Fréq. de secours", []),
    ],
)
def test_a_backup_frequency_is_one_until_an_answer_says_otherwise(heading, asked):
    rows = beside([heading], ["530.100"], [None])
    got = read(rows)
    assert section(got)["1"]["backup"] == "530.100" and [q.kind for q in got.questions] == asked
    second = read(rows, answers={("second", "Mics"): "second"})
    assert section(second)["1B"] == {"by": "Ana Cole", "mhz": "530.100", "doubles": "1"}
