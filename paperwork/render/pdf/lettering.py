"""Plain texts in a PDF: codes that are the same in every document, and the faces with just the signs that it shows.

A sign's code is its code point (ISO 10646, the basic plane) in two bytes, so that what is drawn of a page can stand in
any document. A document carries each face as a composite font (ISO 32000-1:2008, 9.7): the few letters that it shows,
and a table of which is whose. Its objects are written as text, as those of the structure are.
"""

import struct
from collections.abc import Iterable, Mapping
from functools import lru_cache
from hashlib import md5
from typing import Any, NamedTuple

from paperwork.render.pdf.outlines import find_parts, letter_of
from paperwork.render.pdf.packing import add_object, add_stream
from paperwork.render.text.faces import FACES, open_face

FONT_NAMES = {face: f"F{number}" for number, face in enumerate(FACES, 1)}
"""What a page calls each face, in every document."""

_NON_SYMBOLIC, SYMBOLIC = 32, 4
"""Flags of a descriptor (9.8.2): a font that has codes of its own is not of the standard Latin set."""

_COPIED = ("cvt ", "fpgm", "prep")
"""Tables that are of all letters. Names and code points are not needed within a PDF (9.9)."""


class Composite(NamedTuple):
    """A face as a document carries it: its name there, of which kind it is, its program under its key and with what is said
    of that; the rest of its descriptor, of each code the width and what it says, the width of all others, and which of
    its codes are there."""

    base: str
    kind: str
    key: str
    program: bytes
    about: str
    described: str
    widths: Mapping[int, int]
    texts: Mapping[int, str]
    default: int
    present: bytes
    places: bytes = b""
    """Two bytes for each code: the number of its letter. None where that is the code."""


@lru_cache(maxsize=8192)
def encode_text(text: str) -> str:
    """A plain text as a string of a page. The space that holds is a space to who copies it."""
    return f"<{text.replace(chr(0xA0), ' ').encode('utf-16-be').hex()}>"


def embed_faces(document: Any, letters: Mapping[str, Iterable[str]]) -> None:
    """Every face with these signs, put into the document."""
    for face in sorted(letters):
        add_composite(document, FONT_NAMES[face], _compose(face, sorted(map(ord, letters[face]))))


