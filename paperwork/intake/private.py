"""What a book or an archive carries of a list that holds data about people: the show that is read of it, not the list."""

from collections.abc import Mapping
from pathlib import PurePosixPath

from paperwork.intake.answers import name_answers, read_answers_bytes
from paperwork.intake.source import read_source_bytes
from paperwork.raw import List, Map, Node, Text


def carry(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """The files that a show was read from, the show file first, as they may be carried elsewhere.

    A list that has cells about people is replaced by the show that was read of it, under the list's name with `.yaml`, and
    its answers, which are in that show, stay behind.
    """
    name = next(iter(files), "")
    kept = name_answers(name)
    given = files.get(kept)
    source = (
        read_source_bytes(files[name], name, lambda: ({}, ()) if given is None else read_answers_bytes(given, kept))
        if name
        else None
    )
    if (
        source is None
        or source.raw is None
        or not (source.understanding and source.understanding.account.get("personal"))
    ):
        return dict(files)
    from paperwork.files.yaml.write import write_yaml

    head = f"# What was read of {name}, which holds data about people and stays where it is.\n"
    text = head + write_yaml(_without_blanks(source.raw))
    rest = {path: data for path, data in files.items() if path not in (name, kept)}
    return {PurePosixPath(name).stem + ".yaml": text.encode("utf-8"), **rest}


def _without_blanks(node: Map) -> Map:
    """The fields that say something: a frequency that is asked about is blank here as it is on paper."""

    def keep(value: Node) -> Node:
        if isinstance(value, Map):
            return _without_blanks(value)
        return List(tuple(map(keep, value.items)), value.place) if isinstance(value, List) else value

    items = tuple((key, keep(value)) for key, value in node.items if not (isinstance(value, Text) and not value.text))
    return Map(items, node.place)
