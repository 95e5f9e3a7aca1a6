"""`paperwork watch SHOW`: the papers follow the show file, save by save."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from paperwork.output import OutputError
from paperwork.reading import read_show
from paperwork.terminal import Outcome, name_extra, plain
from paperwork.terminal.options import ON, SEVERAL, VENUE, choose_folder
from paperwork.terminal.publishing import CUT_OFF
from paperwork.terminal.report import format_findings, summarise

if TYPE_CHECKING:
    from paperwork.watch import WatchLook

SHOWN = 12
"""Changes and papers that are listed one by one; the rest are counted."""


@click.command(epilog="Examples:  paperwork watch show.yaml  |  paperwork watch show.xlsx -o papers")
@click.argument("show", type=click.Path())
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="Folder for the papers.  [default: SHOW-papers, with venue and performance in its name]",
)
@VENUE
@ON
@click.pass_context
def command(context: click.Context, show: str, output: str | None, venue: str, on: str) -> Outcome:
    """Print the papers of SHOW again whenever it is saved, and say what changed. Ctrl-C ends it.

    Only what changed is written. While SHOW cannot be printed, the papers stay as they were. So they do after a save
    that lost half of SHOW, for 15 seconds or until the next save.
    """
    from paperwork.watch import Follower, follow, print_with_memory

    path = Path(show)
    reading = read_show(path, show, venue=venue, on=on)
    unknown = {"venue-unknown", "performance-unknown"}
    if not os.path.isfile(path) or any(finding.code in unknown for finding in reading.findings):
        return Outcome(aside=format_findings(reading.findings, "text"), code=2)
    if reading.show and reading.show.is_of_days:
        return Outcome(aside=f"{SEVERAL.format(on=on)}\n", code=2)
    folder = choose_folder(
        output, show, "papers", reading.show.edition if reading.show else " ".join((venue, on)).strip()
    )
    printer = print_with_memory((context.obj or {}).get("made", ""))
    try:
        follower = Follower(path, show, folder, venue=venue, on=on, printer=printer)
        follow(follower, lambda found: click.echo(plain("\n".join(list_lines(found))) + "\n"))
    except ModuleNotFoundError as missing:
        return Outcome(aside=name_extra(missing, "page", "watching a file"), code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    except KeyboardInterrupt:
        return Outcome("stopped watching\n")
    return Outcome()


def list_lines(found: "WatchLook") -> Iterator[str]:
    """One save in lines: findings, facts that changed, papers that changed."""
    from paperwork.watch import DOUBTED_S

    if found.findings and not found.doubt:
        yield format_findings(found.findings, "text").rstrip("\n")
    if found.report is None:
        yield "the papers stay as they were" + (f": {found.doubt}" if found.doubt else "")
        if found.doubt:
            yield f"if that is meant, save again, or wait {DOUBTED_S} seconds"
        return
    if found.report.earlier:
        yield CUT_OFF[found.report.earlier]
    if found.papers and not found.papers.findings:
        yield summarise(())
    lines = [f"{entry.sign}: {entry.what}  {entry.field}  {entry.old} → {entry.new}" for entry in found.entries]
    yield from _clip(lines, "changes")
    written = [path for path in found.report.written if path.endswith(".pdf")]
    yield from _clip([f"printed {path}" for path in written], "papers")
    yield from (f"removed {path}" for path in found.report.removed if path.endswith(".pdf"))
    if found.papers is None:
        yield "the show book and the index follow"
    elif not written and not found.follows:
        yield "no paper changed"


def _clip(lines: list[str], what: str) -> Iterator[str]:
    yield from lines[:SHOWN]
    if len(lines) > SHOWN:
        yield f"and {len(lines) - SHOWN} {what} more"
