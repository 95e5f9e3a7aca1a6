"""Sweeps as tables: a frequency and a level in each line, two edges and a level, or levels alone after a start and a stop."""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import islice, pairwise

from paperwork import limits
from paperwork.files.sweep.heads import (
    HEAD_CHARACTERS,
    HEAD_LINES,
    Number,
    SweepColumns,
    find_columns,
    read_hertz,
    read_keys,
    read_number,
    split_cells,
)
from paperwork.files.sweep.levels import Levels, scale_level
from paperwork.files.sweep.units import list_units
from paperwork.text.units import GHZ, HIGHEST_HZ, KHZ, LOWEST_HZ, MHZ

Lines = Sequence[str]
"""All lines of a file without outer blanks; the first has the number 1."""

COMMENTS = ("#", "!", "//")
_LOOKED_AT = 20
_FINE = 10**9
"""Frequencies are whole billionths of the file's unit until that is known."""


class UnclearColumns(ValueError):
    """A table of which no heading says where its level is. `line` is its first line."""

    def __init__(self, line: int, count: int) -> None:
        super().__init__()
        self.line, self.count = line, count


class _Head:
    """What the lines before the first level say."""

    def __init__(self, lines: Lines) -> None:
        self.columns: SweepColumns | None = None
        self.keys: dict[str, Decimal] = {}
        self.units: set[str] = set()
        self.end = len(lines)
        read = 0
        for at, line in enumerate(lines):
            if not line:
                continue
            read += 1
            is_comment = line.startswith(COMMENTS)
            cells = split_cells(line.lstrip("#!/ ") if is_comment else line)
            if not is_comment and self._is_data(cells):
                self.end = at
                break
            if read <= HEAD_LINES and len(line) <= HEAD_CHARACTERS:
                keys = read_keys(line)
                self.columns = (None if keys else find_columns(cells)) or self.columns
                self.keys |= keys
                self.units |= list_units(line)
        self._complete()
        if self.columns and self.columns.units:
            self.units = set(self.columns.units)

    @property
    def has_span(self) -> bool:
        """Whether it says from where to where levels without a frequency run."""
        self._complete()
        return self.keys.keys() >= {"start", "stop"} or self.keys.keys() >= {"start", "step"}

    def _complete(self) -> None:
        """Start and stop from a centre and a span, where both are in Hz."""
        centre, span = self.keys.get("centre", Decimal(0)), self.keys.get("span", Decimal(0))
        if centre > 0 and 0 < span < 2 * centre and not self.keys.keys() & {"start", "stop"}:
            self.keys |= {"start": centre - span / 2, "stop": centre + span / 2}

    def _is_data(self, cells: list[str]) -> bool:
        """Whether a line begins the levels: it has nothing but numbers, or numbers where the heading wants them."""
        if not cells or (len(cells) == 1 and not self.has_span):
            return False
        if all(map(read_number, cells)):
            return True
        one = self.columns
        wanted = (one.low, one.high, one.level) if one and one.level is not None else ()
        return bool(wanted) and all(at < len(cells) and read_number(cells[at]) for at in wanted)


def read_table(lines: Lines) -> Levels:
    """The levels of a table at their highest. Raises UnclearColumns."""
    lines = _turn(lines)
    head = _Head(lines)
    if head.end == len(lines):
        return Levels(bad=[number for number, _ in _list_body(lines, 0)])
    body = lines, head.end
    first = split_cells(lines[head.end])
    if head.columns and _is_headed_row(head.columns, first):
        return _read_headed_rows(head, list(_list_body(*body)))
    is_plain = head.has_span and (len(first) != 2 or head.keys.get("points") == 2)
    if is_plain and not (head.columns and head.columns.level is not None):
        rows = ((number, split_cells(line)) for number, line in _list_body(*body))
        return _read_plain_rows(head, rows, head.keys)
    columns = head.columns or _guess_columns(islice(_list_body(*body), _LOOKED_AT))
    if columns is None or columns.level is None:
        raise UnclearColumns(head.end + 1, len(first))
    return _read_columns(head, columns, _list_body(*body))


def _turn(lines: Lines) -> Lines:
    """A table of two rows, of frequencies and of levels, each after its heading, as lines of a frequency and a level."""
    rows = [split_cells(line) for line in islice((one for one in lines if one and not one.startswith(COMMENTS)), 3)]
    if len(rows) != 2 or len(rows[0]) != len(rows[1]) or len(rows[0]) < 3:
        return lines
    heads = [row[0] for row in rows]
    is_turned = not any(map(read_number, heads)) and all(read_number(cell) for row in rows for cell in row[1:])
    if not is_turned or find_columns(heads) is None:
        return lines
    return [";".join(f'"{cell}"' for cell in pair) for pair in zip(*rows, strict=True)]


def _list_body(lines: Lines, start: int) -> Iterator[tuple[int, str]]:
    """The lines from an index on with their numbers, without comments and blank ones. None is copied: there are many."""
    for number, line in enumerate(islice(lines, start, None), start + 1):
        if line and not line.startswith(COMMENTS):
            yield number, line


def _is_headed_row(columns: SweepColumns, first: list[str]) -> bool:
    """Whether a line holds a start, a stop and a number of points, and then as many levels, or none."""
    if columns.count is None or columns.low == columns.high or columns.count >= len(first):
        return False
    points = read_number(first[columns.count])
    after = len(first) - (columns.width if columns.level is None else columns.level)
    return points is not None and (points.value == after or (columns.level is None and after <= 0))


