"""`paperwork assign SHOW -o NEW`: a frequency for every channel that has none, into a new file."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from paperwork.finding import Edit
from paperwork.model import Show
from paperwork.overlay import state_in_venue
from paperwork.reading import has_errors, list_unknown_air, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import choose_new
from paperwork.terminal.report import format_findings, summarise
from paperwork.text.names import fold, hint, id_key, shorten_ids
from paperwork.text.units import format_khz, format_mhz

if TYPE_CHECKING:
    from paperwork.coordinate.assign import Assigned
    from paperwork.model import VenueRow

EFFORT = 10_000
MOST_SPARES = 99

_SPARES = re.compile(r"(?:(?P<radio>.+?)\s*[:=]\s*)?(?P<count>[0-9]{1,2})")


@click.command(
    epilog="Examples:  paperwork assign show.yaml -o show-d.yaml  |  paperwork assign show.xlsx -o new.xlsx --spares low=2,hand=1  |  paperwork assign show.yaml -o tour.yaml --venue Pier"
)
@click.argument("show", type=click.Path())
@click.option("-o", "--output", "new", required=True, type=click.Path(), help="The new file; it must not be there yet.")
@click.option(
    "--spares",
    default="",
    help="Spare channels to add: how many of each radio type of the show, as low=2,hand=1; or 2.",
)
@click.option(
    "--venue",
    default="",
    help="For this venue: another frequency for each channel that is not clean there, as rows of the section venues.",
)
@click.option(
    "--effort",
    type=click.IntRange(1, 1_000_000),
    default=EFFORT,
    show_default=True,
    help="How long to search; the same effort gives the same plan.",
)
@click.pass_context
def command(context: click.Context, show: str, new: str, spares: str, venue: str, effort: int) -> Outcome:
    """Give every channel of SHOW that has no frequency one that is clean, and write the show to a new file.

    Channels that have a frequency keep it. Only frequencies are put in: comments, order and everything else stay. For
    another house, with --venue, the frequencies of this one stay as they are.
    """
    from paperwork.coordinate.assign import assign_show

    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    reading = read_show(Path(show), show, venue=venue)
    if reading.show is None:
        aside = f"{format_findings(reading.findings, 'text')}nothing was written\n"
        return Outcome(aside=aside, code=1 if reading.readable else 2)
    if unknown := list_unknown_air(reading.findings):
        aside = format_findings(unknown, "text")
        return Outcome(aside=f"{aside}nothing was written: what is on the air is not known\n", code=1)
    wanted, wrong = _read_spares(spares, reading.show)
    if venue and spares:
        wrong = "spares are of the whole show: add them without --venue\n"
    if wrong:
        return Outcome(aside=wrong, code=2)
    freed = _free_in_venue(reading.show, venue) if venue else reading.show
    tools = context.obj or {}
    found = assign_show(freed, spares=wanted, effort=effort, stop=tools.get("stop"), progress=tools.get("progress"))
    edits = _list_rows(reading.show, venue, found) if venue else _list_edits(reading.show, found)
    return _finish(Path(show), show, Path(new), venue, found, edits)


def _free_in_venue(show: Show, venue: str) -> Show:
    """The show without the frequencies that are not clean in a venue; what its own rows state stays."""
    from paperwork.checks.air.movers import list_movers
    from paperwork.coordinate.assign import free_channels

    stated = {id_key(row.record) for row in _rows_of(show, venue) if (row.section, row.name) == ("channels", "mhz")}
    return free_channels(show, list_movers(show, frozenset(id for id in show.channels if id_key(id) in stated)))


def _rows_of(show: Show, venue: str) -> "list[VenueRow]":
    return [row for row in show.venues.values() if fold(row.venue) == fold(venue)]


def _list_rows(show: Show, venue: str, found: "Assigned") -> list[Edit]:
    """The frequencies as rows of the venue; that of a wide carrier is put where the show states it."""
    from paperwork.coordinate.carriers import carrier_name

    stated: dict[str, str] = {}
    for channel in show.channels.values():
        if "mhz" in channel.where:
            stated.setdefault(carrier_name(channel), channel.id)
    placed = [
        Edit("channels", stated.get(carrier_name(show.channels[id]), id), "mhz", format_mhz(hz))
        for id, hz in found.placed.items()
    ]
    return state_in_venue(show.venues.values(), venue, placed)


def _finish(path: Path, name: str, new: Path, venue: str, found: "Assigned", edits: list[Edit]) -> Outcome:
    from paperwork.files.edit import edit_fields
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import load_file, sniff
    from paperwork.output import OutputError
    from paperwork.output.single import write_new

    lines = _describe(found)
    if not found.placed:
        lines.append(f"{new} was not written: there is nothing to put in")
        return Outcome("\n".join(lines) + "\n", code=int(bool(found.missing)))
    try:
        data = load_file(path, name)
        write_new(new, edit_fields(data, sniff(data, name)[0], edits, name))
    except Refused as refused:
        return Outcome("\n".join(lines) + "\n", format_findings([refused.finding], "text"), 2)
    except OutputError as error:
        return Outcome("\n".join(lines) + "\n", f"{error}\n", 2)
    checked = read_show(new, str(new), venue=venue)
    aside = format_findings(checked.findings, "text") if checked.findings else ""
    lines.append(f"{new} written; {summarise(checked.findings)}")
    return Outcome("\n".join(lines) + "\n", aside, int(bool(found.missing) or has_errors(checked.findings)))


def _list_edits(show: Show, found: "Assigned") -> list[Edit]:
    """Spares and frequencies; a channel that gets another for one that was refused has not been asked for yet."""
    from paperwork.coordinate.carriers import carrier_name

    names = {carrier_name(show.channels[id]) for id in found.placed if id in show.channels}
    again = [one.id for one in show.channels.values() if one.refused and carrier_name(one) in names]
    return [
        *(Edit("channels", spare.id, "spare", spare.radio or "yes") for spare in found.spares),
        *(Edit("channels", id, "mhz", format_mhz(hz)) for id, hz in found.placed.items()),
        *(
            Edit("channels", id, field, "")
            for id in again
            for field in ("asked", "granted")
            if field in show.channels[id].where
        ),
    ]


def _describe(found: "Assigned") -> list[str]:
    from paperwork.coordinate.assign import describe

    lines = describe(found.placed)
    alike: dict[str, list[str]] = {}
    for one in found.missing:
        alike.setdefault(one.reason, []).append(one.channel)
    for reason, ids in alike.items():
        lines.append(f"channel{'s' if len(ids) > 1 else ''} {shorten_ids(ids)}: no frequency; {reason}")
    if found.stopped:
        lines.append("the search was stopped early; this is the best so far")
    if found.placed:
        kept = f", all guards and distances kept with {format_khz(found.margin_hz)} kHz to spare"
        margin = kept if found.margin_hz else ""
        left = f", {len(found.missing)} left without" if found.missing else ""
        lines.append(f"{len(found.placed)} placed{left}{margin}")
    elif not found.missing:
        lines.append("every channel has its frequency already")
    return lines


def _read_spares(text: str, show: Show) -> tuple[tuple[tuple[str, int], ...], str]:
    """Radio types and counts, and what is wrong with them."""
    wanted: list[tuple[str, int]] = []
    used = list(dict.fromkeys(channel.radio for channel in show.channels.values()))
    for part in filter(None, (part.strip() for part in text.split(","))):
        match = _SPARES.fullmatch(part)
        if not match:
            return (), f"{part} is not a number of spares, as in belt=2\n"
        radio, count = match["radio"], int(match["count"])
        if radio and radio not in show.radios:
            return (), f"there is no radio {radio}{hint(radio, show.radios)}\n"
        wanted += ((kind, count) for kind in ([radio] if radio else used))
    if sum(count for _, count in wanted) > MOST_SPARES:
        return (), f"at most {MOST_SPARES} spares can be added\n"
    return tuple(wanted), ""
