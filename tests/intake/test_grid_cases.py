"""Scenes and the grid of who is live, as sheets hold them. Cases 52 to 62 of `CASES.md`."""

import datetime

import pytest
from openpyxl.styles import PatternFill

from tests.intake.sheets import asked, codes, read, section, show


def live(got):
    return {id: fields.get("live", []) for id, fields in section(got, "scenes").items()}


def test_52_a_scene_number_that_lost_its_zero_is_asked_with_the_likely_one():
    numbers = [*(float(f"1.{n}") for n in range(1, 10)), 1.1]
    rows = [["Ch", "Actor", "Role", "Freq", *numbers], [1, "Mara Lind", "VERA", 518.2, *(["x"] * 10)]]
    got = read(rows)
    assert asked(got) == [("scene", "1.1 again")] and got.questions[0].choices[0].value == "1.10"
    assert list(live(read(rows, answers={("scene", "1.1 again"): "1.10"})))[-1] == "1.10"


def test_52_scene_numbers_as_text_are_in_no_doubt():
    got = read([["Role", "Actor", *(f"1.{n}" for n in range(1, 11))], ["VERA", "Mara Lind", *(["x"] * 10)]])
    assert list(live(got))[-1] == "1.10" and asked(got) == []


def test_53_a_scene_that_became_a_date_is_asked_with_both_readings():
    got = read(
        [["Ch", "Actor", "Freq", "1-1", datetime.date(2027, 2, 1), "1-3"], [1, "Mara Lind", 518.2, "x", "x", None]]
    )
    assert asked(got) == [("date", "scene 2027-02-01")]
    assert {choice.value for choice in got.questions[0].choices} == {"1-2", "2-1"}


@pytest.mark.parametrize("above", (True, False))
def test_55_acts_come_from_the_merge_and_never_from_a_neighbour(above):
    acts = [None, None, "I", None, "II", None, None]
    scenes = ["Role", "Actor", "1", "2", "1", "2", "3"] if above else [None, None, "1", "2", "1", "2", "3"]
    if not above:
        acts[:2] = ["Role", "Actor"]

    def merge(sheet):
        sheet.merge_cells("C1:D1")
        sheet.merge_cells("E1:F1")

    got = read([acts, scenes, ["VERA", "Mara Lind", "x", None, "x", None, "x"]], merge)
    found = {id: fields.get("act") for id, fields in section(got, "scenes").items()}
    assert found == {"I.1": "I", "I.2": "I", "II.1": "II", "II.2": "II", "3": None}
    assert live(got) == {"I.1": ["VERA"], "I.2": [], "II.1": ["VERA"], "II.2": [], "3": ["VERA"]}


def test_56_a_number_merged_across_scenes_is_worn_in_all_of_them():
    rows = [["Role", "Actor", "1.1", "1.2", "1.3", "1.4"], ["VERA", "Mara Lind", None, 7, None, None]]
    book = [["Ch", "Actor", "Role", "Freq"], [7, "Mara Lind", "VERA", 518.2], [], *rows]
    got = read(book, lambda sheet: sheet.merge_cells("D5:F5"))
    assert live(got) == {"1.1": [], "1.2": ["VERA"], "1.3": ["VERA"], "1.4": ["VERA"]} and codes(got) == []


def test_58_a_merged_title_between_rows_is_a_break_and_no_person():
    rows = [
        ["Ch", "Actor", "Role", "Freq"],
        [1, "Mara Lind", "VERA", 518.2],
        ["ACT TWO"],
        [2, "Max Ried", "SAILOR", 519.4],
    ]
    got = read(rows, lambda sheet: sheet.merge_cells("A3:D3"))
    assert list(section(got)) == ["1", "2"] and codes(got) == [] and got.account["title"] == 1


def test_59_presence_by_colour_alone_is_asked_with_its_count():
    def colour(sheet):
        for address in ("E2", "F2", "F3"):
            sheet[address].fill = PatternFill("solid", fgColor="FFFF00")
        sheet["G3"].fill = PatternFill("solid", fgColor="00FF00")

    rows = [
        ["Ch", "Actor", "Role", "Freq", "1.1", "1.2", "1.3"],
        [1, "Mara Lind", "VERA", 518.2],
        [2, "Max Ried", "SAILOR", 519.4],
    ]
    got = read(rows, colour)
    assert asked(got) == [("fill", "#00FF00"), ("fill", "#FFFF00")]
    assert "3 blank cells" in got.questions[1].text and live(got) == {"1.1": [], "1.2": [], "1.3": []}
    done = read(rows, colour, {("fill", "#FFFF00"): "live", ("fill", "#00FF00"): "idle"})
    assert live(done) == {"1.1": ["VERA"], "1.2": ["VERA", "SAILOR"], "1.3": []} and done.questions == ()


def test_59_a_row_that_is_banded_throughout_is_no_question():
    def band(sheet):
        for column in range(1, 7):
            sheet.cell(2, column).fill = PatternFill("solid", fgColor="DDDDDD")

    got = read(
        [["Ch", "Actor", "Freq", "1.1", "1.2", "1.3"], [1, "Mara Lind", 518.2, "x"], [2, "Max Ried", 519.4]], band
    )
    assert got.questions == ()


