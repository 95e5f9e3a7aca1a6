"""`paperwork build SHOW`: every paper whose facts exist, into one folder, all or none."""

from dataclasses import replace
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Any

import click

from paperwork import limits
from paperwork.budget import keep_what_is_there
from paperwork.files.refusal import Refused
from paperwork.files.sniff import Load, ReadOnce, load_file
from paperwork.model import Show
from paperwork.output import OutputError, Spool
from paperwork.pipeline import is_book_wanted, make_papers
from paperwork.reading import Reading, has_errors, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import ON, VENUE, choose_folder, choose_labels, choose_part, label_options, part_options
from paperwork.terminal.publishing import publish_papers
from paperwork.terminal.report import format_findings
from paperwork.terminal.sides import format_reprint, read_side
from paperwork.text.names import hint, join_words

if TYPE_CHECKING:
    from collections.abc import Callable

    from paperwork.render.pdf.pdfa import Attachment
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Side

FOLDERS = ("rack", "wardrobe", "production")


@click.command(
    epilog=(
        "Examples:  paperwork build show.yaml  |  paperwork build show.yaml -o tonight --for rack  |  "
        "paperwork build show.yaml --only pack-labels --channels 05,11 --copies 1 --start 8  |  paperwork build show.yaml --since last-week.yaml --start 8"
    )
)
@click.argument("show", type=click.Path())
@click.option(
    "-o",
    "--output",
    type=click.Path(),
    help="Folder for the papers.  [default: SHOW-papers, beside SHOW; SHOW-VENUE-papers at a venue, SHOW-PERFORMANCE-papers of one performance; SHOW-selection for a part]",
)
@click.option("--for", "folders", type=click.Choice(FOLDERS), multiple=True, help="Only the papers for one reader.")
@click.option("--only", help="Only these papers, by name, as channel-chart,pack-labels.")
@click.option(
    "--pocket",
    "pockets",
    type=click.Choice(FOLDERS),
    multiple=True,
    help="One file for a phone with what a reader's papers say, instead of papers.",
)
@part_options
@label_options
@VENUE
@ON
@click.option(
    "--since", type=click.Path(), help="An earlier revision: print only what changed since, and the change list."
)
@click.option(
    "--since-venue", default=None, help="The venue that the file of --since was printed for.  [default: the home venue]"
)
@click.option("--blank", is_flag=True, help="Blank forms too, for a day without a printer.")
@click.option("--quiet", "-q", is_flag=True, help="Print only what is wrong on the screen.")
@click.option("--strict", is_flag=True, help="Print no papers while there are errors.")
@click.pass_context
def command(
    context: click.Context,
    /,
    show: str,
    output: str | None,
    folders: tuple[str, ...],
    only: str | None,
    pockets: tuple[str, ...],
    venue: str,
    on: str,
    since: str | None,
    since_venue: str | None,
    blank: bool,
    quiet: bool,
    strict: bool,
    **labels: Any,
) -> Outcome:
    """Print every paper that SHOW has facts for.

    What is unresolved is stamped, and a frequency in doubt is a blank. Each venue and performance has its own folder.
    """
    names, wrong = _read_names(only, mixed=bool(pockets and (folders or only or since or blank)))
    if wrong:
        return Outcome(aside=wrong, code=2)
    reading = read_show(Path(show), show, venue=venue, on=on, load=(load := ReadOnce().load))
    if reading.show is None or (strict and has_errors(reading.findings)):
        return _print_nothing(reading)
    names, wrong = _choose_of_run(reading.show, names, since)
    if wrong:
        return Outcome(aside=wrong, code=2)
    folder = choose_folder(output, show, _name_kind(since, names, folders, pockets), reading.show.edition)
    chosen = _choose(reading.show, names, folders, context.obj or {}, labels)
    if pockets:
        outcome = _build_pockets(reading.show, reading, folder, pockets)
    elif since:
        outcome = _build_since(since, since_venue, (reading, Path(show).name, on), folder, chosen)
    else:
        chosen |= {"blank": blank, "press": _make_press(context.obj)}
        outcome = _build_whole(reading.show, reading, folder, None if on else (show, load), chosen)
    return replace(outcome, text="" if quiet else outcome.text)


def _print_nothing(reading: Reading) -> Outcome:
    aside = format_findings(reading.findings, "text") if reading.findings else ""
    return Outcome(aside=f"{aside}no papers were printed\n", code=1 if reading.readable else 2)


def _name_kind(since: str | None, names: frozenset[str], folders: tuple[str, ...], pockets: tuple[str, ...]) -> str:
    return "pocket" if pockets else "changes" if since else "selection" if names or folders else "papers"


