"""How wide a text is in a face, and how far its ink reaches: by the faces, and by its glyphs where they are shaped."""

from functools import lru_cache

from paperwork.render.text.faces import FACES, em_um, ink_of, open_face
from paperwork.text.glyphs import is_scripted


class Metrics:
    """Widths of text in the faces; nothing but the faces decides them."""

    def __init__(self) -> None:
        self._widths: dict[str, dict[int, int]] = {}
        self._units: dict[tuple[str, str], int] = {}

    def units(self, text: str, face: str) -> int:
        """The width of the text in thousandths of the em. Signs without a glyph count as the face's own blank."""
        units = self._units.get((text, face))
        if units is None:
            units = self._units[text, face] = self._measure(text, face)
        return units

    def _measure(self, text: str, face: str) -> int:
        if is_scripted(text):
            from paperwork.render.text.runs import shape_text

            return shape_text(text, face).width
        return sum(map(self._of(face).__getitem__, map(ord, text)))

    def _of(self, face: str) -> dict[int, int]:
        widths = self._widths.get(face)
        if widths is None:
            opened = open_face(face)
            widths = self._widths[face] = _Widths(opened.charWidths, opened.defaultWidth)
        return widths

    def width_um(self, text: str, face: str, cap_um: int) -> int:
        """The width of the text set with capitals of the given height, rounded up."""
        return -(-self.units(text, face) * cap_um // FACES[face].cap)


class _Widths(dict[int, int]):
    """Widths by code point; the face's own blank for what it lacks."""

    def __init__(self, widths: dict[int, float], default: float) -> None:
        super().__init__({point: round(width) for point, width in widths.items()})
        self.default = round(default)

    def __missing__(self, _point: int) -> int:
        return self.default


@lru_cache(maxsize=8192)
def ink_in(text: str, face: str) -> tuple[int, int]:
    """The reach of a text above and below the baseline in a face; other scripts have outlines to ask."""
    if is_scripted(text):
        from paperwork.render.text.runs import shape_text

        shaped = shape_text(text, face)
        return shaped.up, shaped.down
    return ink_of(text.replace("J", "I") if FACES[face].figures else text)


def reach_um(text: str, face: str, cap_um: int) -> tuple[int, int]:
    """How far the ink can reach above and below the baseline."""
    up, down = ink_in(text, face)
    em = em_um(face, cap_um)
    return -(-up * em // 1000), -(-down * em // 1000)


def rise_um(text: str, face: str, cap_um: int) -> int:
    """How far the ink can reach above the baseline."""
    return reach_um(text, face, cap_um)[0]


def drop_um(text: str, face: str, cap_um: int) -> int:
    """How far the ink can reach below the baseline."""
    return reach_um(text, face, cap_um)[1]
