"""Names and lists as people write them: folding for comparison, natural order, ranges of ids, the nearest word."""

import re
import unicodedata
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from paperwork import limits
from paperwork.text.units import Doubt

_RANGE = re.compile(r"(?P<head>[^\W\d_]*)(?P<low>[0-9]+)\s*(?:[-\u2013]|\bto\b)\s*(?P<again>[^\W\d_]*)(?P<high>[0-9]+)")
_LETTER = r"(?P<kind>(?:HIRAGANA |KATAKANA )?LETTER|SYLLABLE|CHARACTER) (?P<name>.+)"
_DIGITS = re.compile(r"([0-9]+)")


def fold(text: str) -> str:
    """The key that two spellings of one name share: NFKC, one case, single spaces."""
    return " ".join(unicodedata.normalize("NFKC", text).casefold().split())


@lru_cache(maxsize=4_096)
def id_key(id: str) -> str:
    """The key under which two ids are one to a reader: case, spaces and leading zeros fall away."""
    key = fold(id).replace(" ", "")
    digits = len(key) - len(key.lstrip("0123456789"))
    return (key[:digits].lstrip("0") or "0" * bool(digits)) + key[digits:]


def group_key(name: str) -> str:
    """The key under which two spellings of a name that records share are one: hyphens too fall away."""
    return id_key(name).replace("-", "")


def list_unsorted(ids: Iterable[str]) -> tuple[str, ...]:
    """The ids in their order; () where that is the order in which people count."""
    listed = tuple(ids)
    return () if list(listed) == sorted(listed, key=natural_key) else listed


def natural_key(text: str) -> tuple[tuple[int, int, str], ...]:
    """Sorts `2` before `10` and `R1.9` before `R1.10`, whatever the padding."""
    return tuple(
        (0, int(part), part) if part.isascii() and part.isdigit() else (1, 0, part.casefold())
        for part in _DIGITS.split(text)
        if part
    )


_UNACCENTED = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"})
"""Letters that no decomposition takes apart, as an alphabet or a keyboard without them has them."""


def strip_accents(text: str) -> str:
    """A casefolded text without accents and combining marks."""
    plain = unicodedata.normalize("NFKD", text.translate(_UNACCENTED))
    return "".join(sign for sign in plain if not unicodedata.combining(sign))


def name_key(text: str) -> tuple[str, str]:
    """Sorts names as readers of any language look for them: accents and case do not count, other scripts are last."""
    return strip_accents(text.casefold()), text


_DEVICES = frozenset(
    {
        "CON",
        "PRN",
        "AUX",
        "NUL",
        *(f"{port}{number}" for port in ("COM", "LPT") for number in "0123456789\u00b9\u00b2\u00b3"),
    }
)
"""Names that Windows keeps for devices with any ending ("Naming Files, Paths, and Namespaces", Microsoft Learn)."""

_NO_NAME = r'[<>:"|?*\\/\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069\ud800-\udfff]'
"""Signs that a common file system does not allow in a name, and those that make it read as another."""


def is_file_name(text: str) -> bool:
    """Whether a text can name a file or a folder on every common system, and reads as what it is."""
    stem = text.split(".", 1)[0].rstrip(" ").upper()
    is_plain = bool(text.strip(". ")) and not text.endswith((" ", ".")) and not re.search(_NO_NAME, text)
    return is_plain and stem not in _DEVICES and len(text.encode("utf-8")) <= 255


def disk_key(path: str) -> str:
    """What is one for two paths that some disk takes for one: neither case nor the form of accents counts there."""
    return unicodedata.normalize("NFD", unicodedata.normalize("NFD", path).casefold())


def match_names(names: Iterable[str], exact: Collection[str] = ()) -> re.Pattern[str]:
    """Finds names in a text as whole words, the longest first: in any case, form of accents and spacing, those of
    `exact` only as they are written."""
    listed = []
    for name in sorted(names, key=lambda name: (-len(name), name)):
        forms = {name} if name in exact else {name, name.upper(), name.lower()}
        forms |= {unicodedata.normalize(form, one) for form in ("NFC", "NFD") for one in forms}
        joined = "|".join(r"\s+".join(map(re.escape, one.split())) for one in sorted(forms))
        listed.append(joined if name in exact else f"(?i:{joined})")
    return re.compile(rf"(?<!\w)(?:{'|'.join(listed) or '(?!)'})(?!\w)")


