"""The words printed on papers, and dates, by language. Findings and explanations stay English.

A sheet asks for one by its key (`sheets.frame.phrase`). The words are data, one file a language in `data/words/`, and
only the file of the show's own language is read. To add a language is to translate `en.toml` under a new name and to
name it in `LANGUAGES` and in the schema; a test holds all files to the same keys and the same places in each text.
"""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any

from paperwork.resources import read_toml

LANGUAGES = ("en", "de", "fr", "es")
"""English, German, French, Spanish, by the codes of ISO 639-1."""


def words_of(language: str) -> Mapping[str, str]:
    """The words of a language; English for one that has no table."""
    words: Mapping[str, str] = _table(language)["words"]
    return words


def say(language: str, key: str, /, **parts: object) -> str:
    """The words `key` with these parts in their places, in the form for a `count` among the parts: `key one` where the
    language has the count among its `one` (CLDR 48, cardinal plural rules: 1, in French 0 too)."""
    table = _table(language)
    if parts.get("count") in table["one"]:
        key = f"{key} one" if f"{key} one" in table["words"] else key
    text: str = table["words"][key]
    return text.format(**parts) if parts else text


def decimal(figure: str, language: str) -> str:
    """A figure with the decimal sign of the language and a minus of its own: `-97.4` as `−97,4`. Frequencies, steps and
    widths keep the point, as on the displays of radios."""
    return figure.replace(".", _table(language)["decimal"]).replace("-", "\N{MINUS SIGN}")


def format_date(moment: str, language: str) -> str:
    """An ISO date, with a time of day if it has one, as people write it: `1 March 2027, 16:20`."""
    day, _, time = moment.partition(" ")
    if not day:
        return ""
    date = _fill(day, language, "date", "first-of-month")
    return f"{date}, {time}" if time else date


def weekdays_of(language: str) -> tuple[str, ...]:
    """The seven days of a week, short, Monday first."""
    return tuple(_table(language)["weekdays"])


def format_day(date: str, language: str) -> str:
    """An ISO date without its year, for a head over a column: `1 March`."""
    return _fill(date, language, "day", "day-first-of-month")


def join_days(first: str, last: str, language: str) -> str:
    """From which day to which, ISO dates, nothing said twice: `4–20 March 2027`, `28 March – 2 April 2027`; one of them, or "",
    where no more is known. Forms as in the intervals of Unicode CLDR 48 (yMMMMd), with whole months and whole spaces."""
    if not (first and last) or first == last:
        return format_date(first or last, language)
    if first[:7] == last[:7] and first < last:
        table = _table(language)
        form: str = table["days-from-first" if first.endswith("-01") else "days"]
        year, month, day = last.split("-")
        return form.format(first=int(first[8:]), day=int(day), month=table["months"][int(month) - 1], year=year)
    start = format_day(first, language) if first[:4] == last[:4] else format_date(first, language)
    return f"{start} – {format_date(last, language)}"


def _fill(date: str, language: str, usual: str, first: str) -> str:
    table = _table(language)
    year, month, number = date.split("-")
    form: str = table[first if int(number) == 1 else usual]
    return form.format(day=int(number), month=table["months"][int(month) - 1], year=year)


def join_times(start: str, end: str) -> str:
    """From when to when: `14:00–15:15`; with spaces where an end has one, `Sat 11:00 – Sun 23:30` (Unicode CLDR 48)."""
    return f"{start} – {end}" if " " in end else f"{start}–{end}"


def list_words(words: Iterable[str], language: str) -> str:
    """`a`, `a and b`, `a, b and c` in a language. Spanish `y` is `e` before the sound of i, as in `Noor e Ingrid`, and
    stays before a diphthong (the rule of its academy, and of the list patterns of ICU; from memory)."""
    *first, last = [*words] or [""]
    table = _table(language)
    plain = "".join(
        sign for sign in unicodedata.normalize("NFD", last.casefold()) if unicodedata.category(sign) != "Mn"
    )
    softened = table.get("and-before-i") if re.match(r"h?i(?![aeo])", plain) else None
    return f"{', '.join(first)} {softened or table['words']['and']} {last}" if first else last


def _table(language: str) -> Mapping[str, Any]:
    return read_toml(f"words/{language if language in LANGUAGES else 'en'}.toml")
