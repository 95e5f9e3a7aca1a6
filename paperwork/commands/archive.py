"""`paperwork archive SHOW`: one file that keeps a revision, so that it can be proved and rebuilt years later."""

import os
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

import click

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.files.sniff import ReadOnce, load_file
from paperwork.reading import has_errors, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import VENUE
from paperwork.terminal.report import format_findings

if TYPE_CHECKING:
    from paperwork.archive import Edition


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
@click.option("--public", is_flag=True, help="Without names, private notes and the show file; roles stay.")
@click.option("--after", type=click.Path(), help="The archive of the revision before, to carry on its history.")
@VENUE
@click.pass_context
def command(
    context: click.Context, show: str, output: str | None, public: bool, after: str | None, venue: str
) -> Outcome:
    """Keep a revision of SHOW in one archive: its files byte for byte, its papers, facts, findings and digests.

    An archive is never replaced: the next revision is another file. It has the papers of the whole run; `build --on`
    prints those of one performance.
    """
    from paperwork.archive.history import carry_on
    from paperwork.editions import keep_revision, name_archive
    from paperwork.revisions import gather_inputs, name_kept

    path, opened = Path(show), ReadOnce()
    kept = name_kept(path)
    reading = read_show(path, kept, venue=venue, load=opened.load)
    aside = format_findings(reading.findings, "text") if reading.findings else ""
    if reading.show is None:
        return Outcome(aside=f"{aside}nothing was archived\n", code=1 if reading.readable else 2)
    try:
        history = carry_on(load_file(Path(after), after, most=limits.ARCHIVE_BYTES), Path(after).name) if after else ()
        made = (context.obj or {}).get("made", "")
        inputs = {} if public else gather_inputs(path, path.name, reading.show, opened.load)
        keepsake = keep_revision(reading, inputs, path.name, venue=venue, history=history, made=made)
    except Refused as refused:
        return Outcome(aside=f"{format_findings((refused.finding,), 'text')}nothing was archived\n", code=2)
    target = Path(output) if output else path.with_name(name_archive(path.stem, keepsake.show, public=public))
    renamed = _say_carried(path, next(iter(inputs), path.name))
    return _write(target, keepsake.data, keepsake.record, aside + renamed, int(has_errors(keepsake.findings)))


def _say_carried(path: Path, carried: str) -> str:
    """What is said of a show file that is kept under another name, or in whose place what is read of it is kept."""
    if carried == path.name:
        return ""
    is_read = PurePath(carried).suffix != path.suffix
    why = "it has personal data, and only what was read goes along" if is_read else "some disks refuse its name"
    return f"{path.name} is kept as {carried}, since {why}\n"


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
        f"keep this digest somewhere else; to use it: paperwork verify {target} --expect {digest}",
    )
    return Outcome(said + "\n".join(lines) + "\n", aside, code)
