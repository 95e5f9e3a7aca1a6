"""Every paper of the example, on every size: measured, whole, and no text outside its room or under its floor."""

from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from pypdf import PdfReader

from paperwork.document import Labels
from paperwork.document.facts import code
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.sheets import SHEETS
from paperwork.text.words import LANGUAGES
from tests.few import few_of
from tests.metrics import load_metrics
from tests.render.proofs import check_layout, shown_everywhere
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

SIZES = ("A4", "A3", "Letter", "Tabloid")


FESTIVAL = Path(__file__).parent / "data" / "festival.yaml"
OF_A_BILL = ("frequency-timetable", "change-overs", "advance-form")
"""Papers that the example has none of: a festival has."""


@cache
def read_for(name: str):
    path = FESTIVAL if name in OF_A_BILL else EXAMPLES / "show.yaml"
    return read_show(path, path.name).show


def sheets_of(size: str, name: str):
    show = read_for(name)
    show = replace(show, production=replace(show.production, paper=size))
    return next(paper for paper in SHEETS if paper.name == name).make(show)


@cache
def laid(size: str, name: str):
    """The sheets of a paper, each with its layout."""
    return [(sheet, lay_out(sheet, load_metrics())) for sheet in sheets_of(size, name)]


@pytest.mark.parametrize("size", few_of(SIZES, 2))
@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_every_box_is_in_its_room_and_at_or_above_its_floor(size, name):
    assert laid(size, name)
    for sheet, layout in laid(size, name):
        check_layout(layout)
        if not isinstance(sheet.blocks[0], Labels):
            shown_everywhere(sheet, layout)
        assert not any(finding.severity == "error" for finding in layout.findings)


@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_on_the_shows_own_paper_nothing_is_abbreviated(name):
    for _, layout in laid("A4", name):
        assert layout.findings == ()


@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_a_paper_says_nothing_of_places_in_the_code(name):
    for sheet in sheets_of("A4", name):
        for text in texts_of(sheet):
            assert "None" not in text and "{" not in text and "Slot(" not in text


@pytest.mark.parametrize("language", few_of(LANGUAGES, 2))
@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_the_code_of_a_paper_does_not_depend_on_its_language(name, language):
    show = read_for(name)
    other = replace(show, production=replace(show.production, language=language))
    make = next(paper for paper in SHEETS if paper.name == name).make
    assert [code(sheet) for sheet in make(other)] == [code(sheet) for sheet in make(show)]


CUT_OUT = ("receiver-strips", "pouch-cards", "mic-table-squares", "spare-cards")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", CUT_OUT)
def test_what_is_cut_to_size_asks_for_its_own_size_and_has_a_ruler_on_every_page(size, name):
    for _, layout in laid(size, name):
        pdf = paint_pdf(layout)
        printed = PdfReader(BytesIO(pdf))
        assert printed.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
        for page in pypdfium2.PdfDocument(pdf):
            foot = 9 / 25.4 * 72
            low = [one.get_bounds() for one in page.get_objects() if one.type == pdfium.FPDF_PAGEOBJ_PATH]
            spans = [right - left for left, bottom, right, top in low if top < foot]
            assert abs(max(spans) / 72 * 25.4 - 100) < 0.5 and len(spans) == 12
            assert "100 mm" in page.get_textpage().get_text_bounded(top=foot)


def test_only_what_is_cut_to_size_asks_for_its_own_size():
    asking = {paper.name for paper in SHEETS for _, layout in laid("A4", paper.name) if not layout.scaling}
    assert asking == {*CUT_OUT, "desk-strips", "pack-labels"}
