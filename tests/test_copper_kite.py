"""A musical of 26, said wholly: without a finding, and on every paper what it says."""

from pathlib import Path

import pytest

from paperwork.reading import read_show
from paperwork.sheets import SHEETS
from tests.sheet_texts import texts_of

SHOW = Path(__file__).parent / "data" / "copper-kite.yaml"


@pytest.fixture(scope="module")
def reading():
    return read_show(SHOW, "copper-kite.yaml")


@pytest.fixture(scope="module")
def said(reading):
    return {
        paper.name: [text for sheet in paper.make(reading.show) for text in texts_of(sheet)]
        for paper in SHEETS
        if paper.name != "show-book"
    }


def test_it_has_no_finding(reading):
    assert [finding.text for finding in reading.findings] == []


@pytest.mark.parametrize("name", ("thu evening", "sat matinee", "sat evening"))
def test_no_performance_has_one(name):
    staged = read_show(SHOW, "copper-kite.yaml", on=name)
    assert [finding.text for finding in staged.findings] == []
    lead = staged.show.roles["VERA"].by
    assert lead == ("Mina Farouk" if name == "sat matinee" else "Isla Byrne")


def test_the_leads_share_a_backup_and_both_packs_of_each_have_one_tape(said):
    assert said["programming-checklist"].count("backup 515.600") == 2
    assert any("01\u202f515.600" in text and "02\u202f515.600" in text for text in said["spare-cards"])
    assert said["channel-chart"].count("RD red") == 2 and said["channel-chart"].count("BE blue") == 2


def test_a_group_is_named_once_and_meant_everywhere(reading):
    fire = next(scene for scene in reading.show.scenes if scene.name == "Fire")
    assert len(fire.live) == 18 and "TWIN 1" in fire.live
    assert [cover.role for cover in reading.show.covers if cover.by == "Nell Frost"] == [
        "GRACE",
        "ENS 1",
        "MAUD",
        "LAMP",
    ]


def test_desks_cables_contacts_and_hired_gear_are_on_their_papers(said):
    assert {"VERA", "TOM B", "1–8", "25–32"} <= set(said["desk-strips"])
    assert "Cables:  1 × 3 m,  1 × 25 m,  1 × 40 m,  5 × 2 m" in said["antenna-plan"]
    assert "07700 900112" in said["contact-strip"] and "Goes back 13 June 2027: Farlight" in said["inventory"]
