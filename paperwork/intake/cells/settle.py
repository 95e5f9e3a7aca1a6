"""The text of a cell once strike-through and references are settled."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from paperwork.files.grid import Grid, GridCell, read_column
from paperwork.place import Place

_REFERENCE = re.compile(r"=\s*\$?([A-Z]{1,3})\$?([0-9]{1,7})\s*")

Addresses = Mapping[tuple[int, int], GridCell]


class Settled(NamedTuple):
    """The text that holds of a cell that does not show it. `because` is the reason, "" where there is no text to be had.

    `kind` is the kind of repair, `was` what the cell held. `is_uncalculated` is on for a formula without a result.
    """

    text: str
    kind: str = ""
    was: str = ""
    because: str = ""
    is_uncalculated: bool = False


def settle_cells(grid: Grid) -> dict[Place, Settled]:
    """The cells of a sheet whose text is not simply what they show: struck through, or formulas without a result."""
    by_address = {(cell.place.line, cell.place.column): cell for cell in grid.cells.values()}
    return {
        cell.place: _settle_formula(cell, by_address) if cell.kind == "failed" else _settle_struck(cell)
        for cell in grid.cells.values()
        if cell.kind == "failed" or cell.struck
    }


def _settle_struck(cell: GridCell) -> Settled:
    taken = cell.kept if cell.struck == "part" else ""
    because = "the rest is struck through" if taken else "it is struck through"
    return Settled(taken.strip(), "struck-through text", cell.text, because)


def _settle_formula(cell: GridCell, by_address: Addresses) -> Settled:
    """The value of the cell that a plain reference names; else the formula is not calculated."""
    text, target = _follow(cell, by_address)
    if target is None or not text:
        return Settled("", is_uncalculated=target is None and not cell.text)
    return Settled(text, "references that were followed", cell.formula, f"it is what {target.address} holds")


def _follow(cell: GridCell, by_address: Addresses, depth: int = 0) -> tuple[str, GridCell | None]:
    """The text at the end of a chain of references, and the cell that the first of them names; None for no reference."""
    match = _REFERENCE.fullmatch(cell.formula)
    target = by_address.get((int(match[2]), read_column(match[1]))) if match else None
    if target is None or depth >= 8:
        return "", None
    return (_follow(target, by_address, depth + 1)[0] if target.kind == "failed" else target.text), target
