"""Kinds of list that were once read wrongly: each in its smallest form, with what must come of it."""

import pytest

from paperwork.reading import read_show
from tests.intake.sheets import asked, codes, read, read_data, read_text, section, workbook

MICS = [["Mic", "Freq"], [1, 470.2], [2, 471.05], [3, 472.075], [4, 473.8]]


def questions(got):
    return [(q.kind, q.about, q.default) for q in got.questions]


def live(got):
    return {id: fields.get("live", []) for id, fields in section(got, "scenes").items()}


@pytest.mark.parametrize(
    "headings",
    [
        ["Mic", "Actor", "Group", "Channel", "Freq"],
        ["Mikro", "Darsteller", "Gruppe", "Kanal", "Frequenz"],
        ["Micro", "Nom", "Groupe", "Canal", "Fréquence"],
        ["Micrófono", "Actriz", "Grupo", "Canal", "Frecuencia"],
        ["Radiomicrofono", "Nome", "Gruppo", "Canale", "Frequenza"],
        ["Microfoon", "Naam", "Groep", "Kanaal", "Frequentie"],
        ["Mygga", "Namn", "Grupp", "Kanal", "Frekvens"],
    ],
)
def test_a_receivers_preset_is_never_the_number_of_a_channel(headings):
    got = read([headings, [1, "Ada Abbot", "G1", 4, 470.2], [2, "Ben Byrne", "G1", 5, 471.05]])
    notes = [f"{headings[2]}: G1; {headings[3]}: {preset}" for preset in (4, 5)]
    assert [(id, one["by"], one["mhz"], one["notes"]) for id, one in section(got).items()] == [
        ("1", "Ada Abbot", "470.2", notes[0]),
        ("2", "Ben Byrne", "471.05", notes[1]),
    ]


@pytest.mark.parametrize(
    ("mic", "channel"), [("Mic", "Channel"), ("Mic", "Ch"), ("Micro", "Canal"), ("Mikro", "Kanal")]
)
def test_of_two_columns_that_may_be_the_number_the_mic_is_and_the_other_is_asked(mic, channel):
    rows = [[mic, "Name", "Freq", channel], [1, "Ada Abbot", 470.2, 17], [2, "Ben Byrne", 471.05, 18]]
    got = read(rows)
    ((kind, about, default),) = [one for one in questions(got) if one[0] != "language"]
    assert (kind, default, list(section(got))) == ("column", "notes", ["1", "2"])
    assert section(got)["1"]["notes"] == f"{channel}: 17"
    done = read(rows, answers={(kind, about): "first"})
    assert list(section(done)) == ["17", "18"] and f"{mic}: 1" in section(done)["17"]["notes"]
    patched = read(rows, answers={(kind, about): "input"})
    assert section(patched, "racks")["RX"]["analogue 1"] == "FOH 17, FOH 18"


def test_a_television_channel_that_its_frequency_proves_is_asked_nothing():
    got = read([["Mic", "Name", "Freq", "Kanal"], [1, "Ada Abbot", 470.2, 21], [2, "Ben Byrne", 479.05, 22]])
    assert questions(got) == [] and section(got)["1"]["notes"] == "Kanal: 21"


FREQUENCIES = "Mic,Actor,Freq main,Freq backup\n1,Ada Abbot,470.200,519.075\n2,Ben Byrne,471.050,522.300\n"


@pytest.mark.parametrize(
    ("answer", "second"),
    [
        ("notes", None),
        ("second", {"by": "Ada Abbot", "mhz": "519.075", "doubles": "1"}),
        ("spare", {"spare": "yes", "backs": "1", "mhz": "519.075"}),
    ],
)
def test_a_backup_frequency_that_its_heading_says_is_not_asked_and_an_answer_may_change_it(answer, second):
    assert questions(read_text(FREQUENCIES)) == []
    assert section(read_text(FREQUENCIES))["1"]["backup"] == "519.075"
    got = read_text(FREQUENCIES, {("second", "the table"): answer})
    assert questions(got) == []
    assert section(got).get("1B") == second and section(got)["1"]["mhz"] == "470.200"
    assert section(got)["1"].get("notes") == (None if second else "Freq backup: 519.075")


