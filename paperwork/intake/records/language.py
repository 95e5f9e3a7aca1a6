"""The language of the papers: that of the list's headings where they are plainly of one, asked once where they are mixed."""

from collections.abc import Sequence
from pathlib import PurePath
from typing import NamedTuple

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision, Doubt
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.tables.versions import SortedTable
from paperwork.raw import Text
from paperwork.text.headings import fold_heading, mean
from paperwork.text.vocabulary import listed_words

_NAMES = {"en": "English", "de": "German", "fr": "French", "es": "Spanish"}
_OTHERS = ("it", "nl", "sv")
"""Languages of lists that have no papers: their lists are not taken for one of a neighbouring language."""

_FEWEST = 2
"""Headings of a language from which a list is taken to be in it: one alone may be a word that was borrowed."""

_PLAIN = 3
"""Headings of one language from which nobody needs to be asked, where no more of the others that are known are not of it."""


class Found(NamedTuple):
    """The language of some headings, how many are of it, and how many that mean something are not."""

    language: str
    own: int
    strange: int

    @property
    def is_plain(self) -> bool:
        """Whether nobody needs to be asked."""
        return self.language == "en" or (self.own >= _PLAIN and self.own >= self.strange)

    @property
    def is_day_first(self) -> bool:
        """Whether its dates are written with the day first, as in each of the languages but English, of which one cannot say."""
        return self.language != "en" or self.own > 0


def read_language(tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the language of the papers. It follows the headings by itself; it is asked where they are few or mixed.

    A show that says anything of itself has a title: a list without one goes by the name of its file.
    """
    heads = [cell for table in tables for cell in table.table.heads]
    if not heads:
        return
    found = find_language(tables)
    first = next((cell for cell in heads if _fits(fold_heading(cell.text), found.language)), heads[0])
    choices = {found.language: f"in {_NAMES[found.language]}"} | {one: f"in {name}" for one, name in _NAMES.items()}
    doubt: Doubt = "sure" if found.is_plain else "likely"
    name, count = _NAMES[found.language], f"{found.own} of {found.own + found.strange}"
    because = "nothing says otherwise" if found.language == "en" else f"{count} headings that are known are {name}"
    decision = Decision(
        "language", "papers", first.place, "language of the papers", found.language, because, choices, doubt
    )
    text = f"{count} headings of the list that are known are {name}: the papers are printed in {name} too"
    taken = ledger.decide(decision, text)
    if taken != "en":
        show = draft.add("show", "show", first.place)
        show.fields.setdefault("title", Text(PurePath(draft.name).stem or "list", first.place))
        show.put("language", taken, first.place)


def find_language(tables: Sequence[SortedTable]) -> Found:
    """The one language in which the most headings are, `en` where no other has enough of them or two have as many, and where
    it has no papers."""
    headings = {fold_heading(cell.text) for table in tables for cell in table.table.heads}
    counts = {one: sum(_fits(heading, one) for heading in headings) for one in (*_NAMES, *_OTHERS)}
    best, next_best = sorted(counts, key=lambda one: -counts[one])[:2]
    if counts[best] < _FEWEST or counts[best] == counts[next_best] or best in _OTHERS:
        return Found("en", counts[best] if best in _OTHERS else 0, 0)
    strange = sum(bool(mean(heading).fields) and not _fits(heading, best) for heading in headings)
    return Found(best, counts[best], strange)


def _fits(words: str, language: str) -> bool:
    known = listed_words(f"headings_{language}") if language != "en" else frozenset()
    return words in known or bool(known & set(words.split()))
