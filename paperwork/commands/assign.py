"""`paperwork assign SHOW -o NEW`: a frequency for every channel that has none, into a new file."""

import re
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

import click

from paperwork.coordinate.grants import list_answered, list_stated
from paperwork.files.sniff import Load, ReadOnce
from paperwork.finding import Edit, Subject
from paperwork.model import Channel, Show
from paperwork.overlay import state_in_venue
from paperwork.radio.search import DEFAULT_EFFORT
from paperwork.reading import has_errors, list_unknown_air, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import choose_new
from paperwork.terminal.report import format_findings, summarise
from paperwork.text.names import fold, hint, id_key
from paperwork.text.units import format_mhz

if TYPE_CHECKING:
    from paperwork.coordinate.assign import Assigned

MOST_SPARES = 99

_SPARES = re.compile(r"(?:(?P<radio>.+?)\s*[:=]\s*)?(?P<count>[0-9]{1,2})")


class _Job(NamedTuple):
    """The show file, what it was called on the command line, the file to write, for which venue, and what reads the
    show once: what was judged is what is edited."""

    path: Path
    name: str
    new: Path
    venue: str
    load: Load


@click.command(
    epilog="Examples:  paperwork assign show.yaml -o show-d.yaml  |  paperwork assign show.xlsx -o new.xlsx --spares low=2,hand=1  |  paperwork assign show.yaml -o tour.yaml --venue Pier"
)
@click.argument("show", type=click.Path())
@click.option("-o", "--output", "new", required=True, type=click.Path(), help="The new file; it must not be there yet.")
@click.option(
    "--spares", default="", help="Spare channels to add, for each radio type, as low=2,hand=1; or for all, as 2."
)
@click.option(
    "--venue",
    default="",
    help="For this venue: another frequency for each channel that is not clean there, in the section venues.",
)
@click.option("--anew", is_flag=True, help="Plan all frequencies again, except granted ones.")
@click.option(
    "--answered", is_flag=True, help="Set what the coordinator granted, and find another for what was refused."
)
@click.option("--repair", "is_repair", is_flag=True, help="Make all frequencies clean by moving the fewest channels.")
@click.option(
    "--effort",
    type=click.IntRange(1, 1_000_000),
    default=DEFAULT_EFFORT,
    show_default=True,
    help="How long to search. The same effort gives the same plan.",
)
@click.pass_context
def command(
    context: click.Context,
    show: str,
    new: str,
    spares: str,
    venue: str,
    anew: bool,
    answered: bool,
    is_repair: bool,
    effort: int,
) -> Outcome:
    """Find a clean frequency for every channel of SHOW without one, and write the show to a new file.

    Channels with a frequency keep it, except with --anew, --answered or --repair. Only frequencies change: comments,
    order and everything else stay. With --venue the frequencies of the home venue stay too. A refused frequency is
    noted in `refused` of the section spectrum and never given again.
    """
    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    job = _Job(Path(show), show, Path(new), venue, ReadOnce().load)
    reading = read_show(job.path, show, venue=venue, load=job.load)
    if reading.show is None:
        aside = f"{format_findings(reading.findings, 'text')}nothing was written\n"
        return Outcome(aside=aside, code=1 if reading.readable else 2)
    if unknown := list_unknown_air(reading.findings):
        aside = format_findings(unknown, "text")
        return Outcome(aside=f"{aside}nothing was written: what is on the air is not known\n", code=1)
    wanted, wrong = _read_spares(spares, reading.show)
    if wrong := wrong or _find_misfit(bool(venue), bool(spares), is_repair, anew or answered):
        return Outcome(aside=wrong, code=2)
    tools = context.obj or {}
    if is_repair:
        return _repair(job, effort, tools, reading.show)
    return _assign(job, reading.show, wanted, effort, tools, anew=anew, answered=answered)


