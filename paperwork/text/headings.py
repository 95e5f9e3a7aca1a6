"""What the heading of a column means: spellings of seven languages, folded, as data in `data/headings.toml`."""

import re
import unicodedata
from functools import cache, lru_cache
from typing import NamedTuple

from paperwork.resources import read_toml

_EXACT = frozenset(
    [
        "colour",
        "belt",
        "lock",
        "power",
        "second",
        "type",
        "unit",
        "slot",
        "box",
        "jack",
        "send",
        "ear",
        "child",
        "team",
        "pouch",
        "display",
        "cell_set",
    ]
)
"""Fields whose word within a longer heading says nothing: `Colour tape`, `Belt pack battery changed?`."""

_ALONE = frozenset({"mics", "microphones", "mikros", "mikrofone", "micros", "live", "track", "label", "usual"})
"""Words of the same kind of a field that a longer heading may mean otherwise: `Mics needed`."""

_UNITS = re.compile(r"\b(?:in )?(?:mhz|khz|ghz)\b")
_NUMBER_SIGN = re.compile(r"#|№|\bn[°º]|\b(?:nr|no|num)\.|\bnr\b|^\s*n\.(?!\S)", re.IGNORECASE)

OURS = {
    "channel": "id",
    "performer": "by",
    "frequency": "mhz",
    "receiver": "slot",
    "type": "radio",
    "scene_title": "name",
}
"""What the fields of lists are called in a show file, where not the same."""


class Meaning(NamedTuple):
    """The fields that a heading can mean, the likeliest first, and whether it is spelled just so."""

    fields: tuple[str, ...]
    is_exact: bool


def fold_heading(text: str) -> str:
    """The key that spellings of one heading share: no accents, punctuation, brackets, units; `#` and `nr.` as `no`."""
    text = _NUMBER_SIGN.sub(" no ", text)
    text = unicodedata.normalize("NFKD", text).casefold()
    text = "".join(char for char in text if not unicodedata.combining(char)).replace("ß", "ss").replace("ø", "o")
    bare = re.sub(r"[(\[{][^)\]}]*[)\]}]", " ", text)
    words = " ".join(re.findall(r"[a-z0-9]+", bare if re.search(r"\w", bare) else text))
    without = " ".join(_UNITS.sub(" ", words).split())
    return without or words


@cache
def spellings() -> dict[str, tuple[str, ...]]:
    """The fields of each spelling, the likeliest first."""
    table: dict[str, tuple[str, ...]] = {}
    for field, spellings in read_toml("headings.toml")["fields"].items():
        for spelling in spellings:
            known = table.get(spelling, ())
            table[spelling] = known if field in known else (*known, field)
    return table


@lru_cache(20_000)
def mean(heading: str) -> Meaning:
    """What a heading can mean; no field for one that is not known."""
    key = fold_heading(heading)
    table = spellings()
    if key in table:
        return Meaning(table[key], True)
    parts = key.split()
    if len(parts) == 1 and key.endswith("frequenz"):
        return Meaning(("frequency",), False)  # `Sendefrequenz`
    if 1 < len(parts) <= 4 and not any(char.isdigit() for char in key):
        for length in range(len(parts) - 1, 0, -1):
            for piece in (" ".join(parts[:length]), " ".join(parts[-length:])):
                if piece in table and len(piece) > 2 and piece not in _ALONE and table[piece][0] not in _EXACT:
                    return Meaning(table[piece], False)
    return Meaning((), False)


def fields() -> tuple[str, ...]:
    """Every field that a column can hold."""
    return tuple(read_toml("headings.toml")["fields"])
