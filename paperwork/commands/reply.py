"""`paperwork reply SHOW TABLE -o NEW`: a coordinator's answers out of a table, into a new revision of the show."""

from collections.abc import Iterator
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING

import click

from paperwork.files.refusal import Refused
from paperwork.files.sniff import TABLES, load_file, sniff
from paperwork.finding import Edit
from paperwork.intake.source import read_answered
from paperwork.overlay import state_in_venue
from paperwork.terminal import Outcome
from paperwork.terminal.options import choose_new
from paperwork.terminal.report import format_findings, summarise
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_mhz

if TYPE_CHECKING:
    from paperwork.coordinate.reply import Answer, ComparedReply
    from paperwork.intake.reply import ReplyTable
    from paperwork.model import Show


@click.command(epilog="Example:  paperwork reply show.yaml reply.csv -o show-d.yaml")
@click.argument("show", type=click.Path())
@click.argument("table", type=click.Path())
@click.option("-o", "--output", "new", required=True, type=click.Path(), help="The new file; it must not be there yet.")
@click.option("--nearest", is_flag=True, help="If a grant is between two steps of a radio, take the nearest step.")
@click.option("--venue", default="", help="The answers are for this venue, and go into the section venues.")
def command(show: str, table: str, new: str, nearest: bool, venue: str) -> Outcome:
    """Read the coordinator's answers from TABLE, list what differs, and write them as `granted` to a new file.

    TABLE is the request with its last column filled in, or a table of the coordinator's own, .csv or .xlsx. Rows are
    matched by name. `no` is a refusal; a blank is no answer, and changes nothing.
    """
    from paperwork.coordinate.grants import remember_refused
    from paperwork.coordinate.reply import compare_reply, list_edits
    from paperwork.editing.edited import open_show
    from paperwork.output import OutputError, write_new
    from paperwork.reading import has_errors

    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    try:
        opened = open_show(Path(show), show, venue)
        held = opened.reading.show
        if held is None:
            return Outcome(aside=f"{format_findings(opened.reading.findings, 'text')}nothing was written\n", code=1)
        read = _read_table(table, held)
        found = compare_reply(held, read.rows, nearest=nearest)
        faults = (*read.faults, *found.faults)
        lines = [*read.lines, *found.lines, *_describe(found, new, venue, nearest=nearest)]
        if faults:
            return Outcome("", "".join(f"{line}\n" for line in (*read.lines, *faults, "nothing was written")), 1)
        edits: list[Edit] = list(list_edits(found.answers))
        lost = (one.record.hz for one in found.answers if one.section == "backups" and one.refused)
        edits += remember_refused(held, lost)
        edits = state_in_venue(held.venues.values(), held.at_venue, edits) if venue else edits
        if not edits:
            lines.append(f"{new} was not written: the show has all of this already")
            return Outcome("".join(f"{line}\n" for line in lines))
        made = opened.make(edits)
        write_new(Path(new), made.data)
    except Refused as refused:
        return Outcome(aside=format_findings([refused.finding], "text") + "nothing was written\n", code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    lines.append(f"{new} written; {summarise(made.reading.findings)}")
    return Outcome("".join(f"{line}\n" for line in lines), code=int(has_errors(made.reading.findings)))


def _read_table(table: str, show: "Show") -> "ReplyTable":
    from paperwork.intake.reply import ReplyTable, read_reply

    data = load_file(Path(table), table)
    kind, _ = sniff(data, table)
    book = read_answered(data, table, kind) if kind in TABLES else None
    if book is None:
        return ReplyTable((), (), (f"{table}: not a table of answers: save the reply as .csv or .xlsx",))
    from paperwork.coordinate.grants import list_backups

    return read_reply(book, [*show.channels, *show.others, *(one.id for one in list_backups(show))])


def _describe(found: "ComparedReply", new: str, venue: str, *, nearest: bool) -> Iterator[str]:
    """What is new, a line each, and what has to be done about it."""
    for answer in found.answers:
        if answer.is_new:
            yield _word(answer)
    for answer in found.answers:
        if answer.step:
            is_taken = nearest and answer.granted_hz != answer.row.granted_hz
            yield f"{answer.step}{' (taken, with --nearest)' if is_taken else ''}"
    if found.silent:
        yield f"no answer yet: {shorten_ids(found.silent)}"
    backups = [answer.record.id for answer in found.answers if answer.refused and answer.section == "backups"]
    if backups:
        yield f"refused: {', '.join(backups)}: none now; paperwork assign {quote(new)} -o PLAN finds another"
    refused = [answer.record.id for answer in found.answers if answer.refused and answer.section != "backups"]
    if refused:
        yield f"refused: {shorten_ids(refused)}: off the air now"
    moved = [one.record.id for one in found.answers if one.granted_hz not in (None, one.record.hz)]
    if moved:
        yield f"granted elsewhere: {shorten_ids(moved)}: set packs and receivers again"
    if any(answer.section == "channels" and answer.record.id in (*refused, *moved) for answer in found.answers):
        at = f" --venue {quote(venue)}" if venue else ""
        yield f"then: paperwork assign {quote(new)} -o PLAN --answered{at}, which sets what was granted and avoids what was refused"


def _word(answer: "Answer") -> str:
    from paperwork.coordinate.grants import asked_hz

    id, asked = answer.record.id, asked_hz(answer.record)
    was = f"{format_mhz(asked)} MHz" if asked is not None else "nothing"
    if answer.refused:
        return f"{id}: {was} asked, refused"
    granted = format_mhz(answer.granted_hz or 0)
    return f"{id}: {was} asked and granted" if answer.granted_hz == asked else f"{id}: {was} asked, {granted} granted"
