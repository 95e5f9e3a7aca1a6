"""Which signs our faces can draw, known without opening a font, and the text that is left when invisible signs go.

Latin, Greek and Cyrillic always print. The scripts of `SCRIPTS` need the faces of an extra; whether one is installed
is asked here, in `has_extra`, and nowhere else.
"""

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from paperwork.text.glyph_ranges import GLYPHS

_IGNORED = {
    *range(0x00AD, 0x00AE), 0x061C, 0x180E, 0xFEFF,
    0x200B, *range(0x200E, 0x2010), *range(0x202A, 0x202F), *range(0x2060, 0x2070), *range(0xFE00, 0xFE10),
}  # fmt: skip
"""Signs that show nothing: soft hyphen, zero widths, marks and overrides of writing direction, variation selectors
(Unicode property Default_Ignorable_Code_Point, the ones met in names). They are left out before measuring, so a
direction override can never turn a printed name round."""

_SPOKEN = {0x2010: "-", 0x2011: "-"}
"""Hyphens that most faces lack; they look and break as a plain one."""


class Script(NamedTuple):
    """A script that an extra draws: its name, the extra, and its blocks (Unicode 15.1, Blocks.txt) as inclusive ranges.

    `broken` is a script whose words may be broken within, because it sets no spaces between them.
    """

    name: str
    extra: str
    blocks: tuple[tuple[int, int], ...]
    broken: bool = False


SCRIPTS: tuple[Script, ...] = (
    Script("Hebrew", "scripts", ((0x0590, 0x05FF), (0xFB1D, 0xFB4F))),
    Script("Arabic", "scripts", ((0x0600, 0x06FF), (0x0750, 0x077F), (0x0870, 0x08FF), (0xFB50, 0xFDFF), (0xFE70, 0xFEFE))),
    Script("Devanagari", "scripts", ((0x0900, 0x097F), (0xA8E0, 0xA8FF))),
    Script("Thai", "scripts", ((0x0E00, 0x0E3E), (0x0E40, 0x0E7F)), broken=True),
    Script(
        "Chinese, Japanese or Korean", "cjk",
        (
            (0x1100, 0x11FF), (0x2E80, 0x2FDF), (0x3000, 0x4DBF), (0x4E00, 0x9FFF), (0xA960, 0xA97F), (0xAC00, 0xD7FF),
            (0xF900, 0xFAFF), (0xFE30, 0xFE4F), (0xFF00, 0xFFEF), (0x1B000, 0x1B16F), (0x1F200, 0x1F2FF), (0x20000, 0x3FFFF),
        ),
        broken=True,
    ),
)  # fmt: skip
"""In this order. The sign of the baht is in the block of Thai; the Latin faces have it."""

EXTRAS: dict[str, tuple[str, ...]] = {
    "scripts": (
        "uharfbuzz", "bidi", "fontpkg_heebo", "fontpkg_ibm_plex_sans_arabic", "fontpkg_mukta", "fontpkg_sarabun",
    ),
    "cjk": ("uharfbuzz", "bidi", "manimgx_fonts_cjk"),
}  # fmt: skip
"""What an extra brings, by the names that are imported."""

_BLOCKS = sorted((first, last, script) for script in SCRIPTS for first, last in script.blocks)
_STARTS = [first for first, _, _ in _BLOCKS]

_JOINERS = (
    r"(?<![\u0600-\u06FF\u0750-\u077F\u0870-\u097F])[\u200C\u200D]"
    r"|[\u200C\u200D](?![\u0600-\u06FF\u0750-\u077F\u0870-\u097F])"
)
"""Zero-width joiners and non-joiners where they shape nothing: not between Arabic or Devanagari letters."""

WRITE_IN = "____"
"""On paper in place of a word that cannot be drawn: a line to write it on, never a hole or a wrong sign."""


@lru_cache(maxsize=8)
def has_extra(extra: str) -> bool:
    """Whether everything that an extra brings is installed."""
    from importlib.util import find_spec

    return all(find_spec(module) for module in EXTRAS[extra])


def script_of(sign: str) -> Script | None:
    """The script of `SCRIPTS` that the sign belongs to."""
    index = bisect_right(_STARTS, ord(sign)) - 1
    return _BLOCKS[index][2] if index >= 0 and ord(sign) <= _BLOCKS[index][1] else None