def make_file_name(text: str, most: int) -> str:
    """The text as such a name of at most so many characters, its ending kept; unchanged where it is one already."""
    if is_file_name(text) and len(text) <= most:
        return text
    stem, dot, ending = re.sub(_NO_NAME, "-", text).strip(" .").rpartition(".")
    room = most - len(dot + ending)
    name = (stem.encode("utf-8")[:room].decode("utf-8", "ignore").rstrip(" .") or "file") + dot + ending
    return name if is_file_name(name) else f"file-{name}"


def split_list(text: str, known: Iterable[str] = ()) -> tuple[str, ...]:
    """The items of a list written as text: by commas or semicolons, else by spaces.

    Without commas, words that together are a known name stay together, the longest first: with `OLD TOM` known,
    `VERA OLD TOM` is two items.
    """
    if re.search(r"[,;]", text):
        return tuple(part.strip() for part in re.split(r"[,;]", text) if part.strip())
    words = text.split()
    keys, longest = _fold_several(tuple(known))
    items, at = [], 0
    while at < len(words):
        most = min(longest, len(words) - at)
        length = next((n for n in range(most, 1, -1) if fold(" ".join(words[at : at + n])) in keys), 1)
        items.append(" ".join(words[at : at + length]))
        at += length
    return tuple(items)


@lru_cache(maxsize=64)
def _fold_several(names: tuple[str, ...]) -> tuple[frozenset[str], int]:
    """The names of several words, folded, and the words of the longest: many texts are split by the same names."""
    keys = frozenset(fold(name) for name in names if " " in name.strip())
    return keys, max((len(key.split()) for key in keys), default=1)


_AND = r"(?i)(?:^|\s+)(?:and|und|et|y)(?:\s+|$)|\s*[&+/]\s*"
_PARTED = r"[\s,;&+/]"
"""What a list of several names has between them, in any manner."""


def split_names(text: str, known: Iterable[str], is_known: Callable[[str], bool]) -> tuple[str, ...]:
    """The names of a list as people write it: `VERA, TOM and HOST`, `VERA + TOM`, `VERA TOM, HOST`. A known name is
    never taken apart, nor is a name of which no part is known, nor between blanks one of which a part is not."""
    known = tuple(name for name in known if " " in name.strip())
    names: list[str] = []
    for item in split_list(text, known):
        parts = [part for part in re.split(_AND, item) if part]
        is_list = not is_known(item) and (not parts or any(map(is_known, parts)))
        for part in parts if is_list else [item]:
            words = () if is_known(part) else split_list(part, known)
            names += words if len(words) > 1 and all(map(is_known, words)) else [part]
    return tuple(names)


def split_known(items: Iterable[str], known: Mapping[str, str]) -> tuple[str, ...]:
    """The items of a list, each that is no known name taken apart where it is a list of known names alone. `known` are
    names by their `id_key`."""
    found: list[str] = []
    for item in items:
        if not re.search(_PARTED, item):
            found.append(item)
            continue
        parts = split_names(item, known.values(), lambda id: id_key(id) in known)
        found += parts if len(parts) > 1 and all(id_key(part) in known for part in parts) else [item]
    return tuple(found)


def expand_ids(text: str) -> tuple[str, ...]:
    """The ids that a shorthand means: `01-03, 7` is 01, 02, 03, 7, and so is `01-03 7`; `S1-S3` is S1, S2, S3.

    A range keeps the padding of its first number. A lone `-` is an empty place, returned as "".
    Raises Doubt for a range that runs backwards, or where more is listed than can be meant.
    """
    ids: list[str] = []
    for word in split_ranges(text):
        ids += expand_range(word)
        if len(ids) > limits.LIST_LENGTH:
            raise Doubt(f"it means more than {limits.LIST_LENGTH:,} items")
    return tuple(ids)


def split_ranges(text: str) -> Iterator[str]:
    """The items of a list of ids, by commas, semicolons or spaces; a range is one item, also with spaces in it."""
    for item in re.split(r"[,;]", text):
        yield from [item.strip()] if _RANGE.fullmatch(item.strip()) else item.split()


def expand_range(word: str) -> tuple[str, ...]:
    """The ids of a range, else the word; "" for a lone `-`. Raises Doubt as `expand_numbers`."""
    match = _RANGE.fullmatch(word)
    if match and match["again"] in ("", match["head"]):
        return tuple(match["head"] + number for number in expand_numbers(match["low"], match["high"]))
    return ("" if word in ("-", "\u2013") else word,)


