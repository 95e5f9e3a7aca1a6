"""The tables of a sheet: where their headings are, which rows are theirs, and what is around them.

A heading row is found wherever on the sheet it is. A row may hold the headings of several tables side by side; a
repeated heading row belongs to the table above it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import field, replace

from paperwork import limits
from paperwork.files.grid import Grid, GridCell
from paperwork.frozen import frozen
from paperwork.intake.cells.rows import SheetRow, group_rows
from paperwork.intake.tables.heads import find_headings
from paperwork.intake.tables.lookalikes import is_repeat, is_row
from paperwork.intake.texts.scenes import is_scene
from paperwork.place import Place

Rows = Mapping[int, SheetRow]


@frozen
class SheetTable:
    """One table. `headings` holds a cell or None for each column; `acts` the text that a merge puts above it.

    `rows` are all rows below the headings that hold something, merged cells spread over what they cover; `wide` are
    those that one cell spans. `heads` are the cells of the headings, `repeats` those of repeated heading rows, `title`
    is what is written above. `is_below` is on where another table of the sheet is above it, in the same columns and
    with other headings.
    """

    grid: Grid
    header: int
    headings: Mapping[int, GridCell | None]
    heads: tuple[GridCell, ...]
    acts: Mapping[int, str] = field(default_factory=dict)
    rows: Mapping[int, SheetRow] = field(default_factory=dict)
    repeats: tuple[GridCell, ...] = ()
    title: str = ""
    wide: frozenset[int] = frozenset()
    is_below: bool = False

    @property
    def columns(self) -> tuple[int, int]:
        """First and last column."""
        return min(self.headings), max(self.headings)

    @property
    def top(self) -> int:
        """The first row of the headings."""
        return min(cell.row for cell in self.heads)

    @property
    def all_cells(self) -> tuple[GridCell, ...]:
        """Every cell of it: of its rows, its headings and where these are repeated."""
        return (*(cell for row in self.rows.values() for cell in row.values()), *self.heads, *self.repeats)

    def list_own(self, column: int) -> list[GridCell]:
        """The cells that a column has itself, without those that a merge spreads over rows below its own."""
        return [row[column] for number, row in self.rows.items() if column in row and row[column].row == number]

    def shares_columns(self, other: "SheetTable") -> bool:
        """Whether another table has a column of this one."""
        return self.columns[0] <= other.columns[1] and other.columns[0] <= self.columns[1]


def find_tables(grid: Grid) -> tuple[SheetTable, ...]:
    """The tables of a sheet in reading order; none if no row looks like headings.

    More than the limit come back as they were found, without their rows: whoever asks refuses them.
    """
    rows = group_rows(grid)
    found: list[SheetTable] = []
    taken: set[Place] = set()
    for number, row in rows.items():
        for columns in find_headings(grid, rows, number):
            if any(row[column].place in taken for column in columns):
                continue
            table = _start_table(grid, rows, number, columns)
            taken |= {cell.place for cell in table.heads}
            above = next((i for i in reversed(range(len(found))) if found[i].shares_columns(table)), None)
            if above is None:
                found.append(table)
            elif is_repeat(found[above].headings, table.headings):
                found[above] = replace(found[above], repeats=found[above].repeats + table.heads)
            elif is_row(found[above].headings, row, is_next=number - 1 in rows):
                continue
            elif _is_second_row(found[above], table):
                found[above] = _add_first_row(table, found[above])
            else:
                found.append(replace(table, is_below=True))
            if len(found) > limits.TABLES:
                return tuple(found)
    for index, table in enumerate(found):
        others = found[:index] + found[index + 1 :]
        found[index] = _fill_rows(_widen(table, rows, others), rows, others)
    inside = {cell.place for table in found for row in table.rows.values() for cell in row.values()}
    return tuple(replace(table, title=_find_title(table, inside)) for table in found)


def _start_table(grid: Grid, rows: Rows, number: int, columns: Sequence[int]) -> SheetTable:
    """A table of its headings alone, with a second row of them, or with the acts that are above them."""
    row = rows[number]
    first = min(column for _, column in grid.cells) if grid.head else columns[0]
    headings = {column: row[column] if column in columns else None for column in range(first, columns[-1] + 1)}
    table = SheetTable(grid, number, headings, tuple(row[column] for column in columns))
    below, above = rows.get(number + 1, {}), rows.get(number - 1, {})
    if _holds_scenes(grid, row, below, columns):
        return _add_second_row(replace(table, acts=_read_acts(table, row, number)), below)
    if any(column in headings for column in above) and _names_groups(number - 1, table):
        heads = tuple(cell for column, cell in above.items() if column in headings)
        return replace(table, acts=_read_acts(table, above, number - 1), heads=table.heads + heads)
    return table


def _holds_scenes(grid: Grid, row: SheetRow, below: SheetRow, columns: Sequence[int]) -> bool:
    """Whether the row below carries scene numbers under merged act names, and nothing under the other headings."""
    merged = [area for area in grid.merges if area[0] == row[columns[0]].row and area[3] > area[1]]
    under = [column for area in merged for column in range(area[1], area[3] + 1) if column in below]
    rest = [column for column in columns if not any(area[1] <= column <= area[3] for area in merged)]
    are_scenes = all(is_scene(below[column].text) or below[column].kind == "date" for column in under)
    return len(under) >= 2 and are_scenes and not any(column in below for column in rest)


def _add_second_row(table: SheetTable, below: SheetRow) -> SheetTable:
    """The table with the headings of the row below, which may reach further to the right."""
    first, last = table.columns
    last = max([last, *(column for column in below if is_scene(below[column].text))])
    headings = {column: below.get(column) or table.headings.get(column) for column in range(first, last + 1)}
    heads = tuple(below[column] for column in headings if column in below)
    return replace(table, header=table.header + 1, headings=headings, heads=table.heads + heads)


def _is_second_row(upper: SheetTable, lower: SheetTable) -> bool:
    """Whether two rows of headings are those of one table: right under each other, and each fills what the other leaves
    open, as `Freq` and `Group` under `RF` beside a `Name` with nothing under it."""
    return (
        upper.header == lower.header - 1
        and upper.columns[0] <= lower.columns[0]
        and any(cell is not None and not lower.headings.get(column) for column, cell in upper.headings.items())
    )


def _add_first_row(table: SheetTable, upper: SheetTable) -> SheetTable:
    """The headings of the row above where there are none below; above those below they name a group of columns."""
    headings = {**upper.headings, **{column: cell for column, cell in table.headings.items() if cell is not None}}
    table = replace(table, headings=dict(sorted((dict.fromkeys(table.headings) | headings).items())))
    acts = _read_acts(table, {cell.column: cell for cell in upper.heads}, upper.header)
    return replace(table, acts=acts, heads=table.heads + upper.heads, is_below=upper.is_below)


def _names_groups(number: int, table: SheetTable) -> bool:
    """Whether a row above the headings names groups of columns: a merge over two of them, but not over all."""
    return any(
        top == number and 0 < right - left < len(table.headings) - 1 and left in table.headings
        for top, left, _, right in table.grid.merges
    )


def _read_acts(table: SheetTable, row: SheetRow, number: int) -> dict[int, str]:
    """The text above each column: by the range of its merge, never by its neighbours."""
    acts = dict(table.acts)
    for top, left, bottom, right in table.grid.merges:
        if top <= number <= bottom and right > left and left in row:
            acts |= dict.fromkeys(range(left, right + 1), row[left].text)
    if number < table.header:
        acts = {column: cell.text for column, cell in row.items() if column in table.headings} | acts
    return acts


def _widen(table: SheetTable, rows: Rows, others: Sequence[SheetTable]) -> SheetTable:
    """The table with full columns without a heading at either edge."""
    bottom = _end_of(table, rows, others)
    body = [row for number, row in rows.items() if table.header < number <= bottom]
    coloured = {id(rows[number]) for number, _ in table.grid.fills if number in rows}
    taken = {column for other in others for column in range(other.columns[0], other.columns[1] + 1)}
    headings = dict(table.headings)
    for step in (-1, 1):
        column = table.columns[0 if step < 0 else 1] + step
        while column > 0 and column not in taken:
            share = sum(column in row and (len(row) > 1 or id(row) in coloured) for row in body)
            if share < 2 or share * 2 < len(body):
                break
            headings[column] = None
            column += step
    return replace(table, headings=dict(sorted(headings.items())))


def _end_of(table: SheetTable, rows: Rows, others: Sequence[SheetTable]) -> int:
    """The last row of a table: the one above the next headings over the same columns."""
    below = [other for other in others if other.header > table.header and other.shares_columns(table)]
    return min([*(_skip_titles(other.top - 1, rows) for other in below), max(rows)])


def _skip_titles(number: int, rows: Rows) -> int:
    """The row above the titles over some headings, if it is blank: these are no rows of a table above; else the first."""
    above = number
    while len(rows.get(above, {})) == 1:
        above -= 1
    return number if above in rows else above


def _fill_rows(table: SheetTable, rows: Rows, others: Sequence[SheetTable]) -> SheetTable:
    """The table with its rows, merged cells spread over the rows and columns that they cover."""
    bottom = _end_of(table, rows, others)
    heads = [cell for other in others for cell in other.heads if cell.column in table.headings]
    skipped = {cell.row for cell in (*table.repeats, *heads)}
    low, high = table.columns
    body: dict[int, SheetRow] = {}
    for number, row in rows.items():
        cells = {column: cell for column, cell in row.items() if low <= column <= high}
        if table.header < number <= bottom and number not in skipped and cells:
            body[number] = cells
    wide: set[int] = set()
    for top, left, end, right in table.grid.merges:
        origin = table.grid.cells.get((top, left))
        if origin is None or top not in body or left not in table.headings:
            continue
        if (right - left + 1) * 2 >= len(table.headings) and right - left >= 2 and len(body[top]) == 1:
            wide.add(top)
            continue
        for number in range(top, min(end, bottom) + 1):
            if number in body:
                body[number] |= {c: origin for c in range(left, min(right, high) + 1) if c not in body[number]}
    return replace(table, rows=body, wide=frozenset(wide))


def _find_title(table: SheetTable, inside: set[Place]) -> str:
    """The nearest text above a table within its columns, and inside no other; that of its first column before others."""
    return next((cell.text for cell in cells_above(table) if cell.kind == "text" and cell.place not in inside), "")


def cells_above(table: SheetTable) -> tuple[GridCell, ...]:
    """The cells of the two rows above the headings, within the columns of the table, the nearest row first."""
    low, high = table.columns
    keys = [(row, column) for row in (table.top - 1, table.top - 2) for column in range(low, high + 1)]
    return tuple(table.grid.cells[key] for key in keys if key in table.grid.cells)
