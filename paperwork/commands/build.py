"""`paperwork build SHOW`: every paper whose facts exist, into one folder, all or none."""

from dataclasses import replace
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Any

import click

from paperwork import limits
from paperwork.files.refusal import Refused
from paperwork.files.sniff import load_file
from paperwork.model import Show
from paperwork.pipeline import make_papers
from paperwork.reading import Reading, has_errors, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import ON, VENUE, choose_folder, choose_labels, label_options
from paperwork.terminal.publishing import publish_papers
from paperwork.terminal.report import format_findings
from paperwork.terminal.sides import format_reprint, read_side
from paperwork.text.names import hint

if TYPE_CHECKING:
    from collections.abc import Callable

    from paperwork.render.pdf.pdfa import Attachment
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Side

FOLDERS = ("rack", "wardrobe", "production")


@click.command(
    epilog=(
        "Examples:  paperwork build show.yaml  |  paperwork build show.yaml -o tonight --for rack  |  "
        "paperwork build show.yaml --only pack-labels --start 8  |  paperwork build show.yaml --since last-week.yaml --start 8"
    )
)
@click.argument("show", type=click.Path())
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="Folder for the papers.  [default: SHOW-papers, beside SHOW; SHOW-VENUE-papers at a venue, SHOW-PERFORMANCE-papers of one performance; SHOW-selection for a part]",
)
@click.option("--for", "folders", type=click.Choice(FOLDERS), multiple=True, help="Only the papers of one reader.")
@click.option("--only", help="Only these papers, by name, with commas.")
@label_options
@VENUE
@ON
@click.option(
    "--since", type=click.Path(), help="An earlier revision: print the change list, and only what changed since."
)
@click.option(
    "--since-venue",
    default=None,
    help="The venue that a show file after --since was printed for.  [default: the home house]",
)
@click.option("--blank", is_flag=True, help="Blank forms too, for a day on which nothing can be printed.")
@click.option("--quiet", "-q", is_flag=True, help="Say what is wrong, and nothing of what was printed.")
@click.option("--strict", is_flag=True, help="Print nothing while there are errors.")
@click.pass_context
def command(
    context: click.Context,
    /,
    show: str,
    output: str | None,
    folders: tuple[str, ...],
    only: str | None,
    venue: str,
    on: str,
    since: str | None,
    since_venue: str | None,
    blank: bool,
    quiet: bool,
    strict: bool,
    **labels: Any,
) -> Outcome:
    """Print every paper whose facts SHOW holds.

    Pages that show something unresolved are stamped; a frequency that is not certain is a blank, without a label. The
    papers of each venue have a folder of their own.
    """
    names, wrong = _read_names(only, bool(on and since))
    if wrong:
        return Outcome(aside=wrong, code=2)
    reading, given = read_show(Path(show), show, venue=venue, on=on), context.obj or {}
    aside = format_findings(reading.findings, "text") if reading.findings else ""
    if reading.show is None or (strict and has_errors(reading.findings)):
        return Outcome(aside=f"{aside}no papers were printed\n", code=1 if reading.readable else 2)
    made = given.get("made", "")
    chosen = {"only": names, "folders": frozenset(folders), "made": made, "labels": choose_labels(**labels)}
    if since:
        folder = choose_folder(output, show, "changes", reading.show.at_venue)
        outcome = _build_since(since, since_venue, (reading, Path(show).name), folder, chosen)
        return replace(outcome, text="" if quiet else outcome.text)
    attached, aside = _attach(Path(show), show, reading.show) if not on else ((), "")
    press = _make_press(given.get("printing"))
    papers = make_papers(reading.show, reading.findings, blank=blank, attached=attached, press=press, **chosen)
    kind = "selection" if names or folders else "papers"
    outcome = publish_papers(choose_folder(output, show, kind, reading.show.edition), papers, reading.show)
    return replace(outcome, text="" if quiet else outcome.text, aside=aside + outcome.aside)


def _make_press(printing: "Callable[[str, int], None] | None") -> "Press | None":
    """A press that says what it prints; None where nobody watches."""
    if printing is None:
        return None
    from paperwork.render.pdf.press import Press

    return Press(printing)


def _attach(path: Path, name: str, show: Show) -> "tuple[tuple[Attachment, ...], str]":
    """What the show book carries, so that it can be restored from it; nothing, and why, where a file cannot go along."""
    from paperwork.archive import attach_inputs
    from paperwork.revisions import gather_inputs

    try:
        return attach_inputs(gather_inputs(path, name, show), show.at_venue), ""
    except Refused as refused:
        return (), f"the show book carries no files: {refused.finding.text}\n"


def _build_since(
    since: str, since_venue: str | None, read: tuple[Reading, str], folder: Path, chosen: dict[str, Any]
) -> Outcome:
    """The change list and what changed, into a folder of its own: the papers of the whole show stay where they are."""
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Side, compare_revisions, make_since

    reading, name = read
    if reading.show is None:
        return Outcome(code=1)
    new = Side(reading.show, reading.findings, name)
    old = read_side(since, since_venue or "")
    if isinstance(old, Outcome):
        return old
    press = Press()
    compared = compare_revisions(old, new, press=press)
    outcome = publish_papers(folder, make_since(compared, press=press, **chosen), new.show)
    lines = [*_say_house(since, since_venue, old, new), *format_reprint(compared)]
    text = "".join(f"{line}\n" for line in lines) if outcome.text else ""
    return Outcome(outcome.text + text, outcome.aside, outcome.code)


def _say_house(since: str, since_venue: str | None, old: "Side", new: "Side") -> list[str]:
    """Which house the earlier revision was printed for, where the file does not say it and it could be another."""
    from paperwork.revisions import is_show_file

    house = old.show.at_venue or "the home house"
    if not is_show_file(load_file(Path(since), since, most=limits.ARCHIVE_BYTES)):
        return [f"{since} was printed for {house}: --since-venue is for show files alone"] if since_venue else []
    venue = new.show.at_venue
    if since_venue is not None or not venue:
        return []
    return [f"{since} is taken as printed for {house}; if it was for {venue}, add --since-venue {quote(venue)}"]


def _read_names(only: str | None, is_both: bool) -> tuple[frozenset[str], str]:
    """The papers that are named, and what is wrong with what was asked: a comparison is of whole runs."""
    if is_both:
        return frozenset(), "--since compares whole runs: leave out --on, or --since\n"
    from paperwork.sheets import SHEETS
    from paperwork.sheets.book import NAME as BOOK

    known = [*(paper.name for paper in SHEETS), BOOK]
    names = [name.strip() for name in (only or "").split(",") if name.strip()]
    for name in names:
        if name not in known:
            return (
                frozenset(),
                f"there is no paper {name}{hint(name, known) or '.'} The papers are {', '.join(known)}.\n",
            )
    return frozenset(names), ""
