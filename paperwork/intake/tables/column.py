"""One column of a table as it is, and the columns of a table once their fields are found."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.files.grid import GridCell
from paperwork.frozen import frozen
from paperwork.intake.ledger import Ledger
from paperwork.intake.reading import Decision, Doubt, quote
from paperwork.intake.tables.find import SheetTable
from paperwork.intake.texts.headings import find_rank
from paperwork.intake.texts.personal import withhold_health
from paperwork.place import Place, format_column
from paperwork.text.headings import fields, fold_heading
from paperwork.text.vocabulary import fold_word, listed_words

Fields = Mapping[int, str]

NOTES = "keep it in the notes, under its heading"
IGNORE = "nothing of use: leave it out"
"""What two answers about a column say to a person."""

OFFERED = {
    "channel": "the channel",
    "performer": "the performer",
    "role": "the role",
    "frequency": "the frequency",
    "pack": "the pack",
    "capsule": "the capsule",
    "receiver": "the place in the receiver",
    "input": "the desk input",
    "understudy": "who covers the role",
    "notes": NOTES,
    "ignore": IGNORE,
}
"""The fields that a question about a column offers, in their order; an answer may name any other field too."""

BACKUP = "a backup frequency, to which its pack and receiver go when the first goes bad"
"""What it says of the second of two frequencies."""


@frozen
class Columns:
    """What the columns of a table are. `scenes` are the columns of a grid, in their order; `are_mics` says that mics head
    them, and scenes are in their cells."""

    fields: Fields
    scenes: tuple[int, ...]
    are_mics: bool = False

    def of(self, name: str) -> int | None:
        """The column of a field, or None."""
        return next((column for column, field in self.fields.items() if field == name), None)

    def has(self, *names: str) -> bool:
        """Whether there is a column of one of the fields."""
        return any(field in names for field in self.fields.values())


class ListColumn(NamedTuple):
    """One column of a table as it is: its heading, its values, and the fields that its heading may mean. One that
    `is_turned` is a row of the file."""

    number: int
    heading: GridCell | None
    cells: Sequence[GridCell]
    options: tuple[str, ...] = ()
    is_turned: bool = False

    @property
    def texts(self) -> list[str]:
        """What its cells show."""
        return [cell.text for cell in self.cells if cell.text]

    @property
    def key(self) -> str:
        """What it is called in an answer: its heading folded, or its first value where it has none."""
        if self.heading:
            return fold_heading(self.heading.text)
        return f"(none) {fold_word(self.texts[0])[:24]}" if self.texts else "(none)"

    @property
    def letter(self) -> str:
        """Its letter."""
        return format_column(self.number)

    @property
    def place(self) -> Place:
        """Where it is headed, else where it begins."""
        return self.heading.place if self.heading else self.cells[0].place

    @property
    def title(self) -> str:
        """What to call it: its letter and its heading."""
        heading = f", headed {quote(self.heading.text)}," if self.heading else ", without a heading,"
        return f"row {self.number}{heading}" if self.is_turned else f"column {self.letter}{heading}"

    @property
    def label(self) -> str:
        """What a line of the reading calls it: `column B "Name"`."""
        where, _, heading = self.title.rstrip(",").partition(", ")
        return f"{where} {heading.removeprefix('headed ')}"

    @property
    def sample(self) -> str:
        """Its first values in quotes."""
        return quote(", ".join(map(withhold_health, dict.fromkeys(self.texts[:4]))))

    @property
    def is_second(self) -> bool:
        """Whether its heading says that it is the second of a pair."""
        is_ranked = self.heading is not None and find_rank(self.heading.text) == "second"
        return is_ranked or self.options[:1] == ("backup",)

    @property
    def says_channel(self) -> bool:
        """Whether its heading says `Channel` alone: ours, the desk's, the television's or the receiver's."""
        return self.heading is not None and self.key in listed_words("channel_alone")


@dataclass(slots=True)
class TableColumns:
    """The columns of one table while their fields are found: `taken` is the field of each, "" for none."""

    table: SheetTable
    columns: Mapping[int, ListColumn]
    ledger: Ledger
    taken: dict[int, str] = field(default_factory=dict)

    def has(self, *names: str) -> bool:
        """Whether a column of one of the fields is found."""
        return bool(set(names) & set(self.taken.values()))

    def decide(self, column: ListColumn, name: str, because: str) -> None:
        """Take a field for a column, and write the decision down."""
        self.taken[column.number] = name
        if column.heading or column.cells:
            samples = [] if name == "personal" else column.texts[:3]
            made = Decision(
                "column", column.key, column.place, column.label, name, because, {}, "sure", samples, column.letter
            )
            self.ledger.decisions.append(made)

    def ask(
        self, column: ListColumn, key: str, because: str, question: str, choices: Mapping[str, str], *, value: str = ""
    ) -> str:
        """What a column in doubt is: `value` until it is answered, "" where nothing may be taken."""
        every = {**choices, **{name: "" for name in fields() if name not in choices}}
        doubt: Doubt = "likely" if value else "open"
        made = Decision(
            "column", key, column.place, column.label, value, because, every, doubt, column.texts[:3], column.letter
        )
        return self.ledger.decide(made, question)
