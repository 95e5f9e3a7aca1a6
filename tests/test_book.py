"""The show book, read back: every paper is in it, the contents lead to them, and each page has its number."""

import re
from io import BytesIO

import pypdf
import pytest

from paperwork import limits
from paperwork.output import Spool
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.pdf.pdfa import Attachment
from paperwork.sheets.book import BookVolume, make_cover, make_unresolved
from tests.pdf_text import read_pages
from tests.sheet_texts import texts_of
from tests.shows_text import EXAMPLES, reading_of

SMALL = """
show: {title: Glass, revision: B, revisions: [A], contact: Sound}
racks: {R1: {channels: 01-02, analogue 1: FOH 1-2}}
channels:
  01: {role: VERA, by: Mara Lind, mhz: 486.200}
  02: {role: TOM, by: Ben Arlo, mhz: %s}
"""


@pytest.fixture(scope="module")
def papers():
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    return make_papers(reading.show, reading.findings, folders=frozenset({"production"}))


@pytest.fixture(scope="module")
def book(papers):
    return pypdf.PdfReader(BytesIO(papers.files["production/show-book.pdf"]))


@pytest.fixture(scope="module")
def pages(papers):
    return read_pages(papers.files["production/show-book.pdf"])


def contents(pages) -> dict[str, tuple[str, int]]:
    """The lines of the contents: code to title and page."""
    text = "\n".join(page for page in pages[1:4] if "Contents" in page)
    found = re.findall(r"([^\n]+?)\s+([2-9A-Z]{4})\s+(\d+)\b", text)
    return {code: (title.strip(), int(page)) for title, code, page in found}


def test_the_book_is_made_with_a_folder_of_its_own_though_it_holds_all(papers):
    assert all(path.startswith(("production/", "pictures/production", "index.html")) for path in papers.files)


def test_the_cover_says_what_the_book_is_of(pages):
    for fact in (
        "The Lantern Tide",
        "Saltmarsh Players",
        "Corn Exchange, Brindle Quay",
        "BQ-0417",
        "channels: 28, spares: 4",
        "Capsules changed",
        "nothing unresolved",
    ):
        assert fact in pages[0]


def test_each_page_has_its_number_in_the_book(pages):
    for number, page in enumerate(pages, 1):
        assert f"book page {number} of {len(pages)}" in page


def test_the_contents_lead_to_the_page_that_carries_the_code(pages, book):
    listed = [(mark.title, book.get_destination_page_number(mark)) for mark in book.outline]
    assert [title for title, _ in listed[:2]] == ["The Lantern Tide", "Contents"]
    assert len(listed) > 25
    by_page = {page: code for code, (_, page) in contents(pages).items()}
    for title, index in listed[2:]:
        code = by_page[index + 1]
        assert code in pages[index], title
        before = pages[index - 1] if index > 2 else ""
        assert code not in before, "the first page of the paper, no later one"


def test_every_paper_of_the_example_is_in_it(pages):
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    rack = make_papers(
        reading.show, reading.findings, only=frozenset({"channel-chart", "battery-plan", "pack-labels", "line-check"})
    )
    listed = contents(pages)
    for paper in rack.printed:
        assert listed[paper.codes[0]][0] == paper.title


def test_cautions_are_together_and_each_once_with_the_papers_that_carry_it(pages):
    told = " ".join(pages[-1].split())
    assert told.count("Phantom off before patching") == 1 and told.count("A clean plan is not a licence") == 1
    assert "Patch sheet · Input list · Line check" in told
    assert "Nothing is unresolved" in pages[-2]


def test_the_books_own_pages_carry_no_caution_of_a_paper_and_ask_for_no_pen(pages):
    for page in (*pages[:2], pages[-2]):
        assert "Phantom" not in page and "not a permission: use" not in page and "Pen changes" not in page


def test_the_contents_of_a_whole_show_stand_on_one_page(pages):
    assert "Contents" in pages[1] and "Contents" not in pages[2]
    assert len(contents(pages)) >= 30


def test_the_cover_names_what_the_pdf_carries_and_only_then():
    show = read_show(EXAMPLES / "show.yaml", "show.yaml").show
    told = [texts for texts in texts_of(make_cover(show, carried=("show.yaml", "sweep.csv"))) if "sweep.csv" in texts]
    assert len(told) == 1 and "show.yaml and sweep.csv" in told[0]
    assert not any("carries" in text for text in texts_of(make_cover(show)))


