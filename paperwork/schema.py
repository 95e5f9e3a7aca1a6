"""Raw against the table of fields: every slip of shape, at the line or cell where it is.

The published JSON Schema is made from the same table, and says the same to editors.
"""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

from paperwork import limits
from paperwork.finding import Finding, Subject, find
from paperwork.model.fields import SECTIONS, name_record
from paperwork.model.kinds import Kind
from paperwork.model.row import Field, Section
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from paperwork.text.names import Hints, join_words

_FOUND: dict[type[Node], str] = {Text: "a single value", List: "a list", Map: "a group of fields"}


def check_shape(raw: Map) -> tuple[Finding, ...]:
    """Everything that is not shaped as the table of fields says; an empty tuple if the file is sound."""
    hints = Hints()
    unknown = [key for key, _ in raw.items if key.text not in SECTIONS]
    found = [find("section-unknown", key.place, **_unknown_section(key.text, raw, hints)) for key in unknown]
    if len(unknown) > limits.FIELDS:
        found = [find("records-too-many", raw.place, record="the file", name="the file", limit=limits.FIELDS)]
    if raw.get("channels") is None and all(hints.nearest(key.text, tuple(SECTIONS)) != "channels" for key in unknown):
        wanted = "role, performer and frequency of each"
        found.append(find("field-missing", raw.place, record="the file", name="channels", wanted=wanted))
    known = ((key, SECTIONS[key.text], node) for key, node in raw.items if key.text in SECTIONS)
    return (*found, *chain.from_iterable(_check_section(key, section, node, hints) for key, section, node in known))


def _unknown_section(name: str, raw: Map, hints: Hints) -> dict[str, Any]:
    near = hints.nearest(name, tuple(SECTIONS))
    return {"name": name, "known": join_words(SECTIONS), "near": near, "meant": near if raw.get(near) is None else ""}


def _check_section(key: Text, section: Section, node: Node, hints: Hints) -> Iterator[Finding]:
    facts: dict[str, Any] = {"record": section.name, "name": section.name}
    if section.is_single:
        yield from _check_record(key, section, "", node, hints)
    elif not isinstance(node, Map):
        by_id = "write each record under its id, as `01: {...}`, and not behind a dash"
        yield _wrong_kind(key, node, "records by id", by_id, **facts)
    else:
        if len(node.items) > limits.RECORDS:
            yield find("records-too-many", key.place, limit=limits.RECORDS, **facts)
        yield from _check_columns(section, node, hints)
        for id, record in node.items:
            yield from _check_record(id, section, id.text, record, hints)


def _check_columns(section: Section, records: Map, hints: Hints) -> Iterator[Finding]:
    """Headings of a table that are no field, once for all of its records. A column that its user added is left unread;
    one whose heading is near to a field's name is as wrong as that field misspelled."""
    seen: set[Place] = set()
    maps = ((id, record) for id, record in records.items if isinstance(record, Map))
    for id, record in maps:
        for name, _ in record.items:
            if name.text in section.fields or not _is_heading(name, id) or name.place in seen:
                continue
            seen.add(name.place)
            facts = _unknown_field(name.text, section, record, hints)
            if facts["meant"]:
                at = Subject(section.name, "")
                yield find("field-unknown", name.place, record=section.name, name=name.text, **facts, at=at)
            else:
                yield find("column-unread", name.place, section=section.name, name=name.text, hint=facts["hint"])


def _is_heading(name: Text, id: Text) -> bool:
    """Whether a name is above its record, as no field of YAML is."""
    return name.place.line < id.place.line


def _check_record(key: Text, section: Section, id: str, node: Node, hints: Hints) -> Iterator[Finding]:
    about = () if section.is_single else (Subject(section.name, id),)
    record = name_record(section.name, id)
    if not isinstance(node, Map):
        advice = "write each field on a line of its own, as `name: value`"
        yield _wrong_kind(key, node, "a group of fields", advice, about, record=record, name=key.text)
        return
    unknown = [name for name, _ in node.items if name.text not in section.fields and not _is_heading(name, key)]
    if len(unknown) > limits.FIELDS:
        yield find("records-too-many", key.place, about=about, record=record, name=key.text, limit=limits.FIELDS)
    else:
        for name in unknown:
            facts = _unknown_field(name.text, section, node, hints)
            at = Subject(section.name, id)
            yield find("field-unknown", name.place, about=about, record=record, name=name.text, **facts, at=at)
    for field in section.fields.values():
        if field.is_marked("required") and node.get(field.name) is None:
            yield find("field-missing", key.place, about=about, record=record, name=field.name, wanted="a value")
    for name, value in node.items:
        if name.text in section.fields:
            yield from _check_field(name, section.fields[name.text], value, hints, Subject(section.name, id))


def _check_field(key: Text, field: Field, node: Node, hints: Hints, at: Subject) -> Iterator[Finding]:
    kind, about = field.kind, (at,) if at.id else ()
    facts: dict[str, Any] = {"record": name_record(at.section, at.id), "name": field.name}
    if isinstance(node, Text):
        if kind.choices and node.text not in kind.spelled:
            near = hints.nearest(node.text, kind.choices)
            facts |= {"options": " or ".join(kind.choices), "at": at, "near": near}
            yield find("value-not-listed", node.place, about=about, value=node.text, **facts)
    elif not _takes(kind, node):
        wanted = "a single value" if isinstance(node, Map) else "another kind of value"
        if kind.takes_list or kind.shape == "pairs":
            wanted = f"at most {limits.LIST_LENGTH:,} items" if len(node.items) > limits.LIST_LENGTH else wanted
        yield _wrong_kind(key, node, wanted, field.advice, about, **facts)


def _takes(kind: Kind, node: List | Map) -> bool:
    """Whether a field may hold this list, or this group of pairs."""
    if isinstance(node, List):
        return kind.takes_list and len(node.items) <= limits.LIST_LENGTH and _are_texts(node.items)
    if kind.shape != "pairs" or not 0 < len(node.items) <= limits.LIST_LENGTH:
        return False
    return _are_texts(value for _, value in node.items)


def _are_texts(nodes: Iterable[Node]) -> bool:
    return all(isinstance(node, Text) for node in nodes)


def _wrong_kind(
    key: Text, node: Node, wanted: str, advice: str, about: tuple[Subject, ...] = (), **facts: Any
) -> Finding:
    place = node.place if isinstance(node, Text) else key.place
    return find("value-kind", place, about=about, found=_FOUND[type(node)], wanted=wanted, description=advice, **facts)


def _unknown_field(key: str, section: Section, record: Map, hints: Hints) -> dict[str, Any]:
    known = tuple(section.fields)
    meant, hint = _mean_field(key, known, hints)
    lead = f"did you mean {meant}? The fields here are" if meant else "the fields here are"
    free = meant if record.get(meant) is None else ""
    return {"lead": lead, "known": join_words(known), "hint": hint, "meant": free}


def _mean_field(key: str, known: tuple[str, ...], hints: Hints) -> tuple[str, str]:
    """The field that was meant: ours for a heading of somebody's list in any language, else the nearest word. Else
    what to do with it: the sections that have such a field, or notes."""
    from paperwork.text.headings import OURS, mean

    named = [OURS.get(field, field) for field in mean(key).fields]
    if meant := next((field for field in named if field in known), ""):
        return meant, ""
    if meant := "" if named else hints.nearest(key, known):
        return meant, ""
    homes = [name for name, section in SECTIONS.items() if key in section.fields]
    if homes:
        return "", f"; {key} is a field of {join_words(homes)}"
    return "", "; what no field holds can go into notes" if "notes" in known else ""