def test_61_marks_other_than_a_plain_one_are_asked_and_remembered():
    rows = [
        ["Ch", "Role", "Freq", "1.1", "1.2", "1.3"],
        [1, "VERA", 518.2, "x", "(x)", "o"],
        [2, "SAILOR", 519.4, "\N{CHECK MARK}", "-", "(x)"],
    ]
    got = read(rows)
    assert asked(got) == [("mark", "(x)"), ("mark", "o")]
    done = read(rows, answers={("mark", "(x)"): "worn", ("mark", "o"): "handheld"})
    assert live(done) == {"1.1": ["VERA", "SAILOR"], "1.2": [], "1.3": ["VERA"]} and done.questions == ()


@pytest.mark.parametrize(
    "mark", list("xX\N{CHECK MARK}\N{HEAVY CHECK MARK}\N{BLACK CIRCLE}\N{BLACK SQUARE}1y") + ["yes", "ja", "on"]
)
def test_61_plain_marks_are_live(mark):
    got = read([["Ch", "Role", "Freq", "1.1", "1.2"], [1, "VERA", 518.2, mark, "off"], [2, "TOM", 519.4, "n/a", mark]])
    assert live(got) == {"1.1": ["VERA"], "1.2": ["TOM"]} and got.questions == ()


def test_62_one_pack_twice_in_a_scene_is_an_error_with_both_cells():
    rows = [
        ["Ch", "Actor", "Freq"],
        [7, "Mara Lind", 518.2],
        [],
        ["Role", "Actor", "1.1", "1.2"],
        ["VERA", "Mara Lind", 7, 7],
        ["TOM", "Max Ried", None, 7],
    ]
    got = read(rows)
    (finding,) = got.findings
    assert (finding.code, finding.place.cell, [p.cell for p in finding.others]) == ("mic-twice-in-scene", "D6", ["D5"])


def test_a_grid_of_role_names_gives_the_channel_its_roles(tmp_path):
    rows = [
        ["Ch", "Actor", "Freq", "1.1", "1.2", "1.3"],
        [1, "Mara Lind", 518.2, "VERA", None, "WIDOW"],
        [2, "Max Ried", 519.4, "TOM", "TOM", None],
    ]
    got = read(rows)
    assert live(got) == {"1.1": ["VERA", "TOM"], "1.2": ["TOM"], "1.3": ["WIDOW"]} and codes(got) == []
    assert section(got)["1"]["role"] == ["VERA", "WIDOW"]
    assert show(tmp_path, rows).show.scenes[0].live == ("VERA", "TOM")


def test_a_scene_that_is_cut_is_left_out_and_said():
    got = read([["Ch", "Role", "Freq", "1.1", "1.2 CUT", "1.3"], [1, "VERA", 518.2, "x", "x", "x"]])
    assert list(live(got)) == ["1.1", "1.3"] and "value-repaired" in codes(got)


@pytest.mark.parametrize(
    ("numbers", "offered"),
    [
        ((1.1, 1.2, 1.3, 1.1), ["1.10", "1.4"]),
        ((1.1, 1.2, 2.1, 2.2, 1.1), ["1.10", "2.3"]),
        ((1.1, 1.1), ["1.10", "1.2"]),
        ((*(float(f"1.{n}") for n in range(1, 10)), 1.1), ["1.10"]),
        ((2.1, *(float(f"2.{n}") for n in range(2, 10)), 2.1, 2.2), ["2.10"]),
    ],
)
def test_52_a_doubled_number_is_offered_with_its_zero_and_as_the_next_scene(numbers, offered):
    got = read([["Role", "Actor", *numbers], ["VERA", "Mara Lind", *(["x"] * len(numbers))]])
    assert [choice.value for choice in got.questions[0].choices] == offered


GRID = [
    ["Role", "1.1", "1.2"],
    ["VERA", "x", "x"],
    ["Mr. Harrow", "x", None],
    ["THE LADY IN THE RED COAT", None, "x"],
    ["OLD TOM", None, None],
]


@pytest.mark.parametrize(
    "text",
    [
        "Achtung: Kanal 5 hat ab Szene 1.2 andere Kapsel!",
        "All packs return to the tray after the bows.",
        "NB: 5 late",
        "Note: swap at 1.2",
        "x = live",
        "Ojo! canal 5",
        "Let op: kanaal 5",
        "Kanal 5 ab 1.2 mit anderer Kapsel; siehe Aushang",
    ],
)
@pytest.mark.parametrize("gap", (0, 2))
def test_a_note_below_a_grid_is_no_role(text, gap):
    got = read([*GRID, *([[]] * gap), [text]])
    (finding,) = [one for one in got.findings if one.code == "cells-unknown"]
    assert "rows of prose" in finding.text and text not in finding.text and text[:12] in " ".join(got.lines)
    assert list(section(got, "roles")) == ["VERA", "Mr. Harrow", "THE LADY IN THE RED COAT", "OLD TOM"]


def test_a_note_over_two_cells_below_a_grid_is_no_role():
    got = read([*GRID, [], ["Achtung:", "Kanal 5 hat ab Szene 1.2 andere Kapsel"]])
    assert "Achtung:" not in section(got, "roles") and got.account["unknown"] == 2


@pytest.mark.parametrize(
    "name",
    [
        "Mr. Harrow",
        "St. John",
        "Lena (2. Sender)",
        "Who?",
        "Ghost: voice",
        "The Note",
        "Obs",
        "Ann O. Lind Jr.",
        "Singer",
        "Swing",
    ],
)
def test_a_name_alone_below_a_grid_is_a_role(name):
    assert name in section(read([*GRID, [name]]), "roles")