def test_a_backup_mic_is_a_second_pack_of_its_own_number():
    got = read_text("Artist,Part,Mic A,Freq A,Mic B (back-up)\nLorna Quist,EVELINE,A1,470.200,A2\n")
    assert section(got) == {
        "A1": {"role": ["EVELINE"], "by": "Lorna Quist", "mhz": "470.200"},
        "A2": {"role": ["EVELINE"], "by": "Lorna Quist", "doubles": "A1"},
    }
    assert questions(got) == [("second", "the table", "second")]


def test_two_columns_of_one_field_are_both_kept():
    got = read([["Mic", "Actor", "Position", "Slot no", "Place in rack"], [1, "Ada Abbot", "R1-1", "x9", "top"]])
    texts = str(section(got))
    assert all(text in texts for text in ("R1.1", "x9", "top"))


GRID = [
    ["Actor", "Character", "Sc 1", "Sc 2", "Sc 3", "Sc 4"],
    ["Ivy Rook", "ANNA", 1, 1, 1, 1],
    ["Sol Marsh", "PETER", 2, 3, None, 2],
    ["Tilda Fenn", "MAID", 3, 2, 2, None],
    ["Jem Cray", "COOK", 4, None, 4, 3],
]


def test_a_grid_of_mic_numbers_says_which_pack_is_worn_in_which_scene():
    got = read_data(workbook({"Plot": GRID, "Mics": MICS}))
    assert questions(got) == [] and codes(got) == []
    own = {role: id for id, one in section(got).items() for role in one["role"]}
    by = {id: one["by"] for id, one in section(got, "roles").items()}
    moved = {(one["scene"], one["role"]): one["channel"] for one in section(got, "moves").values()}
    worn = {
        (scene, by[role]): moved.get((scene, role), own[role]) for scene, listed in live(got).items() for role in listed
    }
    assert worn == {
        (scene, row[0]): str(mic)
        for row in GRID[1:]
        for scene, mic in zip(GRID[0][2:], row[2:], strict=True)
        if mic is not None
    }


def test_a_grid_of_numbers_without_any_list_is_the_list():
    got = read([["Role", "Actor", "1.1", "1.2"], ["ANNA", "Ivy Rook", 1, 1], ["PETER", "Sol Marsh", 2, None]])
    assert {id: one["role"] for id, one in section(got).items()} == {"1": ["ANNA"], "2": ["PETER"]}
    assert live(got) == {"1.1": ["ANNA", "PETER"], "1.2": ["ANNA"]} and questions(got) == []


def test_a_pack_that_is_handed_on_within_a_scene_is_no_clash():
    rows = [["Name", "Sc 1", "Sc 2"], ["Max", 2, "2→3"], ["Eve", 3, None], ["Sid", None, 2]]
    got = read_data(workbook({"Plot": rows, "Mics": MICS}))
    assert "mic-twice-in-scene" not in codes(got)
    moves = [(one["role"], one["scene"], one["channel"]) for one in section(got, "moves").values()]
    assert moves == [("Max", "Sc 2", "2"), ("Sid", "Sc 2", "2"), ("Max", "Sc 2", "3")]


def test_one_pack_of_two_people_in_a_scene_is_their_turns_in_the_order_of_the_cell(tmp_path):
    rows = [
        ["Scene", "Mic 1", "Mic 2"],
        ["1.1", "JAMES then TOM", "ANN"],
        ["1.2", "JAMES", "ANN"],
        ["1.3", "TOM", None],
    ]
    cast = [["Role", "Actor"], ["JAMES", "Al Bey"], ["TOM", "Cy Dent"], ["ANN", "Di Ekin"]]
    data = workbook({"Cast": [*[[*row, None] for row in cast]], "Plot": rows})
    (tmp_path / "list.xlsx").write_bytes(data)
    found = read_show(tmp_path / "list.xlsx", "list.xlsx")
    moves = [(one.role, one.scene, one.channel) for one in found.show.moves.values()]
    assert moves == [("JAMES", "1.1", "Mic 1"), ("TOM", "1.1", "Mic 1")]
    assert "pack-on-two-bodies" not in [finding.code for finding in found.findings]


