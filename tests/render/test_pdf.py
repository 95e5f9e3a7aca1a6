"""PDF: what is read back is what was said, and the same sheet gives the same bytes."""

import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from io import BytesIO

import pypdf
import pypdfium2
import pytest

from paperwork.document import RowGroup, cell, fact
from paperwork.document.styles import RACK_ROLE, RACK_SMALL
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import POINTS_PER_UM, paint_pdf
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts

METRICS = load_metrics()


def _pdf(sheet, **how) -> bytes:
    return paint_pdf(lay_out(sheet, METRICS), **how)


def _read(data: bytes) -> str:
    return " ".join("\n".join(page.extract_text() for page in pypdf.PdfReader(BytesIO(data)).pages).split())


def _sheet_with(*names: str):
    table = samples.chart(6).blocks[0]
    rows = tuple(
        replace(
            samples.chart_row(i, "R1", i),
            cells=(samples.chart_row(i, "R1", i).cells[0], (cell(fact(name, RACK_ROLE), fact(name, RACK_SMALL)),),
                   *samples.chart_row(i, "R1", i).cells[2:]),
        )
        for i, name in enumerate(names)
    )  # fmt: skip
    return samples.chart(6, blocks=(replace(table, groups=(RowGroup(rows, "Rack"),)),))


NAMES = ("Nguyễn Thị Ánh", "Ελένη Παππά", "Юрий Їжак", "Łukasz Żółcik", "Þórður Ólafs", "ẤỘ Ứng")


def test_names_read_back_from_the_page_are_the_names_put_in():
    found = _read(_pdf(_sheet_with(*NAMES)))
    for name in NAMES:
        assert found.count(name) == 2
    assert "\u25a0" not in found and "\x00" not in found


def test_a_second_reader_agrees_on_every_text():
    layout = lay_out(samples.chart(18), METRICS)
    document = pypdfium2.PdfDocument(paint_pdf(layout))
    read = "".join("".join(page.get_textpage().get_text_bounded().split()) for page in document)
    read = read.replace("\ufffe", "").replace("\x02", "").replace("-", "")  # a hyphen at a line's end is joined there
    for text in all_texts(layout):
        assert "".join(text.text.split()).replace("-", "") in read


HOSTILE = (
    "R&D <b>x</b>",
    "a < b > c",
    "Tom\x00 & \x07Jerry\x1b[31m",
    "(brackets) \\ and %",
    "VERA\u202eARVE",
    "</table>",
)


def test_markup_brackets_and_control_characters_are_only_text():
    found = _read(_pdf(_sheet_with(*HOSTILE)))
    for shown in ("R&D <b>x</b>", "a < b > c", "Tom & Jerry[31m", "(brackets) \\ and %", "VERAARVE", "</table>"):
        assert shown in found


def test_every_font_is_embedded_as_a_subset():
    reader = pypdf.PdfReader(BytesIO(_pdf(samples.chart(18))))
    fonts = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    assert fonts
    for font in fonts:
        assert font["/BaseFont"][7] == "+"
        assert "/FontFile2" in font["/DescendantFonts"][0]["/FontDescriptor"]


def test_date_title_and_subject_are_the_sheets_own_and_nobody_is_anonymous():
    data = _pdf(samples.chart(3), made="2027-03-02T17:40:00")
    info = pypdf.PdfReader(BytesIO(data)).metadata
    assert (info.title, info.subject, info["/CreationDate"]) == (
        "Glass Ferry, revision C: Channel chart",
        "Glass Ferry",
        "D:20270302174000Z",
    )
    assert not info.author and b"anonymous" not in data


def test_pages_are_as_large_as_the_paper_and_carry_labels():
    reader = pypdf.PdfReader(BytesIO(_pdf(samples.chart(18))))
    assert reader.page_labels == ["1", "2"]
    box = reader.pages[0].mediabox
    assert abs(float(box.width) - 210_000 * POINTS_PER_UM) < 0.01
    assert abs(float(box.height) - 297_000 * POINTS_PER_UM) < 0.01


def test_label_sheets_ask_to_be_printed_at_actual_size_and_charts_do_not():
    root = pypdf.PdfReader(BytesIO(_pdf(samples.labels()))).trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    plain = pypdf.PdfReader(BytesIO(_pdf(samples.chart(3)))).trailer["/Root"]
    assert "/PrintScaling" not in plain["/ViewerPreferences"]


def test_labels_are_placed_to_a_hundredth_of_a_millimetre():
    layout = lay_out(samples.labels(count=1), METRICS)
    page = pypdfium2.PdfDocument(paint_pdf(layout))[0]
    number = next(text for text in all_texts(layout) if text.text == "01")
    found = page.get_textpage().search("01").get_next()
    left, bottom, _, _ = page.get_textpage().get_charbox(found[0], loose=True)
    assert abs(left / POINTS_PER_UM - number.x) < 10
    assert abs(297_000 - bottom / POINTS_PER_UM - number.y) < number.cap_um


def test_everything_is_black_or_white():
    page = pypdfium2.PdfDocument(_pdf(samples.chart(12, doubts=(samples.doubt("02"),))))[0]
    pixels = page.render(scale=1).to_pil().convert("RGB").get_flattened_data()
    assert all(red == green == blue for red, green, blue in set(pixels))


def test_an_earlier_document_leaves_no_trace_in_a_later_one():
    alone = _pdf(samples.patch(3))
    _pdf(_sheet_with(*NAMES))
    assert _pdf(samples.patch(3)) == alone


SCRIPT = """
import hashlib
from tests.metrics import load_metrics
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from tests.render import samples
for sheet in (samples.chart(18), samples.patch(3), samples.labels()):
    print(hashlib.sha256(paint_pdf(lay_out(sheet, load_metrics()), "2027-03-02")).hexdigest())
"""


@pytest.mark.parametrize(
    "setting",
    [
        {"PYTHONHASHSEED": "12345", "TZ": "Pacific/Auckland", "LC_ALL": "tr_TR.UTF-8"},
        {"PYTHONHASHSEED": "0", "TZ": "America/Halifax", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "86400"},
    ],
)
def test_another_process_zone_locale_and_hash_seed_give_the_same_bytes(setting):
    here = [
        hashlib.sha256(_pdf(sheet, made="2027-03-02")).hexdigest()
        for sheet in (samples.chart(18), samples.patch(3), samples.labels())
    ]
    environment = {**os.environ, **setting, "PYTHONPATH": os.pathsep.join(sys.path)}
    ran = subprocess.run([sys.executable, "-c", SCRIPT], env=environment, capture_output=True, text=True, check=True)
    assert ran.stdout.split() == here
