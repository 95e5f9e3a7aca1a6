"""The faces of scripts inside a PDF: their used glyphs as a composite font, and texts drawn from them.

Imported only for a document that needs it. Each document gets its own subset, made by HarfBuzz from the file and pinned
to its weight, so nothing that an earlier document did can be seen in it. Glyphs are addressed by their place in the
subset (ISO 32000-2:2020, 9.7.4: Identity-H).

A name that is copied out of the paper must be the name, in the order of speech. Readers put text from the right to the
left back into that order themselves, sign by sign, so such glyphs stand in the order of the eye, a ligature's letters
too. Where glyphs of one direction are shuffled against their letters, as in Thai and Devanagari, the whole text is given
beside them (ActualText, 14.9.4); readers turn that round for the other direction, so it has none.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

import uharfbuzz as hb

from paperwork.render.boxes import TextBox
from paperwork.render.pdf.lettering import FONT_NAMES, SYMBOLIC, Composite, add_composite, encode_text, name_subset
from paperwork.render.text.faces import em_um
from paperwork.render.text.runs import LEFT_MARK, Piece, is_right, shape_text, without_marks
from paperwork.render.text.scripts import WEIGHTS, face_row, open_file, open_script

_LEFT_OUT = ("BASE", "GDEF", "GPOS", "GSUB", "OS/2", "STAT", "VORG", "cmap", "gasp", "name", "post", "vhea", "vmtx")
"""Tables that a font inside a PDF does not need (9.9)."""

_SHUFFLED = ("Devanagari", "Thai")
"""Scripts with marks and vowels that are drawn in another order than they are spoken, or off the line."""

_GAP = 70
"""Thousandths of the em: a reader that was tried takes 75 and more between two letters for a space."""

JOINER = "\u034f"
"""A sign that shows nothing and changes nothing (Unicode, 23.2), where a glyph is none by itself."""


class Embedded(NamedTuple):
    """A face in a document: its name in the resources, and by glyph its code there, its width and what it says."""

    face: str
    name: str
    codes: Mapping[int, int]
    widths: Mapping[int, int]
    texts: Mapping[int, str]
    blank: int
    """The glyph of a space, which is set for nothing but a mark of direction."""

    program: hb.Face


def choose_glyphs(boxes: Iterable[TextBox]) -> dict[str, Embedded]:
    """Every face that the texts need, with just the glyphs that they use."""
    used: dict[str, dict[int, str]] = {}
    for box in boxes:
        pieces = shape_text(box.text, box.face).pieces
        for piece, marks in zip(pieces, _marks_of(box.text, pieces), strict=True):
            texts = used.setdefault(piece.face, {}) if piece.glyphs else {}
            if any(marks):
                texts[_blank_of(piece.face)] = LEFT_MARK
            for glyph in piece.glyphs:
                texts[glyph.id] = texts.get(glyph.id) or (glyph.text[::-1] if piece.to_left else glyph.text)
    return {face: _choose(f"S{number}", face, used[face]) for number, face in enumerate(sorted(used), 1)}


def _choose(name: str, face: str, texts: Mapping[int, str]) -> Embedded:
    program, codes = _subset(face, sorted(texts))
    font = open_script(face)
    widths = {glyph: font.get_glyph_h_advance(glyph) for glyph in codes}
    return Embedded(face, name, codes, widths, texts, _blank_of(face), program)


def _blank_of(face: str) -> int:
    return open_script(face).get_nominal_glyph(0x20) or 0


def _sign_of(face: str, glyph: int) -> str:
    """The sign that a glyph is by itself, for one that stands beside another of its letter, as the second half of a Thai am:
    what is shown must have a name (ISO 14289-1:2014, 7.21.7). The whole text is given beside it."""
    font = open_script(face)
    return next(
        (chr(sign) for sign in sorted(open_file(face).unicodes) if font.get_nominal_glyph(sign) == glyph), JOINER
    )


def embed_script(document: Any, chosen: Embedded) -> None:
    """Puts the face into the document."""
    face, codes, program = chosen.face, chosen.codes, chosen.program
    is_cff = "CFF " in program.table_tags
    data = program.reference_table("CFF ").data if is_cff else program.blob.data
    extents = open_script(face).get_font_extents("ltr")
    head = program.reference_table("head").data
    upem, count = program.upem, program.glyph_count
    bounds = (int.from_bytes(head[at : at + 2], "big", signed=True) * 1000 // upem for at in range(36, 44, 2))
    present = bytearray((count + 7) // 8)
    for code in range(count):
        present[code // 8] |= 0x80 >> code % 8
    font = Composite(
        name_subset(face.replace(" ", ""), (face, sorted(chosen.texts))),
        "CIDFontType0" if is_cff else "CIDFontType2",
        "FontFile3" if is_cff else "FontFile2",
        data,
        "/Subtype/CIDFontType0C" if is_cff else f"/Length1 {len(data)}",
        f"/Flags {SYMBOLIC}/FontBBox[{' '.join(map(str, bounds))}]/ItalicAngle 0/Ascent {extents.ascender}"
        f"/Descent {extents.descender}/CapHeight {extents.ascender}/StemV 80",
        {code: chosen.widths[glyph] for glyph, code in codes.items()},
        {codes[glyph]: text or _sign_of(face, glyph) for glyph, text in chosen.texts.items()},
        1_000,
        bytes(present),
    )
    add_composite(document, chosen.name, font)


def _subset(face: str, glyphs: list[int]) -> tuple[hb.Face, dict[int, int]]:
    """The face with just these glyphs at its weight, numbered anew, and their numbers in it."""
    whole = open_file(face)
    wish = hb.SubsetInput()
    wish.glyph_set.update(glyphs)
    wish.drop_table_tag_set.update(map(hb_tag, _LEFT_OUT))
    wish.flags = (
        hb.SubsetFlags.NO_HINTING
        | hb.SubsetFlags.NO_LAYOUT_CLOSURE
        | hb.SubsetFlags.DESUBROUTINIZE
        | hb.SubsetFlags.DOWNGRADE_CFF2
        | hb.SubsetFlags.CFF_IDENTITY_CHARSET
    )
    if whole.has_var_data:
        wish.pin_axis_location(whole, "wght", WEIGHTS[face_row(face)[1]])
    plan = hb.SubsetPlan(whole, wish)
    codes = dict(plan.old_to_new_glyph_mapping.items())
    return plan.execute(), {old: codes[old] for old in sorted(codes)}


def hb_tag(name: str) -> int:
    """A table's name as the number that HarfBuzz knows it by."""
    return int.from_bytes(name.encode("ascii"), "big")


