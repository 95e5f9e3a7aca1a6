"""Names in cells: spares, groups, covers, casts, and spellings that may be one person's."""

import re
import unicodedata
from collections.abc import Sequence
from difflib import SequenceMatcher
from functools import lru_cache
from itertools import combinations, islice
from typing import NamedTuple

from paperwork.text.spellings import is_one_name
from paperwork.text.vocabulary import fold_word, is_nobody, listed_words

_SHAPES = (
    re.compile(
        r"(?P<first>.+?)\s*[(\[]\s*(?:u\s*/\s*s|us|understudy|cover|for|swing|doublure)\.?:?\s*(?:for\s+)?(?P<second>.+?)\s*[)\]]",
        re.IGNORECASE,
    ),
    re.compile(r"(?P<first>[^\[\]()]+?)\s*\[\s*(?P<second>.+?)\s*\]"),
    re.compile(r"(?P<first>[^/]+?)\s*/\s*(?P<second>[^/]+)"),
)
_CAST = re.compile(r"\s*(?P<team>[^:,;]+?)\s*:\s*(?P<name>[^:,;]+?)\s*(?:[,;/\n]|$)")
_COMPARED = 4_000
"""Pairs of names that begin alike and are compared: some ninety names, more than one company has."""

_INITIAL = re.compile(r"[^\W\d_]")


class NamePair(NamedTuple):
    """Two names in one cell that may be somebody and a cover."""

    first: str
    second: str


def is_spare(text: str) -> bool:
    """Whether a name says that the row is a spare: `SPARE`, `spare 1`, `--spare--`, `Ersatz`."""
    first, *rest = fold_word(text).split() or [""]
    return first in listed_words("spare") and all(part.isdigit() or len(part) == 1 for part in rest)


def is_blank(text: str) -> bool:
    """Whether a text only says that there is nothing: `-`, `n/a`, `tbc`."""
    return text.strip().casefold() in listed_words("blank")


def is_open(text: str) -> bool:
    """Whether a text says that something is not decided yet, `tbc` or `?`, which is more than that there is nothing."""
    return (is_blank(text) or is_nobody(text)) and bool(re.search(r"[^\W\d_]|\?", text)) and fold_word(text) != "n a"


def is_group(text: str) -> bool:
    """Whether a name is a group's: `Ensemble`, `All girls`, `Chorus 1-4`, `Company`."""
    key = fold_word(re.sub(r"[0-9]+(?:\s*[-\u2013]\s*[0-9]+)?\s*$", "", text))
    is_range = bool(re.search(r"[0-9]\s*[-\u2013]\s*[0-9]", text))
    return key in listed_words("group") and (is_range or not re.search(r"[0-9]", text))


def read_cover(text: str) -> NamePair | None:
    """The two names of a cell like `Ann (u/s Bea)`, `Bea / Ann` or `Bea [Ann Wed mat]`; None for any other."""
    for shape in _SHAPES:
        match = shape.fullmatch(text)
        if match and all(re.search(r"[^\W\d_]{2}", match[part]) for part in ("first", "second")):
            return NamePair(match["first"].strip(), match["second"].strip())
    return None


def split_sharers(text: str, count: int) -> tuple[str, ...]:
    """The names of a cell that names just as many as its row has roles, `count`; empty for any other."""
    parts = [part.strip() for part in re.split(r"[/\n+&;\u2192]", text)]
    is_full = len(parts) == count > 1 and all(re.search(r"[^\W\d_]{2}", part) for part in parts)
    return tuple(parts) if is_full and len(set(parts)) == count else ()


def read_casts(text: str) -> tuple[tuple[str, str], ...]:
    """Teams and names of a cell like `Team Red: Ivo, Team Blue: Kit`; empty for any other."""
    found = tuple((match["team"], match["name"]) for match in _CAST.finditer(text))
    whole = "".join(match.group() for match in _CAST.finditer(text))
    return found if len(found) > 1 and len(whole.strip()) >= len(text.strip()) - 1 else ()


