"""Texts that are data about a person by their looks; they are printed nowhere."""

import re
from collections.abc import Sequence

from paperwork.text.vocabulary import fold_word, listed_words

_PERSONAL = re.compile(r"[^@\s]+@[^@\s]+\.[a-z]{2,}|(?:\+|0)[0-9][0-9 ()/\-]{6,}[0-9]", re.IGNORECASE)
"""An e-mail address or a telephone number."""

_WITHIN = re.compile(
    r"[^@\s]+@[^@\s]+\.[a-z]{2,}|(?<![\w.])(?:\+[0-9]|0[0-9])[0-9 ()/\-]{7,}[0-9](?![\w.])", re.IGNORECASE
)
"""The same within a text: a number of ten signs, so that neither a serial nor a date is taken for one."""


def are_personal(texts: Sequence[str]) -> bool:
    """Whether most of some texts are e-mail addresses or telephone numbers, or names with one of these."""
    return bool(texts) and sum(map(holds_number, texts)) * 2 > len(texts)


def holds_number(text: str) -> bool:
    """Whether a text holds an e-mail address or a telephone number: alone, or as words of its own."""
    return bool(_PERSONAL.fullmatch(text.strip()) or _WITHIN.search(text))


def are_about_health(texts: Sequence[str]) -> bool:
    """Whether one of some texts speaks of somebody's health or diet, in any of the languages."""
    starts = tuple(listed_words("health"))
    return any(word.startswith(starts) for text in texts for word in fold_word(text).split())
