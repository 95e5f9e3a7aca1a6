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
from hashlib import md5
from typing import Any, NamedTuple

import uharfbuzz as hb

from paperwork.render.boxes import TextBox
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

_SYMBOLIC = 4
"""The flag of a font that is not of the standard Latin set (9.8.2)."""


class Embedded(NamedTuple):
    """A face in a document: its name in the resources, and by glyph its code there and its width."""

    name: str
    codes: Mapping[int, int]
    widths: Mapping[int, int]
    blank: int
    """The glyph of a space, which is set for nothing but a mark of direction."""


def embed_scripts(document: Any, boxes: Iterable[TextBox]) -> dict[str, Embedded]:
    """Every face that the texts need, put into the document with just the glyphs that they use."""
    used: dict[str, dict[int, str]] = {}
    for box in boxes:
        pieces = shape_text(box.text, box.face).pieces
        for piece, marks in zip(pieces, _marks_of(box.text, pieces), strict=True):
            texts = used.setdefault(piece.face, {}) if piece.glyphs else {}
            if any(marks):
                texts[_blank_of(piece.face)] = LEFT_MARK
            for glyph in piece.glyphs:
                texts[glyph.id] = texts.get(glyph.id) or (glyph.text[::-1] if piece.to_left else glyph.text)
    return {face: _embed(document, f"S{number}", face, used[face]) for number, face in enumerate(sorted(used), 1)}


def _blank_of(face: str) -> int:
    return open_script(face).get_nominal_glyph(0x20) or 0


def _sign_of(face: str, glyph: int) -> str:
    """The sign that a glyph is by itself, for one that stands beside another of its letter, as the second half of a Thai am:
    what is shown must have a name (ISO 14289-1:2014, 7.21.7). The whole text is given beside it."""
    font = open_script(face)
    return next(
        (chr(sign) for sign in sorted(open_file(face).unicodes) if font.get_nominal_glyph(sign) == glyph), JOINER
    )


def _embed(document: Any, name: str, face: str, texts: Mapping[int, str]) -> Embedded:
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFString

    subset, codes = _subset(face, sorted(texts))
    font = open_script(face)
    widths = {glyph: font.get_glyph_h_advance(glyph) for glyph in codes}
    is_cff = "CFF " in subset.table_tags
    digest = md5(repr((face, sorted(texts))).encode(), usedforsecurity=False).digest()
    tag = "".join(chr(65 + byte % 26) for byte in digest[:6])
    base = PDFName(f"{tag}+{face.replace(' ', '')}")
    system = PDFDictionary({"Registry": PDFString("Adobe"), "Ordering": PDFString("Identity"), "Supplement": 0})
    descendant = {
        "Type": PDFName("Font"),
        "Subtype": PDFName("CIDFontType0" if is_cff else "CIDFontType2"),
        "BaseFont": base,
        "DW": 1000,
        "CIDSystemInfo": system,
        "W": PDFArray([0, PDFArray([widths[glyph] for glyph in sorted(codes, key=codes.__getitem__)])]),
        "FontDescriptor": _describe(document, name, base, font, subset),
    }
    if not is_cff:
        descendant["CIDToGIDMap"] = PDFName("Identity")
    shown = {codes[glyph]: text or _sign_of(face, glyph) for glyph, text in texts.items()}
    composite = {
        "Type": PDFName("Font"),
        "Subtype": PDFName("Type0"),
        "BaseFont": base,
        "Encoding": PDFName("Identity-H"),
        "DescendantFonts": PDFArray([document.Reference(PDFDictionary(descendant), f"{name} glyphs")]),
        "ToUnicode": _stream(document, f"{name} letters", _map_letters(shown), {}),
    }
    document.idToObject["BasicFonts"].dict[name] = document.Reference(PDFDictionary(composite), f"{name} font")
    return Embedded(name, codes, widths, _blank_of(face))


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


def _describe(document: Any, name: str, base: Any, font: hb.Font, subset: hb.Face) -> Any:
    from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName

    upem, count = subset.upem, subset.glyph_count
    head = subset.reference_table("head").data
    box = [int.from_bytes(head[at : at + 2], "big", signed=True) * 1000 // upem for at in range(36, 44, 2)]
    extents = font.get_font_extents("ltr")
    if "CFF " in subset.table_tags:
        data, key = subset.reference_table("CFF ").data, "FontFile3"
        file = _stream(document, f"{name} file", data, {"Subtype": PDFName("CIDFontType0C")})
    else:
        data, key = subset.blob.data, "FontFile2"
        file = _stream(document, f"{name} file", data, {"Length1": len(data)})
    present = bytearray((count + 7) // 8)
    for code in range(count):
        present[code // 8] |= 0x80 >> code % 8
    texts = {
        "Type": PDFName("FontDescriptor"),
        "FontName": base,
        "Flags": _SYMBOLIC,
        "FontBBox": PDFArray(box),
        "ItalicAngle": 0,
        "Ascent": extents.ascender,
        "Descent": extents.descender,
        "CapHeight": extents.ascender,
        "StemV": 80,
        key: file,
        "CIDSet": _stream(document, f"{name} present", bytes(present), {}),
    }
    return document.Reference(PDFDictionary(texts), f"{name} about")


def _stream(document: Any, name: str, data: bytes, about: dict[str, Any]) -> Any:
    from reportlab.pdfbase.pdfdoc import PDFDictionary, PDFStream, PDFZCompress

    return document.Reference(PDFStream(PDFDictionary(about), data, filters=[PDFZCompress]), name)


def _map_letters(letters: Mapping[int, str]) -> bytes:
    """The ToUnicode map (9.10.3), in blocks of at most a hundred."""
    rows = [f"<{code:04X}> <{_hex(text)}>" for code, text in sorted(letters.items())]
    blocks = [rows[at : at + 100] for at in range(0, len(rows), 100)]
    body = "".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar\n" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n"
        "/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{body}endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    ).encode("ascii")


def draw_scripted(document: Any, box: TextBox, height: int, fonts: Mapping[str, Embedded]) -> str:
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
            parts += _draw_plain(document, piece, em)
        parts.append("ET")
    said = _said(box.text, pieces)
    return " ".join([f"/Span <</ActualText <FEFF{_hex(said)}>>> BDC", *parts, "EMC"] if said else parts)


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


def _draw_plain(document: Any, piece: Piece, em: int) -> Iterator[str]:
    from reportlab.pdfbase.pdfmetrics import getFont

    font = getFont(piece.face)
    for subset, codes in font.splitString(piece.text, document):
        yield f"{font.getSubsetInternalName(subset, document)} {em} Tf <{codes.hex()}> Tj"


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
