"""Random plots, in every shape, are read as who is live in which scene with which pack, or as doubts."""

import datetime
from collections import Counter

import pytest

from tests.intake.outcomes import ANSWERED, LOCATED, RIGHT, assert_no_other_show, judge
from tests.intake.plots import write_plot
from tests.intake.sheets import codes, plain, read, read_data, section, workbook
from tests.tools.list_shares import count_outcomes

BLOCK = 100


@pytest.mark.parametrize("first", range(0, 40, 10))
def test_a_random_plot_is_never_another_show(first):
    assert_no_other_show(range(first, first + 10), write_plot)


@pytest.mark.sweep
@pytest.mark.parametrize("first", range(BLOCK, BLOCK + 2000, BLOCK))
def test_many_random_plots_are_never_another_show(first):
    assert_no_other_show(range(first, first + BLOCK), write_plot)


def test_most_plots_become_their_show_and_few_are_not_understood():
    counts = count_outcomes(range(40), write_plot)
    assert counts.total() == 40 and (counts[RIGHT] + counts[ANSWERED]) * 100 >= 40 * 97 and counts[LOCATED] <= 2


def test_every_manner_of_drawing_a_plot_is_among_them():
    manners = [write_plot(seed).manner for seed in range(200)]
    seen = {name: Counter(manner[name] for manner in manners) for name in manners[0]}
    assert all(len(values) > 1 and min(values.values()) > 3 for values in seen.values()), seen


MICS = [["Mic", "Freq"], [1, 470.2], [2, 471.05], [3, 472.075]]


def live(got):
    return {id: one.get("live", []) for id, one in section(got, "scenes").items()}


def own(got):
    return {role: id for id, one in section(got).items() for role in one.get("role", [])}


def test_a_choir_with_numbers_across_is_mics_over_songs():
    rows = [["Lied", 1, 2, 3], ["Stille nacht", "Noor", "Bram", None], ["Ere zij God", "Noor", "Bram / Jort", "Saar"]]
    got = read_data(workbook({"Koor": rows, "Zenders": MICS}))
    assert live(got) == {"Stille nacht": ["Noor", "Bram"], "Ere zij God": ["Noor", "Bram", "Jort", "Saar"]}
    assert own(got) == {"Noor": "1", "Bram": "2", "Jort": "2", "Saar": "3"} and got.questions == ()


def test_a_rota_of_weeks_has_its_days_as_scenes():
    days = [datetime.date(2026, 9, day) for day in (7, 14, 21)]
    got = read(
        [["Mic", "Freq", *days], [1, 470.2, "Ana Cole", "Ben Orr", "Ana Cole"], [2, 471.05, "Cy Dent", "Cy Dent", None]]
    )
    assert live(got) == {
        "2026-09-07": ["Ana Cole", "Cy Dent"],
        "2026-09-14": ["Ben Orr", "Cy Dent"],
        "2026-09-21": ["Ana Cole"],
    }
    assert own(got) == {"Ana Cole": "1", "Ben Orr": "1", "Cy Dent": "2"} and got.questions == ()


def test_two_acts_one_below_the_other_are_one_plot_in_two_acts():
    first = [
        ["ACT ONE"],
        ["Character", "Mic", "Harbour", "Inn", "Cliff"],
        ["MEG", 1, "x", "x", None],
        ["TOM", 2, None, "x", "x"],
    ]
    second = [
        ["ACT TWO"],
        ["Character", "Mic", "Storm", "Church", "Bows"],
        ["MEG", 1, "x", None, "x"],
        ["TOM", 2, "x", "x", "x"],
    ]
    got = read([*first, [], *second])
    acts = {id: one["act"] for id, one in section(got, "scenes").items()}
    assert acts == dict.fromkeys(("Harbour", "Inn", "Cliff"), "ACT ONE") | dict.fromkeys(
        ("Storm", "Church", "Bows"), "ACT TWO"
    )
    assert live(got)["Inn"] == ["MEG", "TOM"] and live(got)["Church"] == ["TOM"] and got.questions == ()


