"""Names in other scripts: ordered, shaped, held in their boxes, told to a reader, and equal wherever they are printed."""

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2
import pytest
from bidi import get_display
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw, ImageFont

from paperwork.document import Labels
from paperwork.document.facts import payload
from paperwork.document.styles import HAND, RACK_ROLE, RACK_SMALL
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.boxes import Layout, Page, Room, TextBox
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.pdf.pdfa import Attachment
from paperwork.render.text.fitting import ELLIPSIS, fit, split_clusters, split_within
from paperwork.render.text.runs import levels_of, shape_text, split_runs
from paperwork.render.text.scripts import SCRIPT_FACES, open_script, region_of, shape_of
from paperwork.render.text.setting import set_line
from paperwork.sheets import SHEETS
from tests.metrics import load_metrics
from tests.render.proofs import check_layout
from tests.shows_text import EXAMPLES

SHOW = Path(__file__).parents[1] / "data" / "many_scripts.yaml"
METRICS = load_metrics()
NAMES = (
    "יעל בן דוד", "محمد (12) عبد الله", "مريم", "صلاح علاء", "नेहा श्रीवास्तव", "प्रद्युम्न शर्मा", "किरण", "สมชาย ใจดี",
    "น้ำผึ้ง ปู่ที่เก่ง", "陈小明", "山田 花子", "𠮷田 はなこ", "김민수", "關羽",
)  # fmt: skip
MIXED = ("Mic 12 יעל (A2)", "יעל (A2) 12", "محمد (12) Max [x]", "מריאן / TOM 3")
ALPHABET = "abA 12()[]-/.,יעלםשחمحدعبالري٣कनेहाश्रीน้ำผึ้งที่陈小明はなこ김민수𠮷"


def line_of(text, style=RACK_ROLE):
    """The text as one box on its own page, and the PDF of it."""
    fitted = fit(text, style, 150_000, METRICS)
    box = set_line(fitted.lines[0], fitted, Room(10_000, 0, 160_000, 40_000), 22_000, METRICS)
    return box, paint_pdf(Layout("x", "", (Page(180_000, 40_000, (box,)),), ()))


def pixels_of(pdf, scale=6):
    """Where the page is dark."""
    return np.asarray(pypdfium2.PdfDocument(pdf)[0].render(scale=scale).to_pil().convert("L")) < 128


