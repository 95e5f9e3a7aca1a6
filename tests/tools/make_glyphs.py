"""Write `paperwork/data/glyphs.toml` from the faces: `python -m tests.tools.make_glyphs`."""

import unicodedata
from pathlib import Path

from paperwork.render.fonts import FACES, open_face

TARGET = Path(__file__).parents[2] / "paperwork" / "data" / "glyphs.toml"

HEAD = """\
# Code points that every text face and weight in use can draw (inclusive ranges). Made from the faces' own character
# maps by tests/tools/make_glyphs.py; a test holds the two together. Combining marks and control codes are left out:
# a mark without a composed letter would be drawn beside its place.
"""


def common_points() -> list[int]:
    """The code points that all text faces have, marks and controls left out, sorted."""
    maps = [set(open_face(name).charToGlyph) for name, face in FACES.items() if not face.figures]
    points = set.intersection(*maps)
    return sorted(p for p in points if p >= 32 and unicodedata.category(chr(p))[0] not in "MC")


def as_ranges(points: list[int]) -> list[tuple[int, int]]:
    """The points as inclusive ranges."""
    ranges: list[tuple[int, int]] = []
    for point in points:
        if ranges and point == ranges[-1][1] + 1:
            ranges[-1] = (ranges[-1][0], point)
        else:
            ranges.append((point, point))
    return ranges


def render(points: list[int]) -> str:
    """The whole file as text."""
    lines = "".join(f"    [0x{first:04X}, 0x{last:04X}],\n" for first, last in as_ranges(points))
    return f"{HEAD}\nranges = [\n{lines}]\n"


if __name__ == "__main__":
    TARGET.write_text(render(common_points()), encoding="utf-8")
