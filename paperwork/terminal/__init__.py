"""What every command shares: what it hands to `cli`, options, folders, and words that a screen may get."""

import re

from paperwork.frozen import frozen


@frozen
class Outcome:
    """What a command has to say: text for the output, text for the error stream, and the exit code."""

    text: str = ""
    aside: str = ""
    code: int = 0


def name_extra(missing: ModuleNotFoundError, extra: str, what: str) -> str:
    """The line to print where a library of an extra is not installed. Raises the error again if it is our fault."""
    if (missing.name or "paperwork").startswith("paperwork"):
        raise missing
    return f"{what} needs {missing.name}, which is not installed; run: pip install 'show-paperwork[{extra}]'\n"


_OBEYED = "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u206f\ud800-\udfff\ufeff]"
"""Controls but for tab and line feed, which move a cursor, colour, link or rename (ECMA-48); marks that turn the order
of signs (Unicode Standard Annex 9); halves of pairs, which no output takes."""


def plain(text: str) -> str:
    """The text with each sign that a terminal would obey written as its code, `\\u001b`: in JSON it means the same."""
    if text.replace("\n", "").isprintable():
        return text
    return re.sub(_OBEYED, lambda match: f"\\u{ord(match[0]):04x}", text)
