"""A show file with a few values put in place, everything else as it was: comments, order, styles, stored results.

The edited file is read again before it is handed out: it must say what the old one said plus the edits, nothing else.
"""

import codecs
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from paperwork.files.decode import decode_text
from paperwork.files.read import read_bytes
from paperwork.files.refusal import Refused
from paperwork.files.sniff import sniff
from paperwork.files.xlsx.numbers import format_number
from paperwork.finding import find
from paperwork.place import Place
from paperwork.raw import Map, Node, Text


@dataclass(frozen=True, slots=True)
class Put:
    """A value for a field that a record does not tell yet. `before` are the fields that stand after it."""

    section: str
    record: str
    field: str
    value: str
    before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Add:
    """A new record at the end of a section."""

    section: str
    record: str
    fields: tuple[tuple[str, str], ...]


def edit_file(data: bytes, name: str, puts: Sequence[Put], adds: Sequence[Add] = ()) -> bytes:
    """The bytes of the file with the edits. Raises Refused, worded for its author, where that cannot be done safely."""
    kind, _ = sniff(data, name)
    before, _ = read_bytes(data, name)
    if before is None or kind not in ("yaml", "xlsx"):
        raise refuse_edit(name, "it is no show file of ours")
    if kind == "xlsx":
        from paperwork.files.xlsx.edit import edit_xlsx

        edited = edit_xlsx(data, name, before, puts, adds)
    else:
        from paperwork.files.yaml.edit import edit_yaml

        edited = _encode(edit_yaml(decode_text(data, name), name, puts, adds), data)
    after, _ = read_bytes(edited, name)
    if after is None or _plain(after, puts, adds) != _expect(before, puts, adds):
        raise refuse_edit(name, "it is written in a way that cannot be added to safely")
    return edited


def refuse_edit(name: str, reason: str, place: Place | None = None) -> Refused:
    """The refusal to edit a file."""
    return Refused(find("edit-refused", place or Place(name), name=name, reason=reason))


def _encode(text: str, like: bytes) -> bytes:
    if like.startswith(codecs.BOM_UTF16_LE):
        return text.encode("utf-16-le")
    return text.encode("utf-16-be" if like.startswith(codecs.BOM_UTF16_BE) else "utf-8")


def _expect(raw: Map, puts: Sequence[Put], adds: Sequence[Add]) -> dict:
    """What the edited file must say."""
    wanted = _plain_node(raw)
    for add in adds:
        wanted.setdefault(add.section, {})[add.record] = {name: _norm(value) for name, value in add.fields}
    for put in puts:
        wanted[put.section][put.record][put.field] = _norm(put.value)
    return wanted


def _plain(raw: Map, puts: Sequence[Put], adds: Sequence[Add]) -> dict:
    """What a file says, its edited values without the zeros that a workbook may show or leave out."""
    said = _plain_node(raw)
    edited = [(put.section, put.record, put.field) for put in puts]
    edited += [(add.section, add.record, name) for add in adds for name, _ in add.fields]
    for section, record, name in edited:
        fields = said.get(section, {}).get(record, {})
        if isinstance(fields.get(name), str):
            fields[name] = _norm(fields[name])
    return said


def _plain_node(node: Node) -> Any:
    if isinstance(node, Text):
        return node.text
    if isinstance(node, Map):
        return {key.text: _plain_node(value) for key, value in node.items}
    return [_plain_node(item) for item in node.items]


def _norm(value: str) -> str:
    return format_number(float(value)) if re.fullmatch(r"[0-9]+\.[0-9]+", value) else value


def number_text(value: str) -> str:
    """A number as a workbook holds it."""
    return format_number(float(value))
