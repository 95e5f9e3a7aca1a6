"""The tables of a sheet: where their headings stand, which rows are theirs, and what stands around them.

A heading row is found by how many of its cells are spelled like headings, wherever on the sheet it is. A row may
hold the headings of several tables side by side; a repeated heading row belongs to the table above it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from paperwork import limits
from paperwork.files.grid import Area, Grid, GridCell
from paperwork.intake.frequencies import read_frequency
from paperwork.intake.headings import REPEATABLE, fold_heading, mean
from paperwork.intake.lookalikes import is_repeat, is_row
from paperwork.intake.scenes import is_scene

Row = dict[int, GridCell]


@dataclass(slots=True)
class Table:
    """One table. `headings` holds a cell or None for each column; `acts` the text that a merge puts above it.

    `rows` are all rows below the headings that hold something, merged cells spread over what they cover.
    `repeats` are the cells of repeated heading rows, `title` is what stands above. `is_below` tells whether another
    table of the sheet stands above it, in the same columns and with other headings.
    """

    grid: Grid
    header: int
    headings: dict[int, GridCell | None]
    acts: dict[int, str] = field(default_factory=dict)
    rows: dict[int, Row] = field(default_factory=dict)
    heads: list[GridCell] = field(default_factory=list)
    repeats: list[GridCell] = field(default_factory=list)
    title: str = ""
    wide: frozenset[int] = frozenset()
    is_below: bool = False

    @property
    def columns(self) -> tuple[int, int]:
        """First and last column."""
        return min(self.headings), max(self.headings)


def find_tables(grid: Grid) -> tuple[Table, ...]:
    """The tables of a sheet in reading order; none if no row looks like headings.

    More than the limit come back as they were found, without their rows: whoever asks refuses them.
    """
    rows = group_rows(grid)
    filled = sorted({column for _, column in grid.cells})
    found: list[Table] = []
    taken: set[tuple[int, int]] = set()
    for number in rows:
        for columns in _find_headings(rows, number, filled):
            if any((number, column) in taken for column in columns):
                continue
            table = _start_table(grid, rows, number, columns)
            taken |= {(cell.row, cell.column) for cell in table.heads}
            twin = next((t for t in reversed(found) if _is_same(t, table)), None)
            if twin and is_repeat(twin.headings, table.headings):
                twin.repeats += table.heads
                continue
            if twin and is_row(twin.headings, rows[number], is_next=number - 1 in rows):
                continue
            if twin and _is_second_row(twin, table):
                _take_first_row(table, twin)
                found[found.index(twin)] = table
                continue
            table.is_below = twin is not None
            found.append(table)
            if len(found) > limits.TABLES:
                return tuple(found)
    for table in found:
        _widen(table, rows, found)
        _fill_rows(table, rows, found)
    return tuple(found)


def group_rows(grid: Grid) -> dict[int, Row]:
    """The cells of a sheet by row and column."""
    rows: dict[int, Row] = {}
    for (row, column), cell in grid.cells.items():
        rows.setdefault(row, {})[column] = cell
    return dict(sorted(rows.items()))


def _find_headings(rows: dict[int, Row], number: int, filled: list[int]) -> Iterator[tuple[int, ...]]:
    """The columns of each table whose headings stand in a row."""
    row = rows[number]
    runs = _split_runs(row)
    heading_runs = [run for run in runs if _is_heading_run([row[c] for c in run], rows, number)]
    if not heading_runs:
        return
    joined: list[list[int]] = []
    for run in runs:
        is_heading = run in heading_runs
        if joined and (not is_heading or not _stands_alone(row, joined[-1], run)) and _may_join(row, run):
            joined[-1] += run
        elif is_heading:
            joined.append(list(run))
    for columns in joined:
        yield from _part_repeats(row, columns)


def _split_runs(row: Row) -> list[tuple[int, ...]]:
    runs: list[list[int]] = []
    for column in sorted(row):
        if runs and column == runs[-1][-1] + 1:
            runs[-1].append(column)
        else:
            runs.append([column])
    return [tuple(run) for run in runs]


def _is_heading_run(cells: list[GridCell], rows: dict[int, Row], number: int) -> bool:
    """Whether neighbouring cells look like headings: two known fields, or one and two scenes, or scenes over marks."""
    known = {mean(cell.text).fields[:1] for cell in cells if mean(cell.text).fields}
    if len(known) < 2 and len(cells) < 2:
        return False
    if any((cell.kind == "date" and len(cells) < 3) or _looks_like_data(cell) for cell in cells):
        return False
    scenes = [cell for cell in cells if not mean(cell.text).fields and (is_scene(cell.text) or cell.kind == "date")]
    others = len(cells) - len(scenes)
    if len(known) >= 2 and len(known) * 3 >= others:
        return True
    if known and (len(scenes) >= 2 or (scenes and len(cells) <= 3)):
        return True
    if len(scenes) >= 3 and len(scenes) == len(cells) and len({cell.text for cell in scenes}) > 1:
        below = rows.get(number + 1, {})
        return (
            min(cells[0].column - 1, 1) == 1
            and (cells[0].column - 1) in below
            and not any(map(_looks_like_data, below.values()))
        )
    return False


def _looks_like_data(cell: GridCell) -> bool:
    """Whether a cell holds a frequency, or a number too large for a scene's."""
    if cell.kind == "failed" or cell.formula:
        return True
    if not any(char.isdigit() for char in cell.text) or mean(cell.text).fields or is_scene(cell.text):
        return False
    return bool(read_frequency(cell.text).mhz)


