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


_EMAIL = re.compile(r"[^@\s,;:()<>]+@[^@\s,;:()<>]+\.[a-z]{2,}", re.IGNORECASE)
_CALLED = re.compile(
    r"(?<![\w.,+])(?P<number>\(?(?:\+|0|[2-9])[0-9()]*(?:[ .()/\-]{1,3}[0-9]+){0,7})(?![\w])(?![.,:/][0-9])"
)
_DATE = re.compile(r"[0-9]{1,2}[./\-][0-9]{1,2}[./\-](?:[0-9]{4}|[0-9]{2})\b(?![./\-][0-9])|[0-9]{4}-[0-9]{2}-[0-9]{2}")
_AMERICAN = re.compile(r"\(?[2-9][0-9]{2}\)?[ \-][0-9]{3}-[0-9]{4}")
_STREET = re.compile(
    r"\b[0-9]{1,4}[a-z]?,? (?:[^\W\d_]+ ){1,3}(?:street|road|lane|avenue|close|drive|crescent|terrace|court|way)\b"
    r"|\b[^\W\d_]+(?:stra(?:ß|ss)e|str\.|gasse|weg|platz|straat|laan|gatan|vägen) ?[0-9]{1,4}[a-z]?\b"
    r"|\b[0-9]{1,4},? (?:rue|boulevard|impasse) [^\W\d_]|\b(?:calle|avenida|via|viale) [^\W\d_]+[ ,]+[0-9]{1,4}\b",
    re.IGNORECASE,
)
_POSTCODE = re.compile(r"\b[A-Z]{1,2}[0-9][A-Z0-9]? [0-9][A-Z]{2}\b|\b[0-9]{5}\b|\b[0-9]{4} ?[A-Z]{2}\b")
_SHORTEST, _LONGEST = 9, 14
"""Figures of a telephone number that nothing announces; one after a word for telephones may be shorter by two."""


_CLAUSES = re.compile(r"([,;.!?()/\n]|\s[\N{EN DASH}\N{EM DASH}-]\s)")


def withhold(text: str) -> str:
    """A text with `…` in place of each e-mail address and telephone number, and of all from a street with a postcode on.

    Common practice, no source: a number to call begins with 0 or +, is in groups, or follows a word for telephones. What
    counts on, as `01 02 03 04 05`, a date, a serial after its word, and a frequency are none.
    """
    text = _CALLED.sub(lambda match: "…" if _is_called(match, text) else match.group(), _EMAIL.sub("…", text))
    street = _STREET.search(text)
    return text[: street.start()] + "…" if street and _POSTCODE.search(text, street.start()) else text


def _is_called(match: re.Match[str], text: str) -> bool:
    number = match["number"]
    groups = re.findall(r"[0-9]+", number)
    before = fold_word(text[: match.start()]).split()[-2:]
    unit = fold_word(text[match.end() :]).split()[:1]
    if _DATE.match(number) or unit in (["mhz"], ["khz"], ["hz"]) or set(before) & listed_words("thing_number"):
        return False
    if len(groups) > 2 and all(len(one) < 3 for one in groups) and groups == sorted(groups, key=int):
        return False
    if "." in number and (" " in number or len(groups) < 4):
        return False  # decimals
    is_announced = bool(set(before) & listed_words("telephone"))
    figures, fewest = sum(map(len, groups)), _SHORTEST - 2 * is_announced
    is_begun = is_announced or number.lstrip("(").startswith(("+", "0"))
    is_grouped = len(groups) > 1 or number.startswith("+") or is_announced or groups[0].startswith(("06", "07"))
    return bool(_AMERICAN.fullmatch(number)) or (is_begun and is_grouped and fewest <= figures <= _LONGEST)


def are_personal(texts: Sequence[str]) -> bool:
    """Whether most of some texts are e-mail addresses or telephone numbers, or names with one of these."""
    return bool(texts) and sum(map(holds_number, texts)) * 2 > len(texts)


def holds_number(text: str) -> bool:
    """Whether a text holds an e-mail address or a telephone number: alone, or as words of its own."""
    return bool(_PERSONAL.fullmatch(text.strip()) or _WITHIN.search(text))


def are_about_health(texts: Sequence[str]) -> bool:
    """Whether most of some texts speak of somebody's health or diet, in any of the languages. A capital may be a name's."""
    starts, whole = tuple(listed_words("health")), listed_words("health_word")
    found = [
        any(fold_word(word).startswith(starts) or word in whole for word in re.findall(r"[^\W\d_]+", text))
        for text in texts
    ]
    return sum(found) * 2 > len(found)


def withhold_health(text: str) -> str:
    """A text with `…` in place of what speaks of somebody's health or diet, up to the next stop."""
    if not are_about_health([text]):
        return text
    left = "".join(_withhold_clause(part) for part in _CLAUSES.split(text))
    return re.sub("…(?:[,;.!?() ]*…)+", "…", left)


def _withhold_clause(clause: str) -> str:
    gap = clause[: len(clause) - len(clause.lstrip())]
    return f"{gap}…" if are_about_health([clause]) else clause
