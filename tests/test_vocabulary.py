"""Words that people write where nobody and nothing is known yet, and words that only look like them."""

import pytest

from paperwork.reading import read_show
from paperwork.text.vocabulary import is_nobody
from tests.intake.sheets import read, section

OPEN = (
    "N.N.",
    "N. N.",
    "NN",
    "n.n.",
    "tba",
    "TBA",
    "t.b.c.",
    "tbd",
    "?",
    "??",
    "-",
    "\N{EN DASH}",
    "--",
    "...",
    "___",
    "n/a",
    "frei",
    "Vacant",
    "libre",
    "vrij",
    "unbesetzt",
    "noch offen",
    "à définir",
    "por definir",
    "da definire",
    "ej tillsatt",
    "to be announced",
)
NAMES = (
    "Nina Nord",
    "N. Nord",
    "Max Frei",
    "None",
    "Null",
    "No",
    "NA",
    "Tba Lind",
    "X",
    '"',
    "Jo",
    "O",
    "יעל",
    "李",
    "???a",
)


@pytest.mark.parametrize("text", OPEN)
def test_words_and_signs_of_seven_languages_are_nobody(text):
    assert is_nobody(text)


@pytest.mark.parametrize("text", NAMES)
def test_names_are_somebody(text):
    assert not is_nobody(text)


def test_a_word_for_vacant_is_a_name_where_the_people_list_it():
    assert is_nobody("Frei") and not is_nobody("Frei", {"frei"}) and is_nobody("N.N.", {"n n"})


SHOW = """
channels:
  1: {{role: LENA, by: "{0}", mhz: 486.200}}
  2: {{role: WIRT, by: "{0}", mhz: 487.075}}
  3: {{shared: {{MAGD: "{0}", AMME: Ann Cole}}, mhz: 488.650}}
  4: {{by: "{0}", mhz: 491.375}}
scenes:
  a: {{name: A, live: LENA WIRT}}
covers:
  c1: {{role: LENA, by: "{0}"}}
others:
  EARS: {{kind: in-ear, mhz: 520.1, listeners: "Ann Cole, {0}"}}
"""


@pytest.mark.parametrize("text", OPEN)
def test_nobody_is_in_no_two_places_and_on_no_paper_of_our_own_show(text, tmp_path):
    (tmp_path / "show.yaml").write_text(SHOW.format(text), encoding="utf-8")
    reading = read_show(tmp_path / "show.yaml", "show.yaml")
    assert reading.findings == () and reading.show is not None
    assert {role.by for role in reading.show.roles.values()} == {"", "Ann Cole"} and reading.show.covers == ()
    assert reading.show.channels["4"].by == "" and reading.show.others["EARS"].listeners == ("Ann Cole",)


def test_nobody_may_be_told_where_another_record_tells_somebody(tmp_path):
    text = "roles: {LENA: {by: Ann Cole}}\npeople: {Ann Cole: {room: 3}, Frei: {room: 4}}\nchannels:\n  1: {role: LENA, by: N.N.}\n  2: {role: WIRT, by: Frei}\n"
    (tmp_path / "show.yaml").write_text(text, encoding="utf-8")
    reading = read_show(tmp_path / "show.yaml", "show.yaml")
    assert reading.findings == () and [role.by for role in reading.show.roles.values()] == ["Ann Cole", "Frei"]


@pytest.mark.parametrize("text", OPEN)
def test_nobody_in_a_foreign_list_is_nobody(text):
    told = read(
        [
            ["Ch", "Name", "Freq", "Understudy"],
            [1, text, 518.2, text],
            [2, text, 519.4, None],
            [3, "Ann Cole", text, None],
        ]
    )
    facts = {id: {k: v for k, v in one.items() if k != "notes"} for id, one in section(told).items()}
    assert facts == {"1": {"mhz": "518.2"}, "2": {"mhz": "519.4"}, "3": {"by": "Ann Cole"}} and told.findings == ()
    notes = [one.get("notes", "") for one in section(told).values()]
    says_so = text.strip() not in ("-", "\u2013", "--", "...", "___")  # a stroke alone is a blank cell
    open_cells = [f"{heading}: {text.strip()}" for heading in ("Name", "Name", "Freq")]
    assert notes == (open_cells if says_so else ["", "", ""])  # it stays to be seen that it is open


def test_marks_in_the_row_of_nobody_are_listed():
    told = read([["Ch", "Name", "Freq", "1.1", "1.2"], [1, "N.N.", 518.2, "x", None], [2, "Ann Cole", 519.4, "x", "x"]])
    (finding,) = told.findings
    assert finding.code == "cells-unknown" and finding.place.cell == "D2" and "names nobody" in finding.text
    assert section(told, "scenes")["1.1"]["live"] == ["Ann Cole"]
