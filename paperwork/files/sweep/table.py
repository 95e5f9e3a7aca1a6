"""Sweeps as tables: lines of a frequency or two edges and a level, or levels alone after a start and a stop."""

import re
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from functools import lru_cache
from itertools import islice, pairwise

from paperwork import limits
from paperwork.files.sweep.heads import SweepColumns, find_columns, read_hertz, read_number, split_cells
from paperwork.files.sweep.levels import FINE, Levels, choose_units, guess_hertz, scale_level
from paperwork.files.sweep.lines import COMMENTS, LOOKED_AT, Head, Lines, join_decimals, list_body
from paperwork.text.units import GHZ

_MOST_TURNED = 50
"""A file of so many lines is not a table of two rows."""

_PLAIN_LEVEL = re.compile(r"(-?[0-9]{1,2}|-?1[0-9]{2})(?:\.([0-9]{1,2}))?")


class UnclearColumns(ValueError):
    """A table of which no heading says where its level is. `line` is its first line."""

    def __init__(self, line: int, count: int) -> None:
        super().__init__()
        self.line, self.count = line, count


def read_table(lines: Lines) -> Levels:
    """The levels of a table at their highest. Raises UnclearColumns."""
    lines = _turn(lines)
    head = Head(lines)
    if head.end == len(lines):
        return Levels(bad=[number for number, _ in list_body(lines, 0)])
    body = lines, head.end
    first = split_cells(lines[head.end])
    if head.columns and is_headed_row(head.columns, first):
        return read_headed_rows(head, list(list_body(*body)))
    if head.has_span and not (head.columns and head.columns.level is not None) and not has_frequencies(head, body):
        return read_plain_rows(head, list_levels(head, body), head.keys)
    columns = head.columns or _guess_columns(islice(list_body(*body), LOOKED_AT))
    if columns is None or columns.level is None:
        raise UnclearColumns(head.end + 1, len(first))
    return _read_columns(head, columns, list_body(*body))


def _turn(lines: Lines) -> Lines:
    """A table of two rows, of frequencies and of levels, each after its heading, as lines of a frequency and a level.
    Other lines may be before it."""
    filled = list(islice((at for at, line in enumerate(lines) if line and not line.startswith(COMMENTS)), _MOST_TURNED))
    rows = [split_cells(lines[at]) for at in filled[-2:]]
    if len(filled) == _MOST_TURNED or len(rows) != 2 or len(rows[0]) != len(rows[1]) or len(rows[0]) < 3:
        return lines
    heads = [row[0] for row in rows]
    is_turned = not any(map(read_number, heads)) and all(read_number(cell) for row in rows for cell in row[1:])
    if not is_turned or find_columns(heads) is None:
        return lines
    return [*lines[: filled[-2]], *(";".join(f'"{cell}"' for cell in pair) for pair in zip(*rows, strict=True))]


def _guess_columns(body: Iterable[tuple[int, str]]) -> SweepColumns | None:
    """The columns of a table without a heading: two, or three of which two are edges that follow each other."""
    rows = [join_decimals(split_cells(line), 2) for _, line in body]
    count = len(rows[0])
    if count == 2:
        return SweepColumns(0, 0, 1, 2)
    numbers = [[number.value for cell in row if (number := read_number(cell))] for row in rows]
    edges = sorted({(row[0], row[1]) for row in numbers if len(row) == count == 3 and row[0] < row[1]})
    follow = len(edges) > 1 and all(one[1] == two[0] for one, two in pairwise(edges))
    return SweepColumns(0, 1, 2, 3) if follow and all(len(row) == 3 and row[0] < row[1] for row in numbers) else None