def test_errors_stand_before_warnings_whatever_their_lines(tmp_path):
    text = "show: {title: Gala, licensed for: A, venue: B}\nradios: {r: {tunes: 480-490, step: 25 kHz}}\nchannels:\n  1: {by: Ann, mhz: 495.000}\n"
    reading = reading_of(text, tmp_path)
    sheet = make_unresolved(reading.show, reading.findings, ())
    severities = [finding.severity for finding in reading.findings]
    assert "warning" in severities and severities.index("warning") < severities.index("error")
    (table,) = sheet.blocks
    assert [(group.title, group.note) for group in table.groups] == [
        ("Errors", str(severities.count("error"))),
        ("Warnings", str(severities.count("warning"))),
    ]
    assert sum(len(group.rows) for group in table.groups) == len(severities)


def test_what_is_unresolved_stands_in_the_book(tmp_path):
    reading = reading_of(SMALL % "488.2 / 489.1", tmp_path)
    book = make_papers(reading.show, reading.findings, only=frozenset({"show-book"}))
    assert set(book.files) >= {"production/show-book.pdf"} and not any(path.startswith("rack/") for path in book.files)
    text = " ".join(" ".join(read_pages(book.files["production/show-book.pdf"])).split())
    assert "frequency-unreadable" in text and "NOT CONFIRMED: ch " in text
    assert "Frequency request: radio types Frequency reply: granted frequencies" in text, (
        "papers that lack their facts are said to"
    )
    assert "Errors 1" in text and "errors: 1, warnings: 0" in text


def test_the_same_show_gives_the_same_book(tmp_path):
    reading = reading_of(SMALL % "488.200", tmp_path)
    first, second = (make_papers(reading.show, reading.findings, only=frozenset({"show-book"})) for _ in range(2))
    assert first.files == second.files


def test_blank_forms_come_when_asked_for(tmp_path):
    reading = reading_of("show: {title: Gala}\nchannels: {1: {by: Imke Vos, mhz: 486.2}}\n", tmp_path)
    plain = make_papers(reading.show, reading.findings)
    blank = make_papers(reading.show, reading.findings, blank=True)
    forms = {paper.path for paper in blank.printed} - {paper.path for paper in plain.printed}
    assert "blank/blank-battery-plan.pdf" in forms and "blank/blank-contact-strip.pdf" in forms and len(forms) > 10
    for path in forms:
        text = read_pages(blank.files[path])[0]
        assert "Gala" in text and "Imke" not in text


def test_the_cover_of_each_volume_says_in_which_the_unresolved_is(tmp_path):
    reading = reading_of(SMALL % "486.200", tmp_path)
    for number in (1, 2, 3):
        sheet = make_cover(reading.show, reading.findings, volume=BookVolume(number, 3, ""))
        told = " ".join(texts_of(sheet))
        assert ("see: Unresolved, Volume 3 / 3" in told) == (number < 3) and "see: Unresolved" in told


def test_a_long_show_has_its_book_in_volumes_that_hold_every_paper_once(monkeypatch):
    monkeypatch.setattr(limits, "VOLUME_PAGES", 30)
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    spool = Spool()
    papers = make_papers(
        reading.show, (), attached=(Attachment("show.yaml", b"x", "text/plain", "the show"),), files=spool
    )
    books = [one for one in papers.printed if "show-book" in one.path]
    count = len(books)
    assert [one.path for one in books] == [
        f"production/show-book{n}.pdf" for n in ("", *(f"-{n}" for n in range(2, count + 1)))
    ]
    assert count > 2 and len({one.codes[0] for one in books}) == count and papers.files is spool
    inside, titles = "", []
    for number, one in enumerate(books, 1):
        pages = read_pages(spool[one.path])
        assert (
            len(pages) <= 36
            and f"Volume {number} / {count}" in pages[0]
            and one.title == f"Show book {number} / {count}"
        )
        assert f"book page {len(pages)} of {len(pages)}" in pages[-1]
        assert ("show.yaml" in pypdf.PdfReader(BytesIO(spool[one.path])).attachments) == (number == 1)
        inside += "\n".join(pages[2:])
        titles += contents(pages)
    assert "Nothing is unresolved" in pages[-2] and "Phantom off" in pages[-1]
    own = [one for one in papers.printed if "show-book" not in one.path]
    assert set(titles) >= {one.codes[0] for one in own} and len(titles) == len(set(titles))
    assert all(inside.count(code) >= 1 for one in own for code in one.codes)
