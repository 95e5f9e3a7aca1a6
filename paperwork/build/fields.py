"""One record of Raw, read field by field: text becomes values, and what cannot be read becomes a finding."""

import re
from collections.abc import Callable, Iterable
from typing import TypeVar

from paperwork import limits, schema
from paperwork.finding import Finding, Subject, find
from paperwork.model import Where
from paperwork.names import expand_ids, split_list
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from paperwork.units import Doubt, Range, parse_range
from paperwork.vocabulary import is_nobody

Value = TypeVar("Value")

_YES = {"yes": True, "true": True, "on": True, "no": False, "false": False, "off": False}


class Fields:
    """The fields of one record. Each method returns the value of a field, or its default where it is absent.

    `people` are the folded names of those whom the show lists. `asked` collects the names that were asked for, so that a test can hold schema and model to the same fields.
    """

    def __init__(
        self, section: str, id: str, key: Place, raw: Map, found: list[Finding], people: frozenset[str] = frozenset()
    ) -> None:
        self.section = section
        self.id = id
        self.asked: set[str] = set()
        self._raw = raw
        self._found = found
        self._people = people
        self.where = Where(key, {name.text: _place(name, node) for name, node in raw.items})

    @property
    def record(self) -> str:
        """What to call this record in a sentence: `channel 01`."""
        return schema.name_record(self.section, self.id) if self.id else self.section

    @property
    def subjects(self) -> tuple[Subject, ...]:
        """The record as the subject of a finding."""
        return (Subject(self.section, self.id),) if self.id else ()

    def node(self, name: str) -> Node | None:
        """The raw value of a field."""
        self.asked.add(name)
        return self._raw.get(name)

    def text(self, name: str) -> str:
        """The field as stripped text, "" where it is absent."""
        node = self.node(name)
        text = node.text.strip() if isinstance(node, Text) else ""
        if len(text) > limits.TEXT_LENGTH:
            self.complain(name, f"it has more than {limits.TEXT_LENGTH} characters")
            return ""
        return text

    def somebody(self, name: str) -> str:
        """The name, or "" where it says that nobody is found yet: `N.N.`, `tba`."""
        return "" if is_nobody(name, self._people) else name

    def read(self, name: str, parse: Callable[[str], Value], default: Value) -> Value:
        """The field through a parser that raises Doubt; the doubt becomes a finding and the default is returned."""
        text = self.text(name)
        if not text:
            return default
        try:
            return parse(text)
        except Doubt as doubt:
            self.complain(name, str(doubt))
            return default

    def yes(self, name: str, default: bool) -> bool:
        """A yes or no; the schema has already refused everything else."""
        return _YES.get(self.text(name).lower(), default)

    def pick(self, name: str, options: Iterable[Value], default: Value) -> Value:
        """One of a few words; the schema has already refused everything else."""
        told = self.text(name)
        return next((option for option in options if option == told), default)

    def count(self, name: str) -> int | None:
        """A whole number of things, or None."""
        return self.read(name, _parse_count, None)

    def items(self, name: str, known: Iterable[str] = ()) -> tuple[str, ...]:
        """A list written as a list, or as text with commas or spaces."""
        node = self.node(name)
        if isinstance(node, List):
            return tuple(item.text.strip() for item in node.items if isinstance(item, Text) and item.text.strip())
        return split_list(self.text(name), known)

    def joined(self, name: str) -> str:
        """A list as the text of its items with commas: what the shorthand readers take."""
        node = self.node(name)
        if isinstance(node, List):
            return ", ".join(self.items(name))
        return self.text(name)

    def ids(self, name: str) -> tuple[str, ...]:
        """A list of ids with ranges, `01-06`, expanded; an empty place (`-`) is ""."""
        try:
            return expand_ids(self.joined(name))
        except Doubt as doubt:
            self.complain(name, str(doubt))
            return ()

    def lines(self, name: str) -> tuple[str, ...]:
        """A list whose text form is split at commas only, because its items may hold spaces."""
        node = self.node(name)
        if isinstance(node, List):
            return self.items(name)
        return tuple(part.strip() for part in re.split(r"[,;]", self.text(name)) if part.strip())

    def ranges(self, name: str) -> tuple[Range, ...]:
        """One or more ranges of frequencies."""
        found = []
        for text in self.lines(name):
            try:
                found.append(parse_range(text))
            except Doubt as doubt:
                self.complain(name, str(doubt))
        return tuple(found)

    def pairs(self, name: str) -> tuple[tuple[str, str], ...]:
        """A group of `key: value`, written as a group or as text: `SAILOR: Max Ried, WIDOW: Ana Cole`."""
        node = self.node(name)
        if isinstance(node, Map):
            return tuple((key.text.strip(), _text_of(value)) for key, value in node.items)
        found = []
        for part in self.lines(name):
            key, colon, value = part.partition(":")
            if not colon or not key.strip() or not value.strip():
                self.complain(name, f"{part} is not `ROLE: performer`")
                continue
            found.append((key.strip(), value.strip()))
        return tuple(found)

    def complain(self, name: str, reason: str) -> None:
        """Add the finding that a field cannot be read."""
        description = schema.fields_of(self.section).get(name, {}).get("description", "correct the value")
        self._found.append(
            find(
                "value-unreadable",
                self.where[name],
                about=self.subjects,
                record=self.record,
                name=name,
                reason=reason,
                description=description,
            )
        )

    def add(self, finding: Finding) -> None:
        """Add a finding of another kind about this record."""
        self._found.append(finding)


def _place(key: Text, node: Node) -> Place:
    return node.place if isinstance(node, Text | List) else key.place


def _text_of(node: Node) -> str:
    return node.text.strip() if isinstance(node, Text) else ""


def _parse_count(text: str) -> int:
    if not (text.isascii() and text.isdigit()):
        raise Doubt(f"{text} is not a whole number")
    if int(text) > limits.COUNT:
        raise Doubt(f"{text} is more than {limits.COUNT:,}")
    return int(text)
