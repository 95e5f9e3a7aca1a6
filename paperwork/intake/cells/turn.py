"""Tables that lie on their side: headings down a column, or scenes down a grid. They are turned before they are read."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import takewhile

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.cells.rows import SheetRow, group_rows, split_runs
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import mean
from paperwork.intake.texts.ids import is_plain_prefix, read_id
from paperwork.intake.texts.scenes import is_scene, read_mark


def turn_grid(grid: Grid, rows: str = "") -> tuple[Grid, ...]:
    """The sheet with what lies on its side taken out and turned: first what is upright, then each part turned.

    Parts are rows without a blank row between them. Places and addresses stay the true ones. `rows` is what an answer says
    that a row is: of `scenes` every part is turned, of `channels`, `roles` or `nothing` none.
    """
    if rows in ("channels", "roles", "nothing"):
        return (grid,)
    parts = list(_list_lying(grid, are_scenes=rows == "scenes"))
    if not parts:
        return (grid,)
    turned = {key for part in parts for key in part.cells}
    rest = replace(grid, cells={key: cell for key, cell in grid.cells.items() if key not in turned})
    turned_parts = tuple(_turn(_lift_labels(part)) for part in parts)
    return (rest, *turned_parts) if rest.cells else turned_parts


def _list_lying(grid: Grid, *, are_scenes: bool) -> Iterator[Grid]:
    """The parts that lie on their side; the titles above the headings of a list remain upright."""
    for part in _part_rows(grid):
        body = _cut_titles(part)
        if not are_scenes and body.cells and _has_fields_down(body):
            yield body
        elif are_scenes or _has_scenes_down(part):
            yield part


def _cut_titles(grid: Grid) -> Grid:
    """A part without its first rows that hold one cell each, which is no heading."""
    rows = group_rows(grid)
    titles = takewhile(lambda n: len(rows[n]) == 1 and not any(mean(c.text).is_exact for c in rows[n].values()), rows)
    above = set(titles)
    return replace(grid, cells={key: cell for key, cell in grid.cells.items() if key[0] not in above})


def _part_rows(grid: Grid) -> Iterator[Grid]:
    """The blocks of rows that blank rows part, each as a sheet of its own."""
    rows = group_rows(grid)
    for block in split_runs(rows):
        cells = {(number, column): cell for number in block for column, cell in rows[number].items()}
        merges = tuple(area for area in grid.merges if block[0] <= area[0] <= block[-1])
        yield replace(grid, cells=cells, hidden=(), merges=merges)


def _turn(grid: Grid) -> Grid:
    cells = sorted(grid.cells.values(), key=lambda cell: (cell.column, cell.row))
    return replace(
        grid,
        cells={(c.column, c.row): replace(c, row=c.column, column=c.row) for c in cells},
        merges=tuple(sorted((left, top, right, bottom) for top, left, bottom, right in grid.merges)),
        fills={(column, row): fill for (row, column), fill in grid.fills.items()},
        notes={(column, row): note for (row, column), note in grid.notes.items()},
        is_turned=not grid.is_turned,
    )


def _has_fields_down(grid: Grid) -> bool:
    """Whether two fields head rows, and half of all rows or one of carriers, and nowhere two of them head columns. A role may
    be called Singer."""
    columns = {column for _, column in grid.cells}
    if len(columns) < 3:
        return False
    first = min(columns)
    edge = [mean(cell.text) for (_, column), cell in grid.cells.items() if column == first]
    down = [meaning.fields[0] for meaning in edge if meaning.is_exact]
    rows = group_rows(grid).values()
    has_carriers = any(map(_is_carriers, rows))
    if len(set(down)) < 2 or (len(down) * 2 < len(edge) and not has_carriers):
        return False
    scenes = (sum(is_scene(cell.text) and not cell.text.isdigit() for cell in row.values()) for row in rows)
    if not has_carriers and any(count > 1 for count in scenes):
        return False  # a grid of roles that are called Host and Guest
    meant = [[mean(cell.text) for cell in row.values()] for row in rows]
    return all(len({one.fields[0] for one in row if one.is_exact}) < 2 for row in meant)


def _is_carriers(row: SheetRow) -> bool:
    """Whether a row is headed as frequencies, and holds one."""
    first, *others = (row[column] for column in sorted(row))
    return "frequency" in mean(first.text).fields and any(read_frequency(cell.text).mhz for cell in others)


def _has_scenes_down(grid: Grid) -> bool:
    """Whether a heading `Scene`, or a corner beside the numbers of mics, is over scene numbers; and beside it are names of a
    grid, or mics, not headings."""
    return _find_scenes_head(grid) is not None


def _find_scenes_head(grid: Grid) -> int | None:
    """The row that heads a grid whose scenes go down, or None."""
    first = min(column for _, column in grid.cells)
    for number, row in group_rows(grid).items():
        heads = [cell for column, cell in row.items() if column != first]
        known = [cell for cell in heads if mean(cell.text).fields and not _is_role(cell, grid)]
        are_mics = len(heads) > 1 and sum(map(_is_mic, heads)) * 3 >= len(heads) * 2
        is_head = first in row and mean(row[first].text).fields[:1] == ("scenes",) and len(heads) > 1
        if not (is_head or (are_mics and first not in row)) or (len(known) * 2 > len(heads) and not are_mics):
            continue
        below = [
            cell for (r, c), cell in grid.cells.items() if c == first and r > number and len(group_rows(grid)[r]) > 1
        ]
        if len(below) > 1 and sum(is_scene(cell.text) for cell in below) * 10 >= len(below) * 7:
            return number
    return None


def _is_role(cell: GridCell, grid: Grid) -> bool:
    """Whether a heading word is somebody's role: `Host` over nothing but marks."""
    below = [c.text.strip() for (row, column), c in grid.cells.items() if column == cell.column and row > cell.row]
    is_grid = all(text.isdigit() or read_mark(text) in ("live", "idle") for text in below)
    return mean(cell.text).fields[:1] == ("performer",) and is_grid


def _is_mic(cell: GridCell) -> bool:
    """Whether a heading is the number of a mic: `RM 1`, `Mic 12`."""
    parts = read_id(cell.text)
    return bool(parts.digits and parts.prefix) and is_plain_prefix(parts.prefix)


def _lift_labels(grid: Grid) -> Grid:
    """A grid whose scenes go down with what labels its other rows, `Freq` or `Actor` in the second column, moved into the
    first; and with the titles of its acts, alone in their rows, moved above the scenes that follow."""
    head = _find_scenes_head(grid)
    if head is None:
        return grid
    rows, cells, merges = group_rows(grid), dict(grid.cells), list(grid.merges)
    first = min(column for _, column in grid.cells)
    numbers = [number for number in rows if number > head]
    for index, number in enumerate(numbers):
        row = rows[number]
        column = min(row)
        if column != first and mean(row[column].text).is_exact:
            cells[number, first] = replace(cells.pop((number, column)), column=first)
        elif len(row) == 1 and column == first and not is_scene(row[column].text):
            last = next((n for n in numbers[index + 1 :] if len(rows[n]) == 1), numbers[-1] + 1) - 1
            cells[number + 1, 0] = replace(cells.pop((number, first)), row=number + 1, column=0)
            merges = [area for area in merges if area[0] != number]
            merges.append((number + 1, 0, last, 0))
    return replace(grid, cells=cells, merges=tuple(merges))
