"""`paperwork explain WORD`: what a finding means, and what a section or a field of the show file holds."""

import re

import click

from paperwork.codes import CODES, Code
from paperwork.files.yaml.write import quote_text
from paperwork.model.fields import SECTIONS
from paperwork.model.row import ACTS, Field, Section
from paperwork.terminal import Outcome
from paperwork.text.names import hint, join_words


@click.command(epilog="Examples:  paperwork explain slot-doubled  |  paperwork explain channels.capsule")
@click.argument("word", required=False)
def command(word: str | None) -> Outcome:
    """Explain WORD: the code of a finding, a section of the show file, or a field, as SECTION.FIELD.

    Without a word, list all codes.
    """
    if word is None:
        return Outcome(_list_codes())
    section, _, name = word.partition(".")
    if word in CODES:
        return Outcome(_explain_code(CODES[word]))
    if word in SECTIONS:
        return Outcome(_explain_section(SECTIONS[word]))
    if section in SECTIONS and name in SECTIONS[section].fields:
        return Outcome(_explain_field(SECTIONS[section], SECTIONS[section].fields[name]))
    fields = [f"{one.name}.{name}" for one in SECTIONS.values() for name in one.fields]
    homes = [field for field in fields if field.endswith(f".{word}")]
    near = f"; {word} is the field {' or '.join(homes)}" if homes else hint(word, (*CODES, *SECTIONS, *fields))
    return Outcome(aside=f"there is no code, section or field {word}{near}\n", code=2)


def _list_codes() -> str:
    width = max(map(len, CODES))
    lines = []
    for name, row in sorted(CODES.items()):
        lines.append(f"{name:<{width}}  {row.severity:<7}  {_summarise(row)}")
    lines += ["", f"Sections and fields are explained too, as in racks or racks.window: {join_words(SECTIONS)}."]
    return "\n".join(lines) + "\n"


def _summarise(row: Code) -> str:
    """What is wrong in a line, with `…` for its facts; the explanation's first sentence where all is facts."""
    said = re.sub(r"(\{\w+\})+", "…", row.says)
    return said if len(re.findall(r"[^\W\d_]{2,}", said)) > 2 else row.explains.split(". ")[0].rstrip(".")


def _explain_code(row: Code) -> str:
    return f"{row.name} ({row.severity})\n\n{row.explains}\n{_word_effect(row)}\nfix: {row.plain_fix}\n"


def _explain_section(section: Section) -> str:
    width = max(map(len, section.fields))
    wanted = {name: " Required." if field.is_marked("required") else "" for name, field in section.fields.items()}
    entry = {
        "on a change": _word_acts(section.acts),
        "another order": _word_acts(section.order),
        "see also": _codes_of(section.name, section.word),
    }
    lines = [f"  {name:<{width}}  {field.help}{wanted[name]}" for name, field in section.fields.items()]
    more = f"paperwork explain {section.name}.{next(iter(section.fields))} says more about a field."
    return "\n".join([section.name, "", section.description, "", *lines, "", *_list_entry(entry), "", more]) + "\n"


def _explain_field(section: Section, field: Field) -> str:
    rules = {"required": "required", "venue": "may differ in a venue", "tonight": "may differ tonight"}
    entry = {
        "written": f"{field.name}: {quote_text(field.example)}  ({field.kind.advice.removeprefix('write ')})",
        "default": field.default,
        "choices": ", ".join(field.kind.choices),
        "refers to": " or ".join(field.refers.split()),
        "rules": "; ".join(words for mark, words in rules.items() if field.is_marked(mark)),
        "on a change": _word_acts(field.acts or section.acts) if not field.is_marked("aside") else "",
        "see also": _codes_of(field.name, field.title.lower()),
    }
    head = [f"{section.name}.{field.name} ({field.title})", "", field.help, ""]
    return "\n".join([*head, *_list_entry(entry)]) + "\n"


def _list_entry(entry: dict[str, str]) -> list[str]:
    return [f"  {head + ':':<14} {text}" for head, text in entry.items() if text]


def _word_acts(acts: str) -> str:
    return "; ".join(ACTS[act] for act in acts.split())


def _codes_of(*words: str) -> str:
    """The codes of sense and reference that begin with one of the words, or with its plural."""
    begin = {ending for word in words for ending in (word, f"{word}s")} - {"name", "value", "paper"}
    return ", ".join(code for code, row in CODES.items() if row.stage != "read" and code.split("-")[0] in begin)


def _word_effect(row: Code) -> str:
    """What an error does to the papers; a warning does nothing to them."""
    if row.severity != "error" or row.stage == "read":
        return ""
    if row.stage == "sense":
        return "\nPapers that show it are stamped; `build --strict` prints none.\n"
    return "\nNo papers are printed until it is settled.\n"
