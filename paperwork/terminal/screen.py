"""Text on its way to a terminal: nothing that stands in a show or in a file's name is obeyed there."""

import re

_OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f\ud800-\udfff\ufeff]")
"""Controls but for tab and line feed, which move a cursor, colour, link or rename (ECMA-48); marks that turn the order of
signs (Unicode Standard Annex 9); halves of pairs, which no output takes."""


def plain(text: str) -> str:
    """The text with each sign that a terminal would obey written as its code, `\\u001b`: in JSON it means the same."""
    return text if text.isascii() and text.isprintable() else _OBEYED.sub(lambda match: f"\\u{ord(match[0]):04x}", text)
