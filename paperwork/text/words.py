"""The words printed on papers, and dates, by language. Findings and explanations stay English.

A sheet asks for one by its key (`sheets.frame.phrase`). The words are data, one file a language in `data/words/`, and
only the file of the show's own language is read. To add a language is to translate `en.toml` under a new name and to
name it in `LANGUAGES` and in the schema; a test holds all files to the same keys and the same places in each text.
"""

from collections.abc import Iterable, Mapping
from typing import Any

from paperwork.resources import read_toml

LANGUAGES = ("en", "de", "fr", "es")
"""English, German, French, Spanish, by the codes of ISO 639-1."""


def words_of(language: str) -> Mapping[str, str]:
    """The words of a language; English for one that has no table."""
    words: Mapping[str, str] = _table(language)["words"]
    return words


def format_date(moment: str, language: str) -> str:
    """An ISO date, with a time of day if it has one, as people write it: `1 March 2027, 16:20`."""
    day, _, time = moment.partition(" ")
    if not day:
        return ""
    table = _table(language)
    year, month, number = day.split("-")
    form = table["first-of-month"] if int(number) == 1 else table["date"]
    date = form.format(day=int(number), month=table["months"][int(month) - 1], year=year)
    return f"{date}, {time}" if time else date


def list_words(words: Iterable[str], language: str) -> str:
    """`a`, `a and b`, `a, b and c` in a language."""
    *first, last = [*words] or [""]
    return f"{', '.join(first)} {words_of(language)['and']} {last}" if first else last


def _table(language: str) -> Mapping[str, Any]:
    return read_toml(f"words/{language if language in LANGUAGES else 'en'}.toml")