def _assign(
    job: _Job,
    show: Show,
    spares: tuple[tuple[str, int], ...],
    effort: int,
    tools: dict[str, Any],
    *,
    anew: bool,
    answered: bool,
) -> Outcome:
    from paperwork.coordinate.assign import assign_show
    from paperwork.coordinate.freed import assign_freed
    from paperwork.terminal.assigned import describe_assigned

    freed = _free(show, job.venue, anew=anew, answered=answered)
    search = partial(assign_show, spares=spares, effort=effort, stop=tools.get("stop"), progress=tools.get("progress"))
    found = assign_freed(show, freed, search, _list_losing(show) if anew and not job.venue else ())
    edits = _list_edits(show, job.venue, found, anew=anew)
    lines = describe_assigned(found, effort)
    refused = {id for id, one in show.channels.items() if one.refused}
    if any(one.section == "channels" and one.channel in refused for one in found.missing if not one.is_backup):
        lines.append("next: `paperwork assign --repair`, which may also move others to make room for what was refused")
    return _write(job, lines, edits, bool(found.missing))


def _find_misfit(venue: bool, spares: bool, is_repair: bool, anew: bool) -> str:
    """Which options do not go together, as a line; "" where all do."""
    if is_repair and (spares or anew):
        return "--repair moves what is there: give it without --spares, --anew and --answered\n"
    return "spares are of the whole show: add them without --venue\n" if venue and spares else ""


def _free(show: Show, venue: str, *, anew: bool, answered: bool) -> Show:
    """The show without the frequencies to be found. Another house answers for itself: its own rows count there."""
    from paperwork.coordinate.freed import free_answered, free_channels, is_movable

    own = list_answered(show, venue)
    if anew:
        backups = [id for id, one in show.channels.items() if one.backup_hz is not None]
        ours = {id for id, one in show.others.items() if is_movable(show, one)}
        show = free_channels(show, show.channels.keys() - own, backups, ours - list_answered(show, venue, "others"))
    elif venue:
        from paperwork.checks.air.repair import list_movers

        fields = {("channels", "mhz"): "channels", ("channels", "backup"): "backups", ("others", "mhz"): "others"}
        kept = {Subject(of, id) for name, of in fields.items() for id in list_stated(show, venue, *name)}
        show = free_channels(show, *list_movers(show, frozenset(kept)))
    return free_answered(show, own) if anew or answered else show


def _list_losing(show: Show) -> frozenset[tuple[str, str]]:
    """Who loses its frequency where a plan that is made anew has none for it: by section and id."""
    sections = ("channels", "others")
    return frozenset((of, id) for of in sections for id in getattr(show, of).keys() - list_answered(show, "", of))


def _repair(job: _Job, effort: int, tools: dict[str, Any], show: Show) -> Outcome:
    from paperwork.checks.air.repair import repair_show
    from paperwork.coordinate.grants import asked_hz, remember_refused
    from paperwork.terminal.assigned import describe_repair, list_moves

    found = repair_show(show, effort=effort, stop=tools.get("stop"), progress=tools.get("progress"))
    if found.hopeless:
        advice = "nothing was written: `paperwork assign --anew` plans every frequency again"
        return Outcome(aside=f"{found.hopeless}\n{advice}\n", code=1)
    edits = list_moves(show, found)
    own = [move for move in found.moves if not move.is_backup and move.section == "channels"]
    ids = {id for move in own for id in move.channels}
    if not job.venue:
        edits += remember_refused(
            show, (asked_hz(one) for one in show.channels.values() if one.refused and one.id in ids)
        )
    else:
        edits = list(state_in_venue(show.venues.values(), job.venue, [one for one in edits if one.value]))
    return _write(job, describe_repair(found, effort), edits, bool(found.left))


