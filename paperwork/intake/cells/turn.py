"""Tables that lie on their side: headings down a column, or scenes down a grid. They are turned before they are read."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.files.grid import Grid
from paperwork.intake.cells.rows import group_rows, split_runs
from paperwork.intake.texts.headings import mean
from paperwork.intake.texts.scenes import is_scene


def turn_grid(grid: Grid) -> tuple[Grid, ...]:
    """The sheet with what lies on its side taken out and turned: first what is upright, then each part turned.

    Parts are rows without a blank row between them. Places and addresses stay the true ones.
    """
    parts = [part for part in _part_rows(grid) if _has_fields_down(part) or _has_scenes_down(part)]
    if not parts:
        return (grid,)
    turned = {key for part in parts for key in part.cells}
    rest = replace(grid, cells={key: cell for key, cell in grid.cells.items() if key not in turned})
    return (rest, *map(_turn, parts)) if rest.cells else tuple(map(_turn, parts))


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
    )


def _has_fields_down(grid: Grid) -> bool:
    """Whether two fields head rows, and half of all rows, and nowhere two of them head columns. A role may be called Singer."""
    columns = {column for _, column in grid.cells}
    if len(columns) < 3:
        return False
    first = min(columns)
    edge = [mean(cell.text) for (_, column), cell in grid.cells.items() if column == first]
    down = [meaning.fields[0] for meaning in edge if meaning.is_exact]
    if len(set(down)) < 2 or len(down) * 2 < len(edge):
        return False
    meant = [[mean(cell.text) for cell in row.values()] for row in group_rows(grid).values()]
    return all(len({one.fields[0] for one in row if one.is_exact}) < 2 for row in meant)


def _has_scenes_down(grid: Grid) -> bool:
    """Whether a heading `Scene` is over scene numbers, and beside it only what is not a heading: names of a grid."""
    for number, row in group_rows(grid).items():
        column = min(row)
        heads = [cell for c, cell in row.items() if c != column]
        is_head = mean(row[column].text).fields[:1] == ("scenes",) and len(heads) > 1
        if not is_head or sum(bool(mean(cell.text).fields) for cell in heads) * 2 > len(heads):
            continue
        below = [cell for (r, c), cell in grid.cells.items() if c == column and r > number]
        return len(below) > 1 and sum(is_scene(cell.text) for cell in below) * 10 >= len(below) * 7
    return False
