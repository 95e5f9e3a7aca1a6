"""Values put into YAML text by splicing: no byte that is not told to change changes."""

import json
import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from paperwork.files.decode import BOM
from paperwork.files.edit import Add, Put, refuse_edit

if TYPE_CHECKING:
    import yaml

_SAFE = re.compile(r"[A-Za-z0-9][A-Za-z0-9 ._/-]*(?<! )")
"""Text that needs no quotes in a show file, whose scalars are all read as text."""

Splice = tuple[int, int, str]
"""What replaces a range of code points."""


def edit_yaml(text: str, name: str, puts: Sequence[Put], adds: Sequence[Add]) -> str:
    """The text with the edits; whether it then says the right thing is for the caller to see."""
    import yaml

    shift = 1 if text.startswith(BOM) else 0
    body = text[shift:]
    root = yaml.compose(body, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    splices: list[Splice] = []
    for put in puts:
        record = _child(_child(root, put.section), put.record)
        if record is None:
            raise refuse_edit(name, f"{put.section} {put.record} was not found in it")
        splices.append(_put(body, record, put))
    for section in dict.fromkeys(add.section for add in adds):
        splices.append(_add(body, name, _child(root, section), [add for add in adds if add.section == section]))
    for start, end, new in sorted(splices, reverse=True):
        body = body[:start] + new + body[end:]
    return text[:shift] + body


def _pairs(node: Any) -> Iterator[tuple[Any, Any]]:
    if type(node).__name__ == "MappingNode":
        yield from node.value


def _child(node: "yaml.Node | None", key: str) -> "yaml.Node | None":
    return next((value for name, value in _pairs(node) if str(name.value).strip() == key), None)


def _put(body: str, record: "yaml.Node", put: Put) -> Splice:
    """Before the first field that stands after it, else as the first one; an empty value is filled where it is."""
    fields = list(_pairs(record))
    for key, value in fields:
        if key.value == put.field:
            start, end = value.start_mark.index, value.end_mark.index
            return start, end, put.value if body[start - 1 : start].isspace() else f" {put.value}"
    if not fields:
        return _fill_empty(body, record, put)
    key = next((key for key, _ in fields if key.value in put.before), fields[0][0])
    at = key.start_mark.index
    quote = body[at] if body[at] in "\"'" else ""
    new = f"{quote}{put.field}{quote}: {put.value}"
    if record.flow_style:
        return at, at, f"{new}, "
    return at, at, f"{new}{_line_break(body)}{' ' * key.start_mark.column}"


def _fill_empty(body: str, record: "yaml.Node", put: Put) -> Splice:
    start, end = record.start_mark.index, record.end_mark.index
    if body[start : start + 1] == "{":
        return start + 1, start + 1, f"{put.field}: {put.value}"
    blank = "" if body[start - 1 : start].isspace() else " "
    return start, end, f"{blank}{{{put.field}: {put.value}}}"


def _add(body: str, name: str, section: "yaml.Node | None", adds: Sequence[Add]) -> Splice:
    """New records behind the last one, in the style of the section: on lines of their own, or within its braces."""
    records = list(_pairs(section))
    if section is None or not records:
        raise refuse_edit(name, f"it has no records in {adds[0].section} to add to")
    key, value = records[-1]
    new = [
        f"{_quote(add.record)}: {{{', '.join(f'{field}: {_quote(text)}' for field, text in add.fields)}}}"
        for add in adds
    ]
    if section.flow_style:
        end = value.end_mark.index
        return end, end, "".join(f", {record}" for record in new)
    end = max(_last_index(value), key.end_mark.index)
    rest = re.compile(r"[^\r\n]*").match(body, end)
    at = rest.end() if rest else end
    indent = " " * key.start_mark.column
    return at, at, "".join(f"{_line_break(body)}{indent}{record}" for record in new)


def _last_index(node: "yaml.Node") -> int:
    """Where the last written sign of a node ends. The end of a block is told only where the next thing begins."""
    kind = type(node).__name__
    if kind == "ScalarNode" or node.flow_style or not node.value:
        return node.end_mark.index if kind != "ScalarNode" or node.style not in ("|", ">") else node.end_mark.index - 1
    last = node.value[-1]
    return max(map(_last_index, last)) if isinstance(last, tuple) else _last_index(last)


def _line_break(body: str) -> str:
    return "\r\n" if "\r\n" in body else "\n"


def _quote(text: str) -> str:
    return text if _SAFE.fullmatch(text) else json.dumps(text, ensure_ascii=False)
