"""Headings of a grid that are scenes, and the marks in its cells."""

import re
import unicodedata
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, TypeAlias

from paperwork.text.vocabulary import fold_word, listed_words

Presence: TypeAlias = Literal["live", "idle", "asked", "text"]

_ROMAN = r"[ivx]{1,4}"
_SCENE = re.compile(
    rf"(?:[0-9]{{1,2}}|{_ROMAN}|a[0-9]\s*s?[0-9]{{1,2}})(?:\s*[.\-/:]\s*(?:[0-9]{{1,3}}|{_ROMAN}))?\s*[a-d]?(?:\s*&\s*[0-9]{{1,2}}[a-d]?)?"
    r"(?:\s*\(?(?:cut|reprise|rep)\)?)?|#\s*[0-9]{1,3}[a-d]?(?:\s*\([^)]*\))?|p{1,2}\.?\s*[0-9]+(?:\s*[-\u2013]\s*[0-9]+)?",
    re.IGNORECASE,
)
_TITLED = re.compile(
    rf"(?:[0-9]{{1,2}}\.[0-9]{{1,2}}|(?:[0-9]{{1,2}}|{_ROMAN})-[0-9]{{1,2}}[a-d]?)\s+\S", re.IGNORECASE
)
_LONG = re.compile(r"(?P<word>[^\W\d_]+)\.?\s*(?P<rest>(?:[0-9]{1,4}|[ivx]{1,4}(?!\w)).*)", re.IGNORECASE)
_TO = re.compile(r"\s*(?:\u2013|\u2014|\bto\b|(?<=[0-9a-z])\s*-\s*(?=[0-9]))\s*")
_TOP = re.compile(r"(?:top|end|start)\s+of\s+.+", re.IGNORECASE)


@lru_cache(20_000)
def is_scene(heading: str) -> bool:
    """Whether a heading is a scene's: `1.2`, `I-2`, `A1S2`, `Act 1 Sc 2`, `2A & 2B`, `Prologue`, `p. 23-27`."""
    plain = " ".join(unicodedata.normalize("NFKC", heading).split())
    if _SCENE.fullmatch(plain) or _TOP.fullmatch(plain) or fold_word(plain) in listed_words("scene_name"):
        return True
    if is_weekday(plain):
        return True
    words = fold_word(plain).split()
    if len(words) == 2 and words[0] in listed_words("act") and words[1] in listed_words("ordinal"):
        return True
    if (match := _LONG.match(plain)) and fold_word(match["word"]) in listed_words("scene_prefix"):
        return True
    return bool(_TITLED.match(plain))


@lru_cache(20_000)
def is_weekday(text: str) -> bool:
    """Whether a heading is a day of the week, alone or with a date: `Fri`, `Montag`, `Sat 12`, `Fri eve`."""
    first, *rest = fold_word(text).split() or [""]
    return first in listed_words("weekday") | listed_words("weekday_short") and all(
        any(map(str.isdigit, word)) or len(word) < 4 for word in rest
    )


def is_cut(heading: str) -> bool:
    """Whether a scene is marked as cut."""
    return any(part in listed_words("cut") for part in fold_word(heading).split())


def read_mark(text: str) -> Presence:
    """What a mark alone says: live, not live, a question, or text (a number, a name) that says more."""
    plain = unicodedata.normalize("NFKC", text).strip().casefold()
    if plain in listed_words("live"):
        return "live"
    if plain in listed_words("idle"):
        return "idle"
    if re.fullmatch(r"[0-9]{1,3}[a-z]?", plain):
        return "text"
    return "asked" if len(plain) <= 4 and not re.fullmatch(r"[^\W\d_]{3,}", plain) else "text"


def follow_numbers(headings: Sequence[tuple[str, bool]]) -> dict[int, tuple[str, ...]]:
    """What doubled scene numbers may be: index to texts, the likeliest first. `1.1` as a number lost a zero, or follows `1.3`.

    Each heading comes with whether it is stored as a number; text is never in doubt.
    """
    seen: dict[str, int] = {}
    texts = {text for text, _ in headings}
    found: dict[int, tuple[str, ...]] = {}
    for index, (text, is_number) in enumerate(headings):
        if text in seen and is_number and re.fullmatch(r"[0-9]+\.[0-9]", text):
            act, _, before = headings[index - 1][0].rpartition(".")
            next_one = f"{act}.{int(before) + 1}" if act and before.isascii() and before.isdigit() else ""
            guesses = dict.fromkeys((f"{text}0", next_one))
            found[index] = tuple(guess for guess in guesses if guess and guess not in texts)
        seen.setdefault(text, index)
    return found


def expand_scenes(text: str, known: Sequence[str] = ()) -> tuple[str, ...]:
    """The scenes of a list with ranges, `1.1-1.4, 2.2`: by the order of the known ones, else by counting."""
    found: list[str] = []
    for part in re.split(r"[,;+\n]|\s&\s", text):
        ends = [end for end in map(str.strip, _TO.split(part.strip())) if end]
        if len(ends) == 2 and ends[0] in known and ends[1] in known:
            first, last = known.index(ends[0]), known.index(ends[1])
            found += known[first : last + 1]
        elif len(ends) == 2 and (run := _count(*ends)):
            found += run
        else:
            found += [part.strip()] if part.strip() else []
    return tuple(dict.fromkeys(found))


def says_all(text: str) -> bool:
    """Whether a text says that every scene, or everybody, is meant: `all`."""
    return fold_word(text) in listed_words("every")


def _count(first: str, last: str) -> list[str]:
    one = re.fullmatch(r"(.*?)([0-9]{1,3})", first)
    two = re.fullmatch(r"(.*?)([0-9]{1,3})", last)
    if not one or not two or two[1] not in ("", one[1]) or not 0 < int(two[2]) - int(one[2]) < 100:
        return []
    return [f"{one[1]}{number}" for number in range(int(one[2]), int(two[2]) + 1)]
