"""Answers kept beside the sheet: a small file in YAML, by kind of question and by what it is about."""

import os
from pathlib import Path

from paperwork.files import read_bytes, read_file
from paperwork.files.sniff import Load, load_file
from paperwork.finding import Finding
from paperwork.intake.questions import KINDS, Answers
from paperwork.place import Place
from paperwork.raw import Map, Text

SUFFIX = ".answers.yaml"


def name_answers(sheet: str) -> str:
    """The name of the file that holds the answers to a sheet: `list.xlsx.answers.yaml`."""
    return sheet + SUFFIX


def read_answers(
    path: Path, name: str, load: Load = load_file
) -> tuple[dict[tuple[str, str], str], tuple[Finding, ...]]:
    """The answers by kind and content, and what is wrong with their file. No file, no answers."""
    return _pick(*read_file(path, name, load)) if os.path.exists(path) else ({}, ())


def read_answers_bytes(data: bytes, name: str) -> tuple[dict[tuple[str, str], str], tuple[Finding, ...]]:
    """The same for a file whose bytes are at hand."""
    return _pick(*read_bytes(data, name))


def _pick(raw: Map | None, findings: tuple[Finding, ...]) -> tuple[dict[tuple[str, str], str], tuple[Finding, ...]]:
    found: dict[tuple[str, str], str] = {}
    for kind, group in raw.items if raw else ():
        for about, answer in group.items if isinstance(group, Map) else ():
            if isinstance(answer, Text):
                found[kind.text, about.text] = answer.text
    return found, findings


def write_answers(answers: Answers, sheet: str) -> str:
    """The answers as the text of their file, in the order of the kinds."""
    from paperwork.files.yaml.write import write_yaml

    place = Place("")
    groups: list[tuple[Text, Map]] = []
    for kind in KINDS:
        listed = [(Text(about, place), Text(value, place)) for (k, about), value in answers.items() if k == kind]
        if listed:
            groups.append((Text(kind, place), Map(tuple(listed), place)))
    head = f"# Answers about {sheet}, by kind and by what the cell holds. `paperwork answer` writes them; edit or delete freely.\n"
    return head + write_yaml(Map(tuple(groups), place))
