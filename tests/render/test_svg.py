"""Pictures of pages: well-formed, without any of the show's text as markup, every letter where the layout put it."""

import re
from xml.etree import ElementTree

import pytest

from paperwork.render.boxes import Fill, Hatch, Page, Room, TextBox
from paperwork.render.pdf.outlines import outline_of
from paperwork.render.pdf.svg import paint_svg
from paperwork.render.text.faces import FACES, open_face

SVG = "{http://www.w3.org/2000/svg}"
NOWHERE = Room(0, 0, 1, 1)
SIGNS = "AgÅ1.,ệŁŻ'Ωж 0"


def text_box(text: str, **more) -> TextBox:
    return TextBox(1_000, 9_000, text, "text-bold", 4_000, 2_000, NOWHERE, NOWHERE, **more)


def parse(*boxes, title="A page") -> ElementTree.Element:
    return ElementTree.fromstring(paint_svg(Page(50_000, 30_000, boxes), title))


def corners_of(path: str) -> tuple[float, float, float, float]:
    """The box around a path's points, control points included, walked command by command."""
    xs, ys, x, y = [], [], 0, 0
    for command, told in re.findall(r"([Mlqz])([^Mlqz]*)", path):
        numbers = list(map(int, re.findall(r"-?\d+", told)))
        pairs = list(zip(numbers[::2], numbers[1::2], strict=True))
        for dx, dy in pairs:
            xs.append(dx if command == "M" else x + dx)
            ys.append(dy if command == "M" else y + dy)
        if pairs:
            x, y = xs[-1], ys[-1]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("sign", [sign for sign in SIGNS if sign != " "])
def test_an_outline_fills_the_box_that_the_face_states_for_its_letter(face, sign):
    """The face's own table tells each letter's box (glyf header), which the outline does not read."""
    opened = open_face(face)
    glyph = opened.charToGlyph.get(ord(sign))
    if glyph is None:
        assert face.startswith("figures")
        return
    start = opened.glyphPos[glyph]
    header = opened.get_table("glyf")[start + 2 : start + 10]
    stated = [int.from_bytes(header[i : i + 2], "big", signed=True) for i in range(0, 8, 2)]
    assert corners_of(outline_of(face, sign)) == pytest.approx(stated, abs=2)


def test_a_space_has_no_outline_and_keeps_its_width():
    first, second = parse(text_box("A A")).findall(f"{SVG}g/{SVG}use")
    widths = open_face("text-bold").charWidths
    assert first.get("x") is None and int(second.get("x")) == round(widths[65]) + round(widths[32])


HOSTILE = ("<script>alert(1)</script>", "]]>", "&lt;", "\x00\x1b\ud800", "\"'<g/>", "</svg><script/>")


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_letters_and_a_title_and_nothing_else(text):
    tree = parse(text_box(text.replace("\ud800", "")), title=text)
    assert {element.tag for element in tree.iter()} <= {
        SVG + name for name in ("svg", "title", "defs", "path", "g", "use")
    }
    assert (tree.find(f"{SVG}title").text or "") == "".join(sign for sign in text if sign >= " " and sign != "\ud800")
    assert not any(name.startswith("on") for element in tree.iter() for name in element.attrib)


def test_every_letter_that_is_used_is_defined_once():
    tree = parse(text_box("BANANA"), text_box("BAND", turned=True, white=True))
    ids = [path.get("id") for path in tree.findall(f"{SVG}defs/{SVG}path")]
    used = {use.get("href") for use in tree.iter(f"{SVG}use")}
    assert len(ids) == len(set(ids)) == 4 and used == {f"#{id}" for id in ids}


def test_a_hatch_stays_inside_of_its_rectangle():
    path = parse(Hatch(2_000, 3_000, 7_000, 4_000, 900, 100)).findall(f"{SVG}path")[-1].get("d")
    points = [tuple(map(int, pair.split())) for pair in re.findall(r"-?\d+ -?\d+", path)]
    assert points and all(2_000 <= x <= 9_000 and 3_000 <= y <= 7_000 for x, y in points)


def test_equal_pages_give_equal_bytes_and_no_link_leaves_the_file():
    page = Page(50_000, 30_000, (Fill(0, 0, 5, 5), text_box("VERA")))
    assert paint_svg(page, "x") == paint_svg(page, "x")
    assert re.findall(rb'(?:href|src)="([^#])', paint_svg(page, "x")) == []
