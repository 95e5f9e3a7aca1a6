"""One name spelled two ways: with and without accents, `ü` as `ue`, surname first, hyphens, stops and case."""

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from paperwork.text.names import strip_accents

_LONG = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ø": "oe", "å": "aa"})
"""Letters that some write as two, as passports do (from memory: the transliterations of ICAO Doc 9303 part 3)."""


def find_doubled(names: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Pairs of different texts that spell one name: each later spelling with the first. Brothers and sisters are no pair."""
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
    """Whether two texts can only be one name: each part of one is the other's, typed with fewer letters or with more."""
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
