"""What is gathered while a book is read: what became of each cell, what was repaired, what is asked, what was found."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any, Literal, TypeAlias

from paperwork.files.grid import Grid, GridCell
from paperwork.finding import Finding, Subject, find
from paperwork.intake.cells.settle import Settled
from paperwork.intake.questions import Answers, Choice, Question, Typed, accept, word_question
from paperwork.intake.reading import CellNote, Decision, note_doubts, quote, say_place
from paperwork.intake.texts.personal import are_personal, withhold, withhold_health
from paperwork.place import Place, format_column

Use: TypeAlias = Literal[
    "used", "heading", "title", "summary", "repeat", "asked", "cut", "hidden", "personal", "left", "blank", "unknown"
]
"""What became of a cell. `blank` says that there is nothing: `-`, `n/a`, `off`. `left` is out by a decision."""

Subjects: TypeAlias = tuple[Subject, ...]
Places: TypeAlias = tuple[Place, ...]

_SHOWN = 6
"""Changes and cells that one finding lists; the rest are counted."""

_NAMED = 24
"""Columns and cells of data about people that their one warning names."""


class Ledger:
    """One reading of a book.

    Cells are entered once: the first use counts, so that the sum over all uses is the sum of cells. `carried` is what the
    show says of a cell within a longer text: `MON 1` among the outputs of a rack; `private` are cells of data about people, `parts` the
    sheets that are parts of the show, with the same mics.
    """

    def __init__(self, name: str, answers: Answers | None = None) -> None:
        self.name = name
        self.findings: list[Finding] = []
        self.questions: list[Question] = []
        self.lines: list[str] = []
        self.decisions: list[Decision] = []
        self.uses: dict[Place, Use] = {}
        self._settled: dict[Place, tuple[int, Settled]] = {}
        self._uncalculated: dict[int, list[GridCell]] = {}
        self._answers = answers or {}
        self._repairs: dict[CellNote, None] = {}
        self._unknown: dict[str, list[GridCell]] = {}
        self._told: set[Place] = set()
        self._personal: list[tuple[str, list[GridCell]]] = []
        self._withheld: list[Place] = []
        self._taken: dict[tuple[str, str], str] = {}
        self.carried: dict[Place, str] = {}
        self.parts: set[str] = set()
        self.private: set[Place] = set()

    def settle(self, parts: Sequence[Mapping[Place, Settled]]) -> None:
        """Take in the settled cells of each sheet."""
        self._settled = {place: (number, cell) for number, part in enumerate(parts) for place, cell in part.items()}

    def report(self, code: str, place: Place, *, about: Subjects = (), others: Places = (), **facts: Any) -> None:
        """Add a finding."""
        self.findings.append(find(code, place, about=about, others=others, **facts))

    def text(self, cell: GridCell) -> str:
        """The text that holds of a cell, which is entered as used; "" with a repair or a finding where there is none."""
        self.enter([cell], "used")
        if cell.place not in self._settled:
            return cell.text
        part, settled = self._settled[cell.place]
        if settled.is_uncalculated:
            self._uncalculated.setdefault(part, []).append(cell)
        if settled.kind:
            self.repair(settled.kind, cell.place, settled.was, settled.text or "nothing", settled.because)
        return settled.text

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

    def leave_personal(self, heading: str, cells: Sequence[GridCell], head: GridCell | None = None) -> None:
        """Write a column of data about people down as left out. What it holds, and what is pinned to it or to its `head`, is
        shown and printed nowhere."""
        self.reenter(cells, "personal")
        self.private |= {cell.place for cell in (*cells, *([head] if head else ()))}
        if cells:
            self._personal.append((heading, list(cells)))

    def withhold(self, text: str, place: Place) -> str:
        """A text without what in it is data about a person, which is then named by its place."""
        left = withhold_health(withhold(text))
        if left != text and place not in self.private:
            self.private.add(place)
            self.uses[place] = "personal"
            self._withheld.append(place)
        return left

    def leave_sheets(self, grids: Iterable[Grid]) -> None:
        """Write whole sheets down as not understood: one finding for all of them, each with its area and its count."""
        left = []
        for grid in grids:
            cells = [cell for cell in grid.cells.values() if cell.place not in self.uses]
            self.enter(cells, "unknown")
            if cells:
                last = max(cell.row for cell in cells), max(cell.column for cell in cells)
                area = f"{cells[0].address}:{format_column(last[1])}{last[0]}"
                left.append((cells[0].place, f"{grid.title or 'the table'} ({len(cells):,} cells, {area})"))
        if left:
            places, areas = zip(*left, strict=True)
            what = ": no table of channels, people or scenes"
            self.report("cells-unknown", places[0], others=places[1:], cells=", ".join(areas), what=what)

    def repair(self, kind: str, place: Place, was: str, taken: str, because: str) -> None:
        """Write down that a value was not taken as it is written."""
        self._repairs[CellNote(place, kind, was, taken, because)] = None

    def list_notes(self, cells: Iterable[GridCell]) -> tuple[CellNote, ...]:
        """The cells that were taken otherwise than they are written, or are in doubt, in their order; none about a person."""
        decided = {(one.kind, one.about) for one in self.decisions}
        doubts = note_doubts(self.questions, decided, {cell.place: cell.text for cell in cells})
        noted = sorted({*self._repairs, *doubts}, key=lambda one: (one.place, one.kind, one.because))
        return tuple(
            replace(one, written=withhold(one.written), taken=withhold(one.taken))
            for one in noted
            if one.place not in self.private
        )

    def reenter(self, cells: Iterable[GridCell], use: Use) -> None:
        """Write down what became of cells, whatever was written down before."""
        self.uses |= {cell.place: use for cell in cells}

    def ask(
        self,
        kind: str,
        about: str,
        place: Place,
        text: str,
        choices: Mapping[str, str],
        *,
        others: Places = (),
        default: str = "",
        typed: Typed = "",
        channel: str = "",
        stops: bool = True,
    ) -> str:
        """The answer to a question, whose `choices` are values and what they say to a person. See `Question`."""
        offered = tuple(Choice(value, words) for value, words in choices.items())
        return self.put(Question(kind, about, text, offered, place, others, default, typed, channel, stops))

    def put(self, question: Question) -> str:
        """The answer to a question, its default, or "" where it stays open. The same question is put once."""
        key = (question.kind, question.about)
        if key in self._taken:
            return self._taken[key]
        answer = self._answers.get(key, "")
        taken = accept(question, answer) if answer else None
        if answer and taken is None:
            self.report("answer-unfit", question.place, value=quote(answer), key=question.about)
        if taken is None:
            self.questions.append(question)
            self.findings.append(word_question(question, self.name))
        self._taken[key] = taken or question.default
        return self._taken[key]

    def decide(self, decision: Decision, question: str = "") -> str:
        """What a decision comes to: the answer to it, else its own value; a doubtful one is put as a question.

        An answer may name any of its choices. The key may have the sheet in front: `Mics!presenter`.
        """
        given = self.find_answer(decision.kind, decision.about, decision.place.sheet)
        if given in decision.choices:
            self.decisions.append(replace(decision, value=given, because="answered", doubt="sure"))
            self._taken[decision.kind, decision.about] = given
            return given
        self.decisions.append(decision)
        if decision.doubt == "sure":
            if given:
                self.report("answer-unfit", decision.place, value=quote(given), key=decision.about)
            return decision.value
        text = question or f"{decision.subject} {decision.because}"
        offered = tuple(Choice(value, words) for value, words in decision.choices.items() if words)
        default = decision.value if decision.doubt == "likely" else ""
        about = decision.about
        return self.put(Question(decision.kind, about, text, offered, decision.place, default=default))

    def doubt(self, decision: Decision, question: str, cells: Iterable[GridCell]) -> None:
        """Put a decision in the place of an earlier one about the same place, and ask it: the question tells of `cells`."""
        same = (decision.kind, decision.place)
        self.decisions = [one for one in self.decisions if (one.kind, one.place) != same]
        self._taken.pop((decision.kind, decision.about), None)
        self.decide(decision, question)
        self._told |= {cell.place for cell in cells}

    def dissolve(self, cells: Iterable[GridCell]) -> None:
        """Take back what was asked at some cells: a table that is left out has no question."""
        places = {cell.place for cell in cells}
        self.questions = [one for one in self.questions if one.place not in places]
        self.findings = [one for one in self.findings if not (one.row.asks and one.place in places)]
        self.decisions = [one for one in self.decisions if one.kind == "rows" or one.place not in places]

    def ask_date(self, cell: GridCell, what: str) -> str:
        """What was typed where a spreadsheet program made a date of it: `1-7` or `7-1`; "" while it is not known."""
        match = re.match(r"[0-9]{4}-([0-9]{2})-([0-9]{2})", cell.text)
        if not match:
            return cell.text
        month, day = str(int(match[1])), str(int(match[2]))
        choices = {value: f"{value} was typed" for value in (f"{day}-{month}", f"{month}-{day}")}
        date = cell.text[:10]
        text = f"the {what} at {cell.address} is stored as the date {date}"
        return self.ask("date", f"{what} {date}", cell.place, text, choices, typed="text")

    def find_taken(self, kind: str, about: str) -> str:
        """What a question that was put came to; "" for none."""
        return self._taken.get((kind, about), "")

    def find_answer(self, kind: str, about: str, sheet: str = "") -> str:
        """The answer to what is not asked yet, "" for none; the key may have the sheet in front."""
        return self._answers.get((kind, f"{sheet}!{about}")) or self._answers.get((kind, about), "")

    def close_formulas(self) -> None:
        """Report all formulas without a result, those of one sheet together."""
        for _, listed in sorted(self._uncalculated.items()):
            cells = sorted(listed, key=lambda cell: (cell.row, cell.column))
            more = ", ".join(cell.address for cell in cells[1:7]) + (" and more" if len(cells) > 7 else "")
            others = tuple(cell.place for cell in cells[1:])
            formula, more = cells[0].formula[:40], f" (nor have {more})" if others else ""
            self.report("cell-formula", cells[0].place, others=others, formula=formula, more=more)

    def close(self) -> tuple[Finding, ...]:
        """All findings, repairs and unknown cells grouped into one for each kind."""
        for kind in dict.fromkeys(one.kind for one in self._repairs):
            said = sorted((one.place, _say_repair(one)) for one in self._repairs if one.kind == kind)
            places, words = zip(*said, strict=True)
            changed = "; ".join(words[:_SHOWN]) + count_more(len(words), _SHOWN)
            self.report("value-repaired", places[0], others=places[1:], kind=kind, changes=changed)
        for what, left in self._unknown.items():
            cells = [cell for cell in left if self.uses[cell.place] == "unknown"]  # a legend may be read since
            self.lines += (f"not read: {say_place(cell.place)} {_quote_cell(cell)}" for cell in cells)
            cells = [cell for cell in cells if cell.place not in self._told]
            if not cells:
                continue
            others = tuple(cell.place for cell in cells[1:])
            listed, looks = _list_cells(cells), f" ({what})" if what else ""
            self.report("cells-unknown", cells[0].place, others=others, cells=listed, what=looks)
        if self._personal or self._withheld:
            named = [f"{heading} at {_name_area(cells)}" for heading, cells in self._personal]
            named += [f"what is … in the notes at {say_place(place)}" for place in self._withheld]
            columns = ", ".join(named[:_NAMED]) + count_more(len(named), _NAMED)
            firsts = (*(cells[0].place for _, cells in self._personal), *self._withheld)
            self.report("personal-left", firsts[0], others=firsts[1:], columns=columns)
        return tuple(self.findings)


def _name_area(cells: Sequence[GridCell]) -> str:
    """Where the cells of a column are: `Mics!F5:F20`, or their lines."""
    first, last = cells[0], cells[-1]
    if not first.place.sheet:
        return f"lines {first.place.line} to {last.place.line}"
    return f"{first.place.sheet}!{first.address}:{last.address}"


def _list_cells(cells: Sequence[GridCell]) -> str:
    """Cells by their addresses alone, since findings are printed: `Mics!K5, K6 and 4 more`."""
    first = cells[0].place
    if not first.sheet:
        listed = [f"line {cell.place.line}" for cell in cells]
    else:
        listed = [
            f"{cell.place.sheet}!{cell.address}"
            if cell is cells[0] or cell.place.sheet != first.sheet
            else cell.address
            for cell in cells
        ]
    listed = list(dict.fromkeys(listed))
    return ", ".join(listed[:_SHOWN]) + count_more(len(listed), _SHOWN)


def count_more(count: int, shown: int) -> str:
    """` and 4 more`, or ""."""
    return f" and {count - shown} more" if count > shown else ""


def _say_repair(one: CellNote) -> str:
    address = one.place.cell if one.place.sheet else f"line {one.place.line}"
    return f"{quote(one.written)} \N{RIGHTWARDS ARROW} {quote(one.taken)} at {address} ({one.because})"


def _quote_cell(cell: GridCell) -> str:
    """What a cell that nothing reads says, unless it is data about a person, which is printed nowhere."""
    return "left out" if are_personal([cell.text]) else quote(cell.text or cell.formula, 200)
