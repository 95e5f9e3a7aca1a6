"""The faces: where they are, how tall their letters stand, and how a document takes them in.

Names are set in Fira Sans Condensed (Latin, Vietnamese, Greek, Cyrillic, true bold). Its figures differ in width, so
numbers are set in IBM Plex Sans Condensed, whose figures share one and whose forms sit well beside it. Both OFL 1.1.
"""

import unicodedata
from functools import lru_cache
from typing import TYPE_CHECKING

from paperwork.document.styles import Style
from paperwork.frozen import frozen

if TYPE_CHECKING:
    from reportlab.pdfbase.ttfonts import TTFont, TTFontFace


@frozen
class Face:
    """One weight of one family. `cap` is the height of a capital in thousandths of the em, from the face itself."""

    package: str
    file: str
    cap: int
    figures: bool = False


_FIRA, _PLEX = "fontpkg_fira_sans_condensed", "fontpkg_ibm_plex_sans_condensed"

FACES: dict[str, Face] = {
    "text-regular": Face(_FIRA, "FiraSansCondensed-Regular.ttf", 688),
    "text-semibold": Face(_FIRA, "FiraSansCondensed-SemiBold.ttf", 692),
    "text-bold": Face(_FIRA, "FiraSansCondensed-Bold.ttf", 693),
    "figures-regular": Face(_PLEX, "IBMPlexSansCondensed-Medium.ttf", 698, figures=True),
    "figures-semibold": Face(_PLEX, "IBMPlexSansCondensed-SemiBold.ttf", 698, figures=True),
    "figures-bold": Face(_PLEX, "IBMPlexSansCondensed-Bold.ttf", 698, figures=True),
}
"""Cap heights: OS/2 sCapHeight of each face; all have 1,000 units to the em."""

_LOW = frozenset("gjpqyJQ,;()[]{}/\\|_@$%")
_RAISED = "\u00a0‘’“”"
"""Quotes that stand over the line, and the space that holds: nothing of them is under the baseline."""

_LEVEL = frozenset("·…×–—−→")
"""Signs that stand between the baseline and the height of a capital."""

_HIGH = frozenset("ǄѮҊʻˈ√")
_CEDILLAS = frozenset("\u0326\u0327")


def face_for(style: Style, text: str) -> str:
    """The face that the style takes for the text: figures only where every sign of the text is plain ASCII."""
    return f"figures-{style.weight}" if style.figures and text.isascii() else f"text-{style.weight}"


def em_um(face: str, cap_um: int) -> int:
    """The size of the em for a capital height."""
    return cap_um * 1000 // FACES[face].cap


@lru_cache(maxsize=4096)
def ink_of(text: str) -> tuple[int, int]:
    """How far the ink of the text can reach above and below the baseline, in thousandths of the em.

    By the signs it holds: figures and capitals stand at the cap height, stacked accents on capitals (as in
    Vietnamese) reach past the em. A test holds the bounds against the outlines of every sign in every face.
    """
    bounds = [_ink_of_sign(sign) for sign in set(text)]
    return max((up for up, _ in bounds), default=715), max((down for _, down in bounds), default=30)


def _ink_of_sign(sign: str) -> tuple[int, int]:
    if sign.isascii():
        up = 715 if sign.isdigit() or sign.isupper() or sign in ".,:;-+ " else 810 if sign.islower() else 860
        return up, 230 if sign in _LOW else 40
    if sign in _LEVEL:
        return 715, 40
    if sign in _RAISED:
        return 860, 40
    decomposed = unicodedata.normalize("NFD", sign)
    letter, marks = decomposed[0], decomposed[1:]
    above = sum(unicodedata.combining(mark) in (230, 232) for mark in marks)
    up = 950 if sign in _HIGH else 890
    if above:
        tall = not letter.islower() or letter in "bdfhklt"
        up = (870 if tall else 735) + 160 * above
    cedilla = any(mark in _CEDILLAS for mark in marks) or not sign.isalpha() or sign in "ʓˌ"
    return up, 345 if cedilla else 270


@lru_cache(maxsize=16)
def _font_path(face: str) -> str:
    from importlib import import_module

    row = FACES[face]
    return str(import_module(row.package).ROOT / "files" / row.file)


def read_face(face: str) -> bytes:
    """The file of a face, for a page that sets its text in it too."""
    with open(_font_path(face), "rb") as file:
        return file.read()


@lru_cache(maxsize=16)
def open_face(face: str) -> "TTFontFace":
    """The face as reportlab reads it: character map and widths. Shared, so only for reading."""
    return open_font(face).face


@lru_cache(maxsize=16)
def open_font(face: str) -> "TTFont":
    """The face as a font of the library. Shared, so only for reading."""
    from reportlab.pdfbase.ttfonts import TTFont

    return TTFont(face, _font_path(face), asciiReadable=False, shapable=False)


def register_face() -> str:
    """The name of a face that a canvas can begin with: it wants one, and would put a font of its own into the document."""
    from reportlab.pdfbase import pdfmetrics

    first = next(iter(FACES))
    if first not in pdfmetrics._fonts:
        pdfmetrics.registerFont(open_font(first))
    return first
