"""Every paper of the example, on every size: measured, whole, and no text outside its room or under its floor."""

from dataclasses import replace
from io import BytesIO

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from pypdf import PdfReader

from paperwork.document import Labels
from paperwork.document.facts import code
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from paperwork.text.words import LANGUAGES
from tests.render.proofs import check_layout, shown_everywhere
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES

SIZES = ("A4", "A3", "Letter", "Tabloid")


def sheets_of(size: str, name: str):
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    show = replace(show, production=replace(show.production, paper=size))
    return next(paper for paper in SHEETS if paper.name == name).make(show)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_every_box_is_in_its_room_and_at_or_above_its_floor(size, name):
    sheets = sheets_of(size, name)
    assert sheets
    for sheet in sheets:
        layout = lay_out(sheet, Metrics())
        check_layout(layout)
        if not isinstance(sheet.blocks[0], Labels):
            shown_everywhere(sheet, layout)
        assert not any(finding.severity == "error" for finding in layout.findings)


@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_on_the_shows_own_paper_nothing_is_abbreviated(name):
    for sheet in sheets_of("A4", name):
        assert lay_out(sheet, Metrics()).findings == ()


@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_a_paper_says_nothing_of_places_in_the_code(name):
    for sheet in sheets_of("A4", name):
        for text in texts_of(sheet):
            assert "None" not in text and "{" not in text and "Slot(" not in text


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", [paper.name for paper in SHEETS])
def test_the_code_of_a_paper_does_not_depend_on_its_language(name, language):
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    other = replace(show, production=replace(show.production, language=language))
    make = next(paper for paper in SHEETS if paper.name == name).make
    assert [code(sheet) for sheet in make(other)] == [code(sheet) for sheet in make(show)]


CUT_OUT = ("receiver-strips", "pouch-cards", "mic-table-squares", "spare-cards")


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", CUT_OUT)
def test_what_is_cut_to_size_asks_for_its_own_size_and_has_a_ruler_on_every_page(size, name):
    for sheet in sheets_of(size, name):
        printed = PdfReader(BytesIO(paint_pdf(lay_out(sheet, Metrics()))))
        assert printed.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
        for page in pypdfium2.PdfDocument(paint_pdf(lay_out(sheet, Metrics()))):
            foot = 9 / 25.4 * 72
            low = [one.get_bounds() for one in page.get_objects() if one.type == pdfium.FPDF_PAGEOBJ_PATH]
            spans = [right - left for left, bottom, right, top in low if top < foot]
            assert abs(max(spans) / 72 * 25.4 - 100) < 0.5 and len(spans) == 12
            assert "100 mm" in page.get_textpage().get_text_bounded(top=foot)


def test_only_what_is_cut_to_size_asks_for_its_own_size():
    asking = {p.name for p in SHEETS for sheet in sheets_of("A4", p.name) if not lay_out(sheet, Metrics()).scaling}
    assert asking == {*CUT_OUT, "pack-labels", "in-ear-labels"}
