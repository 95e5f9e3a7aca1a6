"""A show written as another kind of file: YAML, a workbook, or its channel list."""

from collections.abc import Mapping, Sequence

from paperwork.build import build_show
from paperwork.files import read_bytes
from paperwork.files.refusal import Refused
from paperwork.model.fields import SECTIONS
from paperwork.raw import List, Map, Node, Text
from paperwork.schema import check_shape

_SPLIT_AT_BLANKS = frozenset({"live", "scenes", "revisions"})
"""Fields whose text is parted at blanks where it holds no comma: one item with a blank keeps a comma behind it."""


def write_show(raw: Map, suffix: str) -> tuple[bytes, tuple[str, ...]]:
    """The file's bytes, and the sections that this kind of file has no room for. Raises Refused.

    What was written is read again, and has to say the same.
    """
    if suffix == ".csv":
        return _write_list(raw)
    if suffix == ".xlsx":
        from paperwork.files.xlsx.write import write_workbook

        data = write_workbook(_flatten(raw), _headings_of(raw))
        back, _ = read_bytes(data, "copy.xlsx")
    else:
        from paperwork.files.yaml.write import write_yaml

        data = write_yaml(raw).encode("utf-8")
        back, _ = read_bytes(data, "copy.yaml")
    if back is None or not (back == raw or _is_same_show(raw, back)):
        raise _differs(raw)
    return data, ()


def _write_list(raw: Map) -> tuple[bytes, tuple[str, ...]]:
    from paperwork.files.csv.write import write_csv
    from paperwork.intake import read_source_bytes

    channels = _flatten(raw).get("channels")
    records = channels if isinstance(channels, Map) else Map((), raw.place)
    fields = _headings_of(raw).get("channels", ())
    data = write_csv(records, fields)
    back = read_source_bytes(data, "copy.csv", lambda: ({}, ())).raw
    if back is None or _list_texts(records) != _list_texts(back.get("channels")):
        raise _differs(raw)
    return data, tuple(name.text for name, _ in raw.items if name.text != "channels")


def _list_texts(node: Node | None) -> dict[str, dict[str, str] | None]:
    """What each cell of a list says; None for what is not a record, which a list has no row for."""
    from paperwork.files.xlsx.write import format_value

    found: dict[str, dict[str, str] | None] = {}
    for id, record in node.items if isinstance(node, Map) else ():
        texts = {n.text: format_value(n, value) for n, value in record.items} if isinstance(record, Map) else None
        found[id.text] = texts and {name: text for name, text in texts.items() if text}
    return found


def _differs(raw: Map) -> Refused:
    from paperwork.finding import find

    reason = "it would not read back as the same show"
    return Refused(find("workbook-cannot", raw.place, what="this show", reason=reason))


def _is_same_show(one: Map, other: Map) -> bool:
    """Whether two readings are one show in all facts; a show that is not sound is compared as it is written."""
    if check_shape(one) or check_shape(other):
        return _flatten(one) == other
    return build_show(one).show == build_show(other).show


def _headings_of(raw: Map) -> Mapping[str, Sequence[str]]:
    """The fields that each section uses, in the schema's order; fields that it does not know follow."""
    found = {}
    for name, records in raw.items:
        if not isinstance(records, Map) or name.text not in SECTIONS:
            continue
        rows = [record for _, record in records.items if isinstance(record, Map)] or [records]
        used = {field.text for row in rows for field, _ in row.items}
        found[name.text] = tuple(field for field in SECTIONS[name.text].fields if field in used)
    return found


def _flatten(node: Map) -> Map:
    """The same with each list of one item that holds a blank as a text that is not parted there."""
    return Map(tuple((key, _flatten_value(key, value)) for key, value in node.items), node.place)


def _flatten_value(key: Text, value: Node) -> Node:
    if isinstance(value, Map):
        return _flatten(value)
    if isinstance(value, List) and key.text in _SPLIT_AT_BLANKS and len(value.items) == 1:
        (item,) = value.items
        if isinstance(item, Text) and " " in item.text and "," not in item.text:
            return Text(f"{item.text},", item.place)
    return value
