"""The PDF that lasts: attachments come back byte for byte, metadata agree, and readers outside the project accept it."""

import re
from io import BytesIO

import pypdf
import pypdfium2
import pytest

from paperwork.render.layout import lay_out
from paperwork.render.pdf.icc import make_srgb
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.pdf.pdfa import Attachment, archive_canvas
from paperwork.render.text.measuring import Metrics
from tests.render import samples

SHOW = "show: {title: Ünïcode}\n".encode() * 40
FILES = (
    Attachment("show.yaml", SHOW, "application/yaml", "the show file"),
    Attachment("sweeps/böse.csv", bytes(range(256)) * 9, "text/csv", "a sweep", "Data"),
)


@pytest.fixture(scope="module")
def layout():
    return lay_out(samples.chart(18), Metrics())


@pytest.fixture(scope="module")
def book(layout):
    return paint_pdf(layout, "2027-03-02 17:40", attachments=FILES, keywords="facts 7F3A")


def test_both_readers_get_the_attachments_byte_for_byte(book):
    held = {name: data for name, (data,) in pypdf.PdfReader(BytesIO(book)).attachments.items()}
    assert held == {file.name: file.data for file in FILES}
    document = pypdfium2.PdfDocument(book)
    others = [document.get_attachment(number) for number in range(document.count_attachments())]
    assert {one.get_name(): bytes(one.get_data()) for one in others} == held


def test_attachments_are_associated_with_the_document_and_say_what_they_are(book):
    root = pypdf.PdfReader(BytesIO(book)).trailer["/Root"]
    told = [(spec["/UF"], spec["/AFRelationship"], spec["/Desc"]) for spec in (one.get_object() for one in root["/AF"])]
    assert told == [("show.yaml", "/Source", "the show file"), ("sweeps/böse.csv", "/Data", "a sweep")]


def test_metadata_say_the_same_as_the_information(book):
    reader = pypdf.PdfReader(BytesIO(book))
    info, xmp = reader.metadata, reader.xmp_metadata
    assert (info.title, info.subject, info["/Keywords"]) == (
        xmp.dc_title["x-default"],
        xmp.dc_description["x-default"],
        xmp.pdf_keywords,
    )
    assert info.creation_date == xmp.xmp_create_date.replace(tzinfo=info.creation_date.tzinfo)
    text = reader.trailer["/Root"]["/Metadata"].get_data().decode()
    assert "<pdfaid:part>3</pdfaid:part>" in text and "<pdfaid:conformance>B</pdfaid:conformance>" in text


def test_every_stream_ends_on_a_line_and_tells_its_true_length(book):
    """ISO 19005-1:2005, 6.1.7, read off the bytes."""
    found = 0
    for match in re.finditer(rb"/Length (\d+)(?:(?!endobj).)*?>>\nstream\n", book, re.DOTALL):
        end = match.end() + int(match[1])
        assert book[end : end + 12] == b"\r\nendstream\n"
        found += 1
    assert found == book.count(b"\r\nendstream\n") == book.count(b"endstream\n") > 6


def test_no_font_is_left_out_and_no_form_of_it_needs_a_password(book):
    reader = pypdf.PdfReader(BytesIO(book))
    assert not reader.is_encrypted and reader.trailer["/ID"][0]
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            assert "/FontFile2" in font["/DescendantFonts"][0]["/FontDescriptor"]


def test_pages_look_as_they_do_without_attachments(layout, book):
    plain = pypdf.PdfReader(BytesIO(paint_pdf(layout, "2027-03-02 17:40")))
    assert [page.extract_text() for page in pypdf.PdfReader(BytesIO(book)).pages] == [
        p.extract_text() for p in plain.pages
    ]


def test_same_input_same_bytes_and_no_trace_in_the_next_document(layout, book):
    plain = paint_pdf(layout, "2027-03-02 17:40")
    assert paint_pdf(layout, "2027-03-02 17:40", attachments=FILES, keywords="facts 7F3A") == book
    assert paint_pdf(layout, "2027-03-02 17:40") == plain and b"EmbeddedFile" not in plain


def test_two_attachments_of_one_name_are_refused(layout):
    with pytest.raises(ValueError, match="names of their own"):
        paint_pdf(layout, attachments=(FILES[0], FILES[0]))


def test_the_profile_is_whole_and_its_curve_is_that_of_srgb():
    profile = make_srgb()
    assert int.from_bytes(profile[:4], "big") == len(profile) and profile[36:40] == b"acsp"
    start = profile.index(b"curv") + 12
    middle = int.from_bytes(profile[start + 2 * 128 : start + 2 * 128 + 2], "big") / 65_535
    assert middle == pytest.approx(0.2158605, abs=1e-4), "level 128 of 255, IEC 61966-2-1 formula worked by hand"


def test_part_one_takes_no_attachments():
    with pytest.raises(ValueError, match="PDF/A-3"):
        archive_canvas(None, FILES, "2027-03-02", part=1)
