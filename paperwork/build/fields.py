"""One record of Raw, read field by field: text becomes values, and what cannot be read becomes a finding."""

import re
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from paperwork import limits
from paperwork.finding import Finding, Subject, find
from paperwork.model import Where
from paperwork.model.fields import SECTIONS, name_record
from paperwork.model.row import Field
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from paperwork.text.clock import FROM_CURTAIN, Clock, split_date
from paperwork.text.names import expand_ids, split_list, split_ranges
from paperwork.text.units import Doubt
from paperwork.text.vocabulary import is_nobody

Value = TypeVar("Value")


class Fields:
    """The fields of one record. Each method returns the value of a field, or nothing where it is absent.

    `people` are the folded names of those whom the show lists, `clock` is what its times count from: one without a
    date is on the day of the first of its record that has one.
    """

    def __init__(
        self,
        section: str,
        id: str,
        key: Place,
        raw: Map,
        found: list[Finding],
        people: frozenset[str] = frozenset(),
        clock: Clock = FROM_CURTAIN,
    ) -> None:
        self.section = section
        self.id = id
        self._found = found
        self._people = people
        self._nodes = {name.text: node for name, node in raw.items}
        self.clock = clock._replace(day=self._find_date() or clock.day)
        self.where = Where(key, {name.text: _place(name, node) for name, node in raw.items}, SECTIONS[section].fields)

    def __contains__(self, name: str) -> bool:
        return name in self._nodes

    @property
    def record(self) -> str:
        """What to call this record in a sentence: `channel 01`."""
        return name_record(self.section, self.id)

    def row(self, name: str) -> Field:
        """What the table says of a field."""
        return SECTIONS[self.section].fields[name]

    @property
    def subjects(self) -> tuple[Subject, ...]:
        """The record as the subject of a finding."""
        return (Subject(self.section, self.id),) if self.id else ()

    def text(self, name: str) -> str:
        """The field as stripped text, "" where it is absent."""
        node = self._nodes.get(name)
        text = node.text.strip() if isinstance(node, Text) else ""
        if len(text) > limits.TEXT_LENGTH:
            self.complain(name, f"it has more than {limits.TEXT_LENGTH} characters", "shorten it")
            return ""
        return text

    def somebody(self, name: str) -> str:
        """The name, or "" where it says that nobody is found yet: `N.N.`, `tba`."""
        return "" if is_nobody(name, self._people) else name

    def _find_date(self) -> str:
        nodes = (self._nodes.get(name) for name in ("at", "from"))
        return next((day for node in nodes if isinstance(node, Text) and (day := split_date(node.text)[0])), "")

    def read(self, name: str, parse: Callable[[str], Value]) -> Value | None:
        """The field through a parser that raises Doubt; None where it is absent, or doubted, which is a finding."""
        text = self.text(name)
        return next(iter(self.read_each(name, (text,), parse)), None) if text else None

    def read_each(self, name: str, texts: Iterable[str], parse: Callable[[str], Value]) -> tuple[Value, ...]:
        """Each text through a parser that raises Doubt; a doubt becomes a finding, and its text is left out."""
        values = []
        for text in texts:
            try:
                values.append(parse(text))
            except Doubt as doubt:
                self.complain(name, str(doubt))
        return tuple(values)

    def items(self, name: str) -> tuple[str, ...]:
        """A list written as a list, or as text with commas or spaces."""
        node = self._nodes.get(name)
        return _texts_of(node) if isinstance(node, List) else split_list(self.text(name), ())

    def joined(self, name: str) -> str:
        """A list as the text of its items with commas: what the shorthand readers take."""
        node = self._nodes.get(name)
        return ", ".join(_texts_of(node)) if isinstance(node, List) else self.text(name)

    def ids(self, name: str) -> tuple[str, ...]:
        """A list of ids with ranges, `01-06`, expanded; an empty place (`-`) is ""."""
        return next(iter(self.read_each(name, (self.joined(name),), expand_ids)), ())

    def ranged(self, name: str) -> tuple[str, ...]:
        """A list of ids with ranges as they are written: only the section that they name says what a range holds."""
        node = self._nodes.get(name)
        return _texts_of(node) if isinstance(node, List) else tuple(split_ranges(self.text(name)))

    def lines(self, name: str) -> tuple[str, ...]:
        """A list whose text form is split at commas only, because its items may hold spaces."""
        node = self._nodes.get(name)
        if isinstance(node, List):
            return _texts_of(node)
        return tuple(part.strip() for part in re.split(r"[,;]", self.text(name)) if part.strip())

    def pairs(self, name: str) -> tuple[tuple[str, str], ...]:
        """A group of `key: value`, written as a group or as text: `SAILOR: Max Ried, WIDOW: Ana Cole`."""
        node = self._nodes.get(name)
        if isinstance(node, Map):
            return tuple(
                (key.text.strip(), value.text.strip() if isinstance(value, Text) else "") for key, value in node.items
            )
        return self.read_each(name, self.lines(name), _parse_pair)

    def complain(self, name: str, reason: str, advice: str = "") -> None:
        """Add the finding that a field cannot be read; without an advice of its own, with that of its kind."""
        self.add("value-unreadable", name, name=name, reason=reason, description=advice or self.row(name).advice)

    def add(self, code: str, at: str, **facts: Any) -> None:
        """Add a finding of another kind about a field of this record."""
        self._found.append(find(code, self.where[at], about=self.subjects, record=self.record, **facts))


def _place(key: Text, node: Node) -> Place:
    return node.place if isinstance(node, Text | List) else key.place


def _texts_of(node: List) -> tuple[str, ...]:
    return tuple(item.text.strip() for item in node.items if isinstance(item, Text) and item.text.strip())


def _parse_pair(text: str) -> tuple[str, str]:
    key, colon, value = (part.strip() for part in text.partition(":"))
    if not (colon and key and value):
        raise Doubt(f"{text} is not `ROLE: performer`")
    return key, value
