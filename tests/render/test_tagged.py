"""PDF for everybody: what is read out is all that the sheet says, once, in order, and each part says what it is."""

from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from paperwork.document import Labels, RowGroup, Sheet, SpectrumWindow, Table, cell
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.boxes import CLOSE, Layout, Open, Page, TextBox
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.sheets import SHEETS
from paperwork.text.glyphs import is_scripted
from tests.big_shows import big_show
from tests.metrics import load_metrics
from tests.render import samples
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES, reading_of
from tests.tagged import Tagged, check_tagged

pytestmark = pytest.mark.usefixtures("every_shortfall_is_named")
METRICS = load_metrics()
SCRIPTS = Path(__file__).parents[1] / "data" / "many_scripts.yaml"
BLOCKS = frozenset(
    ("spectrum", "antenna-plan", "who-is-live", "mic-plot", "pouch-cards", "receiver-strips", "patch-sheet")
)
"""Papers of the example that have a block of every kind between them."""

SMALL = """
show: {title: Glass, revision: B}
racks: {R1: {channels: 01-02, analogue 1: FOH 1-2}}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: 486.250}
"""
MARKS = "\u200e\u200f\u2068\u2069\u0e32\u0e33\u0e49"
"""Signs that show nothing; and the Thai am, its second half and its tone, since beside a name from the right such a
text has only the names of its glyphs, and a glyph has one name."""


def signs(text: str) -> list[str]:
    """The signs of a text without its order: where letters stand from the right, a file holds them as the eye sees them."""
    return sorted("".join(text.split()))


def check_sheet(sheet: Sheet) -> Tagged:
    """The sheet as a tagged PDF: every text of its boxes is read out or furniture, every word of its value is read out."""
    layout = lay_out(sheet, METRICS)
    document = check_tagged(paint_pdf(layout))
    for number, page in enumerate(layout.pages):
        shown = "".join(box.text for box in page.boxes if isinstance(box, TextBox)).strip(MARKS)
        said = "".join(one.text for one in document.said if one.page == number)
        read = [sign for sign in signs(said + document.furniture[number]) if sign not in MARKS]
        assert read == [sign for sign in signs(shown) if sign not in MARKS], (sheet.name, number)
    if isinstance(sheet.blocks[0], Labels) or any(isinstance(block, SpectrumWindow) for block in sheet.blocks):
        return document
    told, whole = " ".join(finding.text for finding in layout.findings), "".join(document.text.split())
    for text in texts_of(replace(sheet, returns="", replaces="")):
        for word in text.split():
            blank = not word.strip("0.:_")
            assert blank or is_scripted(text) or word in whole or word in told, (sheet.name, word)
    return document


def test_a_chart_is_a_heading_and_a_table_that_goes_on_over_pages():
    document = check_sheet(samples.chart(18))
    paths = [one.path[1:] for one in document.said]
    assert paths[0] == ("H1",) and document.said[0].text == "Channel chart"
    tables = [element for element in document.elements if element["/S"] == "/Table"]
    heads = [one for one in document.said if one.path[-1] == "TH"]
    assert len(tables) == 1 and len(document.reader.pages) == 2
    assert [one.text for one in heads][:3] == ["Channel", "Role, on tonight", "Frequency, MHz"]
    assert [one.text[-2:] for one in heads if one.text[-2:].isdigit()] == [f"{number:02d}" for number in range(1, 19)]
    assert document.text.count("Channel chart") == 1 and "Channel chart" in document.furniture[1]
    assert document.text.count("Role, on tonight") == 1


def test_the_foot_is_read_last_and_a_rows_sign_with_its_first_cell():
    document = check_sheet(samples.chart(18))
    assert document.said[-1].text.startswith("Pen changes")
    assert next(one for one in document.said if "new" in one.text.split()).text.split() == ["new", "06"]


def test_a_pair_on_one_connector_is_a_cell_of_two_rows():
    document = check_sheet(samples.patch())
    spans = [element["/A"]["/RowSpan"] for element in document.elements if "/RowSpan" in element.get("/A", {})]
    assert spans == [2, 2, 2]


def test_what_is_unresolved_is_read_before_the_rows_of_all_pages():
    document = check_sheet(samples.chart(18, doubts=(samples.doubt("01"), samples.doubt("14"))))
    stamps = [place for place, one in enumerate(document.said) if "frequency refused" in one.text]
    rows = [place for place, one in enumerate(document.said) if "TR" in one.path]
    assert len(stamps) == 2 and max(stamps) < min(rows)


