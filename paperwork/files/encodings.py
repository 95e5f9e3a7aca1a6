"""Text of no stated encoding: which of those of older programs gives the likeliest letters."""

import re
from collections.abc import Iterator

ENCODINGS = {"cp1252": "Windows-1252", "mac_roman": "Mac Roman", "cp850": "DOS 850", "cp1254": "Windows-1254"}
"""What older programs saved text in, the likeliest first."""

_COMMON = frozenset("äöüßÄÖÜéèêëàâçîïôûùœÉÈÀÇñáíóúÑåæøÅÆØìò’ŞşİıĞğ")
"""Letters that names and headings of the languages of lists have, and the apostrophe."""

_RARE = frozenset("ÐÝÞðýþ")
"""Letters of those languages that no name has, and that stand where another encoding has common ones."""

_LOOKED_AT = 200_000


def rank_encodings(data: bytes) -> tuple[str, ...]:
    """The encodings in which bytes may be, the likeliest first."""
    sample = data[:_LOOKED_AT]
    scores = {codec: sum(_weigh(sample.decode(codec, "replace"))) for codec in ENCODINGS}
    return tuple(sorted(ENCODINGS, key=lambda codec: -scores[codec]))


def list_signs(text: str) -> str:
    """The signs of a text beyond ASCII, each once, a few of them: those that are unlikely first."""
    signs = dict.fromkeys(char for char in text if not char.isascii())
    return " ".join(sorted(signs, key=lambda char: char in _COMMON)[:6])


def _weigh(text: str) -> Iterator[int]:
    """How likely each sign beyond ASCII is: a common letter within a word, another letter, or in no word at all."""
    for match in re.finditer(r"[^\x00-\x7f]", text):
        before, after = text[max(match.start() - 1, 0) : match.start()], text[match.end() : match.end() + 1]
        touches = before.isalpha() + after.isalpha()
        if match[0] == "\ufffd":
            yield -3
        elif match[0] in _COMMON:
            yield 2 if touches else -1
        elif match[0] in _RARE:
            yield -1
        elif match[0].isalpha():
            yield 0 if touches else -1
        else:
            yield -2 if touches == 2 else 1
