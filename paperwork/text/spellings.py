"""One name spelled two ways: accents, `ü` as `ue`, surname first, hyphens, stops and case; or with a slip."""

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from paperwork.text.names import fold, nearest, strip_accents

_LONG = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ø": "oe", "å": "aa"})
"""Letters that some write as two, as passports do (from memory: the transliterations of ICAO Doc 9303 part 3)."""


def find_doubled(names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Pairs of texts that spell one name: each later spelling with the first. Brothers and sisters are not a pair."""
    listed: dict[str, list[str]] = {}
    found = []
    for name in dict.fromkeys(names):
        alike = listed.setdefault(_coarse(name), [])
        first = next((other for other in alike if is_one_name(other, name)), None)
        if first is None:
            alike.append(name)
        else:
            found.append((first, name))
    return tuple(found)


def is_one_name(one: str, other: str) -> bool:
    """Whether two texts can only be one name: each part of one is the other's, typed with fewer or more letters."""
    first, second = _parts(one), _parts(other)
    if not first or not second:
        return False
    if len(first) == len(second) and all(set(a) & set(b) for a, b in zip(first, second, strict=True)):
        return True
    return any("".join(part[n] for part in first) == "".join(part[n] for part in second) for n in (0, 1))


@lru_cache(20_000)
def _parts(name: str) -> tuple[tuple[str, str], ...]:
    """The parts of a name, given names first, each without accents and with two letters for one."""
    last, comma, given = name.partition(",")
    text = f"{given} {last}" if comma and given.strip() else name
    text = unicodedata.normalize("NFC", unicodedata.normalize("NFKC", text).casefold())
    text = re.sub(r"['\u2019\u2018`\u00b4]", "", text)
    return tuple((strip_accents(part), strip_accents(part.translate(_LONG))) for part in re.findall(r"\w+", text))


def _coarse(name: str) -> str:
    """One key for all spellings of a name, and for others: two letters that may stand for one are one."""
    return re.sub(r"(?<=[aou])e|(?<=a)a", "", "".join(short for short, _ in _parts(name)))


_COUNTER = re.compile(r"[0-9]+|[^\W\d_]|[ivx]+")
"""A word that counts: a number, a letter, a roman number. `Field 1` and `Field 2`, `A` and `B` are two names."""

_LEAST = 4
"""Shorter names are not held against each other: a letter is too much of them."""


def is_slip(one: str, other: str) -> bool:
    """Whether two names can be one, typed with one slip: a letter too many, too few or wrong behind the first, or two
    exchanged. Names that count differently are two."""
    (first, counted), (second, recounted) = _split(one), _split(other)
    if counted != recounted or min(len(first), len(second)) < _LEAST:
        return False
    start = next(
        (i for i, (a, b) in enumerate(zip(first, second, strict=False)) if a != b), min(len(first), len(second))
    )
    left, right = first[start:], second[start:]
    if left[1:] == right[1:] or left[1:] == right or left == right[1:]:
        return start > 0 or left == right
    return left[:2] == right[:2][::-1] and left[2:] == right[2:]


def find_meant(name: str, known: Iterable[str]) -> str:
    """The known name that a name was most probably meant to be, "" if none is near: one slip away, else the nearest."""
    listed = [one for one in known if _split(one)[1] == _split(name)[1]]
    return next((one for one in listed if is_slip(name, one)), "") or nearest(name, listed)


def is_near_name(one: str, other: str) -> bool:
    """Whether one name of a person may be meant for the other: the same but for one slip, spelled another way, in part, as
    `Mara` for `Mara Lind`, or with an initial. Names that count differently are two people's, and so are most siblings'."""
    if is_slip(one, other) or is_one_name(one, other):
        return True
    first, second = (re.findall(r"\w+", strip_accents(fold(name))) for name in (one, other))
    if len(first) == len(second):
        alike = [
            a == b or is_slip(a, b) or (a[0] == b[0] and 1 in (len(a), len(b)))
            for a, b in zip(first, second, strict=True)
        ]
        return len(first) > 1 and all(alike)
    shorter, longer = sorted((set(first), set(second)), key=len)
    return bool(shorter) and shorter < longer and not any(map(_COUNTER.fullmatch, longer - shorter))


@lru_cache(20_000)
def _split(name: str) -> tuple[str, tuple[str, ...]]:
    """The letters of a name, and the words in it that count."""
    words = re.findall(r"[^\W\d_]+|[0-9]+", strip_accents(fold(name)))
    counted = tuple(word for word in words if _COUNTER.fullmatch(word))
    return "".join(word for word in words if not _COUNTER.fullmatch(word)), counted
