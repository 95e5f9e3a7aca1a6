"""How much a show stands for: a few lines of shorthand can mean more than any memory holds, so it is counted first."""

import re
from collections.abc import Iterator
from typing import Any

from paperwork import limits
from paperwork.finding import Finding, find
from paperwork.model import kinds
from paperwork.model.fields import SECTIONS, SINGLES
from paperwork.raw import List, Map, Node, Text

_SPAN = re.compile(r"([0-9]{1,9})\s*[-\u2013]\s*[^\s,;0-9-]*([0-9]{1,9})")
"""A span of numbers in shorthand: `01-06`, `S1-S3`, `FOH 1-6`."""

_NUMBER = re.compile(r"[0-9]{1,9}")

_EXPANDING = {
    (name, field.name)
    for name, section in SECTIONS.items()
    for field in section.fields.values()
    if field.kind.shape in (kinds.IDS.shape, kinds.OUTPUT.shape) and name not in SINGLES
}
_COUNTING = {("racks", "slots"), ("racks", "units")}


def find_large(raw: Map) -> Finding | None:
    """What makes a show too large to be built: its grid, or all that its shorthand stands for together."""
    scenes = raw.get("scenes")
    for word in ("channels", "roles"):
        rows, columns = _size_of(raw.get(word)), _size_of(scenes)
        if scenes and rows * columns > limits.GRID_CELLS:
            facts: dict[str, Any] = {"rows": f"{rows:,} {word}", "scenes": f"{columns:,}"}
            return find("grid-large", scenes.place, **facts, most=f"{limits.GRID_CELLS:,}")
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
                elif key in _COUNTING:
                    yield sum(int(number) for text in _texts_of(node) for number in _NUMBER.findall(text)), node


def _texts_of(node: Node) -> Iterator[str]:
    if isinstance(node, Text):
        yield node.text
    elif isinstance(node, List):
        yield from (item.text for item in node.items if isinstance(item, Text))


def _count_items(text: str) -> int:
    """At least as many as the shorthand stands for; one that says more than a field may is refused where it is read."""
    spans = [int(high) - int(low) for low, high in _SPAN.findall(text)]
    return 1 + text.count(",") + sum(span for span in spans if 0 < span < limits.LIST_LENGTH)
