"""The files that a revision was made from, out of its archive or its show book, with every name looked at first."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Any

from paperwork import limits
from paperwork.archive import sums
from paperwork.archive.container import PackedFile
from paperwork.archive.prints import read_prints
from paperwork.archive.verify import ZipReading, read_best
from paperwork.changes import PaperPrint
from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.frozen import frozen
from paperwork.place import Place
from paperwork.text.names import disk_key, is_file_name

if TYPE_CHECKING:
    from paperwork.render.pdf.pdfa import Attachment

FOLDER = "inputs/"
"""Where an archive keeps what it was made from."""

_MEDIA = {
    ".yaml": "application/yaml",
    ".yml": "application/yaml",
    ".csv": "text/csv",
    ".json": "application/json",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
"""Media types by the endings of names, as registered with IANA."""


@frozen
class Inputs:
    """The show file's path and every file by its path, all below one folder. `venue` is the venue it was made for,
    `prints` what it says that was printed."""

    show: str
    files: Mapping[str, bytes]
    venue: str = ""
    prints: tuple[PaperPrint, ...] = field(default=(), compare=False)


def is_book(data: bytes) -> bool:
    """Whether the bytes are a PDF."""
    return data.startswith(b"%PDF-")


def is_archive(data: bytes) -> bool:
    """Whether the bytes are a zip that looks like an archive of ours, damaged or not."""
    return data[:4] in (b"PK\x03\x04", b"PK\x05\x06") and sums.ABOUT.encode() in data and sums.NAME.encode() in data


def attach_inputs(files: Mapping[str, bytes], venue: str) -> "tuple[Attachment, ...]":
    """The files as attachments of a show book: the first is what it was made from, with the venue that it was made for;
    the others were read beside it."""
    from paperwork.archive.pdf_source import AT_VENUE
    from paperwork.render.pdf.pdfa import Attachment

    kept: list[Attachment] = []
    for path, data in files.items():
        media = _MEDIA.get(PurePosixPath(path).suffix.lower(), "application/octet-stream")
        first = (f"{AT_VENUE}{venue}" if venue else "the show file", "Source")
        kept.append(Attachment(path, data, media, *(("read beside the show file", "Data") if kept else first)))
    return tuple(kept)


def pick_inputs(data: bytes, name: str) -> Inputs:
    """The inputs in an archive or a show book. Raises Refused where there are none, or one is not safe."""
    if is_book(data):
        from paperwork.archive.pdf_source import read_attachments

        inputs = Inputs(*read_attachments(data, name))
    else:
        inputs = _pick(data, name)
    put_back: list[str] = []
    for path in inputs.files:
        if reason := find_unfit(path, put_back):
            raise _unsafe(name, f"{path!r} {reason}")
        put_back.append(path)
    return inputs


def read_about(data: bytes, name: str) -> dict[str, Any]:
    """What an archive says of itself. Raises Refused where it says nothing."""
    return _read_about(read_best(data, name), name)


def _read_about(reading: ZipReading, name: str) -> dict[str, Any]:
    try:
        data = next(part.data or b"" for part in reading.parts if part.name == sums.ABOUT)
        about = json.loads(data) if len(data) <= limits.ABOUT_BYTES else None
        if isinstance(about, dict):
            return about
    except (StopIteration, ValueError, RecursionError):
        pass
    raise Refused(find("archive-kind", Place(name), name=name, reason=f"it has no {sums.ABOUT} that can be read"))


def _pick(data: bytes, name: str) -> Inputs:
    """What is damaged elsewhere in the archive does not keep the inputs from being read."""
    reading = read_best(data, name)
    about = _read_about(reading, name)
    if about.get("public"):
        raise Refused(find("archive-public", Place(name), name=name))
    for finding in reading.findings:
        if finding.code == "archive-kind" or finding.place.file.startswith(f"{name}/{FOLDER}"):
            raise Refused(finding)
    parts = [part for part in reading.parts if part.name.startswith(FOLDER)]
    if not reading.is_listed:
        _check_unlisted(parts, about, name)
    for part in parts:
        if part.is_link:
            raise _unsafe(name, f"{part.name} is a link")
    files = {part.name.removeprefix(FOLDER): part.data or b"" for part in parts}
    show = str(about.get("show file", ""))
    if show not in files:
        raise Refused(find("archive-missing", Place(f"{name}/{FOLDER}{show}"), file=f"{FOLDER}{show}"))
    is_whole = all(finding.place.file != f"{name}/{sums.ABOUT}" for finding in reading.findings)
    return Inputs(show, files, str(about.get("venue chosen", "")), read_prints(about) if is_whole else ())


def _check_unlisted(parts: Sequence[PackedFile], about: Mapping[str, Any], name: str) -> None:
    """Where the list of digests is damaged, the zip's own sums must hold, and its page must name each file."""
    named = about.get("inputs")
    there = {part.name for part in parts}
    for path in sorted(there ^ {f"{FOLDER}{one}" for one in named} if isinstance(named, list) else there):
        code = "archive-missing" if path not in there else "archive-added"
        raise Refused(find(code, Place(f"{name}/{path}"), file=path))
    for part in parts:
        if not part.is_sound:
            raise Refused(find("archive-altered", Place(f"{name}/{part.name}"), file=part.name))


def find_unfit(path: str, others: Iterable[str]) -> str:
    """Why a path cannot name a file beside others below one folder, on every common system; "" where it can.

    The one rule for what is put into an archive and for what is put back.
    """
    parts = path.split("/")
    if len(path) > limits.PATH_LENGTH or not all(map(is_file_name, parts)):
        return "would be outside of the folder, or have a name that some disks refuse"
    if any(part.startswith(".") for part in parts):
        return "would be hidden, or settings that some program obeys"
    key = disk_key(path)
    twin = next((other for other in others if disk_key(other) == key), None)
    return f"and {twin!r} would have one name on some disks" if twin is not None else ""


def _unsafe(name: str, reason: str) -> Refused:
    return Refused(find("archive-unsafe", Place(name), name=name, reason=reason))
