"""The scenes of a grid: which columns they are, under which act, and what their numbers mean."""

import re
from collections.abc import Sequence
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger
from paperwork.intake.tables.versions import SortedTable
from paperwork.intake.texts.scenes import follow_numbers, is_cut
from paperwork.text.vocabulary import fold_word, listed_words

_DATE = re.compile(r"[0-9]{4}-([0-9]{2})-([0-9]{2})")
_MOST_ACTS = 5
"""The acts of a show: of a scene that became a date either figure is an act. Our own choice."""


class SceneColumn(NamedTuple):
    """One scene of the grid: its id, the act above it, and where it is headed."""

    id: str
    act: str
    heading: GridCell


def find_scenes(sorted_table: SortedTable, ledger: Ledger) -> dict[int, SceneColumn]:
    """The scenes by column. Doubled numbers and dates are asked; scenes that are cut are left out."""
    table = sorted_table.table
    headings = {column: cell for column in sorted_table.columns.scenes if (cell := table.headings[column])}
    are_days = _are_days(tuple(headings.values()))
    texts = [
        ledger.ask_date(cell, "scene") if cell.kind == "date" and not are_days else " ".join(cell.text.split())
        for cell in headings.values()
    ]
    title = table.title if fold_word(table.title).split()[:1] in [[word] for word in listed_words("act")] else ""
    doubled = follow_numbers(
        [(text, cell.kind == "number") for text, cell in zip(texts, headings.values(), strict=True)]
    )
    found: dict[int, SceneColumn] = {}
    for index, ((column, heading), text) in enumerate(zip(headings.items(), texts, strict=True)):
        if not text:
            continue
        if is_cut(text):
            ledger.repair("scenes that are cut", heading.place, text, "left out", "its heading says so")
            continue
        if index in doubled:
            text = _ask_scene(heading, text, doubled[index], ledger) or f"{text} ({heading.address})"
        act = table.acts.get(column, title)
        id = f"{act}.{text}" if act and _needs_act(texts) else text
        if any(scene.id == id for scene in found.values()):
            id = f"{id} ({heading.address})"
        found[column] = SceneColumn(id, act, heading)
    return found


def _are_days(headings: Sequence[GridCell]) -> bool:
    """Whether dates over a plot are days and no scenes `7-9` that became dates: one of them is in no show, `14-9`."""
    dates = [_DATE.match(cell.text) for cell in headings if cell.kind == "date"]
    return len(dates) > 1 and any(match and min(int(match[1]), int(match[2])) > _MOST_ACTS for match in dates)


def _needs_act(texts: Sequence[str]) -> bool:
    """Whether scene numbers are only unique within their act."""
    return len(set(texts)) < len(texts) or all(len(fold_word(text)) <= 2 for text in texts)


def _ask_scene(heading: GridCell, text: str, guesses: Sequence[str], ledger: Ledger) -> str:
    zero = f"{text}0"
    words = f"two scenes are numbered {text}, the second at {heading.address}; as a number {zero} is stored as {text}"
    reasons = {guess: "the number lost its last zero" if guess == zero else "the next scene" for guess in guesses}
    choices = {guess: f"{guess}: {reason}" for guess, reason in reasons.items()}
    return ledger.ask("scene", f"{text} again", heading.place, words, choices, typed="text")
