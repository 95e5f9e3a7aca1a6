"""The faces of the scripts that an extra brings, opened by HarfBuzz: how they stand beside our Latin, and their shapes.

Imported only for a text that needs it. All measures are in thousandths of a face's own em.

These scripts have no capitals, so each has a height of its own beside them (common practice of setting scripts side
by side, no source; seen on printed pages):

* Hebrew, Devanagari and Thai are read by the body of a letter, with marks above: it stands at 0.85 of the capital,
  between our small letters (0.77) and the capital, so that it is never the smallest thing that a floor allows.
* Arabic is read by small loops and teeth, its alef is the tallest stroke: it stands at 1.2 of the capital.
* Chinese, Japanese and Korean signs hold many strokes in one square: they keep the em of the Latin beside them, which
  makes them a quarter taller than its capitals.
"""

from functools import lru_cache
from importlib import import_module
from pathlib import Path
from typing import NamedTuple

import uharfbuzz as hb

WEIGHTS = {"regular": 400, "semibold": 600, "bold": 700}
"""Our weights on the scale of the `wght` axis (OpenType, registered axes)."""


class ScriptFace(NamedTuple):
    """A family for one script. A static one has a file for each weight; a variable one sets them on its `wght` axis.

    `size` is its em in thousandths of the Latin em beside it, `tag` the script (ISO 15924), `place` its place in a
    collection. A test holds `size` to the heights of the letters that are named above.
    """

    package: str
    file: str
    tag: str
    size: int
    place: int = 0


_CJK = ("manimgx_fonts_cjk", "NotoSansCJK-VF.otf.ttc")

SCRIPT_FACES: dict[str, ScriptFace] = {
    "Hebrew": ScriptFace("fontpkg_heebo", "files/Heebo[wght].ttf", "Hebr", 1_020),
    "Arabic": ScriptFace("fontpkg_ibm_plex_sans_arabic", "files/IBMPlexSansArabic-{weight}.ttf", "Arab", 1_120),
    "Devanagari": ScriptFace("fontpkg_mukta", "files/Mukta-{weight}.ttf", "Deva", 930),
    "Thai": ScriptFace("fontpkg_sarabun", "files/Sarabun-{weight}.ttf", "Thai", 1_000),
    "Japanese": ScriptFace(*_CJK, "Kana", 1_000, 0),
    "Korean": ScriptFace(*_CJK, "Hang", 1_000, 1),
    "Simplified Chinese": ScriptFace(*_CJK, "Hani", 1_000, 2),
    "Traditional Chinese": ScriptFace(*_CJK, "Hani", 1_000, 3),
}
"""One collection holds the forms of the regions, which share code points."""

_FORMS = (("gb2312", "Simplified Chinese"), ("big5", "Traditional Chinese"), ("euc_jis_2004", "Japanese"))


class Shape(NamedTuple):
    """The drawn form of a glyph: its path in SVG, y upwards, and how far it reaches: left, bottom, right, top."""

    path: str
    bounds: tuple[int, int, int, int] | None


@lru_cache(maxsize=1_024)
def region_of(text: str) -> str:
    """Which of the regions' forms a text takes: by its kana or hangul, else by the national set that has all its signs.

    The sets: GB 2312, then Big5, then JIS X 0213. Names in signs of several sets get Chinese forms, which all can read.
    """
    points = {ord(sign) for sign in text if not sign.isascii()}
    if any(0xAC00 <= point <= 0xD7FF or 0x1100 <= point <= 0x11FF or 0x3130 <= point <= 0x318F for point in points):
        return "Korean"
    if any(0x3041 <= point <= 0x30FF or 0x31F0 <= point <= 0x31FF or 0xFF66 <= point <= 0xFF9F for point in points):
        return "Japanese"
    signs = "".join(chr(point) for point in points if point >= 0x2E80)
    return next((region for codec, region in _FORMS if _is_in(signs, codec)), "Simplified Chinese")


def _is_in(signs: str, codec: str) -> bool:
    try:
        signs.encode(codec)
    except UnicodeEncodeError:
        return False
    return True


@lru_cache(maxsize=32)
def open_script(face: str) -> hb.Font:
    """The HarfBuzz font of a face named `Hebrew bold`, at a thousand units to the em. Shared, so only for reading."""
    _, weight = face_row(face)
    font = hb.Font(open_file(face))
    font.scale = (1_000, 1_000)
    if font.face.has_var_data:
        font.set_variations({"wght": WEIGHTS[weight]})
    return font


@lru_cache(maxsize=32)
def open_file(face: str) -> hb.Face:
    """The file behind a face, whole and at its default weight where it is variable."""
    row, weight = face_row(face)
    root = Path(str(import_module(row.package).__file__)).parent
    file = row.file.format(weight={"semibold": "SemiBold"}.get(weight, weight.capitalize()))
    return hb.Face(hb.Blob.from_file_path(str(root / file)), row.place)


def face_row(face: str) -> tuple[ScriptFace, str]:
    """The family and the weight of a face named `Hebrew bold`."""
    script, _, weight = face.rpartition(" ")
    return SCRIPT_FACES[script], weight


@lru_cache(maxsize=4_096)
def shape_of(face: str, glyph: int) -> Shape:
    """The form of one glyph. The bounds are those of its points, so that curves lie within."""
    pen = _Pen()
    open_script(face).draw_glyph(glyph, _draw_funcs(), pen)
    if not pen.points:
        return Shape("", None)
    xs, ys = [x for x, _ in pen.points], [y for _, y in pen.points]
    return Shape("".join(pen.path), (min(xs), min(ys), max(xs), max(ys)))


class _Pen:
    """What HarfBuzz draws, in whole units."""

    def __init__(self) -> None:
        self.path: list[str] = []
        self.points: list[tuple[int, int]] = []

    def put(self, letter: str, *numbers: float) -> None:
        pairs = [(round(x), round(y)) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        self.points += pairs
        self.path.append(letter + " ".join(f"{x} {y}" for x, y in pairs))


@lru_cache(maxsize=1)
def _draw_funcs() -> hb.DrawFuncs:
    """Moves, lines, quadratic and cubic curves as the letters of SVG."""
    funcs = hb.DrawFuncs()
    funcs.set_move_to_func(lambda x, y, pen: pen.put("M", x, y))
    funcs.set_line_to_func(lambda x, y, pen: pen.put("L", x, y))
    funcs.set_quadratic_to_func(lambda cx, cy, x, y, pen: pen.put("Q", cx, cy, x, y))
    funcs.set_cubic_to_func(lambda ax, ay, bx, by, x, y, pen: pen.put("C", ax, ay, bx, by, x, y))
    funcs.set_close_path_func(lambda pen: pen.put("z"))
    return funcs
