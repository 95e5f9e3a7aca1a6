"""A revision put into one archive, and the line of those that lie in a folder."""

from collections.abc import Mapping, Sequence
from pathlib import Path, PurePath

from paperwork import limits
from paperwork.archive import (
    Edition,
    Revision,
    is_archive,
    line_up,
    make_archive,
    make_public,
    read_revision,
    refuse_names,
)
from paperwork.archive.history import History
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.finding import Finding, find
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.output import safe_name
from paperwork.place import Place
from paperwork.reading import Reading
from paperwork.revisions import make_edition, read_carried


@frozen
class Keepsake:
    """An archive as bytes, and what is in it; `show` and `findings` are of the show file as it is kept."""

    data: bytes
    record: Edition
    show: Show
    findings: tuple[Finding, ...]


def keep_revision(
    reading: Reading, inputs: Mapping[str, bytes], name: str, *, venue: str, history: History, made: str = ""
) -> Keepsake:
    """The archive of a show that was read of the file `name`; without `inputs` a public one, without names and notes.

    Where something else is kept in place of that file, what is kept is what must give the show again. Raises Refused
    where it does not, where the archive would be too large, and where a public one would hold a name after all.
    """
    if inputs and PurePath(carried := next(iter(inputs))).suffix != PurePath(name).suffix:
        reading = read_carried(inputs, carried, venue=venue)
    if reading.show is None:
        raise Refused(reading.findings[0])
    public = not inputs
    record = make_edition(reading.show, reading.findings, inputs, public=public, history=history, made=made)
    data = make_archive(record)
    if len(data) > limits.ARCHIVE_BYTES:
        raise Refused(find("archive-large", Place(name), most=f"{limits.ARCHIVE_BYTES:,}"))
    if public:
        refuse_names(data, make_public(reading.show)[1], name)
    return Keepsake(data, record, reading.show, reading.findings)


def name_archive(stem: str, show: Show, *, public: bool = False) -> str:
    """The name of its file, with venue and revision in it as far as a file can carry them."""
    revision = "".join(c if c.isalnum() or c in "-_." else "-" for c in show.production.revision)
    venue = show.at_venue and safe_name(show.at_venue)
    return "-".join(filter(None, (stem, venue, revision, "public" if public else ""))) + ".zip"


def line_folder(folder: Path, name: str) -> tuple[Sequence[tuple[Revision, str]], list[Finding]]:
    """The line of revisions of the archives in a folder, and what is wrong; other files in it are passed over."""
    found, wrong = [], []
    paths = sorted(folder.glob("*.zip"))
    if len(paths) > limits.ARCHIVES:
        wrong.append(find("archives-many", Place(name), name=name, most=limits.ARCHIVES))
    for path in paths[: limits.ARCHIVES]:
        try:
            data = load_file(path, str(path), most=limits.ARCHIVE_BYTES)
            if is_archive(data):
                found.append(read_revision(data, path.name))
        except Refused as refused:
            wrong.append(refused.finding)
    return line_up(found), wrong
