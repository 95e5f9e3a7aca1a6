"""`paperwork reply SHOW TABLE -o NEW`: a coordinator's answers out of a table, into a new revision of the show."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from paperwork.files.refusal import Refused
from paperwork.files.sniff import TABLES, load_file, sniff
from paperwork.finding import Edit
from paperwork.intake.source import read_book
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
@click.option("--nearest", is_flag=True, help="Where a grant is between two steps of a radio, take the nearest step.")
def command(show: str, table: str, new: str, nearest: bool) -> Outcome:
    """Read the coordinator's answers from TABLE, compare them with SHOW, and write them as `granted` to a new file.

    TABLE is the request with its last column filled in, or a table with the coordinator's own headings, .csv or .xlsx.
    Rows are matched by name. A refusal is `no`; a blank is no answer, and changes nothing.
    """
    from paperwork.coordinate.reply import compare_reply, list_edits
    from paperwork.output import OutputError, write_new
    from paperwork.reading import has_errors
    from paperwork.terminal.edited import open_show

    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    try:
        opened = open_show(Path(show), show)
        held = opened.reading.show
        if held is None:
            return Outcome(aside=f"{format_findings(opened.reading.findings, 'text')}nothing was written\n", code=1)
        read = _read_table(table, held)
        found = compare_reply(held, read.rows, nearest=nearest)
        faults = (*read.faults, *found.faults)
        lines = [*read.lines, *found.lines, *_describe(found, new, nearest=nearest)]
        if faults:
            return Outcome("", "".join(f"{line}\n" for line in (*read.lines, *faults, "nothing was written")), 1)
        edits: list[Edit] = list(list_edits(found.answers))
        if not edits:
            lines.append(f"{new} was not written: the show says all of this already")
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
    book = read_book(data, table, kind) if kind in TABLES else None
    if book is None:
        return ReplyTable((), (), (f"{table}: it is not a table of answers: save the reply as .csv or .xlsx",))
    return read_reply(book, [*show.channels, *show.others])


def _describe(found: "ComparedReply", new: str, *, nearest: bool) -> Iterator[str]:
    """What is new, a line each, and what has to be done about it."""
    from paperwork.coordinate.reply import describe_step

    for answer in found.answers:
        if answer.is_new:
            yield _word(answer)
    for text in filter(None, map(describe_step, found.answers)):
        yield f"{text}: {'taken' if nearest else 'ask whether that may be used; if so, run again with --nearest'}"
    if found.silent:
        yield f"no answer yet: {shorten_ids(found.silent)}"
    refused = [answer.channel.id for answer in found.answers if answer.refused]
    if refused:
        freed = " ".join(f"channels/{id}/mhz=" for id in refused)
        yield f"refused: {shorten_ids(refused)}: off the air now. For others, take them away: paperwork set {new} {freed} -o FREED"
        yield "then paperwork assign FREED -o PLAN, which does not give what was refused"


def _word(answer: "Answer") -> str:
    from paperwork.coordinate.reply import asked_hz

    id, asked = answer.channel.id, asked_hz(answer.channel)
    was = f"{format_mhz(asked)} MHz" if asked is not None else "nothing"
    if answer.refused:
        return f"{id}: {was} asked, refused"
    granted = format_mhz(answer.granted_hz or 0)
    return f"{id}: {was} asked and granted" if answer.granted_hz == asked else f"{id}: {was} asked, {granted} granted"
