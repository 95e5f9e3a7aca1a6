"""The book that is kept while a sheet is read: what became of each cell, what was repaired, what is asked."""

from collections.abc import Iterable, Mapping
from typing import Any, Literal, TypeAlias

from paperwork.files.grid import Grid, GridCell
from paperwork.finding import Finding, Subject, find
from paperwork.intake.questions import Question, accept, describe_choices
from paperwork.place import Place, format_column

Use: TypeAlias = Literal["used", "heading", "title", "summary", "repeat", "asked", "cut", "hidden", "unknown"]

Answers: TypeAlias = Mapping[tuple[str, str], str]
"""Answers by kind and content of the question."""

_SHOWN = 6
"""Changes and cells that one finding lists; the rest are counted."""


class Ledger:
    """One reading. Cells are entered once: the first use counts, so that the sum over all uses is the sum of cells."""

    def __init__(self, name: str, answers: Answers | None = None) -> None:
        self.name = name
        self.answers = answers or {}
        self.findings: list[Finding] = []
        self.questions: list[Question] = []
        self.told: list[str] = []
        self.uses: dict[Place, Use] = {}
        self._repairs: dict[str, list[tuple[Place, str, str]]] = {}
        self._unknown: dict[str, list[GridCell]] = {}
        self._asked: dict[tuple[str, str], str] = {}

    def enter(self, cells: Iterable[GridCell], use: Use) -> None:
        """Write down what became of cells that are not written down yet."""
        for cell in cells:
            self.uses.setdefault(cell.place, use)

    def leave(self, cells: Iterable[GridCell], what: str) -> None:
        """Write cells down as not understood, `what` saying what they look like."""
        for cell in cells:
            if cell.place not in self.uses:
                self.uses[cell.place] = "unknown"
                self._unknown.setdefault(what, []).append(cell)

    def leave_sheets(self, grids: Iterable[Grid]) -> None:
        """Write whole sheets down as not understood: one finding for all of them, each with its area and its count."""
        told = []
        for grid in grids:
            cells = [cell for cell in grid.cells.values() if cell.place not in self.uses]
            for cell in cells:
                self.uses[cell.place] = "unknown"
            if cells:
                last = max(cell.row for cell in cells), max(cell.column for cell in cells)
                area = f"{cells[0].address}:{format_column(last[1])}{last[0]}"
                told.append((cells[0].place, f"{grid.title or 'the table'} ({len(cells):,} cells, {area})"))
        if told:
            words = ", ".join(words for _, words in told)
            others = tuple(place for place, _ in told[1:])
            self.findings.append(
                find(
                    "cells-unknown",
                    told[0][0],
                    others=others,
                    cells=words,
                    what=": no table of channels, people or scenes",
                )
            )

    def repair(self, kind: str, cell: GridCell, was: str, taken: str, because: str) -> None:
        """Write down that a value was not taken as it stands."""
        address = cell.address if cell.place.sheet else f"line {cell.place.line}"
        change = f"{quote(was)} \N{RIGHTWARDS ARROW} {quote(taken)} at {address} ({because})"
        if (cell.place, change) not in [(place, words) for place, words, _ in self._repairs.get(kind, ())]:
            self._repairs.setdefault(kind, []).append((cell.place, change, because))

    def ask(self, question: Question) -> str:
        """The answer to a question, its default, or "" where it stays open. The same question is put once."""
        key = (question.kind, question.about)
        if key in self._asked:
            return self._asked[key]
        answer = self.answers.get(key, "")
        told = accept(question, answer) if answer else None
        if answer and told is None:
            self.findings.append(find("answer-unfit", question.place, value=quote(answer), key=question.about))
        if told is None:
            self.questions.append(question)
            self.findings.append(_word_question(question, self.name))
        self._asked[key] = told or question.default
        return self._asked[key]

    def close(self) -> tuple[Finding, ...]:
        """All findings, repairs and unknown cells grouped into one for each kind."""
        found = list(self.findings)
        for kind, changes in self._repairs.items():
            ordered = sorted(changes)
            words = "; ".join(change for _, change, _ in ordered[:_SHOWN]) + count_more(len(ordered), _SHOWN)
            others = tuple(place for place, _, _ in ordered[1:])
            found.append(find("value-repaired", ordered[0][0], others=others, kind=kind, changes=words))
        for what, cells in self._unknown.items():
            listed = list_cells(cells)
            others = tuple(cell.place for cell in cells[1:])
            words = f" ({what})" if what else ""
            found.append(find("cells-unknown", cells[0].place, others=others, cells=listed, what=words))
        return tuple(found)


def _word_question(question: Question, name: str) -> Finding:
    facts: dict[str, Any] = {"question": question.text, "choices": describe_choices(question), "name": name}
    about = (Subject("channels", question.channel),) if question.channel else ()
    if question.default:
        taken = next((c.words for c in question.choices if c.value == question.default), question.default)
        return find("value-taken", question.place, others=question.others, taken=taken, **facts)
    if question.kind in ("frequency", "struck") and question.channel and not question.stops:
        return find(
            "frequency-asked", question.place, about=about, others=question.others, channel=question.channel, **facts
        )
    if question.stops:
        return find("sheet-question", question.place, about=about, others=question.others, **facts)
    return find("value-asked", question.place, about=about, others=question.others, **facts)


def list_cells(cells: list[GridCell]) -> str:
    """Cells with what they hold: `Mics!K5 (foo), Mics!K6 (bar) and 4 more`."""
    told = [f"{_address(cell)} {quote(cell.text or cell.formula)}" for cell in cells[:_SHOWN]]
    return ", ".join(told) + count_more(len(cells), _SHOWN)


def _address(cell: GridCell) -> str:
    return f"{cell.place.sheet}!{cell.address}" if cell.place.sheet else f"line {cell.place.line}"


def count_more(count: int, shown: int) -> str:
    """` and 4 more`, or ""."""
    return f" and {count - shown} more" if count > shown else ""


def quote(text: str) -> str:
    """A text to be shown within a sentence: on one line, clipped, in quotes."""
    line = " ".join(text.split())
    return f'"{line if len(line) <= 48 else line[:47] + "…"}"'