def _may_join(row: Row, run: tuple[int, ...]) -> bool:
    return not any(_looks_like_data(row[column]) for column in run)


def _stands_alone(row: Row, left: list[int], run: tuple[int, ...]) -> bool:
    """Whether headings behind a gap begin a table of their own: they repeat fields of the left one."""
    first = {name for column in left for name in mean(row[column].text).fields[:1]}
    own = [mean(row[column].text).fields[:1] for column in run]
    repeated = [fields for fields in own if fields and fields[0] in first and fields[0] not in REPEATABLE]
    return len(repeated) >= 1 and sum(bool(fields) for fields in own) >= 2


def _part_repeats(row: Row, columns: list[int]) -> Iterator[tuple[int, ...]]:
    """Headings that repeat a whole set, as a list printed in two columns, are two tables."""
    keys = [fold_heading(row[column].text) for column in columns]
    known = [bool(mean(row[column].text).fields) for column in columns]
    for index in range(2, len(columns) - 1):
        repeats = [i for i in range(index, len(columns)) if keys[i] in keys[:index] and known[i]]
        if keys[index] in keys[:index] and known[index] and len(repeats) >= 2:
            start = index if known[index - 1] or keys[index] == keys[0] else index - 1
            yield tuple(columns[:start])
            yield from _part_repeats(row, columns[start:])
            return
    yield tuple(columns)


def _start_table(grid: Grid, rows: dict[int, Row], number: int, columns: tuple[int, ...]) -> Table:
    row = rows[number]
    headings: dict[int, GridCell | None] = dict.fromkeys(range(columns[0], columns[-1] + 1))
    headings |= {column: row[column] for column in columns}
    table = Table(grid, number, headings, heads=[row[column] for column in columns])
    below, above = rows.get(number + 1, {}), rows.get(number - 1, {})
    if _holds_scenes(grid, row, below, columns):
        _take_acts(table, row, number, grid.merges)
        _take_second_row(table, below)
    elif any(c in headings for c in above) and _covers(grid, above, number - 1, table):
        _take_acts(table, above, number - 1, grid.merges)
        table.heads += [cell for column, cell in above.items() if column in headings]
    return table


def _holds_scenes(grid: Grid, row: Row, below: Row, columns: tuple[int, ...]) -> bool:
    """Whether the row below carries scene numbers under merged act names, and nothing under the other headings."""
    merged = [area for area in grid.merges if area[0] == row[columns[0]].row and area[3] > area[1]]
    under = [column for area in merged for column in range(area[1], area[3] + 1) if column in below]
    return (
        len(under) >= 2
        and all(is_scene(below[c].text) or below[c].kind == "date" for c in under)
        and not any(column in below for column in columns if not any(area[1] <= column <= area[3] for area in merged))
    )


