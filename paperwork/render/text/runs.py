"""A text in several scripts as pieces of one face each, from left to right, with its glyphs on their places.

Imported only for a text that needs it. Direction is the Unicode Bidirectional Algorithm (UAX #9), levels by
python-bidi; the first strong sign of the text gives its direction. Joining, marks and conjuncts are HarfBuzz's.
"""

import re
from collections.abc import Iterator
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

import uharfbuzz as hb
from bidi import get_base_level, get_display
from bidi.mirror import MIRRORED

from paperwork.render.text.faces import ink_of, open_face
from paperwork.render.text.scripts import SCRIPT_FACES, face_row, open_script, region_of, shape_of
from paperwork.text.glyphs import script_of

LEFT_MARK, RIGHT_MARK = "\u200e", "\u200f"
"""Signs that show nothing and have a direction. Cleaned texts have none; a line of a broken text may begin with one."""

_JOINERS = "\u200c\u200d"
_LEVEL = re.compile(r"Level\(\s*([0-9]+)")


class Glyph(NamedTuple):
    """A glyph of a script's face at its place from the piece's start, in thousandths of that face's em.

    `text` is what it stands for: the letters of a ligature, one letter, or nothing beside another glyph of its letter.
    """

    id: int
    x: int
    y: int
    text: str


class Piece(NamedTuple):
    """A part of a line in one face, `x` thousandths of the Latin em from the start. `size` scales its own em to that.

    A piece of a Latin face is text, already in the order of the eye; one of a script's face is glyphs, in the same
    order.
    """

    face: str
    x: int
    size: int
    text: str
    to_left: bool
    """Whether it is spoken from the right to the left."""
    glyphs: tuple[Glyph, ...] = ()


class Shaped(NamedTuple):
    """A text ready to be drawn: its width, its reach above and below the baseline, its pieces; all in the Latin em."""

    width: int
    up: int
    down: int
    pieces: tuple[Piece, ...]


@lru_cache(maxsize=4_096)
def shape_text(text: str, face: str) -> Shaped:
    """The text, set in our Latin face and the scripts' faces of its weight. The width holds all ink, overhang too."""
    pieces: list[Piece] = []
    left = right = pen = up = down = 0
    for face_name, run, to_left in split_runs(text, face):
        set_run = _set_plain if face_name == face else _set_script
        piece, advance, bounds = set_run(face_name, run, pen, to_left)
        pieces.append(piece)
        left, right = min(left, bounds[0]), max(right, bounds[2])
        up, down = max(up, bounds[3]), max(down, -bounds[1])
        pen += advance
    moved = tuple(piece._replace(x=piece.x - left) for piece in pieces)
    return Shaped(max(pen, right) - left, up, down, moved)


def split_runs(text: str, face: str) -> list[tuple[str, str, bool]]:
    """The text's runs in the order of the eye: face, text in the order of speech, and whether it runs to the left."""
    weight = face.rpartition("-")[2]
    levels = levels_of(text)
    faces = list(_faces_of(text, face, weight))
    parts: list[tuple[int, str, str]] = []
    for (level, name), group in groupby(range(len(text)), key=lambda index: (levels[index], faces[index])):
        parts.append((level, name, "".join(text[index] for index in group)))
    for lowest in range(max(levels, default=0), 0, -1):  # rule L2
        parts = _turned(parts, lowest)
    return [(name, run, level % 2 == 1) for level, name, run in parts if run.strip(LEFT_MARK + RIGHT_MARK)]


def _turned(parts: list[tuple[int, str, str]], lowest: int) -> list[tuple[int, str, str]]:
    """The parts with each stretch of at least this level turned round."""
    turned: list[tuple[int, str, str]] = []
    for is_high, group in groupby(parts, key=lambda part: part[0] >= lowest):
        stretch = list(group)
        turned += reversed(stretch) if is_high else stretch
    return turned