def draw_scripted(box: TextBox, height: int, fonts: Mapping[str, Embedded]) -> str:
    """The operators of one text, in whole micrometres, and the text that it stands for where the glyphs do not show it."""
    em = em_um(box.face, box.cap_um)
    pieces = shape_text(box.text, box.face).pieces
    parts = ["1 g" if box.white else "0 g"]
    for piece, marks in zip(pieces, _marks_of(box.text, pieces), strict=True):
        along = piece.x * em // 1000
        x, y = (box.x, box.y - along) if box.turned else (box.x + along, box.y)
        parts.append(f"BT {'0 1 -1 0' if box.turned else '1 0 0 1'} {x} {height - y} Tm")
        if piece.glyphs:
            parts += _draw_glyphs(piece, fonts[piece.face], em * piece.size / 1000, marks)
        else:
            parts += _draw_plain(piece, em)
        parts.append("ET")
    said = _said(box.text, pieces)
    return " ".join([f"/Span <</ActualText <FEFF{_hex(said)}>>> BDC", *parts, "EMC"] if said else parts)


def list_plain(box: TextBox) -> Iterator[tuple[str, str]]:
    """Of a text the pieces in plain faces, each with its face."""
    return ((piece.face, piece.text) for piece in shape_text(box.text, box.face).pieces if not piece.glyphs)


def _said(text: str, pieces: tuple[Piece, ...]) -> str:
    """What the whole text says, where its glyphs do not. Readers lose signs beyond the first plane in it."""
    shuffled = any(piece.face.startswith(_SHUFFLED) for piece in pieces)
    is_said = shuffled and not any(piece.to_left for piece in pieces) and max(text) <= "\uffff"
    return without_marks(text) if is_said else ""


def _marks_of(text: str, pieces: tuple[Piece, ...]) -> list[tuple[bool, bool]]:
    """Whether a mark of direction stands before and behind each piece: around what runs to the left within a line to the right.

    Without it readers take a bracket or a space behind such a name to the wrong side. A mark is a space that is taken back.
    """
    if is_right(text):
        return [(False, False)] * len(pieces)
    turned = [False, *(piece.to_left for piece in pieces), False]
    inside = [bool(piece.glyphs) and piece.to_left for piece in pieces]
    return [
        (own and not before, own and not behind)
        for own, before, behind in zip(inside, turned[:-2], turned[2:], strict=True)
    ]


def _draw_plain(piece: Piece, em: int) -> Iterator[str]:
    yield f"/{FONT_NAMES[piece.face]} {em} Tf {encode_text(piece.text)} Tj"


def _draw_glyphs(piece: Piece, font: Embedded, em: float, marks: tuple[bool, bool]) -> Iterator[str]:
    """The glyphs: small moves along the line are written between the codes, moves off it as a rise.

    A wide gap is a move of the line's start, because readers take it for a space within a show string.
    """
    yield f"/{font.name} {em:.2f} Tf"
    before, behind = (f"<{font.codes[font.blank]:04X}> {font.widths[font.blank]}" if marked else "" for marked in marks)
    shown, start, pen, rise = before, 0, 0, 0
    for glyph in piece.glyphs:
        gap = glyph.x - pen
        if shown and (glyph.y != rise or gap > _GAP):
            yield f"[{shown}] TJ"
            shown = ""
        if gap > _GAP:
            yield f"{(glyph.x - start) * em / 1000:.2f} 0 Td"
            start = pen = glyph.x
        if glyph.y != rise:
            yield f"{glyph.y * em / 1000:.2f} Ts"
            rise = glyph.y
        shown += (f" {pen - glyph.x} " if glyph.x != pen else "") + f"<{font.codes[glyph.id]:04X}>"
        pen = glyph.x + font.widths[glyph.id]
    yield f"[{shown}{behind}] TJ"
    if rise:
        yield "0 Ts"


def _hex(text: str) -> str:
    return text.encode("utf-16-be").hex().upper()
