"""Write `paperwork/text/glyph_ranges.py` and `data/glyphs_of_extras.toml` from the faces: `python -m
tests.tools.make_glyphs`."""

import unicodedata
from collections.abc import Iterable
from pathlib import Path

from paperwork.render.text.faces import FACES, open_face
from paperwork.render.text.scripts import SCRIPT_FACES, WEIGHTS, open_file
from paperwork.text.glyphs import SCRIPTS, Script, script_of

PACKAGE = Path(__file__).parents[2] / "paperwork"
TARGET = PACKAGE / "text" / "glyph_ranges.py"
EXTRAS = PACKAGE / "data" / "glyphs_of_extras.toml"

HEAD = '''\
"""Code points that every text face and weight in use can draw (inclusive ranges). Made from the faces' own character
maps by tests/tools/make_glyphs.py; a test holds the two together. Combining marks and control codes are left out:
a mark without a composed letter would be drawn beside its place.
"""
'''

HEAD_OF_EXTRAS = """\
# Code points of the scripts that the extras draw, in every weight: ranges in hexadecimal, both ends within. Made from
# the faces' own character maps by tests/tools/make_glyphs.py; a test holds the two together.
"""


def common_points() -> list[int]:
    """The code points that all text faces have, marks and controls left out, sorted."""
    maps = [set(open_face(name).charToGlyph) for name, face in FACES.items() if not face.figures]
    points = set.intersection(*maps)
    return sorted(p for p in points if p >= 32 and unicodedata.category(chr(p))[0] not in "MC")


def script_points(script: Script) -> list[int]:
    """The code points in a script's blocks that all its faces have in all weights, controls left out, sorted."""
    names = (
        [script.name]
        if script.name in SCRIPT_FACES
        else [name for name, face in SCRIPT_FACES.items() if face.package.endswith("_cjk")]
    )
    maps = [set(open_file(f"{name} {weight}").unicodes) for name in names for weight in WEIGHTS]
    points = set.intersection(*maps)
    return sorted(p for p in points if script_of(chr(p)) is script and unicodedata.category(chr(p))[0] != "C")


def as_ranges(points: Iterable[int]) -> list[tuple[int, int]]:
    """The points as inclusive ranges."""
    ranges: list[tuple[int, int]] = []
    for point in points:
        if ranges and point == ranges[-1][1] + 1:
            ranges[-1] = (ranges[-1][0], point)
        else:
            ranges.append((point, point))
    return ranges


def render(points: list[int]) -> str:
    """The whole file of what always prints, as text."""
    lines = "".join(f"    (0x{first:04X}, 0x{last:04X}),\n" for first, last in as_ranges(points))
    return f"{HEAD}\nGLYPHS = (\n{lines})\n"


def render_extras() -> str:
    """The whole file of the extras, as text."""
    return HEAD_OF_EXTRAS + "".join(
        f'\n"{script.name}" = """\n{_told(script_points(script))}"""\n' for script in SCRIPTS
    )


def _told(points: list[int]) -> str:
    words = [f"{first:04X}" if first == last else f"{first:04X}-{last:04X}" for first, last in as_ranges(points)]
    return "".join(" ".join(words[start : start + 12]) + "\n" for start in range(0, len(words), 12))


if __name__ == "__main__":
    TARGET.write_text(render(common_points()), encoding="utf-8")
    EXTRAS.write_text(render_extras(), encoding="utf-8")
