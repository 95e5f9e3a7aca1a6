"""Which column of a table holds what: told by its heading, and where that leaves a choice, by what stands below."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from paperwork.files.grid import GridCell
from paperwork.intake.frequencies import read_frequency
from paperwork.intake.headings import REPEATABLE, fields, fold_heading, mean
from paperwork.intake.ids import is_id, is_plain_prefix, read_id, read_place
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.names import is_blank
from paperwork.intake.questions import Choice, Question
from paperwork.intake.scenes import is_scene, read_mark
from paperwork.intake.tables import Table
from paperwork.place import format_column
from paperwork.vocabulary import fold_word

ASKED = ("channel", "performer", "role", "frequency", "pack", "capsule", "receiver", "notes")
"""The fields that a question about a column offers."""

_TITLES = {
    "channel": "the channel",
    "pack": "the pack",
    "performer": "the performer",
    "role": "the role",
    "notes": "notes",
    "frequency": "the frequency",
    "capsule": "the capsule",
    "receiver": "the place in the receiver",
    "ignore": "nothing of use: leave it out",
}


@dataclass(frozen=True, slots=True)
class Columns:
    """What the columns of a table are. `scenes` are the columns of a grid, in their order."""

    fields: Mapping[int, str]
    scenes: tuple[int, ...]

    def of(self, name: str) -> int | None:
        """The column of a field, or None."""
        return next((column for column, told in self.fields.items() if told == name), None)


def assign_columns(table: Table, ledger: Ledger) -> Columns:
    """A field for every column that can be told, questions for those that cannot."""
    values = {column: [row[column] for row in table.rows.values() if column in row] for column in table.headings}
    scenes = _find_scenes(table)
    open_columns = [column for column in table.headings if column not in scenes]
    candidates = {column: _candidates(table.headings[column]) for column in open_columns}
    taken: dict[int, str] = {}
    for column in sorted(
        open_columns,
        key=lambda c: (_is_vague(table.headings[c], candidates[c]), fields_first(candidates[c]), _title(table, c), c),
    ):
        options = candidates[column]
        free = [name for name in options if name in REPEATABLE or name not in taken.values()]
        if free:
            taken[column] = _choose(free, values[column])
        elif options:
            taken[column] = _ask_twin(table, column, options[0], taken, values, ledger)
        elif values[column]:
            taken[column] = _guess(table, column, values[column], taken, ledger)
    _settle_key(taken)
    if scenes and not {"role", "performer", "channel"} & set(taken.values()):
        taken |= {column: "performer" for column, name in taken.items() if name == "scenes"}  # a grid that was turned
    return Columns({column: name for column, name in sorted(taken.items()) if name}, scenes)


def fields_first(options: tuple[str, ...]) -> int:
    """The place of the first option in the order of all fields."""
    return fields().index(options[0]) if options else len(fields())


def _is_vague(heading: GridCell | None, options: tuple[str, ...]) -> int:
    """Columns that can be only one thing choose first, those spelled loosely after the rest, those unknown last."""
    if not options:
        return 9
    exact = heading is not None and mean(heading.text).is_exact
    return len(options) + (0 if exact else 4)


def _title(table: Table, column: int) -> str:
    heading = table.headings[column]
    return fold_heading(heading.text) if heading else ""


def _candidates(heading: GridCell | None) -> tuple[str, ...]:
    return mean(heading.text).fields if heading else ()


def _find_scenes(table: Table) -> tuple[int, ...]:
    """The columns of a grid: headed by scenes, two at least, and not full of what no grid holds."""
    columns = []
    for column, heading in table.headings.items():
        if heading is None or mean(heading.text).fields:
            continue
        if is_scene(heading.text) or (heading.kind == "date"):
            columns.append(column)
    return tuple(columns) if len(columns) > 1 else ()


def _choose(options: list[str], values: list[GridCell]) -> str:
    """The first option whose test the column passes, else the first without a test, else the first."""
    if len(options) == 1:
        return options[0]
    texts = [cell.text for cell in values if cell.text and not is_blank(cell.text)]
    best = max(options, key=lambda name: (_fit(name, texts), -options.index(name)))
    return best if texts else options[0]


def _fit(name: str, texts: list[str]) -> float:
    """How many of the values look like the field: quarters, so that a stray cell decides nothing."""
    test = _TESTS.get(name)
    if not texts or test is None:
        return 0.5
    share = round(4 * sum(test(text) for text in texts) / len(texts)) / 4
    if name == "channel" and len(set(texts)) * 2 < len(texts):
        share -= 0.5
    return share


def _looks_like_frequency(text: str) -> bool:
    reading = read_frequency(text)
    return bool(reading.mhz or reading.same or reading.choices)


def _looks_like_words(text: str) -> bool:
    return sum(char.isalpha() for char in text) >= 3 and not is_id(text)


def _looks_like_number(text: str) -> bool:
    parts = read_id(text)
    return (
        bool(parts.digits)
        and not read_frequency(text).mhz
        and (is_plain_prefix(parts.prefix) or len(parts.prefix) <= 3)
    )


_TESTS: dict[str, Callable[[str], bool]] = {
    "channel": _looks_like_number,
    "pack": _looks_like_number,
    "frequency": _looks_like_frequency,
    "tv": lambda text: bool(read_id(text).digits) and 2 <= int(read_id(text).digits) <= 69,
    "performer": _looks_like_words,
    "role": _looks_like_words,
    "capsule": _looks_like_words,
    "receiver": lambda text: bool(read_place(text)[0]),
}


def _ask_twin(
    table: Table, column: int, name: str, taken: dict[int, str], values: Mapping[int, list[GridCell]], ledger: Ledger
) -> str:
    """A second column for a field that there can be only one of: asked, unless it says the same or nothing."""
    other = next(c for c, told in taken.items() if told == name)
    mine, theirs = ({c.row: c.text for c in values[n]} for n in (column, other))
    if not mine or all(theirs.get(row) == text for row, text in mine.items()):
        return "ignore" if mine else ""
    heading = table.headings[column]
    title = heading.text if heading else ""
    question = Question(
        kind="column",
        about=f"{fold_heading(title)} (second)",
        place=heading.place if heading else values[column][0].place,
        text=f"column {format_column(column)} is headed {quote(title)}, and so is column {format_column(other)}, with other values",
        choices=(
            Choice("ignore", "leave this one out"),
            Choice("first", "this one counts, not the other"),
            Choice("notes", "keep it in the notes"),
        ),
    )
    answer = ledger.ask(question)
    if answer == "first":
        taken[other] = "ignore"
        return name
    return answer or "open"


def _guess(table: Table, column: int, values: list[GridCell], taken: dict[int, str], ledger: Ledger) -> str:
    """A column that no heading explains: told from its values where they leave no doubt, else asked or left."""
    heading, texts = table.headings[column], [cell.text for cell in values if cell.text]
    key = fold_heading(heading.text) if heading else f"(none) {fold_word(texts[0])[:24]}" if texts else "(none)"
    looks = next(
        (n for n in ("frequency", "channel") if n not in taken.values() and texts and _fit(n, texts) >= 0.75), ""
    )
    if looks == "channel" and (heading is None and column == table.columns[0]) and len(set(texts)) == len(texts):
        return "channel"
    if (
        heading is None
        and not looks
        and all(_looks_like_words(t) or read_mark(t) == "live" for t in texts)
        and {"performer", "role"} & set(taken.values())
    ):
        return "notes"
    title = f"is headed {quote(heading.text)}" if heading else "has no heading"
    wanted = looks or (not {"performer", "role", "channel", "pack"} & set(taken.values()))
    kept = ledger.answers.get(("column", key))
    if not wanted and not kept:
        return ""
    choices = (*(Choice(n, _TITLES[n]) for n in ASKED), Choice("ignore", _TITLES["ignore"]))
    sample = ", ".join(dict.fromkeys(texts[:4]))
    return ledger.ask(
        Question(
            kind="column",
            about=key,
            place=values[0].place,
            choices=choices,
            text=f"column {format_column(column)} {title} and holds {quote(sample)}",
        )
    )


def _settle_key(taken: dict[int, str]) -> None:
    """A pack column without a channel column numbers the channels."""
    told = set(taken.values())
    if "channel" not in told and "pack" in told:
        column = next(c for c, name in taken.items() if name == "pack")
        taken[column] = "channel"
