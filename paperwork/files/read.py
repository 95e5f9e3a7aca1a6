"""The one entry: a file of any kind to Raw and findings."""

from pathlib import Path

from paperwork.files.decode import decode_text
from paperwork.files.refusal import Refused
from paperwork.files.sniff import Kind, Load, load_file, sniff
from paperwork.finding import Finding, find
from paperwork.place import Place
from paperwork.raw import Map

_TABLE = "a table of comma- or tab-separated values"
_SAVE_AS = "name a show in .yaml or .xlsx; `paperwork convert` makes one of a table"


def read_file(path: Path, name: str, load: Load = load_file) -> tuple[Map | None, tuple[Finding, ...]]:
    """The sections of a show file, and what is wrong with it; None if it cannot be read at all.

    `name` is how the file is shown in every place: what the user typed.
    """
    try:
        data = load(path, name)
    except Refused as refused:
        return None, (refused.finding,)
    return read_bytes(data, name)


def read_bytes(data: bytes, name: str) -> tuple[Map | None, tuple[Finding, ...]]:
    """The same for a file whose bytes are at hand."""
    try:
        kind, findings = sniff(data, name)
        raw, more = _read(data, name, kind)
    except Refused as refused:
        return None, (refused.finding,)
    return raw, (*findings, *more)


def read_kind(data: bytes, name: str, kind: Kind) -> tuple[Map | None, tuple[Finding, ...]]:
    """The same for a file whose kind is given."""
    try:
        return _read(data, name, kind)
    except Refused as refused:
        return None, (refused.finding,)


def _read(data: bytes, name: str, kind: Kind) -> tuple[Map | None, tuple[Finding, ...]]:
    if kind == "csv":
        raise Refused(find("file-kind", Place(name), name=name, what=_TABLE, remedy=_SAVE_AS))
    if kind == "xlsx":
        from paperwork.files.xlsx.sheet import read_workbook
        from paperwork.files.xlsx.show import read_tables

        return read_tables(read_workbook(data, name))
    from paperwork.files.yaml.read import read_yaml

    return read_yaml(decode_text(data, name), name)