def _guess_columns(body: Iterable[tuple[int, str]]) -> SweepColumns | None:
    """The columns of a table without a heading: two, or three of which the first two are edges that follow each other."""
    rows = [_join_decimals(split_cells(line), 2) for _, line in body]
    count = len(rows[0])
    if count == 2:
        return SweepColumns(0, 0, 1, 2)
    numbers = [[number.value for cell in row if (number := read_number(cell))] for row in rows]
    are_edges = count == 3 and len(rows) > 1 and all(len(row) == 3 and row[0] < row[1] for row in numbers)
    follow = are_edges and all(one[1] == two[0] for one, two in pairwise(numbers))
    return SweepColumns(0, 1, 2, 3) if follow else None


def _join_decimals(cells: list[str], width: int) -> list[str]:
    """The cells of `470,0,-97,3`, where commas stand between columns and in the numbers, as a table of so many columns."""
    if len(cells) != 2 * width or not all(part.isdigit() for part in cells[1::2]) or any("." in cell for cell in cells):
        return cells
    return [f"{whole}.{part}" for whole, part in zip(cells[::2], cells[1::2], strict=True)]


def _read_columns(head: _Head, columns: SweepColumns, body: Iterable[tuple[int, str]]) -> Levels:
    """Lines of frequency, or of two edges, and level. Frequencies in no unit are taken by their highest."""
    found, cell_units = Levels(), set[str]()
    fine: dict[tuple[int, int], int] = {}
    hertz = columns.hertz
    for at, (number, line) in enumerate(body):
        read = _read_line(split_cells(line), columns)
        if read is None:
            found.bad.append(number)
            continue
        low, high, level, unit = read
        if at == 0:
            hertz = read_hertz(low.unit) or hertz
        own = (read_hertz(low.unit) if low.unit else 0) or hertz
        if unit:
            cell_units.add(unit)
        if bool(own) != bool(hertz):
            found.bad.append(number)
            continue
        start = round(low.value * _FINE) * (own or 1)
        key = start, start if high is low else round(high.value * _FINE) * (own or 1)
        if fine.get(key, level) <= level:
            fine[key] = level
            if len(fine) > limits.SWEEP_LEVELS:
                return Levels(fine)
    scale = 1 if hertz else _guess_hertz(fine)
    found.bad = found.bad if scale else [head.end + 1]
    for (first, last), level in fine.items() if scale else ():
        low_hz, high_hz = ((2 * edge * scale + _FINE) // (2 * _FINE) for edge in (first, last))
        if 0 < low_hz <= high_hz <= 100 * GHZ:
            found.hold(low_hz, high_hz, level)
    found.units = {one for unit in cell_units for one in list_units(unit) or {unit}} or head.units
    return found


def _read_line(cells: list[str], columns: SweepColumns) -> tuple[Number, Number, int, str] | None:
    """The edges, the level and its unit; None for a line without."""
    cells = _join_decimals(cells, columns.width)
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
    return None if value is None else (low, high, value, level.unit)


def _guess_hertz(fine: dict[tuple[int, int], int]) -> int:
    """What the frequencies of a file count in: bands up to 6 GHz in MHz, kHz and Hz do not meet, and what is too low for MHz
    can be GHz alone. 0: nothing that a radio uses."""
    lowest, highest = min((key[0] for key in fine), default=0), max((key[1] for key in fine), default=0)
    if highest < 25 * _FINE:
        is_ghz = lowest * GHZ >= LOWEST_HZ * _FINE and highest * GHZ <= HIGHEST_HZ * _FINE
        return GHZ if is_ghz else 0
    return MHZ if highest < 25_000 * _FINE else KHZ if highest < 25_000_000 * _FINE else 1


def _read_headed_rows(head: _Head, body: Sequence[tuple[int, str]]) -> Levels:
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
    return _read_plain_rows(head, ((at, split_cells(text)[cut:]) for at, text in rows), keys)


def _read_plain_rows(head: _Head, rows: Iterable[tuple[int, list[str]]], keys: dict[str, Decimal]) -> Levels:
    """Levels in rows, or one below the other, evenly from the start to the stop, both included."""
    found = Levels(units=set(head.units))
    wanted = int(keys.get("points", 0))
    passes: list[list[int]] = []
    column: list[int] = []
    for number, cells in rows:
        read = [scale_level(one.value * 100) if (one := read_number(cell)) else None for cell in cells]
        levels = [level for level in read if level is not None]
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
    return found


def _find_stop(keys: dict[str, Decimal], size: int) -> dict[str, Decimal]:
    """The keys with the stop that a start, a step in the same unit and so many levels lead to."""
    start, step = keys.get("start", Decimal(0)), keys.get("step", Decimal(0))
    if "stop" in keys or start * step <= 0 or abs(step) > abs(start):
        return keys
    return {**keys, "stop": start + step * max(1, size - 1)}


def _scale_span(keys: dict[str, Decimal]) -> tuple[Decimal, Decimal]:
    """Start and stop in Hz; in no unit, both are taken by the higher."""
    start, stop = keys["start"], keys["stop"]
    if start > 0 and stop > 0:
        return start, stop
    scale = _guess_hertz({(round(abs(start) * _FINE), round(abs(stop) * _FINE)): 0}) if start < 0 and stop < 0 else 0
    return abs(start) * scale, abs(stop) * scale
