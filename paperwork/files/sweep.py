"""A spectrum sweep as levels: plain `frequency,level` lines, or the rows that general sweep utilities write.

Plain: two columns, the frequency in MHz, kHz or Hz, the level in dBm, with or without a heading. Columns stand apart by
a comma, semicolon, tab or blanks; decimals have a point, or a comma where no comma stands between columns. Rows: date,
time, lowest Hz, highest Hz, width of a bin in Hz, number of samples, then one level a bin. `#` begins a comment. Passes
are held at their highest. A line that cannot be read is a finding, and the rest is used.
"""

import re
from collections.abc import Iterable, Sequence
from decimal import Decimal, InvalidOperation
from pathlib import Path, PurePosixPath, PureWindowsPath

from paperwork import limits
from paperwork.files.decode import decode_text
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.finding import Finding, find
from paperwork.place import Place
from paperwork.text.units import GHZ, HIGHEST_CDBM, KHZ, LOWEST_CDBM, MHZ

Level = tuple[int, int, int]
"""Lower edge and upper edge in Hz, level in hundredths of a dBm. A point has equal edges."""

_SHOWN = 8
"""Lines that one finding lists; the rest are counted."""

_DATE = re.compile(r"\s*[0-9]{4}-[0-9]{2}-[0-9]{2}\s*,")
_ROW_COLUMNS = 6
_NUMBER = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]{1,2})?")


def lies_below(name: str) -> bool:
    """Whether a path that a show names leads below the show's own folder, on every common system."""
    path = PurePosixPath(name.replace("\\", "/"))
    return not (path.is_absolute() or ".." in path.parts or PureWindowsPath(name).drive)


def read_sweep(path: Path, name: str) -> tuple[tuple[Level, ...], tuple[Finding, ...]]:
    """The levels of a sweep file, from the lowest up, and what is wrong with it. `name` is how the show names it."""
    try:
        text = decode_text(load_file(path, name, most=limits.SWEEP_BYTES), name)
    except Refused as refused:
        return (), (refused.finding,)
    return parse_sweep(text, name)


def parse_sweep(text: str, name: str) -> tuple[tuple[Level, ...], tuple[Finding, ...]]:
    """The same for a text."""
    lines = [
        (number, line.strip())
        for number, line in enumerate(text.lstrip("\ufeff").splitlines(), 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    held, bad = _read_rows(lines) if any(_DATE.match(line) for _, line in lines) else _read_points(lines)
    found = [_report_lines(name, bad)] if bad else []
    if len(held) > limits.SWEEP_LEVELS:
        found.append(find("sweep-large", Place(name), name=name, most=f"{limits.SWEEP_LEVELS:,}"))
        held = {}
    elif not held:
        found = [find("sweep-empty", Place(name, bad[0] if bad else 0, 1 if bad else 0), name=name)]
    return tuple((low, high, level) for (low, high), level in sorted(held.items())), tuple(found)


_Held = dict[tuple[int, int], int]


def _hold(held: _Held, low_hz: int, high_hz: int, level_cdbm: int) -> None:
    key = low_hz, high_hz
    if held.get(key, LOWEST_CDBM) <= level_cdbm:
        held[key] = level_cdbm


def _read_rows(lines: Iterable[tuple[int, str]]) -> tuple[_Held, list[int]]:
    """The bins of all rows at their highest, and the numbers of lines that are no rows."""
    held: _Held = {}
    bad = []
    for number, line in lines:
        row = _split_row(line)
        if row is None or len(held) > limits.SWEEP_LEVELS:
            bad.append(number)
            continue
        low, width, levels = row
        for index, level in enumerate(levels):
            _hold(held, round(low + index * width), round(low + (index + 1) * width), level)
    return held, bad


def _split_row(line: str) -> tuple[Decimal, Decimal, list[int]] | None:
    """Where a row starts, the width of its bins and their levels; None for a line that is no row."""
    parts = line.rstrip(", ").split(",")
    low, high, width = (_number(part) for part in (*parts[2:5], "", "", "")[:3])
    levels = [level for part in parts[_ROW_COLUMNS:] if (level := _level(part)) is not None]
    if not levels or len(levels) < len(parts) - _ROW_COLUMNS or low is None or high is None or width is None:
        return None
    fits = 0 <= low < high <= 100 * GHZ and 1 <= width <= GHZ and low + (len(levels) - 1) * width <= high
    return (low, width, levels) if fits else None


def _read_points(lines: Sequence[tuple[int, str]]) -> tuple[_Held, list[int]]:
    """The points at their highest, and the numbers of lines that hold none. A first line of words is the heading."""
    read = [(number, _split_point(line)) for number, line in lines]
    if read and read[0][1] is None and not lines[0][1][:1].isdigit():
        del read[0]
    unit_hz = _unit_hz(max((point[0] for _, point in read if point), default=Decimal(0)))
    held: _Held = {}
    bad = [number for number, point in read if point is None or not unit_hz]
    for _, point in read if unit_hz else ():
        if point is not None:
            hz = round(point[0] * unit_hz)
            _hold(held, hz, hz, point[1])
    return held, bad


def _split_point(line: str) -> tuple[Decimal, int] | None:
    """Frequency, in whatever unit, and level; None for a line that is not just these two."""
    for separator in (";", "\t", ",", None):
        if separator is None or separator in line:
            parts = [part.strip() for part in line.rstrip(";,\t ").split(separator)]
            break
    if len(parts) == 4 and separator == ",":  # 470,1,-97,3: commas between columns and in the numbers
        parts = [".".join(parts[:2]), ".".join(parts[2:])]
    if len(parts) != 2:
        return None
    frequency, level = _number(parts[0]), _level(parts[1])
    return None if frequency is None or frequency <= 0 or level is None else (frequency, level)


def _unit_hz(highest: Decimal) -> int:
    """What the highest frequency of a file counts in: bands up to 6 GHz in MHz, kHz and Hz do not meet. 0: nothing."""
    if highest < 25:
        return 0
    return MHZ if highest < 25_000 else KHZ if highest < 25_000_000 else 1


def _number(text: str) -> Decimal | None:
    clean = text.strip().replace(",", ".")
    return Decimal(clean) if _NUMBER.fullmatch(clean) else None


def _level(text: str) -> int | None:
    """The level in hundredths of a dBm; None for what is no level, as `nan` and `-inf`."""
    try:
        level = Decimal(text.strip().replace(",", ".")) * 100
    except InvalidOperation:
        return None
    return round(level) if level.is_finite() and LOWEST_CDBM <= level <= HIGHEST_CDBM else None


def _report_lines(name: str, bad: Sequence[int]) -> Finding:
    shown = ", ".join(map(str, bad[:_SHOWN])) + (f" and {len(bad) - _SHOWN} more" if len(bad) > _SHOWN else "")
    others = tuple(Place(name, number, 1) for number in bad[1:_SHOWN])
    which = f"lines {shown} are" if len(bad) > 1 else f"line {shown} is"
    return find("sweep-line", Place(name, bad[0], 1), others=others, which=which)
