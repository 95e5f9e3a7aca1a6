"""The faces: heights and widths are the files' own, and the bounds of ink hold for every sign."""

import struct

import pytest

from paperwork.document.styles import RACK_FREQUENCY, RACK_ROLE
from paperwork.render.text.faces import FACES, em_um, face_for, ink_of, open_face
from paperwork.text.glyphs import missing_glyphs
from tests.metrics import load_metrics


def _outline(face, point: int) -> tuple[int, int] | None:
    """Top and bottom of a glyph from the font's own glyf and loca tables (OpenType specification)."""
    glyph = face.charToGlyph[point]
    long = struct.unpack_from(">h", face.get_table("head"), 50)[0]
    loca = face.get_table("loca")
    if long:
        start, end = struct.unpack_from(">LL", loca, glyph * 4)
    else:
        start, end = (2 * offset for offset in struct.unpack_from(">HH", loca, glyph * 2))
    if start == end:
        return None
    bottom, _, top = struct.unpack_from(">hhh", face.get_table("glyf"), start + 4)
    return top, bottom


@pytest.mark.parametrize("name", FACES)
def test_cap_height_is_the_one_in_the_face(name):
    os2 = open_face(name).get_table("OS/2")
    assert struct.unpack_from(">h", os2, 88)[0] == FACES[name].cap
    assert struct.unpack_from(">H", open_face(name).get_table("head"), 18)[0] == 1000


@pytest.mark.parametrize("name", FACES)
def test_no_sign_reaches_past_the_bounds_of_its_ink(name):
    face = open_face(name)
    for point in face.charToGlyph:
        sign = chr(point)
        if point < 33 or missing_glyphs(sign) or (FACES[name].figures and not sign.isascii()):
            continue
        outline = _outline(face, point)
        if outline:
            up, down = ink_of(sign)
            assert outline[0] <= up and -outline[1] <= down, (sign, outline, (up, down))


@pytest.mark.parametrize("name", [name for name in FACES if FACES[name].figures])
def test_figures_share_one_width(name):
    assert len({load_metrics().units(figure, name) for figure in "0123456789"}) == 1


def test_width_is_the_sum_of_the_advances_scaled_to_the_capital():
    metrics = load_metrics()
    face = open_face("text-bold")
    units = sum(face.charWidths[ord(sign)] for sign in "VERA")
    assert metrics.units("VERA", "text-bold") == units
    assert metrics.width_um("VERA", "text-bold", 6_930) == units * 10
    assert em_um("text-bold", 6_930) == 10_000


def test_numbers_take_the_figures_face_only_where_it_has_every_sign():
    assert face_for(RACK_FREQUENCY, "486.200") == "figures-semibold"
    assert face_for(RACK_FREQUENCY, "Ж7") == "text-semibold"
    assert face_for(RACK_ROLE, "486.200") == "text-bold"


def test_embedding_is_allowed():
    for name in FACES:
        assert struct.unpack_from(">H", open_face(name).get_table("OS/2"), 8)[0] == 0
