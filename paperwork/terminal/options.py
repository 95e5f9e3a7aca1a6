"""Options that several commands have, each written once."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from paperwork.text.names import expand_ids
from paperwork.text.units import Doubt

if TYPE_CHECKING:
    from paperwork.finding import Subject
    from paperwork.model import Show
    from paperwork.pipeline import LabelChoice

F = TypeVar("F", bound=Callable[..., Any])

_WORKBOOKS = (".xlsx", ".xlsm")

FORMAT = click.option(
    "--format",
    "form",
    type=click.Choice(("text", "json")),
    default="text",
    show_default=True,
    help="Text, or JSON for programs.",
)

VENUE = click.option("--venue", default="", help="The show in this venue, by its name in the section venues.")

SEVERAL = "{on} is several performances: name one of them"
"""What is said where two dates are given, and only one performance makes sense."""

ON = click.option(
    "--on", default="", help="The show at this performance, by its name in the section performances or by its date."
)

PRINTERS = click.option(
    "--printers", type=click.Path(), help="Another file of printers.  [default: printers.toml in your settings folder]"
)


def _read_cells(_context: click.Context, _parameter: click.Parameter, value: str) -> tuple[int, ...]:
    try:
        return tuple(int(number) for number in expand_ids(value))
    except (Doubt, ValueError):
        raise click.BadParameter(f"{value} is not a list of numbers, as in 1,4,7-9") from None


_LABELS = (
    click.option("--stock", help="Label sheet, as a4-21-63.5x38.1 or letter-30-2.625x1."),
    click.option(
        "--start", type=click.IntRange(min=1), default=1, show_default=True, help="First free label on the sheet."
    ),
    click.option(
        "--blocked", default="", callback=_read_cells, help="Labels already gone from the first sheet, as 4,7-9."
    ),
    click.option("--printer", default="", help="A printer in printers.toml, with its offset, stretch and dots."),
    PRINTERS,
    click.option(
        "--dpi",
        type=click.Choice(("203", "300", "600")),
        help="Dots per inch of the label printer.  [default: 300, or its own]",
    ),
    click.option("--copies", type=click.IntRange(1, 99), help="Copies of each label.  [default: 2, front and back]"),
    click.option("--proof", is_flag=True, help="Outline every label, for a proof on plain paper."),
)


def label_options(command: F) -> F:
    """The command with the options of labels; it gets their values as keywords, for `choose_labels`."""
    for option in reversed(_LABELS):
        command = option(command)
    return command


def part_options(command: F) -> F:
    """The command with the options of a part, `channels` and `racks`, and of sizes to cut to, `strip` and `card`."""
    racks = click.option("--racks", default="", help="With --only: only what shows these racks, as R1,R3.")
    strip = click.option(
        "--strip",
        type=click.Choice(("8", "10", "12", "22", "44")),
        help="Height of receiver strips in mm.  [default: 22]",
    )
    card = click.option(
        "--card", type=click.Choice(("90x55", "60x40")), help="Size of pouch cards in mm.  [default: 90x55]"
    )
    channels = click.option(
        "--channels",
        default="",
        help="With --only: only the labels, cards and strips of these channels, as 05,11-14, and pages that show them.",
    )
    return channels(racks(strip(card(command))))


def choose_part(show: "Show", papers: frozenset[str], channels: str, racks: str) -> "frozenset[Subject]":
    """The records whose part of the named papers is printed; none for all. Raises click.BadParameter."""
    from paperwork.pipeline.parts import find_part
    from paperwork.sheets.book import NAME as BOOK

    if not (channels or racks):
        return frozenset()
    option = "--channels" if channels else "--racks"
    if not papers or BOOK in papers:
        raise click.BadParameter("a part needs --only with the names of papers, other than the book", param_hint=option)
    try:
        return find_part(show, channels, racks)
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint=option) from None


def choose_labels(
    *,
    stock: str | None,
    start: int,
    blocked: tuple[int, ...],
    printer: str,
    printers: str | None,
    dpi: str | None,
    copies: int | None,
    proof: bool,
) -> "LabelChoice":
    """What the options of labels say. Raises click.BadParameter for a printer that is not in its file."""
    from paperwork.pipeline import LabelChoice
    from paperwork.terminal.printers import choose_printer

    chosen = choose_printer(printer, printers, int(dpi) if dpi else None)
    return LabelChoice(stock, start, blocked, chosen, proof, copies=copies or 0)


def choose_folder(output: str | None, show: str, kind: str, venue: str) -> Path:
    """The folder that was given, else the one of its kind beside the show file, with the venue in its name."""
    from paperwork.output import folder_beside

    return Path(output) if output else folder_beside(Path(show), kind, venue)


def choose_new(show: str, new: str) -> str:
    """What is wrong with the name of a new file that is to be the show with changes; "" if nothing is."""
    from paperwork.output import OutputError
    from paperwork.output.single import refuse_taken

    try:
        refuse_taken(Path(new))
    except OutputError as error:
        return f"{error}\n"
    suffix = Path(show).suffix.lower()
    if (Path(new).suffix.lower() in _WORKBOOKS) != (suffix in _WORKBOOKS):
        kind = "a workbook" if suffix in _WORKBOOKS else "a text file"
        return (
            f"{show} is {kind} and stays one: let {new} end in {Path(show).suffix}, and use paperwork convert on it\n"
        )
    return ""