def _build_whole(
    show: Show, reading: Reading, folder: Path, source: "tuple[str, Load] | None", chosen: dict[str, Any]
) -> Outcome:
    """The papers of a run or of one performance; the book of a run carries its `source`."""
    bound = source if is_book_wanted(chosen["only"], chosen["folders"]) else None
    attached, aside = _attach(Path(bound[0]), bound[0], show, bound[1]) if bound else ((), "")
    keep_what_is_there()
    try:
        papers = make_papers(show, reading.findings, attached=attached, files=Spool(), **chosen)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    if chosen["labels"].part and not papers.printed:
        lacking = "".join(f"not printed: {name} (no {needs})\n" for name, needs in papers.missing)
        return Outcome(aside=f"{aside}{lacking}nothing of that is on {join_words(sorted(chosen['only']))}\n", code=2)
    outcome = publish_papers(folder, papers, show)
    return replace(outcome, aside=aside + outcome.aside)


def _build_pockets(show: Show, reading: Reading, folder: Path, readers: tuple[str, ...]) -> Outcome:
    """The files for telephones, in a folder of their own."""
    from paperwork.output import OutputError, publish
    from paperwork.pocket import make_pocket

    if show.is_of_days:
        return Outcome(aside="a file for a phone is for one performance: name it with --on\n", code=2)
    aside = format_findings(reading.findings, "text", show=show) if reading.findings else ""
    files = dict(make_pocket(show, reading.findings, reader) for reader in dict.fromkeys(readers))
    try:
        publish(folder, files, title=show.production.title, venue=show.edition)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    lines = [f"{folder / name}  ({len(data) / 1_000_000:.1f} MB)\n" for name, data in sorted(files.items())]
    return Outcome("".join(lines), aside, int(has_errors(reading.findings)))


def _choose(
    show: Show, names: frozenset[str], folders: tuple[str, ...], given: dict[str, Any], labels: dict[str, Any]
) -> dict[str, Any]:
    """What is printed of all papers, and how, as `make_papers` takes it."""
    part = choose_part(show, names, labels.pop("channels"), labels.pop("racks"))
    strip, card = labels.pop("strip"), labels.pop("card")
    width, height = map(int, card.split("x")) if card else (0, 0)
    chosen = {"only": names, "folders": frozenset(folders), "made": given.get("made", "")}
    return {
        **chosen,
        "labels": replace(choose_labels(**labels), part=part, strip_mm=int(strip or 0), card_mm=(width, height)),
    }


def _make_press(given: dict[str, Any] | None) -> "Press | None":
    """A press that says what it prints; None where nobody watches."""
    printing: Callable[[str, int], None] | None = (given or {}).get("printing")
    if printing is None:
        return None
    from paperwork.render.pdf.press import Press

    return Press(printing, passing=True)


def _attach(path: Path, name: str, show: Show, load: Load) -> "tuple[tuple[Attachment, ...], str]":
    """What the show book carries, so that it can be restored from it; nothing, and why, where a file cannot go along."""
    from paperwork.archive import attach_inputs
    from paperwork.revisions import gather_inputs

    try:
        return attach_inputs(gather_inputs(path, name, show, load), show.at_venue), ""
    except Refused as refused:
        return (), f"the show book carries no files: {refused.finding.text}\n"


def _build_since(
    since: str, since_venue: str | None, read: tuple[Reading, str, str], folder: Path, chosen: dict[str, Any]
) -> Outcome:
    """The change list and what changed, into a folder of its own: the papers of the whole show stay where they are."""
    from paperwork.render.pdf.press import Press
    from paperwork.revisions import Side, compare_revisions, make_since

    reading, name, on = read
    if reading.show is None:
        return Outcome(code=1)
    new = Side(reading.show, reading.findings, name)
    old = read_side(since, since_venue or "", on)
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

    house = old.show.at_venue or "the home venue"
    if not is_show_file(load_file(Path(since), since, most=limits.ARCHIVE_BYTES)):
        return [f"{since} was printed for {house}: --since-venue is only for show files"] if since_venue else []
    venue = new.show.at_venue
    if since_venue is not None or not venue:
        return []
    return [f"{since} is taken as printed for {house}; if it was for {venue}, add --since-venue {quote(venue)}"]


def _choose_of_run(show: Show, names: frozenset[str], since: str | None) -> tuple[frozenset[str], str]:
    """Of a run from one date to another its papers, all or those that are named, and what is wrong: most are of one
    performance."""
    from paperwork.sheets import OF_RUN

    if not show.is_of_days:
        return names, ""
    if since:
        return names, "--since compares whole runs, or one performance: name one with --on, or leave it out\n"
    of_one = sorted(names - OF_RUN)
    if not of_one:
        return names or OF_RUN, ""
    are = f"{join_words(of_one)} {'are' if len(of_one) > 1 else 'is'}"
    return names, f"{are} for one performance: name it with --on; for several there are {join_words(sorted(OF_RUN))}\n"


def _read_names(only: str | None, *, mixed: bool) -> tuple[frozenset[str], str]:
    """The papers that are named, and what is wrong with what was asked. `mixed`: a whole file and a part of the papers."""
    if mixed:
        return frozenset(), "--pocket makes whole files: leave out --for, --only, --since and --blank\n"
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
