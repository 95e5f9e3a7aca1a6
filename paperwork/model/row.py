"""The two kinds of row in which the show file is stated: a field, and a section with its fields."""

from collections.abc import Mapping
from typing import Any, NamedTuple

from paperwork.model.kinds import Kind

MARKS = frozenset({"required", "unique", "personal", "venue", "tonight", "brief", "place", "aside", "shared"})
"""What a field may be besides: `required`; `unique`, so that the workbook marks doubles; `personal`, printed of a person;
different in a `venue` or `tonight`; one of the `brief` facts by which a record is known; a `place` or time, whose change is
a move; `aside`, no fact of the show; `shared`, a name that records have in common, which the section groups may list."""


ACTS: Mapping[str, str] = {
    "pack": "set the pack, its receiver or its batteries",
    "patch": "patch, desk and network",
    "wardrobe": "let wardrobe and the wearer know",
    "coordinator": "let the frequency coordinator know, or whoever issues the licence",
    "know": "nothing to do; new papers say it",
}
"""Who must act when a fact changes. New labels follow from the labels' own codes. Common practice, no source."""


class Field(NamedTuple):
    """One field of the show file.

    `acts` says who must act when it changes, where not those of its section. `refers` names the sections whose ids it
    holds. `attr` names its attributes in the record, `-` for none of its own, "" where they are called like the field.
    """

    name: str
    kind: Kind
    help: str
    sample: str = ""
    acts: str = ""
    default: str = ""
    marks: str = ""
    refers: str = ""
    label: str = ""
    attr: str = ""

    @property
    def attrs(self) -> tuple[str, ...]:
        """The attributes that hold it: none where it is read into other records."""
        if self.attr:
            return tuple(self.attr.replace("-", "").split())
        return (self.name.replace(" ", "_").replace("-", "_") + self.kind.unit,)

    @property
    def title(self) -> str:
        """What it is called in a heading."""
        return self.label or self.name.capitalize()

    @property
    def example(self) -> str:
        """A value as it is written in the file."""
        return self.sample or self.kind.example

    @property
    def advice(self) -> str:
        """What to write instead of a value that cannot be read."""
        return f"{self.kind.advice}, as in {self.example}"

    @property
    def description(self) -> str:
        """What it means, and what holds where it is not given."""
        return f"{self.help} Default: {self.default}." if self.default else self.help

    def is_marked(self, mark: str) -> bool:
        """Whether it has one of the `MARKS`."""
        return mark in self.marks.split()


class Section(NamedTuple):
    """One section of the show file: a single record, or a table of records by id, called `word` one by one.

    `help` is about the table, `each` about a record. `acts` says who must act when a record comes, goes or is renamed,
    and when a field changes that does not say it; `order` who must act on another order, "" where order is not a fact.
    """

    name: str
    record: type[Any]
    word: str
    help: str
    each: str
    acts: str
    fields: Mapping[str, Field]
    order: str = ""
    attr: str = ""

    @property
    def is_single(self) -> bool:
        """Whether it is one record."""
        return not self.help

    @property
    def held(self) -> str:
        """The attribute of the show that holds it."""
        return self.attr or self.name

    @property
    def description(self) -> str:
        """What the section is, and what one record of it is."""
        return f"{self.help} {self.each}".strip()


def rows(*fields: Field, marks: str = "") -> dict[str, Field]:
    """Fields by name; `marks` are those of all of them."""
    return {one.name: one._replace(marks=f"{one.marks} {marks}") if marks else one for one in fields}