def test_each_label_is_an_item_whose_code_says_what_it_holds():
    document = check_sheet(samples.labels(count=3))
    codes = [str(element["/Alt"]) for element in document.elements if element["/S"] == "/Figure"]
    assert len(codes) == 6 and all(code.startswith("QR: 0") for code in codes)


def test_a_page_that_is_printed_alone_has_heading_and_heads_too():
    layout = lay_out(samples.chart(18), METRICS)
    document = check_tagged(paint_pdf(replace(layout, pages=layout.pages[1:], numbers=(2,))))
    assert document.said[0].text == "Channel chart" and "Role, on tonight" in document.text
    assert document.reader.page_labels == ["2"]


def test_a_document_says_its_language_and_shows_whose_it_is():
    document = check_sheet(replace(samples.chart(3), language="fr"))
    assert (
        document.root["/Lang"] == "fr"
        and document.reader.metadata.title == "Glass Ferry, révision C\u202f: Channel chart"
    )


def test_a_cell_without_words_is_one_with_those_beside_it():
    row, table = samples.chart_row(0, "R1", 1), samples.chart(6).blocks[0]
    assert isinstance(table, Table)
    blank = replace(row, cells=(*row.cells[:2], *((cell(),) for _ in row.cells[2:])))
    document = check_sheet(samples.chart(6, blocks=(replace(table, groups=(RowGroup((blank,)),)),)))
    assert [element["/A"]["/ColSpan"] for element in document.elements if "/ColSpan" in element.get("/A", {})] == [4]


def test_what_stands_in_no_part_is_a_paragraph_and_a_link_to_nowhere_none():
    box = lay_out(samples.chart(1), METRICS).pages[0].boxes[1]
    assert isinstance(box, TextBox)
    page = Page(210_000, 297_000, (box, Open("H1"), Open("Link", link="nowhere"), box, CLOSE, CLOSE))
    document = Tagged(paint_pdf(Layout("Alone", "", (page,), ())))
    assert [one.path for one in document.said] == [("Document", "P"), ("Document", "H1")]


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    reading = reading_of(SMALL, tmp_path_factory.mktemp("book"))
    return make_papers(reading.show, reading.findings, only=frozenset({"show-book"})).files["production/show-book.pdf"]


def test_the_contents_and_findings_of_the_book_lead_to_their_pages(book):
    document = check_tagged(book)
    reader = document.reader
    places = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}
    links = [
        (number, note.get_object()["/Contents"], places[note.get_object()["/Dest"][0].idnum])
        for number, page in enumerate(reader.pages)
        for note in page.get("/Annots", ())
    ]
    pages = [text for number, text, target in links if number == 1 and text.isdigit() and int(text) == target + 1]
    assert len(pages) > 5
    for number, text, target in links:
        if number == 1 and not text.isdigit():
            titles = [one.text for one in document.said if one.page == target and one.path[-1] == "H1"]
            assert any(text.startswith(title) or text in title for title in titles), (text, titles)
    assert any(number > 1 for number, _, _ in links), "a finding leads to a page that shows what it is about"
    assert reader.page_labels == [str(number) for number in range(1, len(reader.pages) + 1)]


def test_every_paper_of_the_book_is_a_section_with_a_heading(book):
    sections = [one.path for one in check_tagged(book).said if one.path[:3] == ("Document", "Sect", "H1")]
    titles = [str(mark["/Title"]) for mark in pypdf.PdfReader(BytesIO(book)).outline if not isinstance(mark, list)]
    assert len(titles) - len(sections) <= 2, "only label sheets have no heading"


def test_a_block_of_every_kind_is_read_out_whole():
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    read = [check_sheet(sheet) for paper in SHEETS if paper.name in BLOCKS for sheet in paper.make(show)[:1]]
    kinds = {element["/S"] for document in read for element in document.elements}
    assert len(read) == 7 and kinds >= {"/Table", "/TH", "/TD", "/L", "/Lbl", "/Figure", "/H1", "/H2", "/Sect"}


@pytest.mark.sweep
@pytest.mark.parametrize("seed", range(0, 200, 5))
def test_every_paper_of_a_random_show_is_read_out_whole(seed):
    """Each fifth show, and of it each fourth paper: 40 shows in all scripts, every paper on ten of them."""
    show = big_show(seed)
    assert [check_sheet(sheet) for paper in SHEETS[seed // 5 % 4 :: 4] for sheet in paper.make(show)]


@pytest.mark.sweep
def test_names_in_every_script_are_read_out_whole():
    show = read_show(SCRIPTS, SCRIPTS.name).show
    assert [check_sheet(sheet) for paper in SHEETS for sheet in paper.make(show)]
