"""The change list of the example, after five changes as they happen: who acts, what is printed again, what stays."""

from dataclasses import replace
from pathlib import Path

import pytest

from paperwork.document import Note, Table
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.revisions import Side, compare_revisions
from paperwork.sheets.change_sheet import Revisions, make_sheets
from tests.few import few_of
from tests.metrics import load_metrics
from tests.render.proofs import check_layout
from tests.shows_text import EXAMPLES

SHOW = (EXAMPLES / "show.yaml").read_text(encoding="utf-8")
NEXT = (("revision: C", "revision: D"), ("revisions: [A, B]", "revisions: [A, B, C]"))

PACKS, LABELS, PATCH, WARDROBE, COORDINATOR = (
    "Set these packs",
    "New labels and cards: old ones off, new ones on",
    "Patch and desks",
    "Let wardrobe and the wearer know",
    "Let the frequency coordinator know",
)

WORKED = {
    "a stranger on a frequency": (
        (("mhz: 474.750", "mhz: 474.875"),),
        [PACKS, LABELS, COORDINATOR],
        {"Channel chart", "Spectrum", "Frequency request", "Pack labels"},
        {"Mic plot: people by scene", "Contacts"},
    ),
    "somebody is ill": (
        (("Leif Holm", "Marta Vell"),),
        [LABELS, WARDROBE],
        {"Channel chart", "Dressing list", "Pack labels"},
        {"Spectrum", "Frequency request"},
    ),
    "a scene is cut": (
        (("  s05: {act: Act one, name: 1.5 The market", "  s05: {act: Act one, name: 1.5 The empty market"),),
        ["For information"],
        {"Who is live"},
        {"Channel chart", "Patch sheet"},
    ),
    "the show moves": (
        (("venue: Corn Exchange, Brindle Quay", "venue: Long Room, Saltmarsh"),),
        [COORDINATOR, "For information"],
        {"Frequency request", "Channel chart", "Battery plan", "Incident log"},
        set(),
    ),
    "a pack is exchanged": (
        (("LT-2149", "LT-3001"), ("sits: inner pocket", "sits: small of back")),
        [PACKS, LABELS, WARDROBE],
        {"Inventory and hire return"},
        {"Channel chart", "Spectrum"},
    ),
}
"""By hand: the bars in their order, papers that must be printed again, and papers that must stay."""


@pytest.fixture(scope="module")
def old() -> Side:
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    side = Side(reading.show, reading.findings, "old")
    return replace(side, recorded=side.prints)  # laid out once


def change_list(old: Side, folder: Path, edits):
    text = SHOW
    for was, now in (*NEXT, *edits):
        assert was in text, was
        text = text.replace(was, now)
    path = folder / "new.yaml"
    path.write_text(text, encoding="utf-8")
    (folder / "sweep.csv").write_bytes((EXAMPLES / "sweep.csv").read_bytes())
    reading = read_show(path, "new.yaml")
    found = compare_revisions(old, Side(reading.show, reading.findings, "new"))
    (sheet,) = make_sheets(reading.show, Revisions("C", found.entries, found.reprint))
    return sheet


@pytest.mark.parametrize("name", few_of(WORKED, 2))
def test_a_change_says_who_acts_first_and_what_becomes_of_each_paper(old, tmp_path, name):
    edits, bars, again, stay = WORKED[name]
    sheet = change_list(old, tmp_path, edits)
    acts, papers = (block for block in sheet.blocks if isinstance(block, Table))
    assert [group.title for group in acts.groups] == bars
    rows = {row.cells[0][0].items[0].text: row for group in papers.groups for row in group.rows}
    assert again <= set(rows)
    for row in rows.values():
        came, gone = (parts[0].items for parts in row.cells[1:])
        assert came or gone, "a paper in the table is printed or destroyed"
    (kept,) = [block.text for block in sheet.blocks if isinstance(block, Note)]
    assert kept.startswith("Still valid, of revision C: ")
    for title in stay:
        assert f"{title} " in kept and title not in rows


@pytest.mark.parametrize("name", few_of(WORKED, 2))
def test_a_change_is_on_one_page_and_a_move_to_another_house_on_two_with_nothing_cut(old, tmp_path, name):
    layout = lay_out(change_list(old, tmp_path, WORKED[name][0]), load_metrics())
    check_layout(layout)
    assert len(layout.pages) == (2 if name == "the show moves" else 1) and layout.findings == ()


def test_a_scene_that_went_is_told_whole_however_many_were_in_it(old, tmp_path):
    scene = next(line for line in SHOW.splitlines(keepends=True) if line.startswith("  s14:"))
    sheet = change_list(
        old, tmp_path, ((scene, ""), ("scenes: [s10, s11, s14]", "scenes: [s10, s11]"), ("scene: s14", "scene: s13"))
    )
    assert lay_out(sheet, load_metrics()).findings == ()
    told = [item.text for group in sheet.blocks[0].groups for row in group.rows for item in row.cells[1][0].items]
    assert any("ELSPETH" in text and "STRANGER" in text for text in told)
