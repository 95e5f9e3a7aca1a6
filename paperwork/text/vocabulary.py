"""What people write in lists of every kind, in seven languages: the words of `data/vocabulary.toml`, and here those
that stand where a name belongs. Every show is asked for them, few for the others."""

import re
import unicodedata
from collections.abc import Collection
from functools import cache, lru_cache

from paperwork.resources import read_toml

_OPEN = frozenset(" -\u2010\u2011\u2012\u2013\u2014\u2212?.\u2026_/*()")
"""Signs that alone in a cell say that there is nothing; a ditto mark says that there is the same again."""

_NOBODY = frozenset(
    (
        "n n", "nn", "tba", "tbc", "tbd", "t b a", "t b c", "t b d", "n a", "nobody", "no one", "not cast", "uncast",
        "to be announced", "to be cast", "to be confirmed", "to be decided", "niemand", "keiner", "unbesetzt",
        "nicht besetzt", "noch offen", "steht noch aus", "a definir", "a confirmer", "a determiner", "por definir",
        "por confirmar", "sin asignar", "nadie", "da definire", "da confermare", "nessuno", "nog onbekend", "n t b",
        "ntb", "ej tillsatt", "obesatt", "ingen",
    )
)  # fmt: skip
"""What is written where a name belongs, and names nobody: an open place. In the languages of `data/headings.toml`."""

_VACANT = frozenset(
    (
        "vacant", "vacancy", "free", "open", "frei", "offen", "vakant", "libre", "vacante", "libero", "libera",
        "vrij", "ledig",
    )
)  # fmt: skip
"""The same, but may be a name: not if it is one of the people."""

_TOTAL = frozenset(("total", "totals", "summe", "gesamt", "anzahl", "somme", "totale", "totaal"))
"""What heads a line that sums up."""

_TOTAL_ALONE = frozenset(("sum", "suma", "summa", "count"))
"""The same where no other word is behind it, as that may be somebody: a count, a first name."""


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


def is_total(text: str) -> bool:
    """Whether a text heads a line that sums up: `Total`, `Total mics`, `Count: 18`. `Count Orlok` is somebody."""
    first, *rest = fold_word(text).split() or [""]
    return first in _TOTAL or (first in _TOTAL_ALONE and not any(map(str.isalpha, rest[:1])))


def is_nobody(name: str, people: Collection[str] = ()) -> bool:
    """Whether a name says that nobody is found yet: `N.N.`, `tba`, `?`, `-`, `frei`.

    `people` are the folded names of those who are known: somebody may be called Frei.
    """
    key = fold_word(name)
    if not key.strip("_"):
        return not set(name) - _OPEN
    return key in _NOBODY or (key in _VACANT and key not in people)
