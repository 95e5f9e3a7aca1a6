"""`paperwork audit SHOW PHOTO...`: photographs of the mic table or the label tray, held against the show."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

import click

from paperwork.files.refusal import Refused
from paperwork.reading import read_show
from paperwork.terminal import Outcome, name_extra
from paperwork.terminal.options import ON, SEVERAL, VENUE
from paperwork.terminal.report import format_findings

if TYPE_CHECKING:
    from paperwork.audit import Audit, Seen

MOST_EACH = 9
"""Labels of one pack that lie side by side on purpose, at most: a choice of this project."""


@click.command(
    epilog="Examples:  paperwork audit show.yaml table.jpg  |  paperwork audit show.yaml tray1.jpg tray2.jpg --each 2"
)
@click.argument("show", type=click.Path())
@click.argument("photos", type=click.Path(), nargs=-1, required=True)
@click.option(
    "--each",
    type=click.IntRange(1, MOST_EACH),
    default=1,
    show_default=True,
    help="Labels of one pack in one photograph: 2 if pack and pouch lie side by side.",
)
@VENUE
@ON
def command(show: str, photos: tuple[str, ...], each: int, venue: str, on: str) -> Outcome:
    """Read every QR code in PHOTOS, and say which packs of SHOW are there.

    A pack is there, missing, foreign, doubled in one photograph, or has a label that is out of date. While a code
    cannot be read, no pack is called missing: go closer and take another. Exit code 0: all are there. 1: something is
    wrong. 2: a file could not be read.
    """
    from paperwork import limits
    from paperwork.audit import compare, describe_packs, list_labels, read_photo
    from paperwork.files.sniff import load_file

    reading = read_show(Path(show), show, venue=venue, on=on)
    if reading.show is None:
        return Outcome(aside=format_findings(reading.findings, "text"), code=1 if reading.readable else 2)
    if reading.show.is_of_days:
        return Outcome(aside=f"{SEVERAL.format(on=on)}\n", code=2)
    seen: dict[str, tuple[Seen, ...]] = {}
    aside, is_read = "", True
    for photo in photos:
        try:
            seen[photo] = tuple(read_photo(load_file(Path(photo), photo, most=limits.PHOTO_BYTES), photo))
        except Refused as refused:
            seen[photo], is_read = (), False
            aside += format_findings((refused.finding,), "text")
            continue
        except ModuleNotFoundError as missing:
            return Outcome(aside=name_extra(missing, "audit", "reading photographs"), code=2)
        count = sum(bool(one.text) for one in seen[photo])
        aside += f"{photo}: {count} code{'s' if count != 1 else ''} read\n"
    labels = list_labels(reading.show, reading.findings)
    audit = compare(labels, seen, each)
    return Outcome(
        "\n".join(list_lines(audit, len(labels), len(photos), describe_packs(reading.show))) + "\n",
        aside,
        int(not audit.is_whole) if is_read else 2,
    )


def list_lines(audit: "Audit", count: int, photos: int, who: Mapping[str, str] | None = None) -> Iterator[str]:
    """What came of it in lines, what is well first; `count` packs were looked for in so many photographs.

    `who` says of a number who has it and where it is.
    """
    who = who or {}
    yield f"{len(audit.present)} of {count} packs are there with a good label"
    if audit.missing:
        yield f"missing: {', '.join(audit.missing)}"
        yield from _list_who(audit.missing, who)
    for photo, part, blurred in audit.blurred:
        where = f"{photo}, {part}" if part else photo
        codes = "no code" if not blurred else f"{blurred} code{'s' if blurred > 1 else ''} here"
        yield f"{where}: {codes} {'can' if not blurred else 'cannot'} be read: go closer"
    if audit.unknown:
        yield f"not known yet, perhaps among those: {', '.join(audit.unknown)}"
        yield from _list_who(audit.unknown, who)
    for number, text in audit.stale:
        yield f"out of date: {number} (its label says {text}; print it again)"
        yield from _list_who((number,), who)
    for number, photo, times in audit.doubled:
        yield f"doubled: {number} is {times} times in {photo}"
    if audit.doubled:
        yield from _teach_each(max(times for _, _, times in audit.doubled), photos)
    for text in audit.foreign:
        shown = text if len(text) <= 60 else text[:59] + "…"
        yield f"foreign: {shown!r} is not a label of this show"


def _list_who(numbers: Iterable[str], who: Mapping[str, str]) -> Iterator[str]:
    yield from (f"  {number}: {who[number]}" for number in numbers if who.get(number))


def _teach_each(most: int, photos: int) -> Iterator[str]:
    """What to do where labels lie twice on purpose."""
    if photos > 1:
        yield "photographs may overlap: only labels within one photograph count as doubled"
    if most <= MOST_EACH:
        yield f"if packs have {most} labels each on purpose (the pack and its pouch, say), add --each {most}"
