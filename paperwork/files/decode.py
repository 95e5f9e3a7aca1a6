"""Bytes to text, and text to what can be printed."""

import codecs
import re
from bisect import bisect_right

from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place

BOM = "\ufeff"

_LINE_BREAK = re.compile(r"\r\n|\r|\n")
_UNPRINTABLE = "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff]"
"""Controls, line separators, marks of direction, lone surrogates, noncharacters (The Unicode Standard, chapter 23)."""


class Lines:
    """Maps an index of code points to a line and a column, both from 1, as editors count them."""

    def __init__(self, text: str) -> None:
        from array import array

        self._shift = 1 if text.startswith(BOM) else 0
        self._starts = array("L", (0,))
        self._starts.extend(match.end() for match in _LINE_BREAK.finditer(text))

    def locate(self, index: int) -> tuple[int, int]:
        """Line and column of the code point at `index`; a byte-order mark takes no column."""
        line = bisect_right(self._starts, index)
        column = index - self._starts[line - 1] + 1
        return line, column - self._shift if line == 1 and column > self._shift else column

    def start(self, index: int) -> int:
        """The index at which the line of `index` begins."""
        return self._starts[bisect_right(self._starts, index) - 1]


def decode_text(data: bytes, name: str) -> str:
    """The text of a file, its byte-order mark kept as the first code point, so that spans count in it.

    UTF-8, or UTF-16 with a byte-order mark. Raises Refused at the first byte that is neither.
    """
    codec = "utf-8"
    if data.startswith(codecs.BOM_UTF16_LE) and not data.startswith(codecs.BOM_UTF32_LE):
        codec = "utf-16-le"
    elif data.startswith(codecs.BOM_UTF16_BE):
        codec = "utf-16-be"
    try:
        return data.decode(codec)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode(codec)
        place = Place(name, *Lines(before).locate(len(before)))
        raise Refused(find("file-encoding", place, name=name, byte=_name_byte(data[error.start]))) from None


def find_unprintable(text: str) -> int | None:
    """The index of the first character that cannot be printed, or None. Tabs and line breaks can."""
    if text.replace("\n", "").replace("\r", "").replace("\t", "").isprintable():
        return None
    match = re.search(_UNPRINTABLE, text)
    return match.start() if match else None


def clean_text(text: str) -> tuple[str, str]:
    """The text with what cannot be printed taken out, and the names of what was, as `U+0007, U+000B`.

    Line breaks become `\\n`, tabs become spaces, outer blanks go.
    """
    if text.isascii() and text.isprintable():
        return text.strip(), ""
    text = _LINE_BREAK.sub("\n", text).replace("\t", " ").replace(BOM, "")
    if text.isprintable():
        return text.strip(), ""
    removed = sorted(set(re.findall(_UNPRINTABLE, text)))
    return re.sub(_UNPRINTABLE, "", text).strip(), ", ".join(map(name_character, removed))


def name_character(character: str) -> str:
    """A character's code point as `U+00E9`."""
    return f"U+{ord(character):04X}"


def _name_byte(byte: int) -> str:
    """A byte as `byte E9 (é in Windows-1252)`."""
    try:
        guess = bytes([byte]).decode("cp1252")
    except UnicodeDecodeError:
        return f"byte {byte:02X}"
    return f"byte {byte:02X} ({guess} in Windows-1252)" if guess.isprintable() else f"byte {byte:02X}"