def cropped(dark):
    """The dark part alone, at a common height."""
    rows, columns = np.where(dark.any(1))[0], np.where(dark.any(0))[0]
    part = dark[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    wide = round(part.shape[1] * 80 / part.shape[0])
    return np.asarray(Image.fromarray(part.astype("uint8") * 255).resize((wide, 80))) > 127


@given(st.text(alphabet="abיעل2 ()ح٣-,.[]/", min_size=1, max_size=24).map(str.strip).filter(bool))
def test_levels_give_the_order_that_the_library_shows(text):
    levels = levels_of(text)
    order = list(range(len(text)))
    for lowest in range(max(levels), 0, -1):
        start = 0
        while start < len(order):
            end = start
            while end < len(order) and levels[order[end]] >= lowest:
                end += 1
            order[start:end] = order[start:end][::-1]
            start = max(end, start + 1)
    assert "".join(text[at] for at in order) == get_display(text)


def test_a_mixed_name_is_ordered_by_its_first_strong_sign():
    assert [run for _, run, _ in split_runs("Mic 12 יעל (A2)", "text-bold")] == ["Mic 12 ", "יעל", " (A2)"]
    runs = [run for _, run, _ in split_runs("יעל (A2) 12", "text-bold")]
    assert runs[0] == "12" and runs[-1] == "יעל"


@pytest.mark.parametrize("name", NAMES)
def test_a_reader_copies_the_name_as_it_is_spoken(name):
    _, pdf = line_of(name)
    assert pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_range().strip() == name


def test_a_reader_copies_a_name_from_the_right_among_latin():
    _, pdf = line_of("Mic 12 יעל (A2)")
    read = pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_range()
    assert read.replace("\u200e", "").strip() == "Mic 12 יעל (A2)"


@pytest.mark.parametrize("style", [RACK_ROLE, HAND], ids=["bold", "regular"])
@pytest.mark.parametrize("name", [*NAMES, *MIXED, "שָׁלוֹם", "فاطِمة"])
def test_no_ink_leaves_its_box(name, style):
    box, pdf = line_of(name, style)
    rows, columns = np.where(pixels_of(pdf))
    um = 25_400 / 72 / 6
    assert columns.min() * um >= box.ink.x - um and (columns.max() + 1) * um <= box.ink.right + um
    assert rows.min() * um >= box.ink.y - um and (rows.max() + 1) * um <= box.ink.bottom + um


ENGINE = {
    "محمد عبد الله": ("fontpkg_ibm_plex_sans_arabic", "IBMPlexSansArabic-Bold.ttf"),
    "प्रद्युम्न": ("fontpkg_mukta", "Mukta-Bold.ttf"),
    "น้ำผึ้ง": ("fontpkg_sarabun", "Sarabun-Bold.ttf"),
}


@pytest.mark.parametrize("name", ENGINE)
def test_a_name_has_the_shape_that_another_engine_gives_it(name):
    """Pillow's own layout, with its own copies of HarfBuzz and FriBidi. Spaces differ in width, so words are compared."""
    package, file = ENGINE[name]
    path = Path(__import__(package).__file__).parent / "files" / file
    for word in name.split():
        font = ImageFont.truetype(str(path), 160, layout_engine=ImageFont.Layout.RAQM)
        drawn = Image.new("L", (1_600, 500))
        ImageDraw.Draw(drawn).text((150, 150), word, font=font, fill=255)
        theirs, ours = cropped(np.asarray(drawn) > 127), cropped(pixels_of(line_of(word)[1], 12))
        width = min(theirs.shape[1], ours.shape[1])
        assert abs(theirs.shape[1] - ours.shape[1]) <= 8, word
        theirs, ours = theirs[:, :width], ours[:, :width]
        assert (theirs & ours).sum() / (theirs | ours).sum() > 0.8, word


def test_bold_is_bold():
    for name in NAMES:
        regular, bold = (
            sum(_ink(piece) for piece in shape_text(name, face).pieces) for face in ("text-regular", "text-bold")
        )
        assert bold > regular * 1.15, name


def _ink(piece):
    """How dark a piece is on paper."""
    box = TextBox(
        5_000,
        30_000,
        piece.text,
        "text-bold" if piece.face.endswith("bold") else "text-regular",
        9_000,
        0,
        Room(0, 0, 0, 0),
        Room(0, 0, 0, 0),
    )
    return pixels_of(paint_pdf(Layout("x", "", (Page(180_000, 40_000, (box,)),), ()))).sum() if piece.glyphs else 0


@pytest.mark.parametrize(
    ("script", "letter", "wanted"),
    [("Hebrew", "ה", 850), ("Devanagari", "क", 850), ("Thai", "ก", 850), ("Arabic", "ا", 1_200)],
)
def test_letters_stand_at_their_height_beside_our_capitals(script, letter, wanted):
    font = open_script(f"{script} regular")
    top = shape_of(f"{script} regular", font.get_nominal_glyph(ord(letter))).bounds[3]
    assert top * SCRIPT_FACES[script].size / 688 == pytest.approx(wanted, rel=0.02)


def test_han_signs_take_the_forms_of_their_region():
    told = {
        "陈小明": "Simplified Chinese",
        "關羽": "Traditional Chinese",
        "桜井": "Japanese",
        "榊原": "Japanese",
        "김民": "Korean",
        "山田はな": "Japanese",
    }
    assert {text: region_of(text) for text in told} == told


@given(st.text(alphabet=ALPHABET, max_size=40), st.integers(12_000, 90_000))
def test_whole_texts_lose_no_sign_and_every_line_fits(text, width):
    fitted = fit(text, RACK_SMALL, width, METRICS)
    for line in fitted.lines:
        assert METRICS.width_um(line, fitted.face, fitted.cap_um) <= width
    if fitted.outcome == "whole":
        shown = "".join("".join(fitted.lines).split()).replace("\u200e", "").replace("\u200f", "")
        assert shown.replace("_", "") == "".join(text.split()) or "____" in shown
    else:
        assert any(line.endswith(ELLIPSIS) for line in fitted.lines)


def test_breaks_within_a_word_keep_vowels_marks_and_closing_signs():
    assert split_within("น้ำผึ้งเก่ง") == ["น้ำ", "ผึ้", "ง", "เก่", "ง"]
    assert split_within("「港の会館」、港") == ["「港", "の", "会", "館」、", "港"]
    assert split_within("محمد") == ["محمد"] and split_clusters("प्रद्यु") == ["प्र", "द्यु"]


def test_every_paper_of_a_show_in_all_scripts_is_sound():
    reading = read_show(SHOW, "many_scripts.yaml")
    assert reading.show is not None and not reading.findings
    for paper in SHEETS:
        for sheet in paper.make(reading.show):
            layout = lay_out(sheet, METRICS)
            check_layout(layout)
            for block in sheet.blocks:
                for label in block.labels if isinstance(block, Labels) else ():
                    assert payload(label, "C").isascii()


def test_bytes_depend_on_nothing_that_was_printed_before():
    reading = read_show(SHOW, "many_scripts.yaml")
    only = frozenset({"channel-chart"})
    first = make_papers(reading.show, reading.findings, only=only).files["rack/channel-chart.pdf"]
    line_of("김민수 صلاح")
    assert make_papers(reading.show, reading.findings, only=only).files["rack/channel-chart.pdf"] == first


def test_an_archived_page_embeds_every_face_with_its_letters():
    box, _ = line_of("صلاح 𠮷")
    pdf = paint_pdf(
        Layout("x", "", (Page(180_000, 40_000, (box,)),), ()),
        attachments=(Attachment("show.yaml", b"x", "text/plain", "the show"),),
    )
    fonts = [font.get_object() for font in pypdf.PdfReader(BytesIO(pdf)).pages[0]["/Resources"]["/Font"].values()]
    told = [font["/DescendantFonts"][0]["/FontDescriptor"] for font in fonts]
    kinds = sorted(key for one in told for key in one if key.startswith("/FontFile"))
    assert kinds == ["/FontFile2", "/FontFile2", "/FontFile3"], "of Latin, Arabic and Chinese"
    assert all("/CIDSet" in one for one in told) and all("/ToUnicode" in font for font in fonts)


def test_an_extra_changes_no_byte_of_a_show_that_needs_none(monkeypatch):
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    only = frozenset({"channel-chart", "pack-labels", "mic-plot"})
    first = make_papers(reading.show, reading.findings, only=only)
    monkeypatch.setattr("paperwork.text.glyphs.has_extra", lambda extra: False)
    for library in ("uharfbuzz", "bidi"):
        monkeypatch.setitem(sys.modules, library, None)
    assert make_papers(reading.show, reading.findings, only=only).files == first.files


def test_a_workbook_of_such_a_show_is_the_same_show(tmp_path):
    book = tmp_path / "many_scripts.xlsx"
    command = [sys.executable, "-m", "paperwork", "convert", str(SHOW), str(book)]
    subprocess.run(command, check=True, capture_output=True)
    assert read_show(book, "many_scripts.xlsx").show == read_show(SHOW, "many_scripts.yaml").show


def test_two_processes_with_other_hash_seeds_print_the_same_bytes(tmp_path):
    printed = []
    for seed in ("0", "4711"):
        command = [
            sys.executable,
            "-m",
            "paperwork",
            "build",
            str(SHOW),
            "-o",
            str(tmp_path / seed),
            "--only",
            "channel-chart,pack-labels",
        ]
        subprocess.run(command, check=True, capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed})
        printed.append([path.read_bytes() for path in sorted((tmp_path / seed).rglob("*.pdf"))])
    assert len(printed[0]) == 2 and printed[0] == printed[1]
