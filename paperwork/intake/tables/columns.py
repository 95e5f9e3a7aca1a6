"""Which column of a table holds what: by its heading, and where that leaves a choice, by the values below."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from paperwork.files.grid import GridCell
from paperwork.intake.ledger import Ledger, quote
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.texts.frequencies import read_frequency
from paperwork.intake.texts.headings import REPEATABLE, fields, fold_heading, mean
from paperwork.intake.texts.ids import is_id, is_plain_prefix, read_id, read_place
from paperwork.intake.texts.names import is_blank
from paperwork.intake.texts.scenes import is_scene, read_mark
from paperwork.place import format_column
from paperwork.text.vocabulary import fold_word

_OFFERED = {
    "channel": "the channel",
    "performer": "the performer",
    "role": "the role",
    "frequency": "the frequency",
    "pack": "the pack",
    "capsule": "the capsule",
    "receiver": "the place in the receiver",
    "notes": "notes",
    "ignore": "nothing of use: leave it out",
}
"""The fields that a question about a column offers, in their order."""

Values = Mapping[int, Sequence[GridCell]]
Fields = Mapping[int, str]


@dataclass(frozen=True, slots=True)
class Columns:
    """What the columns of a table are. `scenes` are the columns of a grid, in their order."""

    fields: Fields
    scenes: tuple[int, ...]

    def of(self, name: str) -> int | None:
        """The column of a field, or None."""
        return next((column for column, field in self.fields.items() if field == name), None)

    def has(self, *names: str) -> bool:
        """Whether there is a column of one of the fields."""
        return any(field in names for field in self.fields.values())


def assign_columns(table: SheetTable, ledger: Ledger) -> Columns:
    """A field for every column that says its own, questions for those that do not."""
    values = {column: [row[column] for row in table.rows.values() if column in row] for column in table.headings}
    scenes = _find_scenes(table)
    candidates = {
        column: mean(heading.text).fields if heading else ()
        for column, heading in table.headings.items()
        if column not in scenes
    }
    taken: dict[int, str] = {}
    for column in sorted(candidates, key=lambda column: _order_of(table.headings[column], candidates[column], column)):
        options = candidates[column]
        free = [name for name in options if name in REPEATABLE or name not in taken.values()]
        if free:
            taken[column] = _choose(free, values[column])
        elif options:
            taken |= _ask_twin(table, column, options[0], taken, values, ledger)
        elif values[column]:
            taken[column] = _guess(table, column, values[column], taken, ledger)
    packs = [column for column, name in taken.items() if name == "pack"]
    if packs and "channel" not in taken.values():
        taken[packs[0]] = "channel"  # packs number the channels where nothing else does
    if scenes and not {"role", "performer", "channel"} & set(taken.values()):
        taken |= {column: "performer" for column, name in taken.items() if name == "scenes"}  # a grid that was turned
    return Columns({column: name for column, name in sorted(taken.items()) if name}, scenes)


def _order_of(heading: GridCell | None, options: Sequence[str], column: int) -> tuple[int, int, str, int]:
    """Columns that can be only one thing choose first, those spelled loosely after the rest, those unknown last."""
    if heading is None or not options:
        return 9, len(fields()), fold_heading(heading.text) if heading else "", column
    vague = len(options) + (0 if mean(heading.text).is_exact else 4)
    return vague, fields().index(options[0]), fold_heading(heading.text), column


def _find_scenes(table: SheetTable) -> tuple[int, ...]:
    """The columns of a grid: headed by scenes, two at least, and not full of what no grid holds."""
    columns = tuple(
        column
        for column, heading in table.headings.items()
        if heading and not mean(heading.text).fields and (is_scene(heading.text) or heading.kind == "date")
    )
    return columns if len(columns) > 1 else ()


def _choose(options: Sequence[str], values: Sequence[GridCell]) -> str:
    """The first option whose test the column passes, else the first without a test, else the first."""
    if len(options) == 1:
        return options[0]
    texts = [cell.text for cell in values if cell.text and not is_blank(cell.text)]
    return max(options, key=lambda name: (_fit(name, texts), -options.index(name))) if texts else options[0]


def _fit(name: str, texts: Sequence[str]) -> float:
    """How many of the values look like the field: quarters, so that a stray cell decides nothing."""
    test = _TESTS.get(name)
    if not texts or test is None:
        return 0.5
    is_repeated = name == "channel" and len(set(texts)) * 2 < len(texts)
    return round(4 * sum(map(test, texts)) / len(texts)) / 4 - (0.5 if is_repeated else 0)


def _looks_like_frequency(text: str) -> bool:
    reading = read_frequency(text)
    return bool(reading.mhz or reading.same or reading.choices)


def _looks_like_words(text: str) -> bool:
    return sum(char.isalpha() for char in text) >= 3 and not is_id(text)


def _looks_like_number(text: str) -> bool:
    parts = read_id(text)
    is_short = is_plain_prefix(parts.prefix) or len(parts.prefix) <= 3
    return bool(parts.digits) and is_short and not read_frequency(text).mhz


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
    table: SheetTable, column: int, name: str, taken: Fields, values: Values, ledger: Ledger
) -> dict[int, str]:
    """A second column for a field that there can be only one of, and what becomes of both: asked, unless it says the
    same or nothing."""
    other = next(c for c, field in taken.items() if field == name)
    mine, theirs = ({c.row: c.text for c in values[n]} for n in (column, other))
    if all(theirs.get(row) == text for row, text in mine.items()):
        return {column: "ignore" if mine else ""}
    heading = table.headings[column]
    title = heading.text if heading else ""
    answer = ledger.ask(
        "column",
        f"{fold_heading(title)} (second)",
        heading.place if heading else values[column][0].place,
        f"column {format_column(column)} is headed {quote(title)}, and so is column {format_column(other)}, with other values",
        {"ignore": "leave this one out", "first": "this one counts, not the other", "notes": "keep it in the notes"},
    )
    return {other: "ignore", column: name} if answer == "first" else {column: answer or "open"}


def _guess(table: SheetTable, column: int, values: Sequence[GridCell], taken: Fields, ledger: Ledger) -> str:
    """A column that no heading explains: by its values where they leave no doubt, else asked or left."""
    heading, texts, known = table.headings[column], [cell.text for cell in values if cell.text], set(taken.values())
    looks = next((n for n in ("frequency", "channel") if n not in known and texts and _fit(n, texts) >= 0.75), "")
    if heading is None and looks == "channel" and column == table.columns[0] and len(set(texts)) == len(texts):
        return "channel"
    are_words = all(_looks_like_words(text) or read_mark(text) == "live" for text in texts)
    if heading is None and not looks and are_words and {"performer", "role"} & known:
        return "notes"
    key = fold_heading(heading.text) if heading else f"(none) {fold_word(texts[0])[:24]}" if texts else "(none)"
    is_wanted = looks or not {"performer", "role", "channel", "pack"} & known
    if not is_wanted and not ledger.has_answer("column", key):
        return ""
    title = f"is headed {quote(heading.text)}" if heading else "has no heading"
    sample = quote(", ".join(dict.fromkeys(texts[:4])))
    text = f"column {format_column(column)} {title} and holds {sample}"
    return ledger.ask("column", key, values[0].place, text, _OFFERED)