def levels_of(text: str) -> list[int]:
    """The embedding level of each sign (UAX #9); spaces at the end have the text's own (rule L1)."""
    shown = get_display(text, debug=True)
    shown = shown[shown.rindex("\n    levels: [") : shown.rindex("\n    paragraphs: [")]
    by_byte = [int(level) for level in _LEVEL.findall(shown)]
    starts = [0]
    for sign in text:
        starts.append(starts[-1] + len(sign.encode("utf-8")))
    if len(by_byte) != starts[-1]:
        raise RuntimeError("the levels that python-bidi gives are not as many as the bytes of the text")
    kept = len(text.rstrip(" "))
    return [by_byte[start] for start in starts[:kept]] + [get_base_level(text)] * (len(text) - kept)


def is_right(text: str) -> bool:
    """Whether the text runs from the right, by its first strong sign (rules P2 and P3)."""
    return bool(get_base_level(text) == 1)


def keep_direction(line: str, text: str) -> str:
    """A line of a broken text, with a mark of the text's direction before it where its own letters give another."""
    return line if is_right(line) == is_right(text) else (RIGHT_MARK if is_right(text) else LEFT_MARK) + line


def start_left(text: str) -> str:
    """The text with a mark before it where it would run from the right: for words of ours around a name."""
    return LEFT_MARK + text if is_right(text) else text


def without_marks(text: str) -> str:
    """The text as it was written, without our marks of direction."""
    return text.strip(LEFT_MARK + RIGHT_MARK)


def _faces_of(text: str, face: str, weight: str) -> Iterator[str]:
    """The face of each sign; a joiner stays with the letter before it."""
    name = face
    for sign in text:
        if sign not in _JOINERS:
            script = script_of(sign)
            name = face if not script else f"{script.name if script.name in SCRIPT_FACES else region_of(text)} {weight}"
        yield name


def _set_plain(face: str, run: str, pen: int, to_left: bool) -> tuple[Piece, int, tuple[int, int, int, int]]:
    """A piece in our own face. A run to the left holds only signs of it: turned round and mirrored (rule L4)."""
    text = without_marks(run)
    if to_left:
        text = "".join(MIRRORED.get(sign, sign) for sign in reversed(text))
    opened = open_face(face)
    width = sum(round(opened.charWidths.get(ord(sign), opened.defaultWidth)) for sign in text)
    up, down = ink_of(text)
    return Piece(face, pen, 1_000, text, to_left), width, (pen, -down, pen + width, up)


def _set_script(face: str, run: str, pen: int, to_left: bool) -> tuple[Piece, int, tuple[int, int, int, int]]:
    row, _ = face_row(face)
    buffer = hb.Buffer()
    buffer.add_codepoints([ord(sign) for sign in run])
    buffer.direction, buffer.script, buffer.language = "rtl" if to_left else "ltr", row.tag, "und"
    buffer.cluster_level = hb.BufferClusterLevel.CHARACTERS
    buffer.flags = hb.BufferFlags.REMOVE_DEFAULT_IGNORABLES | hb.BufferFlags.DO_NOT_INSERT_DOTTED_CIRCLE
    hb.shape(open_script(face), buffer)
    starts = sorted({info.cluster for info in buffer.glyph_infos})
    ends = dict(zip(starts, [*starts[1:], len(run)], strict=True))
    texts: set[int] = set()
    glyphs: list[Glyph] = []
    x, reach = 0, [0, 0, 0, 0]
    for info, place in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        text = "" if info.cluster in texts else run[info.cluster : ends[info.cluster]]
        texts.add(info.cluster)
        glyph = Glyph(info.codepoint, x + place.x_offset, place.y_offset, text)
        glyphs.append(glyph)
        reach = _wider(reach, face, glyph)
        x += place.x_advance
    left, low, right, high = reach
    bounds = (
        pen + left * row.size // 1000,
        low * row.size // 1000,
        pen - (-right * row.size // 1000),
        -(-high * row.size // 1000),
    )
    return Piece(face, pen, row.size, run, to_left, tuple(glyphs)), -(-x * row.size // 1000), bounds


def _wider(reach: list[int], face: str, glyph: Glyph) -> list[int]:
    """The reach with a glyph's outline in it."""
    bounds = shape_of(face, glyph.id).bounds
    if bounds is None:
        return reach
    left, low, right, high = bounds
    return [
        min(reach[0], glyph.x + left),
        min(reach[1], glyph.y + low),
        max(reach[2], glyph.x + right),
        max(reach[3], glyph.y + high),
    ]
