"""Columns of a tour: the frequencies of one list in several towns or houses, a column for each, `MHz Leeds`, `MHz York`."""

import re
from collections.abc import Mapping

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
_NO_TOWN = ("first", "second", "newer", "older", "time_word", "in_ear", "handheld", "beltpack", "lavalier", "intercom")
"""Words that part the frequencies of one list otherwise: which of a pair, how new, what kind of transmitter."""

CHOICES = {
    "venue": "the frequencies in other houses: each becomes a venue of the show",
    "notes": "keep them in the notes, under their headings",
    "ignore": "nothing of use: leave them out",
}


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
    """Decide which columns are the frequencies of one list in several towns. Where there is no other, the first is at home;
    what nothing but their values says of them is asked, once for the table."""
    open_columns = {n: one for n, one in found.columns.items() if n not in found.taken and one.heading}
    towns = {n: one for n, one in open_columns.items() if _is_town(one)}
    plain = found.has("frequency") or any(
        one.options[:1] == ("frequency",) for n, one in open_columns.items() if n not in towns and not one.is_second
    )
    says = {n for n, one in towns.items() if read_town(_head(one))[1] or _is_under_frequencies(n, found.table.acts)}
    if len(towns) < 2 and not (plain and says):
        return
    first, *_ = towns
    if not plain:
        found.decide(
            towns.pop(first), "frequency", f"the frequencies in {read_town(_head(open_columns[first]))[0]}, at home"
        )
    doubt: Doubt = "sure" if len(open_columns.keys() & says) > 1 and says >= towns.keys() else "likely"
    samples = [read_town(_head(one))[0] for one in towns.values()]
    one = next(iter(towns.values()))
    question = f"{one.title} and {len(towns) - 1} more hold frequencies: {quote(', '.join(samples))}"
    if len(towns) == 1:
        question = f"{one.title} holds frequencies beside those of the list"
    about = found.table.grid.title or "the table"
    because = "frequencies under the names of towns or houses"
    value = "venue" if len(towns) > 1 or not plain else "notes"
    made = Decision("venue", about, one.place, "columns of towns", value, because, CHOICES, doubt, samples)
    answer = found.ledger.decide(made, question)
    for column in towns.values():
        found.decide(column, answer, because if answer == "venue" else "answered")


def _head(column: ListColumn) -> str:
    return column.heading.text if column.heading else ""


def _is_under_frequencies(number: int, acts: Mapping[int, str]) -> bool:
    return mean(acts.get(number, "")).fields[:1] == ("frequency",)


def _is_town(column: ListColumn) -> bool:
    """Whether a column holds frequencies under a name that is nothing else that lists are headed with."""
    texts = [text for text in column.texts if not is_blank(text)]
    name = read_town(_head(column))[0]
    words = set(fold_word(name).split())
    is_name = len(name) > 2 and not any(map(str.isdigit, name)) and not (is_scene(name) or is_day(name))
    is_other = any(mean(word).fields for word in (name, *words)) or any(words & listed_words(one) for one in _NO_TOWN)
    are_carriers = bool(texts) and fit("frequency", texts) >= 0.75 and fit("channel", texts) < 0.5
    return are_carriers and is_name and not is_other and column.options[:1] in ((), ("frequency",))