def test_a_plot_with_scenes_down_and_mics_across_is_read_in_either_orientation():
    down = [["Scene", "Mic 1", "Mic 2", "Mic 3"], ["1.1", "ANNA", "PETER", None], ["1.2", "ANNA", None, "COOK"]]
    across = [list(column) for column in zip(*down, strict=True)]
    for rows in (down, across):
        got = read(rows)
        assert live(got) == {"1.1": ["ANNA", "PETER"], "1.2": ["ANNA", "COOK"]}
        assert {id: one["role"] for id, one in section(got).items()} == {
            "Mic 1": ["ANNA"],
            "Mic 2": ["PETER"],
            "Mic 3": ["COOK"],
        }


@pytest.mark.parametrize(
    "heading",
    [
        "Presenter",
        "Speaker",
        "Host",
        "Guest",
        "Student",
        "Child",
        "Soloist",
        "Musician",
        "Commentator",
        "Referee",
        "Lector",
        "Moderator",
        "Sprecherin",
        "Gast",
        "Schüler",
        "Invité",
        "Élève",
        "Ponente",
        "Invitado",
        "Relatore",
        "Ospite",
        "Spreker",
        "Leerling",
        "Talare",
        "Elev",
    ],
)
def test_whoever_wears_a_mic_is_the_performer(heading):
    got = read([["Mic", heading, "Freq"], [1, "Ada Abbot", 470.2], [2, "Ben Byrne", 471.05]])
    assert [one["by"] for one in section(got).values()] == ["Ada Abbot", "Ben Byrne"]
    assert [one for one in got.questions if one.kind != "child"] == []


def test_an_unknown_column_of_names_is_asked_with_its_likely_fields():
    rows = [["Mic", "Zeremonienmensch", "Freq"], [1, "Ada Abbot", 470.2], [2, "Ben Byrne", 471.05]]
    got = read(rows)
    assert asked(got) == [("column", "zeremonienmensch")]
    assert [choice.value for choice in got.questions[0].choices][:2] == ["performer", "role"]
    done = read(rows, answers={("column", "zeremonienmensch"): "performer"})
    assert [one["by"] for one in section(done).values()] == ["Ada Abbot", "Ben Byrne"]


def test_a_column_of_marks_between_scenes_is_a_scene():
    rows = [["Mic", "Actor", "Freq", "Overture", "Marketplace", "1 Bells", "Finale"]]
    rows += [[1, "Ada", 470.2, "x", None, "x", "x"], [2, "Ben", 471.05, "x", "x", None, "x"]]
    assert live(read(rows)) == {
        "Overture": ["Ada", "Ben"],
        "Marketplace": ["Ben"],
        "1 Bells": ["Ada"],
        "Finale": ["Ada", "Ben"],
    }


def test_facts_of_gear_and_people_go_to_their_sections():
    headings = [
        "Mic",
        "Actor",
        "Freq",
        "Pack",
        "Rack",
        "Desk",
        "Gain (dB)",
        "Cells",
        "Serial",
        "Band",
        "Room",
        "Colour",
    ]
    headings[7] = "Batteries"
    row = [1, "Ada Abbot", 470.2, "P7", "R1-2", 17, -6, "2xAA", "S-9", "470-530", "12", "tan"]
    got = read([headings, row])
    assert section(got, "transmitters") == {"P7": {"serial": "S-9", "gain": "-6 dB", "cells": "2xAA"}}
    assert section(got, "racks") == {"R1": {"slots": "2", "analogue 1": "-, FOH 17"}}
    assert section(got, "consoles") == {"FOH": {"name": "Desk"}}
    assert section(got, "radios") == {"470-530": {"tunes": "470-530"}}
    assert section(got, "people") == {"Ada Abbot": {"room": "12", "colour": "tan"}}
    assert "notes" not in section(got)["1"]


def test_an_old_tab_is_left_out_until_somebody_says_otherwise():
    new = [["Mic", "Actor", "Band"], [1, "Ada Abbot", "low"], [2, "Ben Byrne", "low"]]
    sheets = {"MICS": new, "RF": MICS, "OLD": [["Mic", "Actor", "Freq"], [1, "Sam Vell", 470.4]]}
    got = read_data(workbook(sheets))
    assert questions(got) == [("sheet", "OLD", "leave")] and "Sam Vell" not in str(section(got))
    assert got.account["left"] == 6


def test_a_title_block_is_read_by_its_labels():
    rows = [["Stadttheater Birkenau"], ["Produktion: Der Leuchtturm", None, "Ton: Karsten Wühr"], [], *MICS]
    got = read(rows)
    assert section(got, "show") == {
        "title": "Der Leuchtturm",
        "venue": "Stadttheater Birkenau",
        "contact": "Karsten Wühr",
    }


