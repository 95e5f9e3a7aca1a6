"""What the lines before the levels say: which column is which, and where a row of levels alone starts and stops."""

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import NamedTuple

from paperwork import limits
from paperwork.files.sweep.units import list_units
from paperwork.frozen import frozen
from paperwork.text.units import GHZ, KHZ, MHZ

HEAD_LINES, HEAD_CHARACTERS = 1_000, 10_000
"""Lines before the first level that are read for what they say, and the longest of them; more is not a head."""

LONGEST_CELL = 60
LONGEST_NUMBER = 20
"""Characters of a cell with a number and its unit, and digits of a number in a head; what is longer is neither."""

_SEPARATORS = (";", "\t", "|", ",")
_BLANK_ROW = re.compile(r"[+-]?[0-9]+(?:,[0-9]+)?(?:\s+[+-]?[0-9]+(?:,[0-9]+)?)+")
_UNIT_GAP = r"(?<=[0-9])\s+(?=(?:[kmg]?hz|db[a-zµμ]*|%)(?:\s|$))"
_CELL = re.compile(r"([+-]?[0-9]+(?:[.,][0-9]*)?(?:[eE][+-]?0?[0-9]{1,2})?)\s*([a-zµμ%][a-zµμ%/]*)?", re.IGNORECASE)
_GROUPED = re.compile(r"[0-9]{1,3}([.,])[0-9]{3}(?:\1[0-9]{3})+(?:\s*hz)?", re.IGNORECASE)
_UNIT = re.compile(r"[kmg]?hz|db[a-zµμ]+", re.IGNORECASE)
_FACTORS = {"hz": 1, "khz": KHZ, "mhz": MHZ, "ghz": GHZ}

_FREQUENCY = ("freq", "fréq", "frec")
_LEVEL = (
    "level", "power", "ampl", "pegel", "leistung", "niveau", "puissance", "nivel", "potencia", "magnitude", "signal",
    "rssi",
)  # fmt: skip
_OTHER = ("rbw", "vbw", "band", "resol", "span", "width", "time", "date", "zeit", "datum", "heure", "hora", "fecha")
_INDEX = {"#", "n", "n.", "no", "no.", "nr", "nr.", "index", "idx", "point", "bin", "id", "row"}
_COUNT = ("count", "points", "samples", "punkte", "bins")
_LOW, _HIGH = {"low", "lower", "from", "von"}, {"high", "upper", "end", "bis"}
_PEAK, _MEAN = ("max", "peak", "hold"), ("avg", "aver", "mean", "mittel", "rms", "moyen", "media")
"""What a heading holds, in small letters; an index is the whole of it, and an edge a word, or `start` or `stop`."""

_KEY = (
    r"(start|stop|cent(?:er|re)|span|step|points|count)([^0-9\n]{0,40}?)"
    r"([0-9]+(?:[.,][0-9]+)*(?:[eE][+-]?[0-9]{1,2})?)\s*\"?,?\s*([kmg]?hz)?"
)


class Number(NamedTuple):
    """A number in a cell with the unit behind it, "" for none."""

    value: Decimal
    unit: str


@frozen
class SweepColumns:
    """Which column is what. `low` and `high` are one column where a point has one frequency. `level` is None where no
    column, or more than one, could be it; `count` is the column of a number of points."""

    low: int
    high: int
    level: int | None
    width: int
    hertz: int = 0
    count: int | None = None
    units: frozenset[str] = frozenset()


def split_cells(line: str) -> list[str]:
    """The cells of a line: apart by a semicolon, else by tabs, bars, commas or blanks; empty ones at its end are left
    out, and a unit in a cell of its own is put to the number before it."""
    separator = next((one for one in _SEPARATORS if one in line), None)
    if separator and line.count(separator) > limits.SWEEP_LEVELS:
        return []
    if '"' in line:
        import csv

        try:
            cells = next(csv.reader([line], delimiter=separator or " ", skipinitialspace=True), [])
        except csv.Error:
            return []
    elif separator == "," and _BLANK_ROW.fullmatch(line):
        cells = line.split()
    else:
        cells = (line if separator else re.sub(_UNIT_GAP, "", line, flags=re.IGNORECASE)).split(separator)
    cells = [cell.strip() for cell in cells]
    while cells and not cells[-1]:
        del cells[-1]
    if not any(map(_UNIT.fullmatch, cells)):
        return cells
    joined: list[str] = []
    for cell in cells:
        number = read_number(joined[-1]) if joined and _UNIT.fullmatch(cell) else None
        joined[-1:] = [f"{joined[-1]} {cell}"] if number and not number.unit else [*joined[-1:], cell]
    return joined


