"""Letters: each sign has one code in every document, and the part of a face that a document carries draws it as the face does."""

from dataclasses import replace
from functools import cache
from io import BytesIO

import pypdf
import pypdfium2
import pytest
import uharfbuzz as hb

from paperwork.pipeline.laid import lay_out_papers
from paperwork.reading import read_show
from paperwork.render.book import BookPart, bind
from paperwork.render.boxes import Layout, Page, Room, TextBox
from paperwork.render.pdf.drawing import draw_pages, ink_pages
from paperwork.render.pdf.lettering import _subset
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.text.faces import FACES, open_face, read_face
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from tests.shows_text import EXAMPLES


def _outline(face: hb.Face, glyph: int) -> tuple[list[object], int]:
    drawn: list[object] = []
    font, funcs = hb.Font(face), hb.DrawFuncs()
    for kind in ("move_to", "line_to", "quadratic_to", "close_path"):
        getattr(funcs, f"set_{kind}_func")(lambda *at, kind=kind: drawn.append((kind, *at[:-1])))
    font.draw_glyph(glyph, funcs, None)
    return drawn, font.get_glyph_h_advance(glyph)


@pytest.mark.parametrize("name", FACES)
@pytest.mark.parametrize("part", [1, 3])
def test_a_part_of_a_face_draws_every_letter_as_the_face_does(name, part):
    glyphs = sorted(set(open_face(name).charToGlyph.values()))[::part]
    program, numbers = _subset(name, glyphs)
    some, whole = hb.Face(program), hb.Face(read_face(name))
    assert set(numbers) >= {0, *glyphs} and some.glyph_count == len(numbers)
    for glyph, number in numbers.items():
        assert _outline(some, number) == _outline(whole, glyph)


@pytest.mark.parametrize("name", FACES)
def test_every_sign_of_a_face_is_copied_as_itself(name):
    points = [
        point for point in open_face(name).charToGlyph if 0x20 < point < 0xD800 and point not in (0x7F, 0xA0, 0xAD)
    ]
    text = "".join(map(chr, points))
    room = Room(0, 0, 0, 0)
    box = TextBox(1_000, 20_000, text, name, 1_000, 1_000, room, room)
    pdf = paint_pdf(Layout("x", "", (Page(200_000, 40_000, (box,)),), ()))
    assert pypdf.PdfReader(BytesIO(pdf)).pages[0].extract_text().replace("\n", "") == text


@cache
def _bound() -> tuple[Layout, Layout]:
    """The papers of the example as a book: as they are laid out, and with what was drawn of each for its paper."""
    reading = read_show(EXAMPLES / "show.yaml", "show.yaml")
    laid = lay_out_papers(SHEETS, reading.show, reading.findings)[0]
    bare = [one.layout for one in laid]
    inked = [ink_pages(layout, draw_pages(layout)) for layout in bare]
    assert all(inked is not bare for inked, bare in zip(inked, bare, strict=True))
    return tuple(
        bind([BookPart(one.title, one) for one in some], "Book", "{n} of {m}", Metrics())[0] for some in (bare, inked)
    )


def test_a_book_of_pages_that_were_drawn_for_their_papers_is_the_book_that_is_drawn_whole():
    bare, inked = _bound()
    assert paint_pdf(bare) == paint_pdf(inked)


def test_its_pages_look_as_in_their_papers_but_for_their_number():
    bare, _ = _bound()
    flat = replace(bare, pages=tuple(replace(page, boxes=tuple(page.boxes)) for page in bare.pages))
    for one, other in zip(*(pypdfium2.PdfDocument(paint_pdf(layout)) for layout in (bare, flat)), strict=True):
        assert (one.render(scale=1).to_numpy() == other.render(scale=1).to_numpy()).all()
        assert one.get_textpage().get_text_bounded() == other.get_textpage().get_text_bounded()
