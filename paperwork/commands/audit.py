"""`paperwork audit SHOW PHOTO...`: photographs of the mic table or the label tray, held against the show."""

from collections.abc import Iterator
from pathlib import Path

import click

from paperwork.commands import Outcome, name_extra
from paperwork.commands.report import format_findings
from paperwork.files.refusal import Refused
from paperwork.reading import read_show


@click.command(
    epilog="Examples:  paperwork audit show.yaml table.jpg  |  paperwork audit show.yaml tray1.jpg tray2.jpg --each 2",
)
@click.argument("show", type=click.Path())
@click.argument("photos", type=click.Path(), nargs=-1, required=True)
@click.option(
    "--each",
    type=click.IntRange(1, 9),
    default=1,
    show_default=True,
    help="Labels of one pack that a photograph may show.",
)
@click.option("--venue", default="", help="The show as it is in this venue, by its name in the section venues.")
def command(show: str, photos: tuple[str, ...], each: int, venue: str) -> Outcome:
    """Read every QR code in PHOTOS, and say which packs of SHOW are there.

    A pack is present, missing, foreign, doubled in one photograph, or carries a label that is out of date. Exit code 0
    where all are there, 1 where something is not as it should be, 2 where a file could not be read.
    """
    from paperwork import limits
    from paperwork.audit import compare, list_labels, read_photo
    from paperwork.files.sniff import load_file

    reading = read_show(Path(show), show, venue=venue)
    if reading.show is None:
        return Outcome(aside=format_findings(reading.findings, "text"), code=1 if reading.readable else 2)
    seen, aside = {}, ""
    for photo in photos:
        try:
            seen[photo] = read_photo(load_file(Path(photo), photo, most=limits.PHOTO_BYTES), photo)
        except Refused as refused:
            return Outcome(aside=format_findings((refused.finding,), "text"), code=2)
        except ModuleNotFoundError as missing:
            return Outcome(aside=name_extra(missing, "audit", "reading photographs"), code=2)
        aside += f"{photo}: {len(seen[photo])} code{'s' if len(seen[photo]) != 1 else ''} read\n"
    labels = list_labels(reading.show, reading.findings)
    audit = compare(labels, seen, each)
    return Outcome("\n".join(_tell(audit, len(labels))) + "\n", aside, int(not audit.is_whole))


def _tell(audit, count: int) -> Iterator[str]:
    yield f"{len(audit.present)} of {count} packs are there with a good label"
    if audit.missing:
        yield f"missing: {', '.join(audit.missing)}"
    for number, text in audit.stale:
        yield f"out of date: {number} (its label says {text}; print it again)"
    for number, photo, times in audit.doubled:
        yield f"doubled: {number} stands {times} times in {photo}"
    for text in audit.foreign:
        shown = text if len(text) <= 60 else text[:59] + "…"
        yield f"foreign: {shown!r} is no label of this show"