def _read_columns(head: Head, columns: SweepColumns, body: Iterable[tuple[int, str]]) -> Levels:
    """Lines of frequency, or of two edges, and level. Frequencies in no unit are taken by their highest."""
    found, cell_units = Levels(), set[str]()
    fine: dict[tuple[int, int], int] = {}
    hertz = columns.hertz
    may_be_plain = (columns.low, columns.high, columns.level, columns.width) == (0, 0, 1, 2)
    for at, (number, line) in enumerate(body):
        read = (may_be_plain and _read_plain(line)) or _read_line(split_cells(line), columns)
        if read is None:
            found.bad.append(number)
            continue
        first, last, own, level, unit = read
        if at == 0:
            hertz = own or hertz
        own = own or hertz
        if unit:
            cell_units.add(unit)
        if bool(own) != bool(hertz):
            found.bad.append(number)
            continue
        key = first * (own or 1), last * (own or 1)
        if fine.get(key, level) <= level:
            fine[key] = level
            if len(fine) > limits.SWEEP_LEVELS:
                return Levels(fine)
    scale = 1 if hertz else guess_hertz(fine)
    found.bad = found.bad if scale else [head.end + 1]
    for (first, last), level in fine.items() if scale else ():
        low_hz = (2 * first * scale + FINE) // (2 * FINE)
        high_hz = low_hz if first == last else (2 * last * scale + FINE) // (2 * FINE)
        if 0 < low_hz <= high_hz <= 100 * GHZ:
            found.hold(low_hz, high_hz, level)
    found.units = choose_units(cell_units, head.units)
    return found


def _read_plain(line: str) -> tuple[int, int, int, int, str] | None:
    """The same as `_read_line` for a frequency and a level and nothing else, as all lines of most files are: many times
    as fast. None for any other line."""
    frequency, separator, text = line.partition("," if "," in line else ";" if ";" in line else "\t")
    whole, point, part = frequency.partition(".")
    figures, level = whole + part, _read_plain_level(text)
    if level is None or not separator or not (figures.isascii() and figures.isdecimal()) or (point and not part):
        return None
    edge = int(figures.ljust(len(whole) + 9, "0")) if 0 < len(whole) <= 12 and len(part) <= 9 else 0
    return (edge, edge, 0, level, "") if edge else None


@lru_cache(maxsize=4096)
def _read_plain_level(text: str) -> int | None:
    """A level in hundredths; None for what is more than that. Few levels make a sweep, each of them many times."""
    match = _PLAIN_LEVEL.fullmatch(text)
    return int(match[1] + (match[2] or "").ljust(2, "0")) if match else None


def _read_line(cells: list[str], columns: SweepColumns) -> tuple[int, int, int, int, str] | None:
    """The edges in whole parts of their unit (`FINE`), what that is in Hz, 0 for none, the level and its unit; None
    for a line without."""
    cells = join_decimals(cells, columns.width)
    wanted = columns.low, columns.high, columns.level or 0
    if len(cells) <= max(wanted) or (columns.width == 2 and len(cells) != 2):
        return None
    low, level = read_number(cells[columns.low]), read_number(cells[wanted[2]])
    high = low if columns.high == columns.low else read_number(cells[columns.high])
    if low is None or high is None or level is None or low.value <= 0 or high.value < low.value:
        return None
    if low.value.adjusted() > 12 or high.value.adjusted() > 12:
        return None
    value = scale_level(level.value * 100)
    hertz = read_hertz(low.unit) if low.unit else 0
    return None if value is None else (round(low.value * FINE), round(high.value * FINE), hertz, value, level.unit)


def has_frequencies(head: Head, body: tuple[Lines, int]) -> bool:
    """Whether lines of two cells begin with frequencies: each says so, or lies within the span in some unit."""
    start = abs(head.keys["start"])
    stop = abs(head.keys["stop"]) if "stop" in head.keys else 2 * start
    for cells in (split_cells(line) for _, line in islice(list_body(*body), LOOKED_AT)):
        one = read_number(cells[0]) if len(cells) == 2 else None
        if one is None:
            return False
        is_within = any(start <= one.value.scaleb(3 * power) <= stop for power in range(-3, 4))
        if not read_hertz(one.unit) and not is_within:
            return False
    return True


def list_levels(head: Head, body: tuple[Lines, int]) -> Iterator[tuple[int, list[str]]]:
    """The cells of lines that hold levels alone. Where it is one a line, `-97,3` is one."""
    is_row = head.keys.get("points") == 2 and sum(1 for _ in islice(list_body(*body), 2)) == 1
    for number, line in list_body(*body):
        cells = split_cells(line)
        yield number, cells if is_row else join_decimals(cells, 1)


