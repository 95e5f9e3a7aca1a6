"""A record put elsewhere among those of its section: its lines are moved whole, with the comments right above them; in
a workbook its row."""

from collections.abc import Sequence
from typing import Any

from paperwork.files.decode import BOM, decode_text
from paperwork.files.edit import encode_like
from paperwork.files.read import read_kind
from paperwork.files.refusal import refuse_edit
from paperwork.files.sniff import Kind
from paperwork.files.xlsx.move import move_row
from paperwork.raw import Map


def move_record(data: bytes, kind: Kind, name: str, section: str, record: str, before: str) -> bytes:
    """The bytes of a show file in which a record comes before another, or last for "".

    Raises Refused where the file is written so that it cannot be done with certainty.
    """
    raw, _ = read_kind(data, name, kind)
    held = raw.get(section) if raw else None
    ids = [key.text for key, _ in held.items] if isinstance(held, Map) else []
    if record not in ids or before not in ("", *ids):
        raise refuse_edit(name, f"there is no {section} {record if record not in ids else before}")
    if record == before:
        return data
    wanted = [id for id in ids if id != record]
    wanted.insert(wanted.index(before) if before else len(wanted), record)
    if kind == "yaml":
        moved = encode_like(_move_lines(decode_text(data, name), name, section, record, before), data)
    else:
        moved = move_row(data, name, section, record, before)
    after, _ = read_kind(moved, name, kind)
    found = after.get(section) if after else None
    if raw is None or after != _reorder(raw, section, wanted) or found is None:
        raise refuse_edit(name, "it is written in a way in which its records cannot be moved safely")
    return moved


def _reorder(raw: Map, section: str, wanted: Sequence[str]) -> Map:
    """The same show with the records of a section in another order."""
    items = []
    for key, held in raw.items:
        if key.text == section and isinstance(held, Map):
            by_id = {id.text: (id, value) for id, value in held.items}
            held = Map(tuple(by_id[id] for id in wanted), held.place)
        items.append((key, held))
    return Map(tuple(items), raw.place)


def _move_lines(text: str, name: str, section: str, record: str, before: str) -> str:
    import yaml

    shift = 1 if text.startswith(BOM) else 0
    try:
        root: Any = yaml.compose(text[shift:], getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    except (yaml.YAMLError, RecursionError):
        raise refuse_edit(name, "it is not one plain document of YAML") from None
    _, node = next(pair for pair in root.value if pair[0].value == section)
    lines = text.splitlines(keepends=True)
    keys = [key for key, _ in node.value]
    rows = [key.start_mark.line for key in keys]
    if node.flow_style or len(set(rows)) != len(rows):
        raise refuse_edit(name, f"{section} holds several records on one line")
    starts = [_with_comments(lines, row) for row in rows]
    end = _end_of_last(lines, node, rows[-1])
    names = [key.value for key in keys]
    at = names.index(record)
    start, stop = starts[at], starts[at + 1] if at + 1 < len(starts) else end
    target = starts[names.index(before)] if before else end
    block = lines[start:stop]
    if not lines[-1].endswith(("\n", "\r")) and len(lines) in (stop, target):
        lines[-1] += "\n"
        block = lines[start:stop]
    if target > start:
        return "".join((*lines[:start], *lines[stop:target], *block, *lines[target:]))
    return "".join((*lines[:target], *block, *lines[target:start], *lines[stop:]))


def _with_comments(lines: Sequence[str], row: int) -> int:
    """The first line of the comments right above a row, at its own depth."""
    depth = len(lines[row]) - len(lines[row].lstrip())
    while (
        row and lines[row - 1].strip().startswith("#") and len(lines[row - 1]) - len(lines[row - 1].lstrip()) == depth
    ):
        row -= 1
    return row


def _end_of_last(lines: Sequence[str], node: Any, row: int) -> int:
    """Behind the last line of a section that says something."""
    end: int = min(node.end_mark.line, len(lines))
    if node.end_mark.column and end < len(lines):
        end += 1
    while end - 1 > row and (not lines[end - 1].strip() or lines[end - 1].strip().startswith("#")):
        end -= 1
    return end
