"""A spectrum sweep as levels in dBm, from the plain forms that analysers and general utilities export.

Lines of frequency and level, or of lower edge, upper edge and level; levels alone after a start, a stop and a number
of points; rows of date, time, lowest Hz, highest Hz, width of a bin, samples and levels. Cells stand apart by
semicolons, tabs, commas or blanks, and may be quoted; decimals have a point or a comma. Headings, or units in the
cells, say what a column is and what it counts in. `#`, `!` and `//` begin comments. Passes are held at their highest.
A line that cannot be read is a finding, and the rest is used; where the unit or the column of the levels is not sure,
nothing is.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TypeAlias

from paperwork import limits
from paperwork.files.decode import BOM, decode_text
from paperwork.files.refusal import Refused
from paperwork.files.sniff import Load, load_file
from paperwork.files.sweep.levels import Levels, parse_level
from paperwork.files.sweep.table import UnclearColumns, read_table
from paperwork.files.sweep.units import NOTHING_STATED, StatedUnit, UnclearUnit, choose_offset, to_dbm
from paperwork.finding import Finding, find
from paperwork.place import Place
from paperwork.text.units import GHZ

Level = tuple[int, int, int]
"""Lower edge and upper edge in Hz, level in hundredths of a dBm. A point has equal edges."""

Judged: TypeAlias = tuple[tuple[Level, ...], tuple[Finding, ...]]
"""The levels of a sweep, from the lowest frequency up, and what is wrong with it."""

SweepLoader: TypeAlias = Callable[[str, StatedUnit], Judged]
"""Gives the levels of a sweep file by the name that the show gives it, and what is wrong with it."""

_SHOWN = 8
"""Lines that one finding lists; the rest are counted."""


def lies_below(name: str) -> bool:
    """Whether a path that a show names leads below the show's own folder, on every common system."""
    path = PurePosixPath(name.replace("\\", "/"))
    return not (path.is_absolute() or ".." in path.parts or PureWindowsPath(name).drive)


def read_sweep(path: Path, name: str, stated: StatedUnit = NOTHING_STATED, load: Load = load_file) -> Judged:
    """A sweep file. `name` is how the show names it, `stated` what the show says of its levels."""
    try:
        text = decode_text(load(path, name, most=limits.SWEEP_BYTES), name)
    except Refused as refused:
        return (), (refused.finding,)
    return parse_sweep(text, name, stated)


def parse_sweep(text: str, name: str, stated: StatedUnit = NOTHING_STATED) -> Judged:
    """The same for a text."""
    lines = [line.strip() for line in text.lstrip(BOM).splitlines()]
    try:
        read = read_rows(lines) if any(map(DATED.match, lines)) else read_table(lines)
    except UnclearColumns as unclear:
        return (), (find("sweep-columns", Place(name, unclear.line, 1), name=name, count=unclear.count),)
    first = next((number for number, line in enumerate(lines, 1) if line), 0)
    if len(read.held) > limits.SWEEP_LEVELS:
        return (), (find("sweep-large", Place(name), name=name, most=f"{limits.SWEEP_LEVELS:,}"),)
    if not read.held:
        at = read.bad[0] if read.bad else 0
        return (), (find("sweep-empty", Place(name, at, 1 if at else 0), name=name),)
    try:
        offset = choose_offset(read.held.values(), read.units, stated)
    except UnclearUnit as unclear:
        return (), (find("sweep-unit", Place(name, first, 1), name=name, why=str(unclear), remedy=unclear.remedy),)
    found = (_report_lines(name, read.bad),) if read.bad else ()
    return tuple((low, high, to_dbm(level, offset)) for (low, high), level in sorted(read.held.items())), found


def _report_lines(name: str, bad: Sequence[int]) -> Finding:
    shown = ", ".join(map(str, bad[:_SHOWN])) + (f" and {len(bad) - _SHOWN} more" if len(bad) > _SHOWN else "")
    others = tuple(Place(name, number, 1) for number in bad[1:_SHOWN])
    which = f"lines {shown} are" if len(bad) > 1 else f"line {shown} is"
    return find("sweep-line", Place(name, bad[0], 1), others=others, which=which)


DATED = re.compile(r"\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*,(?:[^,]*,){5}")
"""How such a row begins."""

_COLUMNS = 6


def read_rows(lines: Iterable[str]) -> Levels:
    """The bins of all rows at their highest."""
    found = Levels()
    for number, line in enumerate(lines, 1):
        if not line:
            continue
        if line.startswith("#"):
            found.name_units(line)
            continue
        row = _split_row(line)
        if row is None:
            found.bad.append(number)
            continue
        low, width, levels = row
        for index, level in enumerate(levels):
            found.hold(round(low + index * width), round(low + (index + 1) * width), level)
        if len(found.held) > limits.SWEEP_LEVELS:
            break
    return found


def _split_row(line: str) -> tuple[Decimal, Decimal, list[int]] | None:
    """Where a row starts, the width of its bins and their levels; None for a line that is not a row."""
    parts = line.rstrip(", ").split(",")
    try:
        low, high, width = map(Decimal, parts[2:5])
    except (InvalidOperation, ValueError):
        return None
    levels = [level for part in parts[_COLUMNS:] if (level := parse_level(part)) is not None]
    if not levels or len(levels) < len(parts) - _COLUMNS or not all(one.is_finite() for one in (low, high, width)):
        return None
    fits = 0 <= low < high <= 100 * GHZ and 1 <= width <= GHZ and low + (len(levels) - 1) * width <= high
    return (low, width, levels) if fits else None