def expand_numbers(low: str, high: str) -> tuple[str, ...]:
    """The numbers from low to high as text, padded like the first. Raises Doubt where they run backwards."""
    first, last = int(low), int(high)
    if last < first:
        raise Doubt(f"{low}-{high} runs backwards")
    if last - first >= limits.LIST_LENGTH:
        raise Doubt(f"{low}-{high} means more than {limits.LIST_LENGTH:,} items")
    return tuple(str(number).zfill(len(low)) for number in range(first, last + 1))


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that this one most probably meant, or "" if none is near. Same input, same answer."""
    from difflib import get_close_matches

    by_key = {fold(name): name for name in sorted(known)}
    if found := by_key.get(fold(word)):
        return found
    if len(word) > limits.NAME_LENGTH:
        return ""
    close = get_close_matches(
        fold(word), sorted(key for key in by_key if len(key) <= limits.NAME_LENGTH), n=1, cutoff=0.6
    )
    return by_key[close[0]] if close else ""


def hint(word: str, known: Iterable[str]) -> str:
    """`; did you mean X?` for the nearest known word, or ""."""
    found = nearest(word, known)
    return f"; did you mean {found}?" if found else ""


class Hints:
    """The nearest known words, for as long as one run can afford to look for them.

    A file that is wrong all over gets hints for what comes first in it, and costs no minutes.
    """

    def __init__(self) -> None:
        self._left = limits.COMPARISONS

    def nearest(self, word: str, known: Sequence[str], find: Callable[[str, Sequence[str]], str] = nearest) -> str:
        """As the function `nearest`, or another like it; "" once too many words were compared."""
        self._left -= len(known)
        return find(word, known) if self._left >= 0 else ""

    def first(self, word: str, known: Sequence[str], is_near: Callable[[str, str], bool]) -> str:
        """The first known word that is near, "" if none is, or once too many words were compared."""
        self._left -= len(known)
        return next((one for one in known if is_near(word, one)), "") if self._left >= 0 else ""


def spell_ascii(text: str) -> str:
    """Capitals for a name in other letters, by their names in Unicode: `יעל` is YAL, `محمد` MHMD, `Вера` VERA.

    Enough to keep names apart where only ASCII can stand; no transliteration. Signs that stand for words spell nothing.
    """
    return "".join(map(_spell_sign, unicodedata.normalize("NFC", text)))


def _spell_sign(sign: str) -> str:
    match = re.search(_LETTER, unicodedata.name(sign, "")) if unicodedata.category(sign).startswith("L") else None
    if not match or match["name"].startswith("SARA "):  # a vowel of Thai
        return ""
    words = match["name"].partition(" WITH ")[0].split()
    if match["kind"] in ("SYLLABLE", "HIRAGANA LETTER", "KATAKANA LETTER"):
        return words[-1]
    word = words[0] if match["kind"] == "CHARACTER" or words[-1] in ("MARBUTA", "MAKSURA") else words[-1]
    return word[1] if len(word) == 2 and word[0] in "EI" else word[0]  # EL, EM, ES and IE of Cyrillic


def join_words(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    listed = list(words)
    return " and ".join(filter(None, [", ".join(listed[:-1]), *listed[-1:]]))


_NUMBERED = r"(?P<head>[^\W\d_]*)(?P<number>[0-9]+)"


def _follows(id: str, last: str) -> bool:
    """Whether an id is the next one of a range, with the padding of its first number: `9` and `10`, `09` and `10`."""
    one, two = re.fullmatch(_NUMBERED, last), re.fullmatch(_NUMBERED, id)
    if one is None or two is None or one["head"] != two["head"]:
        return False
    return two["number"] == str(int(one["number"]) + 1).zfill(len(one["number"]))


def shorten_ids(ids: Sequence[str]) -> str:
    """Ids with runs of three or more as ranges: `01-06, 09`, `P1-P12`. The inverse of a show file's shorthand."""
    runs: list[list[str]] = []
    for id in sorted(ids, key=natural_key):
        if runs and _follows(id, runs[-1][-1]):
            runs[-1].append(id)
        else:
            runs.append([id])
    return ", ".join(f"{run[0]}\u2013{run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)
