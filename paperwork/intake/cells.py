"""The text of a cell once strike-through, references and dates are settled."""

import re

from paperwork.files.grid import Grid, GridCell
from paperwork.finding import find
from paperwork.intake.ledger import Ledger
from paperwork.intake.questions import Choice, Question

_REFERENCE = re.compile(r"=\s*\$?([A-Z]{1,3})\$?([0-9]{1,7})\s*")


class Cells:
    """Reads the cells of one sheet. Formulas that were never calculated are gathered into one finding."""

    def __init__(self, grid: Grid, ledger: Ledger) -> None:
        self._by_address = {(cell.place.line, cell.place.column): cell for cell in grid.cells.values()}
        self._ledger = ledger
        self._uncalculated: list[GridCell] = []

    def text(self, cell: GridCell) -> str:
        """The text that holds; "" with a finding or a note where there is none."""
        self._ledger.enter([cell], "used")
        if cell.kind == "failed":
            return self._follow(cell)
        if cell.struck:
            taken = cell.kept if cell.struck == "part" else ""
            self._ledger.repair(
                "struck-through text",
                cell,
                cell.text,
                taken or "nothing",
                "the rest is struck through" if taken else "it is struck through",
            )
            return taken.strip()
        return cell.text

    def _follow(self, cell: GridCell, depth: int = 0) -> str:
        """The value of the cell that a plain reference names; else the formula is written down as not calculated."""
        match = _REFERENCE.fullmatch(cell.formula)
        target = self._by_address.get((int(match[2]), _number(match[1]))) if match else None
        if target and depth < 8:
            text = self._follow(target, depth + 1) if target.kind == "failed" else target.text
            if text and depth == 0:
                self._ledger.repair(
                    "references that were followed", cell, cell.formula, text, f"it is what {target.address} holds"
                )
            return text
        if not cell.text and depth == 0:
            self._uncalculated.append(cell)
        return ""

    def close(self) -> None:
        """One finding for all formulas without a result."""
        cells = sorted(self._uncalculated, key=lambda cell: (cell.row, cell.column))
        if cells:
            more = (
                f" (nor have {', '.join(c.address for c in cells[1:7])}{' and more' if len(cells) > 7 else ''})"
                if cells[1:]
                else ""
            )
            others = tuple(cell.place for cell in cells[1:])
            self._ledger.findings.append(
                find("cell-formula", cells[0].place, others=others, formula=cells[0].formula[:40], more=more)
            )


def ask_date(cell: GridCell, ledger: Ledger, what: str) -> str:
    """What was typed where a spreadsheet program made a date of it: `1-7` or `7-1`; "" while it is not known."""
    match = re.match(r"[0-9]{4}-([0-9]{2})-([0-9]{2})", cell.text)
    if not match:
        return cell.text
    month, day = str(int(match[1])), str(int(match[2]))
    choices = dict.fromkeys((f"{day}-{month}", f"{month}-{day}"))
    return ledger.ask(
        Question(
            kind="date",
            about=f"{what} {cell.text[:10]}",
            place=cell.place,
            typed="text",
            text=f"the {what} at {cell.address} is stored as the date {cell.text[:10]}",
            choices=tuple(Choice(value, f"{value} was typed") for value in choices),
        )
    )


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number