def test_signs_that_were_saved_in_two_ways_are_asked_about():
    rows = [["Mic", "Name", "Freq"], [1, "ZoÃ« Lind", 518.2], [2, "Bo Âhs", 519.4]]
    got = read(rows)
    assert questions(got) == [("encoding", "signs", "mend")]
    assert [one["by"] for one in section(got).values()] == ["Zoë Lind", "Bo Âhs"]
    kept = read(rows, answers={("encoding", "signs"): "keep"})
    assert section(kept)["1"]["by"] == "ZoÃ« Lind"


@pytest.mark.parametrize(("text", "offered"), [("ch 38??", []), ("518.200 kHz", ["518.200"])])
def test_what_is_no_frequency_is_asked_and_never_taken(text, offered):
    got = read([["Mic", "Actor", "Freq"], [1, "Ada Abbot", text], [2, "Ben Byrne", 471.05]])
    (question,) = got.questions
    assert [choice.value for choice in question.choices] == [*offered, "?"] and not section(got)["1"].get("mhz")


@pytest.mark.parametrize("text", ["tbc", "TBA", "?"])
def test_what_is_open_stays_to_be_seen(text):
    got = read([["Mic", "Actor", "Freq"], [1, text, 470.2], [2, "Ben Byrne", 471.05]])
    assert section(got)["1"] == {"mhz": "470.2", "notes": f"Actor: {text}"}


def test_every_column_can_be_changed_by_its_heading_its_letter_and_its_sheet():
    rows = [["Mic", "Name", "Freq"], [1, "ANNA", 470.2], [2, "PETER", 471.05]]
    for key in ("name", "B", "Mics!B", "Mics!name"):
        got = read(rows, answers={("column", key): "role"})
        assert [one["role"] for one in section(got).values()] == [["ANNA"], ["PETER"]], key


def test_headings_without_a_row_are_to_be_filled():
    (finding,) = read([["Ch", "Name", "Freq"]]).findings
    assert finding.code == "table-unfilled" and "Ch, Name, Freq" in finding.text and "headings" in finding.fix


def test_roles_that_are_called_like_headings_are_roles():
    across = [["Role", "1.1", "1.2"], ["Host", "x", None], ["Guest", "x", "x"], ["Child", None, "x"]]
    down = [
        ["Scene", *(row[0] for row in across[1:])],
        *([s, *(row[n] for row in across[1:])] for n, s in ((1, "1.1"), (2, "1.2"))),
    ]
    for rows in (across, down):
        got = read_data(workbook({"Plot": rows, "Mics": MICS}))
        assert live(got) == {"1.1": ["Host", "Guest"], "1.2": ["Guest", "Child"]}


TICKS = [[None, "Salt", "Reel", "Bells"], ["Ann", "x", None, "x"], ["Bo", "x", "x", None]]


def test_a_plot_that_nothing_tells_scenes_from_people_in_is_asked_which_way_it_runs():
    got = read(TICKS)
    assert questions(got) == [("rows", "Mics", "roles")] and live(got)["Salt"] == ["Ann", "Bo"]
    turned = read(TICKS, answers={("rows", "Mics"): "scenes"})
    assert live(turned) == {"Ann": ["Salt", "Bells"], "Bo": ["Salt", "Reel"]} and questions(turned) == []
    known = read_data(workbook({"Plot": TICKS, "Mics": [["Mic", "Actor"], [1, "Ann"], [2, "Bo"]]}))
    assert questions(known) == [] and live(known)["Reel"] == ["Bo"]


@pytest.mark.parametrize(("answer", "moves"), [(None, [("1",), ("2",)]), ("both", [])])
def test_two_mics_in_one_cell_are_asked_once_whether_they_are_worn_in_turn(answer, moves):
    rows = [["Actor", "Sc 1", "Sc 2", "Sc 3"], ["Ann", 1, "1/2", 1], ["Bo", 3, None, 3]]
    got = read_data(workbook({"Plot": rows, "Mics": MICS}), {("turns", "Plot"): answer} if answer else None)
    assert questions(got) == ([] if answer else [("turns", "Plot", "turns")])
    assert [(one["channel"],) for one in section(got, "moves").values()] == moves
    assert section(got)["2"].get("doubles") == ("1" if answer else None)