def read_number(cell: str) -> Number | None:
    """The number of a cell; None for anything else."""
    if len(cell) <= LONGEST_CELL and _GROUPED.fullmatch(cell):  # nothing else of so many figures is written in groups
        return Number(Decimal(re.sub("[^0-9]", "", cell)), "Hz")
    match = _CELL.fullmatch(cell.replace("\u2212", "-")) if len(cell) <= LONGEST_CELL else None
    return Number(Decimal(match[1].replace(",", ".")), match[2] or "") if match else None


def read_hertz(text: str) -> int:
    """What the one unit of frequency in a text is in Hz; 0 for none or several."""
    found = _FACTORS.keys() & _list_words(text)
    return _FACTORS[found.pop()] if len(found) == 1 else 0


def _list_words(text: str) -> list[str]:
    """Each run of plain letters in a text, in small ones."""
    return re.findall("[a-z]+", text.lower())


def _holds(text: str, words: Iterable[str]) -> bool:
    """Whether some words, or what begins so, are anywhere in a text in small letters."""
    return any(word in text for word in words)


def find_columns(cells: list[str]) -> SweepColumns | None:
    """What a heading says; None for a line that is none."""
    found: dict[str, list[int]] = {}
    for at, cell in enumerate(cells):
        found.setdefault(_sort_head(cell), []).append(at)
    low, high = (found.get("middle") or found.get(edge) for edge in ("low", "high"))
    levels = [(_rank_level(cells[at]) or 0, at) for at in found.get("level", ())]
    others, counts = found.get("other", []), found.get("count")
    if not low or not high or not (levels or others or counts):
        return None
    best = [at for rank, at in levels if rank == max(levels)[0] and rank > 0] or ([] if levels else others)
    one = best[0] if len(best) == 1 else None
    named = list_units(cells[one]) if one is not None else set()
    count = counts[-1] if counts else None
    return SweepColumns(low[0], high[0], one, len(cells), read_hertz(cells[low[0]]), count, frozenset(named))


def _sort_head(cell: str) -> str:
    """What a column holds by its heading: `low`, `middle` or `high` of a bin, a `level`, a `count`, `other`; "" for
    nothing that is looked at."""
    text, words, level = cell.lower(), set(_list_words(cell)), _rank_level(cell)
    edge = "low" if "start" in text or words & _LOW else "high" if "stop" in text or words & _HIGH else ""
    if not cell or text in _INDEX or (_holds(text, _OTHER) and not list_units(cell)):
        return ""
    is_frequency = _holds(text, _FREQUENCY) or not words.isdisjoint(_FACTORS)
    if is_frequency and not _holds(text, _LEVEL) and not list_units(cell):
        return edge or "middle"
    return "level" if level is not None else edge or ("count" if _holds(text, _COUNT) else "other")


def _rank_level(cell: str) -> int | None:
    """How good a column of levels is by its heading: held at the highest, plain, mean, lowest; None for no level."""
    text = cell.lower()
    if any(word.startswith("min") for word in _list_words(cell)):
        return 0
    if _holds(text, _PEAK):
        return 3
    if _holds(text, _MEAN):
        return 1
    return 2 if "trace" in text or _holds(text, _LEVEL) or list_units(cell) else None


def read_keys(line: str) -> dict[str, Decimal]:
    """`start`, `stop`, `centre`, `span` and `step` in Hz (in no unit, below zero, where none is named), and `points`,
    as far as a line gives them."""
    found: dict[str, Decimal] = {}
    for match in re.finditer(_KEY, line, re.IGNORECASE) if _holds(line, "0123456789") else ():
        key, between, digits, unit = match.groups()
        if len(digits) > LONGEST_NUMBER:
            continue
        grouped = sum(sign in ".," for sign in digits) > 1
        value = Decimal(re.sub("[.,]", "", digits) if grouped else digits.replace(",", "."))
        key = key.lower().replace("center", "centre")
        if key not in ("points", "count"):
            hertz = read_hertz(unit or between)
            found[key] = value * hertz if hertz else -value
        elif key == "points" or "points" not in found:
            found["points"] = value
    return found
