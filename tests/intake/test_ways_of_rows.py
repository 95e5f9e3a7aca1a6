"""Which way the rows of a table run: what the reading says of it, and an answer that it does not come to."""

import pytest

from paperwork.intake.reading import describe_reading
from paperwork.intake.source import read_book
from paperwork.intake.understand import understand
from tests.intake.sheets import read, section, workbook

UPRIGHT = [["Ch", "Actor", "Freq"], [1, "Mara Lind", "518.200"], [2, "Ben Orr", "520.400"], [3, "Ida Moss", "530.100"]]
GRID = [["Role", "Sc 1", "Sc 2", "Sc 3"], ["Anna", "x", "", "x"], ["Lars", "", "x", "x"]]
SIDE = b"Channel,1,2,3\nActor,Mara Lind,Ben Orr,Ida Moss\nFrequency,518.200,520.400,530.100\n"


def _codes(got):
    return [finding.code for finding in got.findings]


@pytest.mark.parametrize("answer", ["roles", "people"])
def test_an_answer_that_no_table_comes_to_is_refused_and_not_shown_as_the_reading(answer):
    got = understand(read_book(workbook({"Mics": UPRIGHT}), "list.xlsx", "xlsx"), {("rows", "Mics"): answer})
    rows = [one.value for one in got.decisions if one.kind == "rows"]
    assert answer not in rows
    assert "answer-unfit" in _codes(got)


def test_an_answer_about_one_table_of_a_sheet_is_not_refused_for_another():
    book = read_book(workbook({"Mics": [*UPRIGHT, [], [], *GRID]}), "list.xlsx", "xlsx")
    got = understand(book, {("rows", "Mics"): "roles"})
    assert {one.value for one in got.decisions if one.kind == "rows"} == {"channels", "roles"}
    assert "answer-unfit" not in _codes(got)


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_a_list_on_its_side_is_told_of_by_its_rows(kind):
    lines = [line.split(",") for line in SIDE.decode().splitlines()]
    data = SIDE if kind == "csv" else workbook({"Mics": lines})
    got = understand(read_book(data, f"list.{kind}", kind))
    words = "\n".join(describe_reading(got.decisions))
    assert 'row 2 "Actor": performer' in words and "column B" not in words
    assert any("row 1 is channel, row 2 is performer" in line for line in got.lines)


def test_a_list_across_is_turned_by_its_row_of_carriers_whatever_is_above_it_and_beside_it():
    rows = [
        ["Rev C"],
        ["Hire no.", "B-77", "A-12"],
        ["Pack", "P20", "P11"],
        ["Freq", "518.200", "519.400"],
        ["N.", "1", "2"],
    ]
    got = section(read(rows))
    assert {id: (one["pack"], one["mhz"]) for id, one in got.items()} == {
        "1": ("P20", "518.200"),
        "2": ("P11", "519.400"),
    }