def name_role(performer: str) -> str:
    """The role of a performer who plays none: their name, in an order without a comma, which would part it in a list."""
    last, comma, given = performer.partition(",")
    return " ".join(re.sub(r"[,;]", " ", f"{given} {last}" if comma else performer).split())


def split_roles(text: str) -> tuple[str, ...]:
    """The roles of a cell, each once, in their order: by slash, plus sign, semicolon, line break or comma."""
    parts = re.split(r"\s*(?:[/;\n+\u2192]|,(?!\s*(?:jr|sr)\b))\s*", text, flags=re.IGNORECASE)
    return tuple(dict.fromkeys(part.strip() for part in parts if part.strip()))


@lru_cache(20_000)
def key_of_name(text: str) -> str:
    """The key under which two spellings are the same name: one case, no spaces, stops, apostrophes or hyphens."""
    return "".join(_parts(text))


def _may_be_one(one: str, other: str) -> bool:
    """Whether two different spellings may be one person's: reordered, with initials, or a letter apart."""
    first, second = _given_first(one), _given_first(other)
    if not first or not second or key_of_name(one) == key_of_name(other):
        return False
    if sorted(first) == sorted(second) or is_one_name(one, other):
        return True
    if len(first) > 1 and len(second) > 1:
        surnames = "".join(first[1:]), "".join(second[1:])
        has_initial = first[0][0] == second[0][0] and 1 in (len(first[0]), len(second[0]))
        if has_initial and (surnames[0] == surnames[1] or _are_near(*surnames, 0.9)):
            return True
        return _are_near(" ".join(first), " ".join(second)) and _same_figures(one, other)
    is_long = len(first) == len(second) == 1 and len(first[0]) > 4
    return is_long and _are_near(first[0], second[0]) and _same_figures(one, other)


def find_near(names: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Pairs of different spellings that may be one person's."""
    first: dict[str, str] = {}
    for name in names:
        first.setdefault(key_of_name(name), name)
    alike: dict[str, list[str]] = {}
    for name in first.values():
        parts = (*_parts(name), "".join(_given_first(name)[1:]))
        for start in {part[:2] for part in parts if len(part) > 1}:
            alike.setdefault(start, []).append(name)
    order = {name: number for number, name in enumerate(first.values())}
    pairs = {pair for listed in alike.values() for pair in islice(combinations(listed, 2), _COMPARED)}
    near = (pair for pair in pairs if _may_be_one(*pair))
    return tuple(sorted(near, key=lambda pair: (order[pair[0]], order[pair[1]])))


def is_short(text: str) -> bool:
    """Whether a name is short for more than one person: a surname with an initial, `J. Marsh`."""
    parts = text.replace(",", " ").split()
    return len(parts) > 1 and any(len(_INITIAL.findall(part)) == 1 for part in parts)


def _are_near(one: str, other: str, least: float = 0.88) -> bool:
    """Whether two texts share that much, the cheap bounds first."""
    matcher = SequenceMatcher(None, one, other)
    return matcher.real_quick_ratio() >= least and matcher.quick_ratio() >= least and matcher.ratio() >= least


def _same_figures(one: str, other: str) -> bool:
    return re.findall(r"[0-9]+", one) == re.findall(r"[0-9]+", other)


@lru_cache(20_000)
def _given_first(text: str) -> tuple[str, ...]:
    last, comma, given = text.partition(",")
    return tuple(_parts(f"{given} {last}") if comma else _parts(text))


def _parts(text: str) -> list[str]:
    plain = unicodedata.normalize("NFKD", unicodedata.normalize("NFKC", text)).casefold()
    plain = "".join(char for char in plain if not unicodedata.combining(char))
    return re.findall(r"\w+", re.sub(r"['\u2019\u2018`\u00b4]", "", plain).replace(".", " ").replace("-", " "))
