"""Raw against the published JSON Schema: every slip of shape, at the line or cell where it stands.

The schema file is the one truth about sections and fields; the words are made here from the kind of each error.
"""

import json
from functools import cache
from typing import Any

from paperwork import limits
from paperwork.finding import Finding, Subject, find
from paperwork.names import Hints, join_words
from paperwork.place import Place
from paperwork.raw import List, Map, Node, Text
from paperwork.resources import read_text

SCHEMA = "show.schema.json"

SINGLE_SECTIONS = ("show", "day", "spectrum")
"""Sections that are one record; all others are tables of records by id."""

_FIELDS_OF_LISTS = {"performer": "by", "frequency": "mhz", "receiver": "slot", "type": "radio", "scene_title": "name"}
"""What the fields of foreign lists are called in ours, where not the same."""

# The validator turns path parts that look like numbers into integers, so that channel `01` would come back as 1.
# Keys are handed over behind this mark and lose it on the way back.
_MARK = "#"


@cache
def read_schema() -> dict[str, Any]:
    """The published schema as plain data."""
    return json.loads(read_text("schemas", SCHEMA))


def fields_of(section: str) -> dict[str, dict[str, Any]]:
    """The fields of a section's records: name to schema, with title and description."""
    schema = read_schema()
    target = schema["properties"][section]
    reference = target.get("$ref") or target["additionalProperties"]["$ref"]
    return schema["$defs"][reference.rsplit("/", 1)[1]]["properties"]


def sections() -> tuple[str, ...]:
    """The names of all sections, in the schema's order."""
    return tuple(read_schema()["properties"])


def check_shape(raw: Map) -> tuple[Finding, ...]:
    """Everything that is not shaped as the schema says; an empty tuple if the file is sound."""
    from jsonschema_rs import Draft202012Validator

    validator = Draft202012Validator(read_schema())
    found: list[Finding] = []
    hints = Hints()
    for error in validator.iter_errors(_to_plain(raw)):
        found.extend(_explain(raw, error, hints))
    return tuple(found)


def _to_plain(node: Node) -> Any:
    if isinstance(node, Text):
        return node.text
    if isinstance(node, List):
        return [_to_plain(item) for item in node.items]
    return {_mark(key.text): _to_plain(value) for key, value in node.items}


def _mark(key: str) -> str:
    return _MARK + key if key.lstrip(_MARK + "+").isdigit() else key


def _unmark(key: str) -> str:
    return key[len(_MARK) :] if key.startswith(_MARK) and key.lstrip(_MARK + "+").isdigit() else key


def _explain(raw: Map, error: Any, hints: Hints) -> list[Finding]:
    kind = type(error.kind).__name__.rsplit(".", 1)[-1]
    path = [_unmark(part) if isinstance(part, str) else part for part in error.instance_path]
    place = _place_of(raw, path)
    about = _subject_of(path)
    names: dict[str, Any] = {"record": _record_words(path), "name": str(path[-1]) if path else "the file"}
    if kind == "AdditionalProperties":
        if len(error.kind.unexpected) > limits.FIELDS:
            return [find("records-too-many", place, about=about, limit=limits.FIELDS, **names)]
        return [_unknown_key(raw, path, _unmark(key), hints) for key in error.kind.unexpected]
    if kind == "Required":
        unknown = [key.text for key, _ in raw.items if key.text not in sections()] if not path else []
        if any(hints.nearest(key, sections()) == error.kind.property for key in unknown):
            return []  # it is there under a misspelt name, and that is told
        wanted = "role, performer and frequency of each" if error.kind.property == "channels" else "a value"
        names |= {"record": _record_words([*path, ""]), "name": error.kind.property, "wanted": wanted}
        return [find("field-missing", place, about=about, **names)]
    if kind == "Enum":
        options = list(dict.fromkeys(option.lower() for option in error.kind.options if isinstance(option, str)))
        options = [option for option in options if option not in ("true", "false")] or options
        value = str(error.instance)
        return [
            find(
                "value-not-listed",
                place,
                about=about,
                value=value,
                options=" or ".join(options),
                at=_record_of(path[:-1]),
                near=hints.nearest(value, options),
                **names,
            )
        ]
    if kind in ("MaxItems", "MaxProperties"):
        limit = error.kind.limit if hasattr(error.kind, "limit") else limits.RECORDS
        return [find("records-too-many", place, about=about, limit=limit, **names)]
    return [_wrong_kind(raw, path, place, about, names)]


