"""Which signs our faces can draw, known without opening a font, and the text that is left when invisible signs go."""

import unicodedata
from bisect import bisect_right
from functools import lru_cache

from paperwork.resources import read_toml

_IGNORED = {
    *range(0x00AD, 0x00AE), 0x061C, 0x180E, 0xFEFF,
    *range(0x200B, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x2070), *range(0xFE00, 0xFE10),
}  # fmt: skip
"""Signs that show nothing: soft hyphen, zero widths, marks and overrides of writing direction, variation selectors
(Unicode property Default_Ignorable_Code_Point, the ones met in names). They are left out before measuring, so a
direction override can never turn a printed name round."""

_SPOKEN = {0x2010: "-", 0x2011: "-"}
"""Hyphens that most faces lack; they look and break as a plain one."""


def clean_text(text: str) -> str:
    """The text as it is printed: composed (NFC), white space and line ends as spaces, invisible signs gone.

    Only the narrow no-break space (U+202F), which a French writer sets on purpose, still holds a line together; the wide one
    (U+00A0) comes with pasted tables and is a space like any other. Our faces draw the first as the second.
    """
    if text.isascii() and text.isprintable():
        return text.strip()
    composed = unicodedata.normalize("NFC", text)
    return "".join(map(_cleaned, composed)).strip()


def missing_glyphs(text: str) -> tuple[str, ...]:
    """The signs of the text that no shipped face can draw rightly, each once, in order of appearance.

    A combining mark that has no composed letter counts with its letter: it would be drawn beside its place.
    """
    cleaned = clean_text(text)
    if cleaned.isascii():
        return ()
    missing: dict[str, None] = {}
    previous = ""
    for sign in cleaned:
        if unicodedata.category(sign).startswith("M"):
            missing[previous + sign] = None
        elif not _is_covered(ord(sign)):
            missing[sign] = None
        previous = sign
    return tuple(missing)


def _cleaned(sign: str) -> str:
    point = ord(sign)
    if point in _IGNORED:
        return ""
    if point in _SPOKEN:
        return _SPOKEN[point]
    if sign == "\u202f":
        return "\u00a0"
    if sign.isspace():
        return " "
    return "" if unicodedata.category(sign) == "Cc" else sign


def _is_covered(point: int) -> bool:
    starts, ends = _ranges()
    index = bisect_right(starts, point) - 1
    return index >= 0 and point <= ends[index]


@lru_cache(maxsize=1)
def _ranges() -> tuple[list[int], list[int]]:
    pairs = sorted(tuple(pair) for pair in read_toml("glyphs.toml")["ranges"])
    return [first for first, _ in pairs], [last for _, last in pairs]
