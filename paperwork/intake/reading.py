"""The reading of a list: what each sheet, table and column was taken for, why, and what else it could be; and the cells that
were not taken as they are written, or are in doubt."""

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from typing import Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.intake.questions import Question
from paperwork.intake.texts.personal import withhold
from paperwork.place import Place

Doubt: TypeAlias = Literal["sure", "likely", "open"]
"""How far a decision is in doubt: none; the likeliest is taken and asked about; nothing is taken until it is answered."""

SCENE, MIC = "scene", "mic"
"""What a column of a plot is taken for."""

_ORDER = ("open", "likely", "sure")
_SIGNS = {"open": "?", "likely": "~", "sure": " "}


@frozen
class Decision:
    """What something on a sheet was taken for.

    `kind` and `about` are the key of the answer that changes it, `subject` names it to a person. `value` is what was taken
    ("" while it is open), `because` the reason, `choices` what else it may be, each with its words. `samples` are what it
    holds, shown on the screen of whoever owns the list and nowhere else. `letter` is that of a column.
    """

    kind: str
    about: str
    place: Place
    subject: str
    value: str
    because: str
    choices: Mapping[str, str]
    doubt: Doubt = "sure"
    samples: Sequence[str] = ()
    letter: str = ""


@frozen
class CellNote:
    """What became of a cell that was not simply taken as it is `written`: what it was `taken` as, and why.

    One in doubt has the question as its reason, and is taken so until it is answered; "" where nothing is. `kind` and
    `about` are the key of its answer; a repair has its kind alone.
    """

    place: Place
    kind: str
    written: str
    taken: str
    because: str
    doubt: Doubt = "sure"
    about: str = ""


def note_doubts(
    questions: Iterable[Question], decided: Container[tuple[str, str]], cells: Mapping[Place, str]
) -> Iterator[CellNote]:
    """The cells that questions are about, those aside that ask what a sheet, a table or a column is. `decided` are the keys of
    those, `cells` what each cell says."""
    for one in questions:
        if (one.kind, one.about) not in decided:
            doubt: Doubt = "likely" if one.default else "open"
            for place in dict.fromkeys((one.place, *one.others)):
                if place in cells:
                    yield CellNote(place, one.kind, cells[place], one.default, one.text, doubt, one.about)


def describe_cells(notes: Iterable[CellNote]) -> tuple[str, ...]:
    """A line for each cell that is noted, in the signs of `describe_reading`, with the command that answers a doubtful one."""
    lines = []
    for one in sort_notes(notes):
        taken = quote(one.taken) if one.taken else "not taken yet"
        answer = f'  [--answer "{one.kind} {one.about}=..."]' if one.about else ""
        line = f"{_SIGNS[one.doubt]} {say_place(one.place)} {quote(one.written)}: {taken} ({one.because}){answer}"
        lines.append(line)
    return tuple(lines)


def sort_notes(notes: Iterable[CellNote]) -> list[CellNote]:
    """The most doubtful first, the others in the order of the cells."""
    return sorted(notes, key=lambda one: (_ORDER.index(one.doubt), one.place))


def say_place(place: Place) -> str:
    """A cell by its sheet and address, or by its line."""
    return f"{place.sheet}!{place.cell}" if place.sheet else f"line {place.line}"


def describe_reading(decisions: Iterable[Decision], *, how: bool = True) -> tuple[str, ...]:
    """A line for each decision, the most doubtful first, the others sheet by sheet. `?` is asked, `~` is taken until it is
    answered. `how` adds the command that answers a doubtful one."""
    listed = tuple(decisions)
    sheets = list(dict.fromkeys(one.place.sheet for one in listed))

    def place(one: Decision) -> tuple[int, int, int, int, int]:
        kind = {"language": 0, "sheet": 1, "rows": 2}.get(one.kind, 3)
        return _ORDER.index(one.doubt), sheets.index(one.place.sheet), kind, one.place.line, one.place.column

    groups = groupby(
        sorted(listed, key=place), key=lambda one: one.value in (SCENE, MIC) and one.doubt == "sure" and one.place.sheet
    )
    return tuple(
        line
        for is_scenes, group in groups
        for line in (
            [_describe_scenes(tuple(group))] if is_scenes is not False else (_describe(one, how=how) for one in group)
        )
    )


def _describe_scenes(scenes: Sequence[Decision]) -> str:
    """One line for the columns of a plot: `column C "1.1" to column J "2.4": 8 scenes`."""
    ends = dict.fromkeys((scenes[0].subject, scenes[-1].subject))
    return f"      {' to '.join(ends)}: {len(scenes)} {scenes[0].value}{'s' if len(scenes) > 1 else ''} ({scenes[0].because})"


def _describe(one: Decision, *, how: bool) -> str:
    samples = ", ".join(f'"{" ".join(text.split())[:24]}"' for text in one.samples)
    offered = [value for value, words in one.choices.items() if words]
    value = one.value or " or ".join(offered[:2]) or "not known"
    value += "" if one.doubt == "sure" else "?"
    change = f'  [--answer "{one.kind} {one.about}={"|".join(offered)}"]' if how and one.doubt != "sure" else ""
    indent = "" if one.kind in ("language", "sheet") else "  " if one.kind == "rows" else "    "
    return (
        f"{_SIGNS[one.doubt]} {indent}{one.subject}: {value} {samples}{' ' if samples else ''}({one.because}){change}"
    )


def quote(text: str, most: int = 48) -> str:
    """A text to be shown within a sentence: on one line, clipped, in quotes, without a number to call."""
    line = withhold(" ".join(text.split()))
    return f'"{line if len(line) <= most else line[: most - 1] + "…"}"'
