"""`paperwork watch SHOW`: the papers follow the show file, save by save."""

import os
from collections.abc import Iterator
from pathlib import Path

import click

from paperwork.commands import Outcome, name_extra
from paperwork.commands.build import default_folder
from paperwork.commands.report import format_findings, summarise
from paperwork.commands.screen import plain
from paperwork.output import OutputError

SHOWN = 12
"""Changes and papers that are told one by one; the rest are counted."""


@click.command(epilog="Examples:  paperwork watch show.yaml  |  paperwork watch show.xlsx -o papers")
@click.argument("show", type=click.Path())
@click.option("-o", "--output", type=click.Path(), help="Folder for the papers.  [default: SHOW-papers, beside SHOW]")
@click.option("--venue", default="", help="The show as it is in this venue, by its name in the section venues.")
@click.pass_context
def command(context: click.Context, show: str, output: str | None, venue: str) -> Outcome:
    """Print the papers of SHOW again whenever it is saved, and say what changed. Ctrl-C ends it.

    Only files whose bytes change are written. While SHOW has errors that leave nothing to print, the papers stay as they
    were; a file that is half saved is waited for.
    """
    from paperwork.watch import Follower, follow, print_with_memory

    path = Path(show)
    if not os.path.isfile(path):
        from paperwork.reading import read_show

        return Outcome(aside=format_findings(read_show(path, show).findings, "text"), code=2)
    folder = Path(output) if output else default_folder(path)
    printer = print_with_memory((context.obj or {}).get("made", ""))
    try:
        follow(
            Follower(path, show, folder, venue=venue, printer=printer),
            lambda told: click.echo(plain("\n".join(tell(told))) + "\n"),
        )
    except ModuleNotFoundError as missing:
        return Outcome(aside=name_extra(missing, "page", "watching a file"), code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    except KeyboardInterrupt:
        return Outcome("stopped watching\n")
    return Outcome()


def tell(told) -> Iterator[str]:
    """One save in lines: findings, facts that changed, papers that changed."""
    if told.findings:
        yield format_findings(told.findings, "text").rstrip("\n")
    if not told.is_printed:
        yield "the papers stay as they were"
        return
    if told.papers and not told.papers.findings:
        yield summarise(())
    lines = [f"{entry.sign}: {entry.what}  {entry.field}  {entry.old} → {entry.new}" for entry in told.entries]
    yield from _clip(lines, "changes")
    written = [path for path in told.report.written if path.endswith(".pdf")]
    yield from _clip([f"printed {path}" for path in written], "papers")
    yield from (f"removed {path}" for path in told.report.removed if path.endswith(".pdf"))
    if told.papers is None:
        yield "the show book and the index follow"
    elif not written and not told.follows:
        yield "no paper changed"


def _clip(lines: list[str], what: str) -> Iterator[str]:
    yield from lines[:SHOWN]
    if len(lines) > SHOWN:
        yield f"and {len(lines) - SHOWN} {what} more"
