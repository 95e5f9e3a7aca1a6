"""The files that a revision was made from, out of its archive or its show book, with every name looked at first."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

from paperwork import limits
from paperwork.archive.container import Part, read_parts
from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place

FOLDER = "inputs/"
"""Where an archive keeps what it was made from."""

ABOUT = "archive.json"


@dataclass(frozen=True, slots=True)
class Inputs:
    """The show file's path and every file by its path, all below one folder. `venue` is the venue it was made for."""

    show: str
    files: Mapping[str, bytes]
    venue: str = ""


def is_book(data: bytes) -> bool:
    """Whether the bytes are a PDF."""
    return data.startswith(b"%PDF-")


def is_archive(data: bytes) -> bool:
    """Whether the bytes are a zip that looks like an archive of ours, damaged or not."""
    return data[:4] in (b"PK\x03\x04", b"PK\x05\x06") and ABOUT.encode() in data and b"SHA256SUMS" in data


def pick_inputs(data: bytes, name: str) -> Inputs:
    """The inputs in an archive or a show book. Raises Refused where there are none, or where one is not safe to write."""
    if is_book(data):
        from paperwork.archive.pdf_source import read_attachments

        inputs = read_attachments(data, name)
    else:
        inputs = _pick(data, name)
    for path in inputs.files:
        check_name(path, name)
    lower = [path.casefold() for path in inputs.files]
    if len(set(lower)) < len(lower):
        raise _unsafe(name, "two of its files have names that are one on some disks")
    return inputs


def read_about(data: bytes, name: str) -> dict:
    """What an archive says of itself. Raises Refused where it says nothing."""
    for parts in read_parts(data, name):
        for part in parts:
            if part.name == ABOUT and part.is_sound:
                try:
                    told = json.loads(part.data or b"")
                except ValueError:
                    continue
                if isinstance(told, dict):
                    return told
    raise Refused(find("archive-kind", Place(name), name=name, reason=f"it has no {ABOUT}"))


def _pick(data: bytes, name: str) -> Inputs:
    about = read_about(data, name)
    if about.get("public"):
        raise Refused(find("archive-public", Place(name), name=name))
    best: dict[str, Part] = {}
    for parts in read_parts(data, name):
        for part in parts:
            if part.name.startswith(FOLDER) and not (part.name in best and best[part.name].is_sound):
                best[part.name] = part
    for part in best.values():
        if part.is_link:
            raise _unsafe(name, f"{part.name} is a link")
        if not part.is_sound:
            raise Refused(find("archive-altered", Place(f"{name}/{part.name}"), file=part.name))
    files = {path.removeprefix(FOLDER): part.data or b"" for path, part in best.items()}
    show = str(about.get("show file", ""))
    if show not in files:
        raise Refused(find("archive-missing", Place(f"{name}/{FOLDER}{show}"), file=f"{FOLDER}{show}"))
    return Inputs(show, files, str(about.get("venue chosen", "")))


def check_name(path: str, name: str) -> None:
    """Raises Refused unless the path names a file below the folder it is put into, on every common system."""
    parts = path.split("/")
    is_plain = all(part.strip(". ") and not part.endswith((" ", ".")) for part in parts)
    if not is_plain or any(sign in '<>:"|?*\\' or ord(sign) < 32 for sign in path) or len(path) > limits.PATH_LENGTH:
        raise _unsafe(name, f"{path!r} would be written outside of the folder, or under a name that some disks refuse")


def _unsafe(name: str, reason: str) -> Refused:
    return Refused(find("archive-unsafe", Place(name), name=name, reason=reason))