def is_headed_row(columns: SweepColumns, first: list[str]) -> bool:
    """Whether a line holds a start, a stop and a number of points, and then as many levels, or none."""
    if columns.count is None or columns.low == columns.high or columns.count >= len(first):
        return False
    points = read_number(first[columns.count])
    after = len(first) - (columns.width if columns.level is None else columns.level)
    return points is not None and (points.value == after or (columns.level is None and after <= 0))


def read_headed_rows(head: Head, body: Sequence[tuple[int, str]]) -> Levels:
    """Levels alone after a heading of start, stop and number of points, and a line of their values."""
    columns, (number, line) = head.columns, body[0]
    cells = split_cells(line)
    values = [read_number(cell) for cell in cells]
    if columns is None or columns.count is None or len(cells) <= max(columns.low, columns.high, columns.count):
        return Levels(bad=[number])
    start, stop, count = (values[at] for at in (columns.low, columns.high, columns.count))
    if start is None or stop is None or count is None:
        return Levels(bad=[number])
    factors = [read_hertz(one.unit) or columns.hertz for one in (start, stop)]
    pairs = zip(("start", "stop"), (start, stop), factors, strict=True)
    keys = {key: one.value * hertz if hertz else -one.value for key, one, hertz in pairs} | {"points": count.value}
    skipped = columns.width if columns.level is None else columns.level
    rows, cut = (body, skipped) if len(cells) > skipped else (body[1:], 0)
    return read_plain_rows(head, ((at, split_cells(text)[cut:]) for at, text in rows), keys)


def read_plain_rows(head: Head, rows: Iterable[tuple[int, list[str]]], keys: dict[str, Decimal]) -> Levels:
    """Levels in rows, or one below the other, evenly from the start to the stop, both included."""
    found, cell_units = Levels(), set[str]()
    wanted = int(keys.get("points", 0))
    passes: list[list[int]] = []
    column: list[int] = []
    for number, cells in rows:
        values = [one for cell in cells if (one := read_number(cell)) and not read_hertz(one.unit)]
        read = [scale_level(one.value * 100) for one in values]
        levels = [level for level in read if level is not None] if len(values) == len(cells) else []
        cell_units |= {one.unit for one in values if one.unit}
        if len(levels) < len(read) or not levels or (len(levels) > 1 and wanted not in (0, len(levels))):
            found.bad.append(number)
        elif len(levels) == 1:
            column += levels
        else:
            passes.append(levels)
    size = wanted or len(column)
    keys = _find_stop(keys, size or max(map(len, passes), default=0))
    passes += [column[at : at + size] for at in range(0, len(column) - size + 1, size)] if column else []
    start, stop = _scale_span(keys)
    for levels in passes if 0 < start < stop <= 100 * GHZ else ():
        for at, level in enumerate(levels):
            hz = round(start + (stop - start) * at / max(1, len(levels) - 1))
            found.hold(hz, hz, level)
        if len(found.held) > limits.SWEEP_LEVELS:
            break
    found.units = choose_units(cell_units, head.units)
    return found


def _find_stop(keys: dict[str, Decimal], size: int) -> dict[str, Decimal]:
    """The keys with the stop that a start, a step in the same unit and so many levels lead to."""
    start, step = keys.get("start", Decimal(0)), keys.get("step", Decimal(0))
    if "stop" in keys or start * step <= 0 or abs(step) > abs(start):
        return keys
    return {**keys, "stop": start + step * max(1, size - 1)}


def _scale_span(keys: dict[str, Decimal]) -> tuple[Decimal, Decimal]:
    """Start and stop in Hz; without a unit, both by the higher. Zeros where nothing states or leads to a stop."""
    start, stop = keys["start"], keys.get("stop", Decimal(0))
    if start > 0 and stop > 0:
        return start, stop
    scale = guess_hertz({(round(abs(start) * FINE), round(abs(stop) * FINE)): 0}) if start < 0 and stop < 0 else 0
    return abs(start) * scale, abs(stop) * scale
