"""Names of folders and files made of names in a show: safe on every disk, and never one name for two venues."""

import unicodedata
from hashlib import sha256
from pathlib import Path

from paperwork.text.names import fold

_LONGEST = 80
"""Signs of a name that a folder's name takes over. A choice of this project; file systems hold 255 bytes."""


def safe_name(text: str) -> str:
    """A text as a part of a file's name: `Harbour-Hall` of Harbour Hall.

    Where signs are lost, a few signs of its digest follow behind `_`, so that two texts never have one name.
    """
    kept = "".join(
        sign if unicodedata.category(sign)[0] in "LMN" else "-"
        for sign in unicodedata.normalize("NFC", text)[:_LONGEST]
    )
    plain = "-".join(filter(None, kept.split("-")))
    if fold(plain.replace("-", " ")) == fold(text) and len(plain.encode()) <= 2 * _LONGEST:
        return plain
    return f"{plain[: _LONGEST // 2]}_{sha256(fold(text).encode('utf-8', 'backslashreplace')).hexdigest()[:8]}"


def folder_beside(show: Path, kind: str, venue: str) -> Path:
    """The folder beside a show file for what is made of it: `show-papers`, `show-Harbour-Hall-papers` at a venue."""
    return show.with_name("-".join(filter(None, (show.stem, venue and safe_name(venue), kind))))
