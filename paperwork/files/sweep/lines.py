"""The lines of a sweep file: what those before the first level say, and the cells of those after."""

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import islice

from paperwork.files.sweep.heads import (
    HEAD_CHARACTERS,
    HEAD_LINES,
    SweepColumns,
    find_columns,
    read_keys,
    read_number,
    split_cells,
)
from paperwork.files.sweep.units import list_units

Lines = Sequence[str]
"""All lines of a file without outer blanks; the first has the number 1."""

COMMENTS = ("#", "!", "//")

LOOKED_AT = 20
"""Lines of levels by which it is decided what they are."""

_FRACTION = r"[0-9]+(?:\s*[a-zµμ%][a-zµμ%/]*)?"


class Head:
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


def list_body(lines: Lines, start: int) -> Iterator[tuple[int, str]]:
    """The lines from an index on with their numbers, without comments and blank ones. None of the many is copied."""
    for number, line in enumerate(islice(lines, start, None), start + 1):
        if line and not line.startswith(COMMENTS):
            yield number, line


def join_decimals(cells: list[str], width: int) -> list[str]:
    """The cells of `470,0,-97,3`, where commas are between columns and in numbers, as a table of so many columns."""
    if len(cells) != 2 * width or any("." in cell for cell in cells):
        return cells
    if not all(re.fullmatch(_FRACTION, cell, re.IGNORECASE) for cell in cells[1::2]):
        return cells
    return [f"{whole}.{part}" for whole, part in zip(cells[::2], cells[1::2], strict=True)]
