"""Whole lists as people keep them: what each becomes is written out beside it, and its frequencies are read by another reader."""

import re
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
import yaml

from paperwork.intake.source import read_source
from paperwork.reading import read_show
from paperwork.sheets import SHEETS
from tests.intake.sheets import plain
from tests.sheet_texts import texts_of

LISTS = Path(__file__).parent / "lists"
NAMES = sorted(path.name.removesuffix(".expected.yaml") for path in LISTS.glob("*.expected.yaml"))
ANSWERS = {
    "w01_theatre.xlsx": "mark: {O: idle}\n",
    "w04_corporate.csv": "day: {04/11/2026: 2026-11-04}\n",
    "w06_deutsch.xlsx": "mark: {(x): worn}\n",
}
"""What its owner says where nothing may be taken without asking."""

PAPERS = {
    "w01_theatre.xlsx": {
        "patch-sheet",
        "input-list",
        "receiver-strips",
        "battery-plan",
        "mic-plot",
        "spare-cards",
        "contact-strip",
    },
    "w02_school.xlsx": {"patch-sheet", "input-list", "receiver-strips", "mic-plot", "swap-sheets"},
    "w04_corporate.csv": {"patch-sheet", "input-list", "mic-plot", "swap-sheets"},
    "w06_deutsch.xlsx": {"patch-sheet", "input-list", "receiver-strips", "mic-plot", "spare-cards", "contact-strip"},
    "w10_transposed.xlsx": {"mic-plot", "who-is-live", "spare-cards"},
    "w11_packs.xlsx": {"patch-sheet", "input-list", "placement-notes", "pouch-cards"},
}
"""What the facts of each list are printed on, beside the papers that every show has."""

NEVER = {
    "w02_school.xlsx": {"battery-plan"},
    "w06_deutsch.xlsx": {"battery-plan"},
    "w10_transposed.xlsx": {"patch-sheet", "input-list"},
}
"""Papers whose facts a list has not: the state of a battery is not what feeds a pack."""

ON_PAPER = {
    "w01_theatre.xlsx": {
        "patch-sheet": ("FOH 13", "MON 17", "R4.4"),
        "battery-plan": ("2xAA",),
        "programming-checklist": ("-6 dB", "BP05"),
    },
    "w02_school.xlsx": {"patch-sheet": ("FOH 12", "Box 3.4")},
    "w04_corporate.csv": {"patch-sheet": ("FOH 2", "FOH 10")},
    "w06_deutsch.xlsx": {"patch-sheet": ("FOH 25", "MON 8"), "programming-checklist": ("-10 dB", "TS08")},
    "w11_packs.xlsx": {
        "patch-sheet": ("FOH 34",),
        "input-list": ("Stage box A5", "Stage box B2"),
        "placement-notes": ("hairline",),
    },
}
"""Facts of the lists as their papers say them, read from the workbooks by a person."""


@pytest.mark.parametrize("name", NAMES)
def test_a_whole_list_becomes_the_show_that_is_written_beside_it(name):
    understanding = read_source(LISTS / name, name).understanding
    expected = yaml.load((LISTS / f"{name}.expected.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    got = plain(understanding.raw)
    assert got == expected
    assert list(got.get("scenes", {})) == list(expected.get("scenes", {}))


@pytest.mark.parametrize("name", NAMES)
def test_a_whole_list_asks_at_most_three_questions_and_accounts_for_every_cell(name):
    understanding = read_source(LISTS / name, name).understanding
    assert len(understanding.questions) <= 3
    assert sum(understanding.account.values()) == understanding.cells and "lost" not in understanding.account


@pytest.mark.parametrize("name", [name for name in NAMES if name.endswith(".xlsx")])
def test_every_frequency_of_a_workbook_is_on_a_channel(name):
    book = openpyxl.load_workbook(LISTS / name)
    cells = (c.value for sheet in book if sheet.title != "OLD" for row in sheet.iter_rows() for c in row)
    texts = [str(value).replace(",", ".") for value in cells if value is not None]
    written = {Decimal(text) for text in texts if re.fullmatch(r"[4-6][0-9]{2}\.[0-9]+", text)}
    channels = plain(read_source(LISTS / name, name).understanding.raw)["channels"]
    assert {Decimal(one["mhz"].replace(",", ".")) for one in channels.values() if one.get("mhz")} == written


@pytest.mark.parametrize("name", NAMES)
def test_the_papers_of_an_answered_list_show_every_channel_and_all_that_it_says_of_gear(name, tmp_path):
    (tmp_path / name).write_bytes((LISTS / name).read_bytes())
    (tmp_path / f"{name}.answers.yaml").write_text(ANSWERS.get(name, "{}\n"), encoding="utf-8")
    show = read_show(tmp_path / name, name).show
    papers = {paper.name: paper.make(show) for paper in SHEETS}
    texts = {paper: {text for sheet in sheets for text in texts_of(sheet)} for paper, sheets in papers.items()}
    assert set(show.channels) <= texts["channel-chart"]
    printed = {paper for paper, sheets in papers.items() if sheets}
    assert printed >= PAPERS[name] and not printed & NEVER.get(name, set())
    for paper, facts in ON_PAPER.get(name, {}).items():
        said = " | ".join(sorted(texts[paper]))
        assert all(fact in said for fact in facts), (paper, facts, said)
