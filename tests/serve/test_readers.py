"""The papers of one reader: their view, one PDF of them, a part of one, and what a frame of the page may hold."""

import io
import re

import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp

from tests.few import few_of
from tests.serve.asgi import ask
from tests.serve.test_edit import Page
from tests.shows_text import EXAMPLES
from tests.tagged import check_tagged


@pytest.fixture(scope="module")
def page(tmp_path_factory) -> Page:
    page = Page(tmp_path_factory.mktemp("readers"), (EXAMPLES / "show.yaml").read_bytes())
    page.opened.dropped["sweep.csv"] = (EXAMPLES / "sweep.csv").read_bytes()
    page.opened.read()
    page.opened.print()
    return page


def get(page: Page, path: str):
    return ask(page.app, f"/secret/shows/show1/{path}")


def test_a_paper_that_is_kept_has_the_show_and_its_revision_in_its_name(page):
    answer = get(page, "papers/rack/channel-chart.pdf")
    named = answer.headers["content-disposition"]
    assert named.startswith("inline; filename*=UTF-8''The-Lantern-Tide-rev-") and named.endswith("-channel-chart.pdf")
    title = pypdf.PdfReader(io.BytesIO(answer.body)).metadata.title
    assert title.startswith("The Lantern Tide, revision ") and title.endswith(": Channel chart")


@pytest.mark.parametrize("reader", few_of(("wardrobe", "rack", "production")))
def test_one_pdf_holds_every_page_of_a_readers_papers_but_labels_and_the_book(page, reader):
    answer = get(page, f"reader/{reader}.pdf")
    assert answer.headers["content-type"] == "application/pdf" and "Lantern" in answer.headers["content-disposition"]
    joined = pypdf.PdfReader(io.BytesIO(answer.body))
    own = [
        one for one in page.opened.papers.printed if one.folder == reader and not one.tags and "book" not in one.path
    ]
    assert [item.title for item in joined.outline] == [one.title for one in own]
    pages = [text for one in own for text in texts_of(page.opened.papers.files[one.path])]
    assert texts_of(answer.body) == pages
    said = [one.text for name in own for one in check_tagged(page.opened.papers.files[name.path]).said]
    assert [one.text for one in check_tagged(answer.body).said] == said, "read out as each of the papers is"
    assert get(page, f"reader/{reader}.pdf").body == answer.body


def texts_of(data: bytes) -> list[str]:
    return [one.extract_text() for one in pypdf.PdfReader(io.BytesIO(data)).pages]


def test_a_readers_view_has_their_papers_first_and_no_others(page):
    body = get(page, "for/wardrobe").body.decode()
    papers = set(re.findall(r"papers/([a-z]+)/[a-z-]+\.pdf", body))
    assert papers == {"wardrobe"}
    assert body.index("Papers for wardrobe") < body.index('id="findings"')
    assert get(page, "for/nobody").status == 404 and get(page, "reader/nobody.pdf").status == 404


def test_only_a_pdf_may_be_held_in_a_frame_and_only_by_the_page(page):
    pdf, shown = get(page, "papers/rack/channel-chart.pdf"), get(page, "for/rack")
    assert pdf.headers["x-frame-options"] == "SAMEORIGIN"
    assert pdf.headers["content-security-policy"] == "frame-ancestors 'self'"
    assert shown.headers["x-frame-options"] == "DENY"


def test_before_there_are_papers_there_is_no_pdf_of_them(tmp_path):
    assert get(Page(tmp_path), "reader/rack.pdf").status == 404


def test_the_file_for_a_telephone_is_the_commands_byte_for_byte(page, tmp_path):
    from paperwork.pocket import make_pocket

    answer = get(page, "pocket/wardrobe.html")
    name, data = make_pocket(page.opened.reading.show, page.opened.reading.findings, "wardrobe")
    assert (
        answer.body == data and answer.headers["content-disposition"].startswith("attachment") and name in str(answer)
    )
    assert get(page, "pocket/nobody.html").status == 404


def numbers_on(data: bytes) -> list[str]:
    """The number that each code on a sheet of labels says, read from pixels."""
    grey = np.asarray(pypdfium2.PdfDocument(data)[0].render(scale=300 / 72, grayscale=True).to_pil())
    codes = zxingcpp.read_barcodes(grey, formats=zxingcpp.BarcodeFormat.QRCodeModel2)
    return sorted(code.text.partition(":")[0] for code in codes)


def test_one_label_and_those_of_some_channels_are_had_from_the_page(page):
    one = get(page, "part/pack-labels.pdf?channels=5&copies=1")
    assert one.headers["content-type"] == "application/pdf" and numbers_on(one.body) == ["05"]
    assert numbers_on(get(page, "part?paper=pack-labels&channels=05,11&racks=&copies=").body) == [
        "05",
        "05",
        "11",
        "11",
    ]
    assert get(page, "edit/card/05").body and b'"label":"05"' in get(page, "edit/card/05").body.replace(b" ", b"")


def test_both_sides_of_the_swaps_come_as_one_file(page):
    texts = texts_of(get(page, "part?paper=swap-sheets&channels=01-32").body)
    assert {text.split(",")[0] for text in texts} == {"Swaps"} and len(texts) > 1


def test_of_the_patch_those_pages_come_that_show_a_rack_and_the_page_offers_each_paper(page):
    assert all("R2" in text for text in texts_of(get(page, "part?paper=patch-sheet&racks=R2").body))
    offered = re.search(
        r'<select class="narrow" id="part-paper".*?</select>', get(page, "").body.decode(), re.DOTALL
    ).group()
    names = re.findall(r'value="([a-z-]+)"', offered)
    assert names[0] == "pack-labels" and "pouch-cards" in names and "swap-sheets" in names and "show-book" not in names


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("part/pack-labels.pdf?channels=99", "the show has no channel 99"),
        ("part/pack-labels.pdf", "Give channels or racks"),
        ("part/pack-labels.pdf?channels=05&copies=x", "x is not a number of copies"),
        ("part/show-book.pdf?channels=05", "There is no paper show-book"),
        ("part/spare-cards.pdf?channels=05", "Nothing of that is on spare-cards"),
    ],
)
def test_what_is_no_part_is_said(page, path, said):
    answer = get(page, path)
    assert answer.status == 404 and said in answer.body.decode()
