"""`paperwork build SHOW`: every paper whose facts exist, into one folder, all or none."""

import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from paperwork.commands import Outcome
from paperwork.commands.printers import choose_printer
from paperwork.commands.report import format_findings, summarise
from paperwork.files.refusal import Refused
from paperwork.model import Show
from paperwork.names import expand_ids, hint
from paperwork.pipeline import LabelChoice, Papers, make_papers
from paperwork.reading import has_errors, read_show
from paperwork.units import Doubt

if TYPE_CHECKING:
    from collections.abc import Callable

    from paperwork.render.pdf.pdfa import Attachment
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Side

FOLDERS = ("rack", "wardrobe", "production")


def _read_cells(_context: click.Context, _parameter: click.Parameter, value: str) -> tuple[int, ...]:
    try:
        return tuple(int(number) for number in expand_ids(value))
    except (Doubt, ValueError):
        raise click.BadParameter(f"{value} is not a list of numbers, as in 1,4,7-9") from None


@click.command(
    epilog=(
        "Examples:  paperwork build show.yaml  |  paperwork build show.yaml -o tonight --for rack  |  "
        "paperwork build show.yaml --only pack-labels --start 8  |  paperwork build show.yaml --since last-week.yaml --start 8"
    ),
)
@click.argument("show", type=click.Path())
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="Folder for the papers.  [default: SHOW-papers, beside SHOW; SHOW-selection for a part of them]",
)
@click.option("--for", "folders", type=click.Choice(FOLDERS), multiple=True, help="Only the papers of one reader.")
@click.option("--only", help="Only these papers, by name, with commas.")
@click.option("--stock", help="Label sheet, as a4-21-63.5x38.1 or letter-30-2.625x1.")
@click.option(
    "--start", type=click.IntRange(min=1), default=1, show_default=True, help="First free label on the sheet."
)
@click.option(
    "--blocked", default="", callback=_read_cells, help="Labels already peeled off the first sheet, as 4,7-9."
)
@click.option("--printer", default="", help="The printer of this name in printers.toml: its offset, stretch and dots.")
@click.option(
    "--printers", type=click.Path(), help="Another file of printers.  [default: printers.toml in your settings folder]"
)
@click.option(
    "--dpi",
    type=click.Choice(("203", "300", "600")),
    help="Dots per inch of the label printer.  [default: 300, or its own]",
)
@click.option("--proof", is_flag=True, help="Outline every label, for a proof on plain paper.")
@click.option("--venue", default="", help="The show as it is in this venue, by its name in the section venues.")
@click.option(
    "--since", type=click.Path(), help="An earlier revision: print the change list, and only what changed since."
)
@click.option("--blank", is_flag=True, help="Blank forms too, for the day on which nothing can be printed.")
@click.option("--quiet", "-q", is_flag=True, help="Tell findings, and nothing of what was printed and what was not.")
@click.option("--strict", is_flag=True, help="Print nothing while there are errors.")
@click.pass_context
def command(
    context: click.Context,
    show: str,
    output: str | None,
    folders: tuple[str, ...],
    only: str | None,
    stock: str | None,
    start: int,
    blocked: tuple[int, ...],
    printer: str,
    printers: str | None,
    dpi: str | None,
    proof: bool,
    venue: str,
    since: str | None,
    blank: bool,
    quiet: bool,
    strict: bool,
) -> Outcome:
    """Print every paper whose facts SHOW holds.

    Sheets that show something unresolved carry a stamp; a frequency that is not certain is printed as a blank and gets
    no label.
    """
    names, wrong = _read_names(only)
    if wrong:
        return Outcome(aside=wrong, code=2)
    reading = read_show(Path(show), show, venue=venue)
    told = format_findings(reading.findings, "text") if reading.findings else ""
    if reading.show is None or (strict and has_errors(reading.findings)):
        return Outcome(aside=f"{told}no papers were printed\n", code=1 if reading.readable else 2)
    labels, made = (
        LabelChoice(stock, start, blocked, choose_printer(printer, printers, int(dpi) if dpi else None), proof),
        (context.obj or {}).get("made", ""),
    )
    chosen = {"only": names, "folders": frozenset(folders), "labels": labels, "made": made}
    printing = (context.obj or {}).get("printing")
    if since:
        from paperwork.revisions import Side

        new = Side(reading.show, reading.findings, Path(show).name)
        outcome = _build_since(since, new, show, venue, Path(output) if output else None, chosen)
        return replace(outcome, text="") if quiet else outcome
    attached, aside = _attach(Path(show), show, reading.show)
    papers = make_papers(
        reading.show, reading.findings, blank=blank, attached=attached, press=_make_press(printing), **chosen
    )
    folder = Path(output) if output else default_folder(Path(show), whole=not names and not folders)
    outcome = publish_papers(folder, papers)
    return replace(outcome, text="" if quiet else outcome.text, aside=aside + outcome.aside)