def _unknown_key(raw: Map, path: list, key: str, hints: Hints) -> Finding:
    place = _place_of(raw, [*path, key], of_key=True)
    if not path:
        known = sections()
        near = hints.nearest(key, known)
        meant = near if raw.get(near) is None else ""
        return find("section-unknown", place, name=key, known=join_words(known), near=near, meant=meant)
    known = tuple(fields_of(path[0]))
    meant, hint = _mean_field(key, known, hints)
    record = _node_at(raw, path)
    assert isinstance(record, Map)
    return find(
        "field-unknown",
        place,
        about=_subject_of(path),
        record=_record_words([*path, ""]),
        name=key,
        lead=f"did you mean {meant}? The fields here are" if meant else "the fields here are",
        known=join_words(known),
        hint=hint,
        at=_record_of(path),
        meant=meant if record.get(meant) is None else "",
        value=value.text if isinstance(value := record.get(key), Text) else "",
    )


def _mean_field(key: str, known: tuple[str, ...], hints: Hints) -> tuple[str, str]:
    """The field that was meant: ours for a heading of somebody's list in any language, else the nearest word. Else what to
    do with it: the sections that have such a field, or notes."""
    from paperwork.intake.headings import mean

    told = [_FIELDS_OF_LISTS.get(field, field) for field in mean(key).fields]
    if meant := next((field for field in told if field in known), ""):
        return meant, ""
    if meant := "" if told else hints.nearest(key, known):
        return meant, ""
    homes = [section for section in sections() if key in fields_of(section)]
    if homes:
        return "", f"; {key} is a field of {join_words(homes)}"
    return "", "; what no field holds can stand in notes" if "notes" in known else ""


def _wrong_kind(raw: Map, path: list, place: Place, about: tuple[Subject, ...], names: dict[str, Any]) -> Finding:
    node = _node_at(raw, path)
    found = {Text: "a single value", List: "a list", Map: "a group of fields"}[type(node)]
    if not path or path[0] not in sections():
        return find(
            "value-kind",
            place,
            found=found,
            wanted="sections with records",
            description="see `paperwork new` for a file to start from",
            **names,
        )
    depth_of_field = 2 if path[0] in SINGLE_SECTIONS else 3
    if len(path) < depth_of_field:
        is_record = len(path) == depth_of_field - 1
        wanted = "a group of fields" if is_record else "records by id"
        by_id = "write each record under its id, as `01: {...}`, and not behind a dash"
        return find(
            "value-kind",
            place,
            about=about,
            found=found,
            wanted=wanted,
            description=by_id if not is_record else "write each field on a line of its own, as `name: value`",
            **names,
        )
    field = fields_of(path[0]).get(str(path[depth_of_field - 1]), {})
    wanted = "a single value" if isinstance(node, Map) or len(path) > depth_of_field else "another kind of value"
    return find(
        "value-kind",
        place,
        about=about,
        found=found,
        wanted=wanted,
        description=field.get("description", "write a single value"),
        **names,
    )


def _record_words(path: list) -> str:
    """What to call the record that a path leads into: `channel 01`, `show`, `the file`."""
    if not path or path == [""]:
        return "the file"
    if path[0] in SINGLE_SECTIONS or len(path) == 1:
        return str(path[0])
    return name_record(str(path[0]), str(path[1]))


def name_record(section: str, record: str) -> str:
    """What to call one record in a sentence: `channel 01`, `person Mara Lind`."""
    singular = {"people": "person", "radios": "radio"}.get(section, section.removesuffix("s"))
    return f"{singular} {record}"


def _record_of(path: list) -> Subject | None:
    """The record that a path leads to; None for another path."""
    is_single = path[:1] and path[0] in SINGLE_SECTIONS
    return Subject(str(path[0]), "" if is_single else str(path[1])) if len(path) == (1 if is_single else 2) else None


def _subject_of(path: list) -> tuple[Subject, ...]:
    return (Subject(str(path[0]), str(path[1])),) if len(path) > 1 and path[0] not in SINGLE_SECTIONS else ()


def _node_at(raw: Map, path: list) -> Node:
    node: Node = raw
    for part in path:
        if isinstance(node, List):
            node = node.items[part]
        elif isinstance(node, Map):
            node = node.get(str(part)) or node
    return node


def _place_of(raw: Map, path: list, *, of_key: bool = False) -> Place:
    node = _node_at(raw, path[:-1])
    if path and isinstance(node, Map):
        for key, value in node.items:
            if key.text == str(path[-1]):
                return value.place if isinstance(value, Text) and not of_key else key.place
    return _node_at(raw, path).place
