"""The outlines of letters as SVG path data, read from the faces that the PDF embeds.

The `glyf` table of OpenType (ISO/IEC 14496-22, 5.3.3): contours of on-curve and off-curve points of quadratic curves,
in thousandths of the em, y upwards; a composite letter places other letters.
"""

import struct
from functools import lru_cache
from typing import NamedTuple

from paperwork.render.text.faces import open_face

_ON, _SHORT_X, _SHORT_Y, _REPEAT, _SAME_X, _SAME_Y = 1, 2, 4, 8, 16, 32
"""Flags of a point in a simple letter (5.3.3.1.1)."""

_WORDS, _XY, _SCALE, _MORE, _TWO_SCALES, _MATRIX = 1, 2, 8, 32, 64, 128
"""Flags of a part in a composite letter (5.3.3.1.2)."""

_DEPTH = 6
"""How deep letters may be made of letters; the shipped faces need two."""


class CurvePoint(NamedTuple):
    """A point of a contour. `on`: the curve passes through it."""

    x: float
    y: float
    on: bool


Contour = tuple[CurvePoint, ...]


@lru_cache(maxsize=4096)
def outline_of(face: str, sign: str) -> str:
    """The path data of one sign in a face; a sign without a letter has the face's own blank, a space has none."""
    opened = open_face(face)
    return " ".join(map(_draw, _contours(face, opened.charToGlyph.get(ord(sign), 0), 0)))


@lru_cache(maxsize=16)
def _table(face: str) -> bytes:
    table: bytes = open_face(face).get_table("glyf")
    return table


def letter_of(face: str, glyph: int) -> bytes:
    """The outline of one letter as it is in the face; a space has none."""
    start, end = open_face(face).glyphPos[glyph : glyph + 2]
    return _table(face)[start:end]


def find_parts(letter: bytes) -> list[int]:
    """Where in a letter the numbers of those stand that it is made of; nowhere in a simple one."""
    found: list[int] = []
    at, flags = 10, _MORE if letter[:1] >= b"\x80" else 0
    while flags & _MORE:
        (flags,) = struct.unpack_from(">H", letter, at)
        found.append(at + 2)
        at += 8 if flags & _WORDS else 6
        at += 2 if flags & _SCALE else 4 if flags & _TWO_SCALES else 8 if flags & _MATRIX else 0
    return found


def _contours(face: str, glyph: int, depth: int) -> tuple[Contour, ...]:
    data = letter_of(face, glyph)
    if len(data) < 10 or depth > _DEPTH:
        return ()
    (count,) = struct.unpack_from(">h", data)
    return _simple(data, count) if count >= 0 else _composite(face, data, depth)


def _simple(data: bytes, count: int) -> tuple[Contour, ...]:
    ends = struct.unpack_from(f">{count}H", data, 10)
    at = 10 + 2 * count
    at += 2 + struct.unpack_from(">H", data, at)[0]
    total = ends[-1] + 1 if ends else 0
    flags: list[int] = []
    while len(flags) < total:
        flag = data[at]
        at += 1
        flags.append(flag)
        if flag & _REPEAT:
            flags += [flag] * data[at]
            at += 1
    xs, at = _distances(data, at, flags, _SHORT_X, _SAME_X)
    ys, at = _distances(data, at, flags, _SHORT_Y, _SAME_Y)
    points = [CurvePoint(x, y, bool(flag & _ON)) for x, y, flag in zip(xs, ys, flags, strict=False)]
    starts = (0, *(end + 1 for end in ends[:-1]))
    return tuple(tuple(points[first : end + 1]) for first, end in zip(starts, ends, strict=True))


def _distances(data: bytes, at: int, flags: list[int], short: int, same: int) -> tuple[list[int], int]:
    """Positions along one axis: each point holds its distance from the one before, in one byte, in two, or as none."""
    found, value = [], 0
    for flag in flags:
        if flag & short:
            value += data[at] if flag & same else -data[at]
            at += 1
        elif not flag & same:
            value += struct.unpack_from(">h", data, at)[0]
            at += 2
        found.append(value)
    return found, at


def _composite(face: str, data: bytes, depth: int) -> tuple[Contour, ...]:
    found: list[Contour] = []
    at, flags = 10, _MORE
    while flags & _MORE:
        flags, glyph = struct.unpack_from(">HH", data, at)
        dx, dy = struct.unpack_from(">hh" if flags & _WORDS else ">bb", data, at + 4)
        at += 8 if flags & _WORDS else 6
        a, b, c, d = 1.0, 0.0, 0.0, 1.0
        if flags & _SCALE:
            a = d = struct.unpack_from(">h", data, at)[0] / 16384
            at += 2
        elif flags & _TWO_SCALES:
            a, d = (value / 16384 for value in struct.unpack_from(">hh", data, at))
            at += 4
        elif flags & _MATRIX:
            a, b, c, d = (value / 16384 for value in struct.unpack_from(">hhhh", data, at))
            at += 8
        dx, dy = (dx, dy) if flags & _XY else (0, 0)
        for contour in _contours(face, glyph, depth + 1):
            found.append(tuple(CurvePoint(a * x + c * y + dx, b * x + d * y + dy, on) for x, y, on in contour))
    return tuple(found)


def _draw(contour: Contour) -> str:
    """One closed curve. Between two off-curve points the curve passes through their middle, which is not stored."""
    points: list[CurvePoint] = []
    for before, point in zip((contour[-1], *contour[:-1]), contour, strict=True):
        if not before.on and not point.on:
            points.append(CurvePoint((before.x + point.x) / 2, (before.y + point.y) / 2, True))
        points.append(point)
    first = next(number for number, point in enumerate(points) if point.on)
    points = [*points[first:], *points[: first + 1]]
    pen = _whole(points[0])
    texts = [f"M{pen[0]} {pen[1]}"]
    control: CurvePoint | None = None
    for point in points[1:]:
        if not point.on:
            control = point
            continue
        steps = [_whole(one) for one in ((control, point) if control else (point,))]
        texts.append(("q" if control else "l") + " ".join(f"{x - pen[0]} {y - pen[1]}" for x, y in steps))
        pen, control = steps[-1], None
    return "".join(texts).replace(" -", "-") + "z"


def _whole(point: CurvePoint) -> tuple[int, int]:
    return round(point.x), round(point.y)