def _take_second_row(table: Table, below: Row) -> None:
    first = min(table.headings)
    last = max([max(table.headings), *(c for c in below if is_scene(below[c].text))])
    for column in range(first, last + 1):
        if column in below:
            table.headings[column] = below[column]
            table.heads.append(below[column])
        else:
            table.headings.setdefault(column, None)
    table.header += 1


def _is_second_row(upper: Table, lower: Table) -> bool:
    """Whether two rows of headings are those of one table: right under each other, and each fills what the other leaves
    open, as `Freq` and `Group` under `RF` beside a `Name` with nothing under it."""
    return (
        upper.header == lower.header - 1
        and upper.columns[0] <= lower.columns[0]
        and any(cell is not None and not lower.headings.get(column) for column, cell in upper.headings.items())
    )


def _take_first_row(table: Table, upper: Table) -> None:
    """The headings of the row above where there are none below; above those below they name a group of columns."""
    names = {cell.column: cell for cell in upper.heads}
    for column, cell in upper.headings.items():
        if table.headings.get(column) is None:
            table.headings[column] = cell
    _take_acts(table, names, upper.header, table.grid.merges)
    table.headings = dict(sorted(table.headings.items()))
    table.heads += upper.heads
    table.title = table.title or upper.title
    table.is_below = upper.is_below


def _covers(grid: Grid, above: Row, number: int, table: Table) -> bool:
    """Whether a row above the headings names groups of columns: a merge over two of them, but not over all."""
    width = len(table.headings)
    return any(
        area[0] == number and area[3] > area[1] and area[3] - area[1] + 1 < width and area[1] in table.headings
        for area in grid.merges
    )


def _take_acts(table: Table, row: Row, number: int, merges: tuple[Area, ...]) -> None:
    """The text above each column: by the range of its merge, never by its neighbours."""
    for area in merges:
        if area[0] <= number <= area[2] and area[3] > area[1] and area[1] in row:
            for column in range(area[1], area[3] + 1):
                table.acts[column] = row[area[1]].text
    for column, cell in row.items():
        if number < table.header and column in table.headings:
            table.acts.setdefault(column, cell.text)


def _is_same(one: Table, other: Table) -> bool:
    return one.columns[0] <= other.columns[1] and other.columns[0] <= one.columns[1]


def _widen(table: Table, rows: dict[int, Row], found: list[Table]) -> None:
    """Take in full columns without a heading at either edge."""
    bottom = _end_of(table, rows, found)
    body = [row for number, row in rows.items() if table.header < number <= bottom]
    others = {c for t in found if t is not table for c in range(t.columns[0], t.columns[1] + 1)}
    for step in (-1, 1):
        column = table.columns[0 if step < 0 else 1] + step
        while column > 0 and column not in others:
            share = sum(column in row and len(row) > 1 for row in body)
            if share < 2 or share * 2 < len(body):
                break
            table.headings[column] = None
            column += step
    table.headings = dict(sorted(table.headings.items()))


def _end_of(table: Table, rows: dict[int, Row], found: list[Table]) -> int:
    """The last row of a table: the one above the next headings over the same columns."""
    below = [t.header - 1 for t in found if t is not table and t.header > table.header and _is_same(t, table)]
    return min([*below, max(rows)])


def _fill_rows(table: Table, rows: dict[int, Row], found: list[Table]) -> None:
    """The rows of a table, with merged cells spread over the rows and columns that they cover."""
    bottom = _end_of(table, rows, found)
    skipped = {cell.row for cell in table.repeats} | {
        c.row for t in found if t is not table for c in t.heads if c.column in table.headings
    }
    low, high = table.columns
    for number, row in rows.items():
        cells = {column: cell for column, cell in row.items() if low <= column <= high}
        if table.header < number <= bottom and number not in skipped and cells:
            table.rows[number] = cells
    wide: set[int] = set()
    for top, left, end, right in table.grid.merges:
        origin = table.grid.cells.get((top, left))
        if origin is None or top not in table.rows or left not in table.headings:
            continue
        if (right - left + 1) * 2 >= len(table.headings) and right - left >= 2 and len(table.rows[top]) == 1:
            wide.add(top)
            continue
        for number in range(top, min(end, bottom) + 1):
            for column in range(left, min(right, high) + 1):
                if number in table.rows:
                    table.rows[number].setdefault(column, origin)
    table.wide = frozenset(wide)
