"""The show as it grows out of the sheet's tables: records by section, each value at its cell."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

from paperwork.intake.texts.ids import key_of
from paperwork.intake.texts.names import name_role
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text

_SECTIONS = (
    "show", "spectrum", "radios", "racks", "consoles", "others", "transmitters", "people", "roles", "channels", "scenes", "moves",
    "looks", "covers", "venues", "performances",
)  # fmt: skip
_FIELDS = {
    "channels": (
        "role",
        "by",
        "shared",
        "radio",
        "spare",
        "backs",
        "mhz",
        "backup",
        "pack",
        "capsule",
        "slot",
        "doubles",
        "notes",
    ),
    "moves": ("role", "scene", "enter", "exit", "channel"),
    "others": ("kind", "mhz", "listeners", "packs", "notes"),
    "racks": ("slots", "units"),
    "venues": ("venue", "section", "record", "field", "value"),
    "people": ("room", "belt", "pouch", "colour", "team", "child"),
    "looks": ("by", "sits", "capsule"),
    "show": ("title", "company", "venue", "dates", "revision", "revised", "licence", "contact", "returns", "language"),
}
"""The order in which fields are written, whatever the order of the columns."""


@dataclass(slots=True)
class User:
    """Somebody who uses a channel: a performer, the roles that they play on it, and the scenes if they are `listed` in a cell."""

    by: str
    roles: list[str]
    place: Place
    scenes: str = ""
    listed: Place | None = None

    def take_role(self) -> None:
        """Let somebody without a role play one of their own name."""
        self.roles = self.roles or [name_role(self.by)]


class Fact(NamedTuple):
    """What a column says of a channel that no field of a channel holds: the field, the heading over it, its text, and the
    performer of its row, "" for none."""

    field: str
    title: str
    text: str
    place: Place
    who: str = ""

    @property
    def note(self) -> tuple[str, Place]:
        """The fact as a note under its heading."""
        return (f"{self.title}: {self.text}" if self.title else self.text), self.place


@dataclass(slots=True)
class DraftRecord:
    """One record: its id as printed, where it is written, and its fields. `users` become fields at the end; so do `facts`,
    those that no section takes as notes. `mirrors` is the channel whose users a second pack has."""

    id: str
    place: Place
    fields: dict[str, Node] = field(default_factory=dict)
    notes: list[tuple[str, Place]] = field(default_factory=list)
    facts: list[Fact] = field(default_factory=list)
    mirrors: str = ""
    users: list[User] = field(default_factory=list)

    @property
    def by(self) -> str:
        """Who wears it first."""
        return next((user.by for user in self.users if user.by), "")

    @property
    def roles(self) -> tuple[str, ...]:
        """All roles of all users, each once."""
        return tuple(dict.fromkeys(role for user in self.users for role in user.roles))

    def settle(self, fact: Fact) -> None:
        """Take a fact out of the notes: a section holds it."""
        self.facts.remove(fact)
        self.notes.remove(fact.note)

    def replace(self, fact: Fact | None, others: Iterable[Fact]) -> None:
        """Put facts in the place of one, or beside all."""
        if fact:
            self.settle(fact)
        for other in others:
            self.facts.append(other)
            self.notes.append(other.note)

    def put(self, name: str, text: str, place: Place) -> None:
        """Set a field to a text."""
        self.fields[name] = Text(text, place)

    def put_list(self, name: str, texts: Iterable[tuple[str, Place]], place: Place) -> None:
        """Set a field to a list: the one form in which no item is taken apart again."""
        self.fields[name] = List(tuple(Text(text, where) for text, where in texts), place)


@dataclass(slots=True)
class ShowDraft:
    """All records so far, by section and by the key of their id."""

    name: str
    sections: dict[str, dict[str, DraftRecord]] = field(default_factory=dict)

    def table(self, section: str) -> dict[str, DraftRecord]:
        """The records of a section by key."""
        return self.sections.setdefault(section, {})

    def find(self, section: str, id: str) -> DraftRecord | None:
        """The record that an id means, however it is spelled."""
        return self.table(section).get(key_of(id))

    def add(self, section: str, id: str, place: Place) -> DraftRecord:
        """The record of an id, made if it is new."""
        return self.table(section).setdefault(key_of(id), DraftRecord(id, place))

    def records(self, section: str) -> tuple[DraftRecord, ...]:
        """The records of a section, none if there is no such section."""
        return tuple(self.sections.get(section, {}).values())

    @property
    def channels(self) -> tuple[DraftRecord, ...]:
        """The channels."""
        return self.records("channels")

    @property
    def users(self) -> tuple[User, ...]:
        """The users of all channels."""
        return tuple(user for record in self.channels for user in record.users)

    def raw(self) -> Map:
        """The sections as the show file has them."""
        items: list[tuple[Text, Node]] = []
        for section in filter(self.records, _SECTIONS):
            records = self.records(section)
            pairs = tuple((Text(r.id, r.place), self._map_of(section, r)) for r in records)
            node = pairs[0][1] if section in ("show", "spectrum") else Map(pairs, records[0].place)
            items.append((Text(section, records[0].place), node))
        return Map(tuple(items), Place(self.name, 1, 1))

    def _map_of(self, section: str, record: DraftRecord) -> Map:
        order = _FIELDS.get(section, ())
        names = sorted(record.fields, key=lambda name: order.index(name) if name in order else len(order))
        return Map(tuple((Text(name, record.fields[name].place), record.fields[name]) for name in names), record.place)
