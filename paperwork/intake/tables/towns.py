"""Columns of a tour: the frequencies of one list in several towns or houses, a column for each, `MHz Leeds`, `MHz York`."""

import re
from collections.abc import Mapping, Sequence

from paperwork.intake.reading import Decision, Doubt, quote
from paperwork.intake.tables.column import ListColumn, TableColumns
from paperwork.intake.tables.values import fit
from paperwork.intake.texts.dates import is_day
from paperwork.intake.texts.names import is_blank
from paperwork.intake.texts.scenes import is_scene
from paperwork.text.headings import mean
from paperwork.text.vocabulary import fold_word, listed_words

_UNIT = re.compile(r"[(\[]?\b[mgk]hz\b[)\]]?", re.IGNORECASE)
_EDGES = " -\N{EN DASH}:/,()"
_NO_TOWN = (
    "first", "second", "newer", "older", "time_word", "in_ear", "handheld", "beltpack", "lavalier", "intercom",
    "frequency_state",
)  # fmt: skip
"""Words that part the frequencies of one list otherwise: which of a pair, how new, what kind of transmitter, how far they are
settled."""

_BECAUSE = "frequencies under the names of towns or houses"

CHOICES = {
    "venue": "the frequencies in other houses: each becomes a venue of the show",
    "notes": "keep them in the notes, under their headings",
    "ignore": "nothing of use: leave them out",
}
"""What they may be, and what an answer says of it to a person."""


def read_town(heading: str) -> tuple[str, bool]:
    """What a heading of frequencies says beside that, and whether it says that they are frequencies."""
    bare = _UNIT.sub(" ", heading)
    words = bare.split()
    says = bare != heading
    for word, rest in ((words[:1], words[1:]), (words[-1:], words[:-1])):
        if rest and mean(word[0]).fields[:1] == ("frequency",):
            words, says = rest, True
            break
    return " ".join(words).strip(_EDGES), says


def take_towns(found: TableColumns) -> None:
    """Decide which columns are the frequencies of one list in several towns. Where there is no other, the first is at home.
    No name proves that it is one of a town, so it is asked, once for the table, unless a head over them all says so."""
    headed = {n: one for n, one in found.columns.items() if n not in found.taken and one.heading}
    towns = {n: one for n, one in headed.items() if _is_town(one)}
    says = {n for n, one in towns.items() if read_town(_head(one))[1] or _is_under_frequencies(n, found.table.acts)}
    is_plain = found.has("frequency") or any(
        one.options[:1] == ("frequency",) and not one.is_second for n, one in headed.items() if n not in towns
    )
    if len(towns) < 2 and not (is_plain and says):
        return
    is_sure = len(towns) > 1 and all(_is_under_towns(n, found.table.acts) for n in towns)
    if not is_plain:
        home = towns.pop(next(iter(towns)))
        found.decide(home, "frequency", f"the frequencies in {read_town(_head(home))[0]}, at home")
    answer = _decide(found, list(towns.values()), is_sure=is_sure, may_wait=is_plain and len(towns) == 1)
    for column in towns.values():
        found.decide(column, answer, _BECAUSE if answer == "venue" else "answered")


def _decide(found: TableColumns, towns: Sequence[ListColumn], *, is_sure: bool, may_wait: bool) -> str:
    """What the columns of towns are: one that is alone beside the frequencies of the list may wait in the notes."""
    first, names = towns[0], [read_town(_head(one))[0] for one in towns]
    question = f"{first.title} and {len(towns) - 1} more hold frequencies: {quote(', '.join(names))}"
    if len(towns) == 1:
        question = f"{first.title} holds frequencies beside those of the list"
    about, value = found.table.grid.title or "the table", "notes" if may_wait else "venue"
    doubt: Doubt = "sure" if is_sure else "likely"
    made = Decision("venue", about, first.place, "columns of towns", value, _BECAUSE, CHOICES, doubt, names)
    return found.ledger.decide(made, question)


def _head(column: ListColumn) -> str:
    return column.heading.text if column.heading else ""


def _is_under_frequencies(number: int, acts: Mapping[int, str]) -> bool:
    return mean(acts.get(number, "")).fields[:1] == ("frequency",)


def _is_under_towns(number: int, acts: Mapping[int, str]) -> bool:
    words = set(fold_word(acts.get(number, "")).split())
    return bool(words & (listed_words("show_venue") | listed_words("towns")))


def _is_town(column: ListColumn) -> bool:
    """Whether a column holds frequencies under a name that is nothing else that lists are headed with."""
    texts = [text for text in column.texts if not is_blank(text)]
    name = read_town(_head(column))[0]
    words = set(fold_word(name).split())
    is_name = len(name) > 2 and not any(map(str.isdigit, name)) and not (is_scene(name) or is_day(name))
    is_other = any(mean(word).fields for word in (name, *words)) or any(words & listed_words(one) for one in _NO_TOWN)
    are_carriers = bool(texts) and fit("frequency", texts) >= 0.75 and fit("channel", texts) < 0.5
    return are_carriers and is_name and not is_other and column.options[:1] in ((), ("frequency",))
