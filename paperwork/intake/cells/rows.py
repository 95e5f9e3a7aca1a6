"""The rows of a sheet, and whom its lists name."""

from collections.abc import Iterable
from typing import TypeAlias

from paperwork.files.grid import Grid, GridCell
from paperwork.intake.texts.names import key_of_name
from paperwork.text.headings import mean

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


def list_names(grids: Iterable[Grid]) -> frozenset[str]:
    """The keys of the people and roles that lists name: what is below a heading of either, beside another heading."""
    found: set[str] = set()
    for grid in grids:
        named: set[int] = set()
        for row in group_rows(grid).values():
            meant = {column: mean(cell.text) for column, cell in row.items()}
            if len({meaning.fields[0] for meaning in meant.values() if meaning.is_exact}) > 1:
                named = {c for c, meaning in meant.items() if {"performer", "role"} & set(meaning.fields[:1])}
            else:
                found |= {key_of_name(row[column].text) for column in named if column in row}
    return frozenset(found - {""})
