"""The rows of a sheet."""

from typing import TypeAlias

from paperwork.files.grid import Grid, GridCell

SheetRow: TypeAlias = dict[int, GridCell]
"""The cells of one row by column."""


def group_rows(grid: Grid) -> dict[int, SheetRow]:
    """The cells of a sheet by row and column."""
    rows: dict[int, SheetRow] = {}
    for (row, column), cell in grid.cells.items():
        rows.setdefault(row, {})[column] = cell
    return dict(sorted(rows.items()))
