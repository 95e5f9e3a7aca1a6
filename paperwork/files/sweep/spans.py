"""Levels alone, evenly from a start to a stop: in rows, or one below the other."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import islice

from paperwork import limits
from paperwork.files.sweep.heads import SweepColumns, read_hertz, read_number, split_cells
from paperwork.files.sweep.levels import FINE, Levels, choose_units, guess_hertz, scale_level
from paperwork.files.sweep.lines import LOOKED_AT, Head, Lines, join_decimals, list_body
from paperwork.text.units import GHZ


def has_frequencies(head: Head, body: tuple[Lines, int]) -> bool:
    """Whether lines of two cells begin with frequencies: each says so, or lies within the span in one unit or another."""
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
    """Start and stop in Hz; in no unit, both are taken by the higher. Zeros where no stop is stated and no step leads to one."""
    start, stop = keys["start"], keys.get("stop", Decimal(0))
    if start > 0 and stop > 0:
        return start, stop
    scale = guess_hertz({(round(abs(start) * FINE), round(abs(stop) * FINE)): 0}) if start < 0 and stop < 0 else 0
    return abs(start) * scale, abs(stop) * scale
