"""Headings of strangers' lists: with a slip in them, of a pair, and the labels of a title block."""

import re
from functools import cache, lru_cache

from paperwork.text.headings import Meaning, fields, fold_heading, mean, spellings
from paperwork.text.vocabulary import fold_word, listed_words

REPEATABLE = frozenset({"cast", "notes", "understudy", "output", "input", "personal", "preset"})
"""Fields that several columns may hold: each of them is kept."""

_LEAST_NEAR = 6
"""Letters of a heading from which a slip in it is seen: shorter words are too near to others."""

_LABELS = ("title", "company", "venue", "dates", "revision", "revised", "licence", "contact", "phone", "returns", "tv")
"""What a label may head, in the order in which a word that is under several is taken."""


@lru_cache(20_000)
def mean_near(heading: str) -> Meaning:
    """What a heading can mean that is spelled with one letter too many, too few, another, or two the wrong way round."""
    key = fold_heading(heading)
    if len(key) < _LEAST_NEAR - 1 or any(char.isdigit() for char in key) or mean(heading).fields:
        return mean(heading)
    near = {
        one
        for gone in _drop_one(key)
        for one in _dropped().get(gone, ())
        if one[0] == key[0] and _is_one_slip(key, one)
    }
    meant = dict.fromkeys(field for one in sorted(near) for field in spellings()[one])
    firsts = {spellings()[one][0] for one in near}
    if len(firsts) < 2:
        return Meaning(tuple(meant) if near else (), False)
    return Meaning(tuple(sorted(meant, key=fields().index)), False)  # `Sener` is near to two: its values decide


def mean_label(heading: str) -> Meaning:
    """What a heading means that is spelled just so, or with one slip; no field for one that only has such a word in it."""
    meaning = mean(heading)
    return meaning if meaning.is_exact else Meaning((), False) if meaning.fields else mean_near(heading)


@cache
def _dropped() -> dict[str, set[str]]:
    """Spellings by what is left of them without one letter."""
    found: dict[str, set[str]] = {}
    for spelling in spellings():
        for gone in _drop_one(spelling) if len(spelling) >= _LEAST_NEAR else ():
            found.setdefault(gone, set()).add(spelling)
    return found


def _drop_one(word: str) -> set[str]:
    return {word, *(word[:at] + word[at + 1 :] for at in range(len(word)))}


def _is_one_slip(one: str, other: str) -> bool:
    if len(one) != len(other):
        short, long = sorted((one, other), key=len)
        return short in _drop_one(long)
    at = [index for index, (a, b) in enumerate(zip(one, other, strict=True)) if a != b]
    is_swap = len(at) == 2 and at[1] == at[0] + 1 and one[at[0]] == other[at[1]] and one[at[1]] == other[at[0]]
    return len(at) == 1 or is_swap


@lru_cache(20_000)
def find_rank(heading: str) -> str:
    """`first` or `second` where a heading says that it is one of a pair: `Mic A`, `Freq main`, `Mic B (back-up)`; else ""."""
    words = fold_heading(re.sub(r"[(\[{)\]}]", " ", heading)).split()
    pieces = {*words[1:], *words[:-1], " ".join(words[-2:]) if len(words) > 2 else ""}
    if len(words) < 2 or (mean(heading).is_exact and words[-1] not in ("a", "b") and not _has_brackets(heading)):
        return ""
    if pieces & listed_words("second"):
        return "" if pieces & listed_words("first") - {"a", "1"} else "second"
    return "first" if pieces & listed_words("first") else ""


def mean_base(heading: str) -> Meaning:
    """What a heading of a pair means without the word that says which of the two it is: `Frequency 2`, `Backup freq`."""
    marks = listed_words("first") | listed_words("second")
    words = fold_heading(heading).split()
    for base in (
        words[:-1] if words[-1:] and words[-1] in marks else [],
        words[1:] if words[:1] and words[0] in marks else [],
    ):
        if base and (meaning := mean(" ".join(base))).fields:
            return meaning
    return mean(heading)


def find_label(label: str) -> str:
    """The field of the show that a label in a title block names; "" for none."""
    word = fold_word(label)
    return next((field for field in _LABELS if word and word in listed_words(f"show_{field}")), "")


def _has_brackets(heading: str) -> bool:
    return bool(re.search(r"[(\[{]", heading))
