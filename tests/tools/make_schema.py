"""Write schemas/show.schema.json and schemas/REFERENCE.md from the table of fields: `python -m tests.tools.make_schema`."""

import json
from collections.abc import Mapping
from typing import Any

from paperwork import limits
from paperwork.model.fields import SECTIONS
from paperwork.model.kinds import YES, Kind
from paperwork.model.row import Field, Section
from paperwork.resources import find_folder

DEFS: Mapping[str, dict[str, Any]] = {
    "text": {"description": "Text or a number, read exactly as it is written.", "type": ["string", "number"]},
    "list": {
        "description": "One item, a list, or a text of items separated by commas.",
        "anyOf": [
            {"$ref": "#/$defs/text"},
            {"type": "array", "items": {"$ref": "#/$defs/text"}, "maxItems": limits.LIST_LENGTH},
        ],
    },
    "yes": {"description": "yes or no.", "enum": [*YES.spelled, True, False]},
    "frequency": {
        "description": "A frequency in MHz, as in 486.200; another unit is written out, as in 486200 kHz.",
        "type": ["string", "number"],
    },
    "width": {"description": "A bandwidth, step or distance with its unit, as in 25 kHz or 8 MHz.", "type": "string"},
    "ranges": {"description": "One or more ranges in MHz, as in 486-508.", "$ref": "#/$defs/list"},
    "output": {
        "description": "Destination and inputs in slot order, as in FOH 1-6. A dash is a slot that goes nowhere: "
        "FOH 1-4, -, -. A plus sign splits one connector: FOH 1-6 + REC 1-6.",
        "$ref": "#/$defs/list",
    },
}
"""The shapes of values that kinds name."""

PAIRS = {
    "type": "object",
    "additionalProperties": {"$ref": "#/$defs/text"},
    "minProperties": 1,
    "maxProperties": limits.LIST_LENGTH,
}


def make_schema() -> dict[str, Any]:
    """The published schema."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:show-paperwork:schema:show:1",
        "title": "Show file",
        "description": "One show with radio microphones. Only channels are needed; every section more adds a fact and "
        "the papers that need it.",
        "type": "object",
        "additionalProperties": False,
        "required": ["channels"],
        "properties": {section.name: _refer(section) for section in SECTIONS.values()},
        "$defs": {**DEFS, **{section.word: _define(section) for section in SECTIONS.values()}},
    }


def _refer(section: Section) -> dict[str, Any]:
    reference, title = {"$ref": f"#/$defs/{section.word}"}, section.name.capitalize()
    if section.is_single:
        return {"title": title, **reference}
    return {
        "title": title,
        "description": section.help,
        "type": "object",
        "additionalProperties": reference,
        "maxProperties": limits.RECORDS,
    }


def _define(section: Section) -> dict[str, Any]:
    required = [name for name, field in section.fields.items() if field.is_marked("required")]
    return {
        "description": section.each,
        "type": "object",
        "additionalProperties": False,
        "properties": {name: _define_field(field) for name, field in section.fields.items()},
    } | ({"required": required} if required else {})


def _define_field(field: Field) -> dict[str, Any]:
    return {"title": field.title, "description": field.description, **_define_kind(field.kind)}


def _define_kind(kind: Kind) -> dict[str, Any]:
    if kind.shape == "words" and kind.reads == "yes":
        return {"enum": [*kind.spelled, True, False]}
    if kind.shape == "words":  # an editor offers the words alone, and takes their other spellings too
        other = "|".join(word for word in kind.spelled if word not in kind.choices)
        return {"anyOf": [{"enum": [*kind.choices]}, {"type": "string", "pattern": f"^({other})$"}]}
    if kind.shape == "pairs":
        return {"anyOf": [{"type": "string"}, PAIRS]}
    return {"$ref": f"#/$defs/{kind.shape}"}


def make_reference() -> str:
    """All sections and fields, as Markdown for those who fill a show file in."""
    lines = [
        "# The show file, section by section",
        "",
        "Only `channels` is needed; each further section adds facts, the checks that they make possible, and papers. "
        "A section is either one record (`show`, `day`, `spectrum`: `field: value`) or a table of records, each under its "
        "id. `paperwork explain channels.capsule` says the same of one field, and who must act when it changes. "
        "Fields marked * are required.",
        "",
        " · ".join(f"[{name}](#{name})" for name in SECTIONS),
        "",
    ]
    for section in SECTIONS.values():
        lines += [f"## {section.name}", "", section.description, ""]
        lines += ["| field | as in | what it means | default |", "|---|---|---|---|"]
        lines += map(_write_row, section.fields.values())
        lines.append("")
    lines.append("<!-- made by tests/tools/make_schema.py -->")
    return "\n".join(lines) + "\n"


def _write_row(field: Field) -> str:
    help = f"{field.help} One of: {', '.join(field.kind.choices)}." if len(field.kind.choices) > 2 else field.help
    sections = " or ".join(f"[{to}](#{to})" for to in field.refers.split())
    help = f"{help} Names {sections}." if sections else help
    mark = "*" if field.is_marked("required") else ""
    return f"| `{field.name}`{mark} | `{field.example}` | {help} | {field.default} |"


def write_json() -> str:
    """The schema as the text of its file."""
    return json.dumps(make_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    folder = find_folder("schemas")
    (folder / "show.schema.json").write_text(write_json(), encoding="utf-8")
    (folder / "REFERENCE.md").write_text(make_reference(), encoding="utf-8")
