"""What names a record: where an edit gives it another id, the edits that make the rest of the file follow."""

import re
from collections.abc import Iterator, Sequence

from paperwork.finding import Edit
from paperwork.model.fields import SECTIONS, list_references
from paperwork.model.kinds import PAIRS
from paperwork.raw import List, Map, Node, Text
from paperwork.text.names import expand_range, id_key, split_ranges
from paperwork.text.units import Doubt


def follow_renames(raw: Map, edits: Sequence[Edit]) -> tuple[Edit, ...]:
    """The edits; with another id of a record go edits of all fields that name it, so that none names nothing."""
    return tuple(one for edit in edits for one in (edit, *_follow(raw, edit)))


def _follow(raw: Map, edit: Edit) -> Iterator[Edit]:
    section = raw.get(edit.section)
    if not edit.is_rename or edit.field or not edit.record or not isinstance(section, Map):
        return
    old, new = edit.record, edit.value
    if id_key(old) == id_key(new):  # one name to whatever refers to it
        return
    ids = [key.text for key, _ in section.items]
    yield from replace_references(raw, edit.section, old, new, ids)
    if edit.section == "channels" and _holds_pack(raw, old):
        yield Edit("channels", new, "pack", old)


def replace_references(raw: Map, section: str, old: str, new: str, ids: Sequence[str]) -> Iterator[Edit]:
    """The edits by which whatever names one record of a section names another. `ids` are all its names, so that none is
    taken for a part of a longer one. Where the record itself has such fields, they are edited under its new id."""
    naming = list_naming(section)
    ranged = {(of, name) for of, name in naming if SECTIONS[of].fields[name].kind.reads in ("ids", "ranged")}
    for of, id, record in _list_records(raw):
        moved = new if (of, id) == (section, old) else id
        for name, value in record.items:
            if (of, name.text) in naming or _is_row_of(record, name.text, naming):
                text = write_value(value)
                is_listed = (of, name.text) in ranged or _is_row_of(record, name.text, ranged)
                renamed = _rename_in(_spell_out(text, old) if is_listed else text, old, new, ids)
                if renamed != text:
                    yield Edit(of, moved, name.text, renamed)
        if of == "venues" and _text(record, "section") == section and id_key(_text(record, "record")) == id_key(old):
            yield Edit(of, id, "record", new)


def list_naming(section: str) -> set[tuple[str, str]]:
    """The sections and fields that name records of a section; pairs of roles and performers name people too."""
    pairs = {(of, one.name) for of in SECTIONS for one in SECTIONS[of].fields.values() if one.kind.shape == PAIRS.shape}
    named = {(of, field.name) for of, field, to in list_references() if to == section}
    return named | (pairs if section == "people" else set())


def _list_records(raw: Map) -> Iterator[tuple[str, str, Map]]:
    for key, section in raw.items:
        for id, record in section.items if isinstance(section, Map) else ():
            if isinstance(record, Map):
                yield key.text, id.text, record


def _is_row_of(record: Map, name: str, naming: set[tuple[str, str]]) -> bool:
    """Whether a field is the value of a venue's row for a field that names such records."""
    return name == "value" and (_text(record, "section"), _text(record, "field")) in naming


def _holds_pack(raw: Map, channel: str) -> bool:
    """Whether a channel has the transmitter of its own id without naming it."""
    packs, channels = raw.get("transmitters"), raw.get("channels")
    record = channels.get(channel) if isinstance(channels, Map) else None
    is_named = isinstance(record, Map) and record.get("pack") is not None
    return (
        not is_named and isinstance(packs, Map) and any(id_key(key.text) == id_key(channel) for key, _ in packs.items)
    )


def _text(record: Map, name: str) -> str:
    value = record.get(name)
    return value.text if isinstance(value, Text) else ""


def write_value(value: Node) -> str:
    """A value as one text, as the readers of lists and pairs take it too."""
    if isinstance(value, Text):
        return value.text
    if isinstance(value, List):
        return ", ".join(map(write_value, value.items))
    return ", ".join(f"{key.text}: {write_value(held)}" for key, held in value.items)


def _spell_out(text: str, id: str) -> str:
    """A list of ids in which each range that holds the id is written out, so that one can be renamed."""
    try:
        parts = [(part, expand_range(part)) for part in split_ranges(text)]
    except Doubt:
        return text
    if not any(len(meant) > 1 and id_key(id) in map(id_key, meant) for _, meant in parts):
        return text
    found: list[str] = []
    for part, meant in parts:
        keys = [id_key(one) for one in meant]
        found += (
            [id if key == id_key(id) else one for key, one in zip(keys, meant, strict=True)]
            if id_key(id) in keys
            else [part]
        )
    return ", ".join(found)


def _rename_in(text: str, old: str, new: str, ids: Sequence[str]) -> str:
    """The text with an id renamed where it is not a part of a longer one."""
    if id_key(text) == id_key(old):
        return new
    longest = "|".join(re.escape(id) for id in sorted(ids, key=len, reverse=True))
    found = re.compile(rf"(?<![\w-])(?:{longest})(?![\w-])")
    return found.sub(lambda match: new if match[0] == old else match[0], text)
