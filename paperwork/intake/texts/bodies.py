"""What the cells of a plot say: marks, the numbers of mics, or names; and cells that say several, one after the other."""

import re
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache
from typing import Literal, TypeAlias

from paperwork.intake.texts.ids import is_plain_prefix, read_id
from paperwork.intake.texts.names import split_roles
from paperwork.intake.texts.scenes import read_mark
from paperwork.text.vocabulary import fold_word, listed_words

Body: TypeAlias = Literal["marks", "mics", "names", "other", ""]

_SIGNS = r"\s*(?:\u2192|\u21d2|[-=]?>)\s*"


_CARRIER = re.compile(r"[0-9]{3,4}[.,][0-9]{1,4}(?:\s*MHz)?", re.IGNORECASE)
"""A frequency, whose comma parts no mics."""


@cache
def _order() -> re.Pattern[str]:
    words = "|".join(sorted(map(re.escape, listed_words("then"))))
    return re.compile(rf"{_SIGNS}|\s+(?:{words})\s+", re.IGNORECASE)


@lru_cache(20_000)
def split_turns(text: str) -> tuple[tuple[str, ...], bool]:
    """The parts of a cell that says several mics or names, and whether it says that they come one after the other:
    `7→9`, `JAMES then TOM`; `7/9` leaves that open."""
    if _CARRIER.fullmatch(text.strip()):
        return (text.strip(),), False
    ordered = tuple(part.strip() for part in _order().split(text) if part.strip())
    if len(ordered) > 1:
        return ordered, True
    numbers = tuple(part.strip() for part in re.split(r"[/;,&+\n]", text) if part.strip())
    return (numbers if len(numbers) > 1 and all(map(is_mic, numbers)) else split_roles(text)), False


@lru_cache(20_000)
def is_mic(text: str) -> bool:
    """Whether a text looks like the number of a mic: `7`, `07`, `Mic 7`, `A3`."""
    parts = read_id(text)
    return bool(parts.digits) and len(text) <= 24 and (is_plain_prefix(parts.prefix) or len(parts.prefix) <= 2)


def is_named_mic(text: str) -> bool:
    """Whether a text says that it is a mic, and is not only a number: `RM 1`, `Mic 12`, `Funkmikro 3`, `HH 2`."""
    parts = read_id(text)
    kinds = listed_words("handheld") | listed_words("lavalier") | listed_words("beltpack")
    return bool(parts.digits and parts.prefix) and (is_plain_prefix(parts.prefix) or fold_word(parts.prefix) in kinds)


def read_body(texts: Sequence[str]) -> Body:
    """What most of the cells of a plot are; `other` where they are nothing that a plot says, "" where there are none."""
    said = [text.strip() for text in texts if text.strip()]
    if not said:
        return ""
    mics = [text for text in said if all(map(is_mic, split_turns(text)[0]))]
    prefixes = {fold_word(read_id(text).prefix) for text in mics if is_mic(text)}
    marks = [text for text in said if read_mark(text) in ("live", "idle") or _is_bracketed(text)]
    if len(mics) * 10 >= len(said) * 7 and len(set(mics)) > 1 and len(prefixes) <= 2 and set(mics) != {"0", "1"}:
        return "mics"
    if len(marks) * 10 >= len(said) * 7:
        return "marks"
    names = [text for text in said if sum(map(str.isalpha, text)) >= 2 and not re.search(r"[0-9]{3}", text)]
    return "names" if len(names) * 10 >= len(said) * 7 else "other"


def _is_bracketed(text: str) -> bool:
    return bool(re.fullmatch(r"\(\w\)|[oO?]", text))


def are_repeated(lines: Iterable[Sequence[str]]) -> bool:
    """Whether names come again along the lines of a plot, as those of somebody do who is in scene after scene."""
    parts = [[part for text in line if text.strip() for part in split_turns(text)[0]] for line in lines]
    full = [line for line in parts if len(line) > 1]
    return sum(len(set(line)) < len(line) for line in full) * 2 > len(full)