def test_names_over_names_head_a_plot_that_goes_on_behind_a_blank_row():
    rows = [[None, "MEG", "TOM", "NAN"], [None, "Ana", "Ben", "Cy"], ["1.1 Quay", 7, 8, None], ["1.2 Inn", "7>9", 8, 7]]
    got = read([*rows, [], ["2.1 Storm", 9, 8, 7], ["2.2 Church", 9, None, "7 then 8"]])
    assert live(got)["2.2 Church"] == ["MEG", "NAN"] and len(live(got)) == 4
    assert {id: one["by"] for id, one in section(got, "roles").items()} == {"MEG": "Ana", "TOM": "Ben", "NAN": "Cy"}
    moves = [tuple(one.values()) for one in section(got, "moves").values()]
    assert ("MEG", "1.2 Inn", "7") in moves and ("NAN", "2.2 Church", "8") in moves
    assert [(one.kind, one.default) for one in got.questions] == [("column", "performer")]
    question = got.questions[0]
    same = read([*rows, [], ["2.1 Storm", 9, 8, 7]], answers={(question.kind, question.about): "performer"})
    assert section(same, "roles") == section(got, "roles") and same.questions == ()
    assert [one.about for one in same.decisions].count(question.about) == 1


def test_a_plot_of_people_by_mic_lists_the_scenes():
    rows = [
        ["Name", "Mic 1", "Mic 2", "Mic 3"],
        ["Ana Cole", "1.1-1.3", "2.2", None],
        ["Ben Orr", None, "1.1, 1.2", "2.1-2.3"],
    ]
    got = read(rows)
    assert live(got)["1.2"] == ["Ana Cole", "Ben Orr"] and live(got)["2.3"] == ["Ben Orr"]
    assert own(got) == {"Ana Cole": "Mic 1", "Ben Orr": "Mic 3"}
    assert ("Ana Cole", "2.2", "Mic 2") in [tuple(one.values()) for one in section(got, "moves").values()]


def test_what_is_said_of_scenes_beside_a_plot_names_them():
    rows = [
        ["Zeit", "Programmpunkt", "HS1", "Kopf 1"],
        ["09:00", "Grußwort", "Dr. Lang", None],
        ["09:30", "Podium", "Dr. Lang", "Frau Blum"],
    ]
    got = read(rows)
    assert [one["name"] for one in section(got, "scenes").values()] == ["09:00 Grußwort", "09:30 Podium"]
    assert own(got) == {"Dr. Lang": "HS1", "Frau Blum": "Kopf 1"}


def test_a_column_and_a_row_of_totals_are_no_scene_and_nobody():
    rows = [["Name", "Mic", "Opening", "Ballad", "Duet", "Total"], ["Ann", 1, 1, None, 1, 2], ["Ben", 2, 1, 1, None, 2]]
    got = read([*rows, ["Total", None, 2, 1, 1, 4]])
    assert live(got) == {"Opening": ["Ann", "Ben"], "Ballad": ["Ben"], "Duet": ["Ann"]} and list(section(got)) == [
        "1",
        "2",
    ]


def test_a_sheet_of_mute_cues_is_no_plot():
    cues = [["Q", "Page", "Open", "Close"], ["Q1", 1, "1,2", None], ["Q2", 3, "3", "1"], ["Q3", 5, None, "2, 3"]]
    got = read_data(workbook({"Cues": cues, "Mics": MICS}))
    assert "scenes" not in plain(got.raw) and "cells-unknown" in codes(got)


def test_initials_in_a_plot_of_names_are_names():
    got = read([["Mic", "1.1", "1.2", "1.3"], [1, "AL", "AL", "BO"], [2, "BO", None, "AL"], [3, "CD", "CD", "CD"]])
    assert live(got)["1.1"] == ["AL", "BO", "CD"] and own(got) == {"AL": "1", "BO": "2", "CD": "3"}
    assert {tuple(one.values()) for one in section(got, "moves").values()} == {("BO", "1.3", "1"), ("AL", "1.3", "2")}


@pytest.mark.parametrize(
    ("corner", "mic"), [("Scen", "Mygga"), ("Scène", "Liaison"), ("Escena", "Petaca"), ("Scène", "Zender")]
)
def test_mics_in_any_language_head_a_plot(corner, mic):
    rows = [[corner, f"{mic} 1", f"{mic} 2"], ["1", "Anna", "Bo"], ["2", "Anna", "Cia"], ["3", None, "Cia"]]
    assert live(read(rows)) == {"1": ["Anna", "Bo"], "2": ["Anna", "Cia"], "3": ["Cia"]}


@pytest.mark.parametrize("seed", (5489, 5843, 5970, 7012, 7141))
def test_a_corner_over_mics_is_no_scene_and_a_column_of_handovers_alone_is_one(seed):
    outcome, missing, false = judge(write_plot(seed))
    assert outcome in (RIGHT, ANSWERED), (sorted(missing), sorted(false))
