"""The language of the papers: that of the list's headings, asked once where it is not English."""

from collections.abc import Sequence
from pathlib import PurePath

from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision, Doubt
from paperwork.intake.records.draft import ShowDraft
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.headings import fold_heading
from paperwork.raw import Text
from paperwork.text.vocabulary import listed_words

_NAMES = {"en": "English", "de": "German", "fr": "French", "es": "Spanish"}
_FEWEST = 2
"""Headings of a language from which a list is taken to be in it: one alone may be a word that was borrowed."""


def read_language(tables: Sequence[SortedTable], draft: ShowDraft, ledger: Ledger) -> None:
    """Enter the language of the papers. An English list, or one in a language without papers, is not asked about.

    A show that says anything of itself has a title: a list without one goes by the name of its file.
    """
    heads = [cell for table in tables for cell in table.table.heads]
    if not heads:
        return
    found = find_language(tables)
    first = next((cell for cell in heads if _fits(fold_heading(cell.text), found)), heads[0])
    choices = {found: f"in {_NAMES[found]}"} | {one: f"in {name}" for one, name in _NAMES.items()}
    doubt: Doubt = "likely" if found != "en" else "sure"
    because = (f"its headings are {_NAMES[found]}") if found != "en" else "nothing says otherwise"
    subject = "language of the papers"
    decision = Decision("language", "papers", first.place, subject, found, because, choices, doubt)
    text = f"the headings of the list are {_NAMES[found]}: the papers are printed in {_NAMES[found]} too"
    taken = ledger.decide(decision, text)
    if taken != "en":
        show = draft.add("show", "show", first.place)
        show.fields.setdefault("title", Text(PurePath(draft.name).stem or "list", first.place))
        show.put("language", taken, first.place)


def find_language(tables: Sequence[SortedTable]) -> str:
    """The one language in which the most headings are, `en` where no other has enough of them or two have as many."""
    headings = {fold_heading(cell.text) for table in tables for cell in table.table.heads}
    counts = {one: sum(_fits(heading, one) for heading in headings) for one in _NAMES}
    best, next_best = sorted(counts, key=lambda one: -counts[one])[:2]
    return best if counts[best] >= _FEWEST and counts[best] > counts[next_best] else "en"


def _fits(words: str, language: str) -> bool:
    known = listed_words(f"headings_{language}") if language != "en" else frozenset()
    return words in known or bool(known & set(words.split()))
