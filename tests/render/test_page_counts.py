"""The codes of a sheet's pages without setting anything on them: those of its layout, and what two sheets may differ by."""

from dataclasses import replace

import pytest

from paperwork.pipeline import lay_out_papers
from paperwork.reading import read_show
from paperwork.render.layout import have_same_codes, lay_out, list_codes
from paperwork.sheets import SHEETS
from tests.few import few_of
from tests.metrics import load_metrics
from tests.shows_text import EXAMPLES


@pytest.fixture(scope="module")
def laid():
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    return lay_out_papers(SHEETS, reading.show, reading.findings)[0]


def codes(sheet):
    return tuple(page.code for page in lay_out(sheet, load_metrics()).pages)


@pytest.mark.parametrize("paper", few_of(("A3", "A4", "Letter", "Tabloid")))
def test_codes_are_those_of_the_layout_on_each_paper(laid, paper):
    for one in laid:
        sheet = replace(one.sheet, paper=paper)
        assert list_codes(sheet, load_metrics()) == codes(sheet), sheet.name


def test_sheets_of_two_revisions_that_are_said_to_have_the_same_codes_have_them(laid):
    """Most have: a revision is in the masthead. What it replaces is in the footer, and may make it taller."""
    alike = []
    for more in ("", ", ".join("ABCDEFGHIJKLMNOPQRSTUVWXYZ" * 12)):
        alike.append(0)
        for one in laid:
            replaces = one.sheet.replaces + more
            later = replace(one.sheet, revision="Preview 2", replaces=replaces, dated="2027-03-09")
            if have_same_codes(one.sheet, later, load_metrics()):
                alike[-1] += 1
                assert one.codes == list_codes(later, load_metrics()), one.sheet.name
    assert alike[0] > len(laid) * 3 // 4 and alike[0] > alike[1]


def test_another_word_is_another_sheet(laid):
    sheet = laid[0].sheet
    for other in ({"title": "X"}, {"venue": "X"}, {"cautions": ("X",)}, {"language": "de"}, {"at_venue": "X"}):
        assert not have_same_codes(sheet, replace(sheet, **other), load_metrics())


def test_cards_are_laid_anew_where_the_revision_on_them_may_leave_less_room(laid):
    sheet = next(one.sheet for one in laid if one.sheet.name == "pouch-cards")
    assert have_same_codes(sheet, replace(sheet, dated="2027-03-09"), load_metrics())
    assert not have_same_codes(sheet, replace(sheet, revision="Preview 2"), load_metrics())