def _make_press(printing: "Callable[[str, int], None] | None") -> "Press | None":
    """A press that tells what it prints; None where nobody is told."""
    if printing is None:
        return None
    from paperwork.render.pdf.press import Press

    return Press(printing)


def _attach(path: Path, name: str, show: Show) -> "tuple[tuple[Attachment, ...], str]":
    """What the show book carries, so that it can be restored from it; nothing, and why, where a file cannot go along."""
    from paperwork.archive import attach_inputs
    from paperwork.revisions import gather_inputs

    try:
        return attach_inputs(gather_inputs(path, name, show)), ""
    except Refused as refused:
        return (), f"the show book carries no files: {refused.finding.text}\n"


def _build_since(
    since: str, new: "Side", show: str, venue: str, output: Path | None, chosen: dict[str, Any]
) -> Outcome:
    """The change list and what changed, into a folder of its own: the papers of the whole show stay where they are."""
    from paperwork.commands.changes import format_reprint, read_side
    from paperwork.revisions import compare_revisions, make_since

    old = read_side(since, venue)
    if isinstance(old, Outcome):
        return old
    compared = compare_revisions(old, new)
    folder = output or Path(show).with_name(f"{Path(show).stem}-changes")
    outcome = publish_papers(folder, make_since(compared, **chosen))
    told = "".join(f"{line}\n" for line in format_reprint(compared))
    return Outcome(outcome.text + (told if outcome.text else ""), outcome.aside, outcome.code)


def default_folder(show: Path, *, whole: bool = True) -> Path:
    """Where papers go when nothing else is said: beside the show file, named after it. A part of them has its own folder,
    so that the whole set stays whole."""
    return show.with_name(f"{show.stem}-{'papers' if whole else 'selection'}")


def _read_names(only: str | None) -> tuple[frozenset[str], str]:
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


def publish_papers(folder: Path, papers: Papers, closing: Sequence[str] = ()) -> Outcome:
    """Put the papers into their folder, and say what was printed and what was not. `closing` stands in place of the word
    that all is well."""
    from paperwork.output import OutputError, publish

    aside = format_findings(papers.findings, "text") if papers.findings else ""
    if any(finding.row.stops for finding in papers.findings):
        return Outcome(aside=f"{aside}no papers were printed\n", code=2)
    try:
        report = publish(folder, papers.files)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    lines = [_line_of(folder, paper.path, paper.pages, paper.stamp) for paper in papers.printed]
    gone = sum(path.endswith(".pdf") for path in report.removed)
    lines += [f"{gone} paper{'s' if gone > 1 else ''} of an earlier run removed from {folder}"] if gone else []
    lines += _list_missing(papers.missing)
    lines.append(f"open {folder / 'index.html'}")
    lines += [] if papers.findings else closing or [summarise(papers.findings)]
    return Outcome("\n".join(lines) + "\n", aside, int(has_errors(papers.findings)))


def _list_missing(missing: Sequence[tuple[str, str]]) -> Iterable[str]:
    """A line for each thing that the show lacks, with all papers that need it."""
    by_need: dict[str, list[str]] = {}
    for name, needs in missing:
        by_need.setdefault(needs, []).append(name)
    for needs, names in sorted(by_need.items(), key=lambda pair: -len(pair[1])):
        yield textwrap.fill(
            f"not printed, no {needs}: {', '.join(names)}", 110, subsequent_indent="  ", break_on_hyphens=False
        )


def _line_of(folder: Path, path: str, pages: int, stamp: str) -> str:
    stamped = ", stamped" if stamp else ""
    return f"{folder / path}  ({pages} page{'s' if pages != 1 else ''}{stamped})"
