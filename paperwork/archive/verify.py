"""What has become of an archive: each file against its digest, the order, and the container around them."""

import hashlib
from collections.abc import Iterator, Sequence

from paperwork.archive import sums
from paperwork.archive.container import PackedFile, pack_files, read_parts
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.frozen import frozen
from paperwork.place import Place

_AROUND = "damaged, or packed anew; every file in it is whole"
_ASTRAY = "damaged: the files are whole, but its table of contents does not lead to them, so other programs may unpack other bytes"


@frozen
class ZipReading:
    """One way to read an archive: its files, and what is wrong with them.

    `by_table`: as other programs read it. `is_listed`: its list of digests is as it was made, as far as the zip says.
    """

    parts: tuple[PackedFile, ...]
    findings: tuple[Finding, ...]
    by_table: bool
    is_listed: bool


@frozen
class Verdict:
    """What was found, the digest of the whole file, and how many files are as they were made."""

    findings: tuple[Finding, ...]
    digest: str
    sound: int


def verify_archive(data: bytes, name: str, expect: str = "") -> Verdict:
    """Every altered, missing, added or reordered file by its name; damage to the container apart from them.

    `expect` is the SHA-256 that the archive had when it was made, as kept elsewhere. Without it nothing proves that
    nobody made the archive anew: who can alter a file can alter the list beside it.
    """
    digest = hashlib.sha256(data).hexdigest()
    found: list[Finding] = []
    if expect and expect.strip().lower() != digest:
        found.append(find("archive-digest", Place(name), name=name, digest=digest, expected=expect.strip().lower()))
    try:
        reading = read_best(data, name)
    except Refused as refused:
        return Verdict((*found, refused.finding), digest, 0)
    found += reading.findings
    if not reading.findings and pack_files({part.name: part.data or b"" for part in reading.parts}) != data:
        found.append(find("archive-container", Place(name), name=name, reason=_AROUND if reading.by_table else _ASTRAY))
    guilty = {finding.place.file for finding in reading.findings}
    return Verdict(tuple(found), digest, sum(f"{name}/{part.name}" not in guilty for part in reading.parts))


def read_best(data: bytes, name: str) -> ZipReading:
    """The reading of an archive that accuses least. Raises Refused for what cannot be read in any way."""
    judged = []
    for by_table, parts in read_parts(data, name):
        is_listed = any(part.name == sums.NAME and part.is_sound for part in parts)
        judged.append(ZipReading(parts, tuple(_judge(parts, name, by_table)), by_table, is_listed))
    return min(judged, key=lambda one: len(one.findings))


def _judge(parts: Sequence[PackedFile], name: str, by_table: bool) -> Iterator[Finding]:
    """What is wrong by one reading of the zip."""
    lists = [part for part in parts if part.name == sums.NAME]
    if not lists and not by_table and any(part.name == sums.ABOUT for part in parts):
        yield find("archive-cut", Place(name), name=name)
        return
    if len(lists) != 1 or lists[0].data is None:
        reason = "it has no list of digests" if not lists else "it has more than one list of digests"
        yield find("archive-kind", Place(name), name=name, reason=reason)
        return
    listed, bad = sums.read_sums(lists[0].data)
    if bad or not lists[0].is_sound:
        yield find("archive-altered", Place(f"{name}/{sums.NAME}"), file=sums.NAME)
    yield from _judge_files(parts, listed, name, trusted=lists[0].is_sound)


def _judge_files(parts: Sequence[PackedFile], listed: dict[str, str], name: str, *, trusted: bool) -> Iterator[Finding]:
    """Where the list itself is damaged, a file whose own sum in the zip is right is not accused by it."""
    files = [part for part in parts if part.name != sums.NAME]
    seen: set[str] = set()
    for part in files:
        place = Place(f"{name}/{part.name}")
        if part.name in seen or (part.name not in listed and (trusted or not part.is_sound)):
            yield find("archive-added", place, file=part.name)
        elif part.name in listed and _digest(part) != listed[part.name] and (trusted or not part.is_sound):
            yield find("archive-altered", place, file=part.name)
        seen.add(part.name)
    if trusted:
        for path in listed:
            if path not in seen:
                yield find("archive-missing", Place(f"{name}/{path}"), file=path)
        yield from _judge_order([part.name for part in parts], [*listed, sums.NAME], name)


def _judge_order(found: list[str], wanted: list[str], name: str) -> Iterator[Finding]:
    """The files that stand elsewhere than in the list, those left out that are missing or added."""
    there = [path for path in dict.fromkeys(found) if path in wanted]
    due = [path for path in wanted if path in there]
    for path, other in zip(there, due, strict=True):
        if path != other:
            yield find("archive-reordered", Place(f"{name}/{path}"), file=path)


def _digest(part: PackedFile) -> str:
    return hashlib.sha256(part.data).hexdigest() if part.data is not None else ""