def _compose(face: str, points: list[int]) -> Composite:
    opened = open_face(face)
    points = sorted({0x20 if point == 0xA0 else point for point in points if point <= 0xFFFF})
    glyphs = {point: opened.charToGlyph.get(point, 0) for point in points}
    program, numbers = _subset(face, glyphs.values())
    places, present = bytearray(2 * points[-1] + 2), bytearray(points[-1] // 8 + 1)
    for point, glyph in glyphs.items():
        struct.pack_into(">H", places, 2 * point, numbers[glyph])
        present[point // 8] |= 0x80 >> point % 8
    present[0] |= 0x80
    flags = opened.flags & ~_NON_SYMBOLIC | SYMBOLIC
    return Composite(
        name_subset(opened.name.decode("ascii"), (face, points)),
        "CIDFontType2",
        "FontFile2",
        program,
        f"/Length1 {len(program)}",
        f"/Flags {flags}/FontBBox[{' '.join(map(str, opened.bbox))}]/ItalicAngle {opened.italicAngle:g}"
        f"/Ascent {opened.ascent}/Descent {opened.descent}/CapHeight {opened.capHeight}/StemV {opened.stemV}",
        {point: opened.charWidths.get(point, opened.defaultWidth) for point in points},
        {point: chr(point) for point in points},
        opened.defaultWidth,
        bytes(present),
        bytes(places),
    )


def name_subset(name: str, of: object) -> str:
    """The name of a part of a face (9.6.4): six letters that follow from what it is of, and the name of the face."""
    digest = md5(repr(of).encode(), usedforsecurity=False).digest()
    return f"{''.join(chr(65 + byte % 26) for byte in digest[:6])}+{name}"


def _subset(face: str, glyphs: Iterable[int]) -> tuple[bytes, dict[int, int]]:
    """The face with just these letters, those that they are made of and the one for none; and their numbers in it."""
    from reportlab.pdfbase.ttfonts import TTFontMaker

    opened = open_face(face)
    order = [*dict.fromkeys((0, *glyphs))]
    numbers = {glyph: number for number, glyph in enumerate(order)}
    letters, offsets = bytearray(), [0]
    for glyph in order:  # grows
        letter, parts, _ = _take_letter(face, glyph)
        for at, part in parts:
            if part not in numbers:
                numbers[part] = len(order)
                order.append(part)
            letter = letter[:at] + struct.pack(">H", numbers[part]) + letter[at + 2 :]
        letters += letter
        offsets.append(len(letters))
    head, hhea, maxp = (bytearray(opened.get_table(tag)) for tag in ("head", "hhea", "maxp"))
    struct.pack_into(">h", head, 50, 1)  # offsets of four bytes each
    struct.pack_into(">H", hhea, 34, len(order))
    struct.pack_into(">H", maxp, 4, len(order))
    made = TTFontMaker()
    for tag in _COPIED:
        if tag in opened.table:
            made.add(tag, opened.get_table(tag))
    made.add("head", bytes(head))
    made.add("hhea", bytes(hhea))
    made.add("maxp", bytes(maxp))
    made.add("hmtx", b"".join(_take_letter(face, glyph)[2] for glyph in order))
    made.add("loca", struct.pack(f">{len(offsets)}I", *offsets))
    made.add("glyf", bytes(letters))
    return made.makeStream(), numbers


@lru_cache(maxsize=4096)
def _take_letter(face: str, glyph: int) -> tuple[bytes, tuple[tuple[int, int], ...], bytes]:
    """A letter in whole words of four bytes, the letters that it is made of and where it says so, and its measures."""
    letter = letter_of(face, glyph)
    parts = tuple((at, *struct.unpack_from(">H", letter, at)) for at in find_parts(letter))
    measures = struct.pack(">HH", *map(int, open_face(face).hmetrics[glyph]))
    return letter + bytes(-len(letter) % 4), parts, measures


def add_composite(document: Any, name: str, font: Composite) -> None:
    """Puts the font into the document, for all pages, under the name that they call it by."""
    program = add_stream(document, f"{name} program", font.program, font.about)
    present = add_stream(document, f"{name} present", font.present)
    letters = add_stream(document, f"{name} letters", _map_letters(font.texts))
    places = f"{add_stream(document, f'{name} places', font.places)} 0 R" if font.places else "/Identity"
    described = add_object(
        document,
        f"{name} about",
        f"<</Type/FontDescriptor/FontName/{font.base}{font.described}/{font.key} {program} 0 R/CIDSet {present} 0 R>>",
    )
    where = f"/CIDToGIDMap {places}" if font.kind == "CIDFontType2" else ""
    glyphs = add_object(
        document,
        f"{name} glyphs",
        f"<</Type/Font/Subtype/{font.kind}/BaseFont/{font.base}/DW {font.default}/W[{_list_widths(font.widths)}]{where}"
        f"/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor {described} 0 R>>",
    )
    whole = add_object(
        document,
        f"{name} font",
        f"<</Type/Font/Subtype/Type0/BaseFont/{font.base}/Encoding/Identity-H/DescendantFonts[{glyphs} 0 R]"
        f"/ToUnicode {letters} 0 R>>",
    )
    document.idToObject["BasicFonts"].dict[name] = f"{whole} 0 R"


def _list_widths(widths: Mapping[int, int]) -> str:
    """By the first code of each row of codes that follow each other (9.7.4.3)."""
    said, last = list[str](), -2
    for code, width in sorted(widths.items()):
        said.append(f" {width}" if code == last + 1 else f"{']' * bool(said)}{code}[{width}")
        last = code
    return "".join(said) + "]" * bool(said)


def _map_letters(texts: Mapping[int, str]) -> bytes:
    """The ToUnicode map (9.10.3), in blocks of at most a hundred."""
    rows = [f"<{code:04X}> <{text.encode('utf-16-be').hex().upper()}>" for code, text in sorted(texts.items())]
    blocks = [rows[at : at + 100] for at in range(0, len(rows), 100)]
    body = "".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar\n" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS def\n"
        "/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{body}endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    ).encode("ascii")
