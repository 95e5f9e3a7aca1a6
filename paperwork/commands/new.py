"""`paperwork new FILE`: a show to fill in, as a workbook or as commented YAML, straight from the table of fields."""

import re
from pathlib import Path

import click

from paperwork.checks.gaps import EXAMPLE
from paperwork.model.fields import SECTIONS
from paperwork.model.row import Section
from paperwork.output import OutputError, write_new
from paperwork.terminal import Outcome

FIRST = ("show", "channels", "people", "roles", "capsules", "radios", "scenes")
"""The sections that most shows fill in first; the others follow in their own order."""

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
"""One example for each section that every show has: a show of its own, and `check` says what is left of it."""


@click.command(epilog="Examples:  paperwork new show.xlsx  |  paperwork new show.yaml")
@click.argument("file", type=click.Path())
def command(file: str) -> Outcome:
    """Write FILE, a show to fill in: a workbook (.xlsx) or commented text (.yaml).

    A file that is there is never replaced.
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
    ready = f"{file} is ready to fill in; type over the example in it"
    return Outcome(f"{ready}\nthen: paperwork check {file}\n")


def make_workbook() -> bytes:
    """The workbook of every section, its help, choices and marks from the table of fields."""
    from paperwork.files.xlsx.template import write_template

    return write_template(_order_sections(), EXAMPLES)


def _order_sections() -> list[Section]:
    return [SECTIONS[name] for name in dict.fromkeys((*FIRST, *SECTIONS))]


def make_text() -> str:
    """A show in YAML: the example as it is, and everything else as comments to be uncommented."""
    lines = [
        "# A show to fill in. Only channels are needed; each section you add brings more checks and more papers.",
        "# This is an example: type over it. Lines that begin with # are not read. To use one, delete its # and the",
        "# one space after it, so that it lines up with the lines beside it.",
        "",
    ]
    for section in _order_sections():
        lines += _write_section(section)
    return "\n".join(lines) + "\n"


def _write_section(section: Section) -> list[str]:
    example = EXAMPLES.get(section.name, {})
    lead = "" if example else "# "
    lines = [f"# {section.description}", f"{lead}{section.name}:"]
    indent = "  "
    if not section.is_single:
        lines.append(f"{lead}  {example.get('id', 'ID')}:")
        indent = "    "
    for name, field in section.fields.items():
        choices = field.kind.choices
        help = f"{field.description} One of: {', '.join(choices)}." if choices else field.description
        if name in example:
            lines.append(f"{indent}{name}: {_quote(example[name])}  # {help}")
        else:
            lines.append(f"# {indent}{name}:  # {help}")
    return [*lines, ""]


def _quote(text: str) -> str:
    from paperwork.files.yaml.write import quote_text

    return quote_text(re.sub(r"\s+", " ", text))
