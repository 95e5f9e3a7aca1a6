"""What people write in lists of every kind, in seven languages: the words of `data/vocabulary.toml` and
`data/no_names.toml`."""

import re
import unicodedata
from collections.abc import Collection
from functools import cache, lru_cache

from paperwork.resources import read_toml

_OPEN = frozenset(" -\u2010\u2011\u2012\u2013\u2014\u2212?.\u2026_/*()")
"""Signs that alone in a cell say that there is nothing; a ditto mark says that there is the same again."""


@lru_cache(20_000)
def fold_word(text: str) -> str:
    """A word of the language: one case, no accents, no punctuation; everything kept that is a letter or a figure."""
    text = unicodedata.normalize("NFKD", text).casefold()
    text = "".join(char for char in text if not unicodedata.combining(char))
    return " ".join(re.findall(r"\w+", text))


@cache
def listed_words(kind: str) -> frozenset[str]:
    """One list of words, as `listed_words("spare")`."""
    return frozenset(read_toml("vocabulary.toml")[kind])


@cache
def _list_no_names(kind: str) -> frozenset[str]:
    """Words that stand where a name belongs: every show is asked for them, few for the others."""
    return frozenset(read_toml("no_names.toml")[kind])


def is_total(text: str) -> bool:
    """Whether a text heads a line that sums up: `Total`, `Total mics`, `Count: 18`. `Count Orlok` is somebody."""
    first, *rest = fold_word(text).split() or [""]
    return first in _list_no_names("total") or (
        first in _list_no_names("total_alone") and not any(map(str.isalpha, rest[:1]))
    )


def is_nobody(name: str, people: Collection[str] = ()) -> bool:
    """Whether a name says that nobody is found yet: `N.N.`, `tba`, `?`, `-`, `frei`.

    `people` are the folded names of those who are known: somebody may be called Frei.
    """
    key = fold_word(name)
    if not key.strip("_"):
        return not set(name) - _OPEN
    return key in _list_no_names("nobody") or (key in _list_no_names("vacant") and key not in people)