def is_scripted(text: str) -> bool:
    """Whether the text needs the faces of an extra, which is installed, or keeps a direction of its own."""
    return not text.isascii() and _has_sign_of(text, tuple(map(has_extra, EXTRAS)))


@lru_cache(maxsize=8192)
def _has_sign_of(text: str, installed: tuple[bool, ...]) -> bool:
    return _scripted(installed).search(text) is not None


@lru_cache(maxsize=4)
def _scripted(_installed: tuple[bool, ...]) -> re.Pattern[str]:
    """Matches a sign of the installed scripts, or a mark of direction, left where such a text was broken."""
    blocks = (block for script in SCRIPTS if has_extra(script.extra) for block in script.blocks)
    return re.compile("[\u200e\u200f" + "".join(f"{chr(first)}-{chr(last)}" for first, last in blocks) + "]")


def clean_text(text: str) -> str:
    """The text as it is printed: composed (NFC), white space and line ends as spaces, invisible signs gone.

    Only the narrow no-break space (U+202F), which a French writer sets on purpose, still holds a line together; the
    wide one (U+00A0) comes with pasted tables and is a space like any other. Our faces draw the first as the second.
    """
    if text.isascii() and text.isprintable():
        return text.strip()
    return _clean(text)


@lru_cache(maxsize=8192)
def _clean(text: str) -> str:
    composed = unicodedata.normalize("NFC", text)
    if "\u200c" in composed or "\u200d" in composed:
        composed = re.sub(_JOINERS, "", composed)
    return "".join(map(_cleaned, composed)).strip()


def drawable_text(text: str) -> str:
    """The clean text with a line to write on in place of each word that has a sign which cannot be drawn here."""
    cleaned = clean_text(text)
    if cleaned.isascii() or not (missing_glyphs(cleaned) or lacking_extras(cleaned)):
        return cleaned
    words = (WRITE_IN if missing_glyphs(word) or lacking_extras(word) else word for word in cleaned.split(" "))
    return re.sub(f"{WRITE_IN}(?: {WRITE_IN})+", WRITE_IN, " ".join(words))


@lru_cache(maxsize=4096)
def missing_glyphs(text: str) -> tuple[str, ...]:
    """The signs of the text that no face can draw rightly, with or without extras, each once, in order of appearance.

    A combining mark without a letter of its own script counts with the letter before: it would be drawn beside its
    place.
    """
    cleaned = clean_text(text)
    if cleaned.isascii():
        return ()
    missing: dict[str, None] = {}
    previous = ""
    for sign in cleaned:
        script = script_of(sign)
        if sign in "\u200c\u200d":
            continue
        if unicodedata.category(sign).startswith("M"):
            if not previous or not script or script_of(previous) is not script or not _is_covered(ord(sign), script):
                missing[previous + sign] = None
        elif not _is_covered(ord(sign), script):
            missing[sign] = None
        previous = sign
    return tuple(missing)


def lacking_extras(text: str) -> tuple[Script, ...]:
    """The scripts of the text whose extra is not installed, each once, in order of appearance."""
    return () if text.isascii() else tuple(script for script in _scripts_of(text) if not has_extra(script.extra))


@lru_cache(maxsize=8192)
def _scripts_of(text: str) -> tuple[Script, ...]:
    return tuple(dict.fromkeys(script for sign in clean_text(text) if (script := script_of(sign))))


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


def _is_covered(point: int, script: Script | None) -> bool:
    starts, ends = _ranges(script.name if script else "")
    index = bisect_right(starts, point) - 1
    return index >= 0 and point <= ends[index]


@lru_cache(maxsize=8)
def _ranges(script: str) -> tuple[list[int], list[int]]:
    """The ranges of a script, "" for what prints without an extra, as their starts and their ends."""
    pairs = _scripted_ranges(script) if script else GLYPHS
    return [first for first, _ in pairs], [last for _, last in pairs]


def _scripted_ranges(script: str) -> Sequence[tuple[int, int]]:
    from paperwork.resources import read_toml

    pairs = (pair.partition("-") for pair in read_toml("glyphs_of_extras.toml")[script].split())
    return [(int(first, 16), int(last or first, 16)) for first, _, last in pairs]
