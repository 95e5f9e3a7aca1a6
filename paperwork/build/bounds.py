"""How much a show stands for: a few lines of shorthand can mean more than any memory holds, so it is counted first."""

import re
from collections.abc import Collection, Iterator
from typing import Any

from paperwork import limits
from paperwork.finding import Finding, find
from paperwork.model import kinds
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text

_SPAN = re.compile(r"([0-9]{1,9})\s*[-\u2013]\s*[^\s,;0-9-]*([0-9]{1,9})")
"""A span of numbers in shorthand: `01-06`, `S1-S3`, `FOH 1-6`."""

_NUMBER = re.compile(r"[0-9]{1,9}")
_BETWEEN = r"(?i)[,;&+/]|\s(?:and|und|et|y)\s"
"""What stands between two names of a list, blanks aside."""

NAME_WORDS = 3
"""Words that one name may have: more of them with nothing but blanks between are a list. Choice of this project."""

_EXPANDING = {
    (name, field.name)
    for name, section in SECTIONS.items()
    for field in section.fields.values()
    if name not in SINGLES and field.kind.shape in (kinds.IDS.shape, kinds.OUTPUT.shape, kinds.PAIRS.shape)
}
_PARTING = {(name, "role") for name in ("moves", "covers")}
"""A role that may be several: each more is one more."""
_COUNTING = {("racks", "slots"), ("racks", "units")}


class Large(Exception):
    """A show that stands for more than can be built, with its finding."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.text)
        self.finding = finding


class Allowance:
    """How many names the groups of a show may stand for wherever they are named, which its file alone does not tell."""

    def __init__(self, most: int) -> None:
        self._most = self._left = most

    def take(self, names: Collection[str], place: Place) -> None:
        """Counts names that a group stands for. Raises Large where that is too many."""
        self._left -= len(names)
        if self._left < 0:
            raise Large(find("items-many", place, most=f"{self._most:,}"))


def find_large(raw: Map) -> Finding | None:
    """What makes a show too large to be built: its grid, or all that its shorthand stands for together."""
    scenes = raw.get("scenes")
    for word in ("channels", "roles"):
        rows, columns = _size_of(raw.get(word)), _size_of(scenes)
        if scenes and rows * columns > limits.GRID_CELLS:
            facts: dict[str, Any] = {"rows": f"{rows:,} {word}", "columns": f"{columns:,} scenes"}
            return find("grid-large", scenes.place, **facts, most=f"{limits.GRID_CELLS:,}")
    parts = raw.get("roles")
    changing = (
        [one for _, one in parts.items if isinstance(one, Map) and one.get("alternates")]
        if isinstance(parts, Map)
        else []
    )
    if len(changing) * (played := _size_of(raw.get("performances"))) > limits.GRID_CELLS:
        facts = {"rows": f"{len(changing):,} roles that alternate", "columns": f"{played:,} performances"}
        return find("grid-large", changing[0].place, **facts, most=f"{limits.GRID_CELLS:,}")
    total = 0
    for count, node in _list_counts(raw):
        total += count
        if total > limits.ITEMS:
            return find("items-many", node.place, most=f"{limits.ITEMS:,}")
    return None


def _size_of(node: Node | None) -> int:
    return len(node.items) if isinstance(node, Map) else 0


def _list_counts(raw: Map) -> Iterator[tuple[int, Node]]:
    """How many items each field stands for that may stand for many."""
    for section, records in raw.items:
        for _, record in records.items if isinstance(records, Map) else ():
            for field, node in record.items if isinstance(record, Map) else ():
                key = section.text, field.text
                if key in _EXPANDING:
                    yield sum(map(_count_items, _texts_of(node))), node
                elif key in _PARTING:
                    yield sum(map(_count_items, _texts_of(node))) - 1, node
                elif key in _COUNTING:
                    yield sum(int(number) for text in _texts_of(node) for number in _NUMBER.findall(text)), node


def _texts_of(node: Node) -> Iterator[str]:
    if isinstance(node, Text):
        yield node.text
    elif isinstance(node, List):
        yield from (item.text for item in node.items if isinstance(item, Text))


def _count_items(text: str) -> int:
    """About as many as the text stands for, and at least a third; one that says more than a field may is refused where it
    is read."""
    spans = [int(high) - int(low) for low, high in _SPAN.findall(text)]
    words = [len(part.split()) for part in re.split(_BETWEEN, text)]
    return sum(count if count > NAME_WORDS else 1 for count in words) + sum(
        span for span in spans if 0 < span < limits.LIST_LENGTH
    )
