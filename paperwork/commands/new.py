"""`paperwork new FILE`: a show to fill in, as a workbook or as commented YAML, straight from the schema."""

import re
from pathlib import Path
from typing import Any

import click

from paperwork.checks.gaps import EXAMPLE
from paperwork.output import OutputError, write_new
from paperwork.schema import SINGLE_SECTIONS, fields_of, read_schema, sections
from paperwork.terminal import Outcome

FIRST = ("show", "channels", "people", "roles", "capsules", "radios", "scenes")
"""The sections that most shows fill in first; the others follow in the schema's order."""

EXAMPLES = {
    "show": {"title": f"{EXAMPLE}: your show's title", "revision": "A"},
    "channels": {
        "id": "01",
        "role": EXAMPLE,
        "by": f"{EXAMPLE} PERSON",
        "mhz": "518.200",
        "notes": f"{EXAMPLE}: type over it",
    },
}
"""One example for each of the sections that every show has. It is a show of its own, and `check` says what is left of it."""

_REFERENCES = {
    ("channels", "radio"): "radios",
    ("channels", "spare"): "radios",
    ("channels", "capsule"): "capsules",
    ("channels", "by"): "people",
    ("channels", "role"): "roles",
    ("channels", "pack"): "transmitters",
    ("channels", "doubles"): "channels",
    ("channels", "alternate"): "channels",
    ("roles", "by"): "people",
    ("transmitters", "radio"): "radios",
    ("covers", "role"): "roles",
    ("covers", "by"): "people",
    ("covers", "channel"): "channels",
    ("covers", "capsule"): "capsules",
    ("moves", "role"): "roles",
    ("moves", "scene"): "scenes",
    ("looks", "by"): "people",
    ("looks", "scene"): "scenes",
    ("looks", "capsule"): "capsules",
}
"""Fields that name a record of another section: their dropdown is that section's ids, and other text is allowed."""

_UNIQUE = {
    ("channels", "mhz"),
    ("channels", "pack"),
    ("channels", "slot"),
    ("transmitters", "serial"),
    ("racks", "address"),
}


@click.command(epilog="Examples:  paperwork new show.xlsx  |  paperwork new show.yaml")
@click.argument("file", type=click.Path())
def command(file: str) -> Outcome:
    """Write FILE, a show to fill in: a workbook (.xlsx) or commented text (.yaml).

    A file that is there already is never overwritten.
    """
    path = Path(file)
    suffix = path.suffix.lower()
    if suffix == ".xlsx":
        data = make_workbook()
    elif suffix in (".yaml", ".yml"):
        data = make_text().encode("utf-8")
    else:
        return Outcome(aside=f"{file}: name it to end in .xlsx for a workbook or in .yaml for text\n", code=2)
    try:
        write_new(path, data)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    return Outcome(
        f"{file} is ready to fill in; the example in it is there to be typed over\nthen: paperwork check {file}\n"
    )


def make_workbook() -> bytes:
    """The workbook of every section, its help and choices from the schema."""
    from paperwork.files.xlsx_template import TemplateSection, write_template

    made = []
    for section in (*FIRST, *(name for name in sections() if name not in FIRST)):
        help = _describe_section(section)
        fields = tuple(_make_field(section, name, field) for name, field in fields_of(section).items())
        id_example = EXAMPLES.get(section, {}).get("id", "")
        made.append(
            TemplateSection(section, help, fields, section in SINGLE_SECTIONS, f"The id of the row. {help}", id_example)
        )
    return write_template(made)


def _make_field(section: str, name: str, field: dict[str, Any]) -> Any:
    from paperwork.files.xlsx_template import TemplateField

    return TemplateField(
        name=name,
        help=field.get("description", ""),
        choices=_choices_of(field),
        refers=_REFERENCES.get((section, name), ""),
        unique=(section, name) in _UNIQUE,
        example=EXAMPLES.get(section, {}).get(name, ""),
    )


def _choices_of(field: dict[str, Any]) -> tuple[str, ...]:
    """The words that a field may be, each once whatever its case."""
    if field.get("$ref", "").endswith("/yes"):
        return ("yes", "no")
    words = [word for word in field.get("enum", ()) if isinstance(word, str)]
    first: dict[str, str] = {}
    for word in words:
        first.setdefault(word.lower(), word)
    return tuple(first.values())


def _describe_section(section: str) -> str:
    """What a section's records are, and how they are named."""
    schema = read_schema()
    target = schema["properties"][section]
    reference = target.get("$ref") or target["additionalProperties"]["$ref"]
    texts = (target.get("description", ""), schema["$defs"][reference.rsplit("/", 1)[1]].get("description", ""))
    return " ".join(dict.fromkeys(filter(None, texts)))


def make_text() -> str:
    """A show in YAML: the example stands, everything else is there as comments to be uncommented."""
    lines = [
        "# A show to fill in. Only channels are needed; each section more adds a fact, and the papers that need it.",
        "# What stands here is an example: type over it. Lines that begin with # are not read; to use one,",
        "# take off its # and the one blank after it, so that it stands under the lines beside it.",
        "",
    ]
    for section in (*FIRST, *(name for name in sections() if name not in FIRST)):
        lines += _write_section(section)
    return "\n".join(lines) + "\n"


def _write_section(section: str) -> list[str]:
    example = EXAMPLES.get(section, {})
    is_single = section in SINGLE_SECTIONS
    lead = "" if example else "# "
    lines = [f"# {_describe_section(section)}", f"{lead}{section}:"]
    indent = "  "
    if not is_single:
        lines.append(f"{lead}  {example.get('id', 'ID')}:")
        indent = "    "
    for name, field in fields_of(section).items():
        help = field.get("description", "")
        choices = _choices_of(field)
        help = f"{help} One of: {', '.join(choices)}." if choices else help
        if name in example:
            lines.append(f"{indent}{name}: {_quote(example[name])}  # {help}")
        else:
            lines.append(f"# {indent}{name}:  # {help}")
    return [*lines, ""]


def _quote(text: str) -> str:
    from paperwork.files.yaml_write import quote_text

    return quote_text(re.sub(r"\s+", " ", text))
