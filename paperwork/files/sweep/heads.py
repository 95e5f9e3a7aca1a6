"""What the lines before the levels say: which column is which, and where a row of levels alone starts and stops."""

import re
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
_UNIT_GAP = re.compile(r"(?<=[0-9])\s+(?=(?:[kmg]?hz|db[a-zµμ]*|%)(?:\s|$))", re.IGNORECASE)
_CELL = re.compile(r"([+-]?[0-9]+(?:[.,][0-9]*)?(?:[eE][+-]?0?[0-9]{1,2})?)\s*([a-zµμ%][a-zµμ%/]*)?", re.IGNORECASE)
_GROUPED = re.compile(r"[0-9]{1,3}([.,])[0-9]{3}(?:\1[0-9]{3})+(?:\s*hz)?", re.IGNORECASE)
_UNIT = re.compile(r"[kmg]?hz|db[a-zµμ]+", re.IGNORECASE)
_HERTZ = re.compile(r"(?<![a-z])([kmg]?)hz(?![a-z])", re.IGNORECASE)
_FACTORS = {"": 1, "k": KHZ, "m": MHZ, "g": GHZ}

_FREQUENCY = re.compile(r"freq|fréq|frec", re.IGNORECASE)
_LEVEL = re.compile(
    r"level|power|ampl|pegel|leistung|niveau|puissance|nivel|potencia|magnitude|signal|rssi", re.IGNORECASE
)
_OTHER = re.compile(r"rbw|vbw|band|resol|span|width|time|date|zeit|datum|heure|hora|fecha", re.IGNORECASE)
_INDEX = re.compile(r"#|n[or]?\.?|index|idx|point|bin|id|row", re.IGNORECASE)
_COUNT = re.compile(r"count|points|samples|punkte|bins", re.IGNORECASE)
_LOW = re.compile(r"start|(?<![a-z])(?:low|lower|from|von)(?![a-z])", re.IGNORECASE)
_HIGH = re.compile(r"stop|(?<![a-z])(?:high|upper|end|bis)(?![a-z])", re.IGNORECASE)
_HELD = (
    (0, re.compile(r"(?<![a-z])min", re.IGNORECASE)),
    (3, re.compile(r"max|peak|hold", re.IGNORECASE)),
    (1, re.compile(r"avg|aver|mean|mittel|rms|moyen|media", re.IGNORECASE)),
    (2, re.compile(r"trace", re.IGNORECASE)),
)
_KEY = re.compile(
    r"(start|stop|cent(?:er|re)|span|step|points|count)([^0-9\n]{0,40}?)([0-9]+(?:[.,][0-9]+)*(?:[eE][+-]?[0-9]{1,2})?)\s*\"?,?\s*([kmg]?hz)?",
    re.IGNORECASE,
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
        cells = (line if separator else _UNIT_GAP.sub("", line)).split(separator)
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
    found = {match[1].lower() for match in _HERTZ.finditer(text)}
    return _FACTORS[found.pop()] if len(found) == 1 else 0


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
    level, edge = _rank_level(cell), "low" if _LOW.search(cell) else "high" if _HIGH.search(cell) else ""
    if not cell or _INDEX.fullmatch(cell) or (_OTHER.search(cell) and not list_units(cell)):
        return ""
    if (_FREQUENCY.search(cell) or _HERTZ.search(cell)) and not _LEVEL.search(cell) and not list_units(cell):
        return edge or "middle"
    return "level" if level is not None else edge or ("count" if _COUNT.search(cell) else "other")


def _rank_level(cell: str) -> int | None:
    """How good a column of levels is by its heading: held at the highest, plain, mean, lowest; None for no level."""
    for rank, pattern in _HELD:
        if pattern.search(cell):
            return rank
    return 2 if _LEVEL.search(cell) or list_units(cell) else None


def read_keys(line: str) -> dict[str, Decimal]:
    """`start`, `stop`, `centre`, `span` and `step` in Hz (in no unit, below zero, where none is named), and `points`,
    as far as a line gives them."""
    found: dict[str, Decimal] = {}
    for match in _KEY.finditer(line):
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