def _write(job: _Job, lines: list[str], edits: list[Edit], is_short: bool) -> Outcome:
    """The show with the edits as a new file, and what its check says; `is_short` where not all was reached."""
    from paperwork.files.edit import edit_fields
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import sniff
    from paperwork.output import OutputError
    from paperwork.output.single import write_new

    if not edits:
        lines.append(f"{job.new} was not written: there is nothing to change")
        return Outcome("\n".join(lines) + "\n", code=int(is_short))
    try:
        data = job.load(job.path, job.name)
        write_new(job.new, edit_fields(data, sniff(data, job.name)[0], edits, job.name))
    except Refused as refused:
        return Outcome("\n".join(lines) + "\n", format_findings([refused.finding], "text"), 2)
    except OutputError as error:
        return Outcome("\n".join(lines) + "\n", f"{error}\n", 2)
    checked = read_show(job.new, str(job.new), venue=job.venue)
    aside = format_findings(checked.findings, "text") if checked.findings else ""
    lines.append(f"{job.new} written; {summarise(checked.findings)}")
    return Outcome("\n".join(lines) + "\n", aside, int(is_short or has_errors(checked.findings)))


def _list_edits(show: Show, venue: str, found: "Assigned", *, anew: bool) -> list[Edit]:
    """Spares and frequencies, that of a wide carrier where the show states it; in a venue as its rows.

    A channel that gets another for one that was refused, or anew, has not been asked for yet; what was refused is
    remembered.
    """
    from paperwork.coordinate.carriers import carrier_name
    from paperwork.coordinate.grants import asked_hz, remember_refused

    stated: dict[str, str] = {}
    for channel in show.channels.values():
        if "mhz" in channel.where:
            stated.setdefault(carrier_name(channel), channel.id)
    names = {id: carrier_name(show.channels[id]) if id in show.channels else "" for id in found.placed}
    placed = [Edit("channels", stated.get(names[id], id), "mhz", format_mhz(hz)) for id, hz in found.placed.items()]
    moved = [one for one in show.channels.values() if carrier_name(one) in names.values()]
    answered = list_answered(show, venue)
    refused = [one for one in moved if one.refused and one.id in answered]
    again = [one for one in moved if one in refused or (anew and one.id not in answered)]
    placed += (Edit("others", id, "mhz", format_mhz(hz)) for id, hz in found.others.items())
    wanted = [*placed, *_list_backups(found), *remember_refused(show, map(asked_hz, refused))]
    if venue:
        return [*state_in_venue(show.venues.values(), venue, wanted), *_drop_answers(show, venue, again)]
    spares = [Edit("channels", one.id, "spare", one.radio or "yes") for one in found.spares]
    if anew:
        wanted += _list_lost(show, found, stated)
    gone = [Edit("channels", one.id, name, "") for one in again for name in ("asked", "granted") if name in one.where]
    return [*spares, *wanted, *gone]


def _drop_answers(show: Show, venue: str, again: list[Channel]) -> Iterator[Edit]:
    """What was asked and granted in a venue for channels that now have another frequency there goes."""
    own = {id_key(one.id) for one in again}
    for row in show.venues.values():
        is_theirs = fold(row.venue) == fold(venue) and row.section == "channels" and id_key(row.record) in own
        if is_theirs and row.name in ("asked", "granted"):
            yield Edit("venues", row.id, "", "")


def _list_lost(show: Show, found: "Assigned", stated: dict[str, str]) -> Iterator[Edit]:
    """What a plan made anew takes from those that it has nothing for."""
    from paperwork.coordinate.carriers import carrier_name

    losing = _list_losing(show)
    for one in found.missing:
        if (one.section, one.channel) not in losing:
            continue
        if one.section == "others":
            yield Edit("others", one.channel, "mhz", "")
        elif one.is_backup:
            yield Edit("channels", one.channel, "backup", "yes")
        elif (id := stated.get(carrier_name(show.channels[one.channel]))) is not None:
            yield from (Edit("channels", id, name, "") for name in ("mhz", "asked") if name in show.channels[id].where)


def _list_backups(found: "Assigned") -> list[Edit]:
    return [Edit("channels", id, "backup", format_mhz(hz)) for id, hz in found.backups.items()]


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
