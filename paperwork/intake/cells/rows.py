"""The rows of a sheet."""

from collections.abc import Iterable
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


def split_runs(numbers: Iterable[int]) -> list[list[int]]:
    """Numbers of rows or columns in runs of neighbours."""
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs
