"""`paperwork archive SHOW`: one file that keeps a revision, so that it can be proved and rebuilt years later."""

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

import click

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.finding import Finding, find
from paperwork.model import Show
from paperwork.pipeline import make_papers
from paperwork.place import Place
from paperwork.reading import has_errors, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import VENUE
from paperwork.terminal.report import format_findings

if TYPE_CHECKING:
    from paperwork.archive import Edition

History: TypeAlias = tuple[dict[str, str], ...]
"""What each earlier revision says of itself, the oldest first."""


@click.command(
    epilog=(
        "Examples:  paperwork archive show.yaml  |  paperwork archive show.yaml -o glass-ferry-C.zip --after glass-ferry-B.zip  |  "
        "paperwork archive show.yaml --public"
    )
)
@click.argument("show", type=click.Path())
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="The archive.  [default: SHOW-REVISION.zip, beside SHOW; SHOW-VENUE-REVISION.zip at a venue]",
)
@click.option("--public", is_flag=True, help="Leave out names, private notes and the show file; keep roles.")
@click.option("--after", type=click.Path(), help="Archive of the revision before: its history is carried on.")
@VENUE
@click.pass_context
def command(
    context: click.Context, show: str, output: str | None, public: bool, after: str | None, venue: str
) -> Outcome:
    """Put a revision of SHOW into one archive: its files byte for byte, its papers, facts, findings and digests.

    An archive is never replaced: another revision is another file. It holds the papers of the run as a whole, and its
    performances as facts; papers of one performance are printed by `build --on`.
    """
    from paperwork.archive import make_archive

    path = Path(show)
    reading = read_show(path, path.name, venue=venue)
    aside = format_findings(reading.findings, "text") if reading.findings else ""
    if reading.show is None:
        return Outcome(aside=f"{aside}nothing was archived\n", code=1 if reading.readable else 2)
    try:
        history = _read_history(after) if after else ()
        made = (context.obj or {}).get("made", "")
        record = _record(reading.show, reading.findings, path, public=public, history=history, made=made)
    except Refused as refused:
        return Outcome(aside=f"{format_findings((refused.finding,), 'text')}nothing was archived\n", code=2)
    data = make_archive(record)
    if len(data) > limits.ARCHIVE_BYTES:
        large = find("archive-large", Place(path.name), most=f"{limits.ARCHIVE_BYTES:,}")
        return Outcome(aside=f"{format_findings((large,), 'text')}nothing was archived\n", code=2)
    target = Path(output) if output else _default_file(path, reading.show, public)
    return _write(target, data, record, aside, int(has_errors(reading.findings)))


def _record(
    show: Show, findings: tuple[Finding, ...], path: Path, *, public: bool, history: History, made: str
) -> "Edition":
    from paperwork.archive import Edition, attach_inputs, make_public
    from paperwork.revisions import gather_inputs

    removed: tuple[str, ...] = ()
    inputs: Mapping[str, bytes] = {}
    if public:
        show, secrets = make_public(show)
        findings, removed = secrets.hide_findings(findings), secrets.removed
        history = tuple({**one, "reason": secrets.hide(one["reason"])} for one in history)
    else:
        inputs = gather_inputs(path, path.name, show)
    papers = make_papers(show, findings, made=made, attached=attach_inputs(inputs, show.at_venue), pictured=False)
    if public:
        findings = secrets.hide_findings(papers.findings)
    printed = (papers.files, papers.printed, papers.missing)
    findings = findings if public else papers.findings
    return Edition(show, findings, *printed, inputs, show.at_venue, public, removed, history)


def _read_history(after: str) -> History:
    """What the archive before says of the revisions up to its own."""
    from paperwork.archive import read_revision
    from paperwork.archive.inputs import read_about
    from paperwork.files.sniff import load_file

    data = load_file(Path(after), after, most=limits.ARCHIVE_BYTES)
    listed = read_about(data, after).get("history", [])
    earlier = [entry for entry in listed if isinstance(entry, dict)] if isinstance(listed, list) else []
    one = read_revision(data, Path(after).name)
    own = {key: getattr(one, key) for key in ("revision", "revised", "reason", "fingerprint")} | {"sha256": one.digest}
    return (*({key: str(value) for key, value in entry.items()} for entry in earlier), own)


def _default_file(path: Path, show: Show, public: bool) -> Path:
    """Beside the show file, with venue and revision in the name as far as a file can carry them."""
    from paperwork.output import safe_name

    revision = "".join(c if c.isalnum() or c in "-_." else "-" for c in show.production.revision)
    venue = show.at_venue and safe_name(show.at_venue)
    return path.with_name("-".join(filter(None, (path.stem, venue, revision, "public" if public else ""))) + ".zip")


def _write(target: Path, data: bytes, record: "Edition", aside: str, code: int) -> Outcome:
    import hashlib

    from paperwork.output import OutputError, write_new

    digest = hashlib.sha256(data).hexdigest()
    said = ""
    try:
        write_new(target, data)
    except OutputError as error:
        if not (os.path.isfile(target) and target.stat().st_size == len(data) and target.read_bytes() == data):
            return Outcome(aside=f"{aside}{error}\n", code=2)
        said = f"{target} was there already, with the same bytes\n"
    held = f"{len(record.inputs)} {'file' if len(record.inputs) == 1 else 'files'} that it was made from"
    if record.public:
        held = "; ".join(f"left out: {what}" for what in record.removed)
    lines = (
        f"{target}  ({len(record.printed)} papers, {held})",
        f"sha256 {digest}",
        f"keep that digest elsewhere: paperwork verify {target} --expect {digest}",
    )
    return Outcome(said + "\n".join(lines) + "\n", aside, code)
