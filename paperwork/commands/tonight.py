"""`paperwork tonight SHOW --off NAME --dead PACK`: one page for tonight, and only the labels that it makes wrong."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date as date_type
from functools import partial
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from paperwork.model import Channel, Show
from paperwork.overlay import Row
from paperwork.pipeline import Papers, make_tonight
from paperwork.place import Place
from paperwork.plan.covers import Tonight, plan_tonight, stage_all
from paperwork.raw import Text
from paperwork.reading import Reading, blank_doubted, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.night import read_night
from paperwork.terminal.options import ON, SEVERAL, VENUE, choose_folder, choose_labels, label_options
from paperwork.terminal.publishing import publish_papers
from paperwork.terminal.report import format_findings
from paperwork.text.names import fold, hint, join_words, shorten_ids
from paperwork.text.units import format_mhz

if TYPE_CHECKING:
    from paperwork.sheets.evening.page import Night

_ROW = re.compile(r"(?P<section>[a-z]+)/(?P<record>[^/]+)/(?P<field>[a-z ]+)=(?P<value>.+)")


NOTHING = "give what is different tonight: --off NAME, --dead PACK, --bad CHANNEL or --set VALUE"


class _Unknown(ValueError):
    """A name on the command line that is not in the show. The words say which, and what was meant."""


def _read_date(context: click.Context, _parameter: click.Parameter, value: str | None) -> str:
    if value is None:
        return str((context.obj or {}).get("today", ""))
    try:
        return date_type.fromisoformat(value).isoformat() if value else ""
    except ValueError:
        raise click.BadParameter(f"{value} is not a date, as in 2027-03-06") from None


@click.command(
    epilog=(
        "Examples:  paperwork tonight show.yaml --off 'Noor Haddad'  |  paperwork tonight show.yaml --dead 05 --show 2  |  "
        "paperwork tonight show.yaml --off Noor --set 'channels/01/capsule=tone 2'"
    )
)
@click.argument("show", type=click.Path())
@click.option("--off", multiple=True, help="Person off tonight; repeatable.")
@click.option("--dead", multiple=True, help="Dead pack, by pack or channel; repeatable.")
@click.option("--bad", multiple=True, help="Bad frequency with a good pack, by channel or pack; repeatable.")
@click.option("--set", "rows", multiple=True, help="Value for tonight only, as channels/01/capsule=tone 2; repeatable.")
@click.option(
    "--date",
    callback=_read_date,
    help="Date, as 2027-03-06; '' leaves a line to write on.  [default: that of --on, or today]",
)
@click.option("--show", "number", type=click.IntRange(1, 9), default=None, help="Which show of that day.")
@VENUE
@ON
@label_options
@click.option("-o", "--output", type=click.Path(), help="Folder for the papers.  [default: SHOW-tonight, beside SHOW]")
@click.pass_context
def command(
    context: click.Context,
    /,
    show: str,
    off: tuple[str, ...],
    dead: tuple[str, ...],
    bad: tuple[str, ...],
    rows: tuple[str, ...],
    date: str,
    number: int | None,
    venue: str,
    on: str,
    output: str | None,
    **labels: Any,
) -> Outcome:
    """Print one page for tonight, and only the labels that change.

    On the page: who covers which role, with which pack, pouch and capsule; swaps that change; roles without a cover;
    what is set for tonight; for a dead pack the spare and what to set it to; for a bad frequency the backup or the
    spare channel; lines for the log.
    """
    try:
        read = partial(read_show, Path(show), show, venue=venue)
        usual, on, date = read_night(read, on, date, context)
        changed, lost = _list_changed(usual, rows, bad, [*off, *dead])
        reading = read(on=on, tonight=changed) if changed else usual
        if reading.show is None or usual.show is None:
            return _refuse(usual if reading.show else reading)
        away = tuple(dict.fromkeys(_find_person((reading.show, usual.show), name) for name in off))
        packs = tuple({one.id: one for one in (_find_pack(reading.show, id) for id in dead)}.values())
        night = replace(_describe_night(reading, usual, changed, date, number), bad=lost)
    except ValueError as unknown:
        return Outcome(aside=f"{unknown}\n", code=2)
    whole = stage_all(reading.show)
    tonight = _keep_set(plan_tonight(whole, away), whole, usual.show)
    choice, made = choose_labels(**labels), (context.obj or {}).get("made", "")
    papers = make_tonight(reading.show, reading.findings, tonight, packs, night=night, labels=choice, made=made)
    idle = _list_idle_rows(show, venue, on, changed, reading.show)
    lines = (*idle, *_list_evening(reading, night, whole, tonight, packs, papers))
    return _publish(choose_folder(output, show, "tonight", reading.show.edition), papers, reading.show, tonight, lines)


def _list_changed(
    usual: Reading, rows: Sequence[str], bad: Sequence[str], others: Sequence[str]
) -> tuple[tuple[Row, ...], tuple[tuple[str, int | None], ...]]:
    """The values that are set for tonight, those of bad frequencies too; and each channel of one with what is lost.
    `others` is what else is different."""
    if not (rows or bad or others):
        raise _Unknown(NOTHING)
    lost = _find_lost(usual.show, bad)
    return (*map(_read_row, rows), *_go_to_backup(lost)), tuple((one.id, one.hz) for one in lost)


def _find_lost(show: Show | None, bad: Sequence[str]) -> tuple[Channel, ...]:
    """The channels whose frequency is bad, and all that share it with them."""
    named = [_find_channel(show, id) for id in bad] if show else []
    carriers = {one.carrier for one in named if one.carrier}
    shared = [one for one in show.channels.values() if one.carrier in carriers] if show else []
    return tuple({one.id: one for one in (*named, *shared)}.values())


def _go_to_backup(lost: Sequence[Channel]) -> Iterator[Row]:
    """Tonight each is on its backup, and has none any more."""
    place = Place("--bad")
    for one in lost:
        if one.backup_hz is not None:
            for field, value in (("mhz", format_mhz(one.backup_hz)), ("backup", "no")):
                yield Row(f"--bad {one.id}", "channels", one.id, field, Text(value, place), place)


def _refuse(reading: Reading) -> Outcome:
    aside = f"{format_findings(reading.findings, 'text')}no papers were printed\n"
    return Outcome(aside=aside, code=1 if reading.readable else 2)


def _publish(folder: Path, papers: Papers, show: Show, tonight: Tonight, lines: Iterable[str]) -> Outcome:
    """The papers put into their folder. Exit code 1 where a role has no cover, too."""
    lost = len({change.role for change in tonight.uncovered})
    closing = [f"{lost} role{'s' if lost > 1 else ''} without a cover tonight"] if lost else ()
    outcome = publish_papers(folder, papers, show, closing)
    text = "".join(f"{line}\n" for line in lines) if outcome.text else ""
    return Outcome(text + outcome.text, outcome.aside, max(outcome.code, int(lost > 0)))


def _describe_night(reading: Reading, usual: Reading, rows: Sequence[Row], date: str, number: int | None) -> "Night":
    from paperwork.editing.edited import list_gone
    from paperwork.sheets.evening.page import Night

    shows = len(reading.show.day.curtain_s) if reading.show else 0
    if reading.show and reading.show.is_of_days:
        raise _Unknown(SEVERAL.format(on=reading.show.at_performance))
    if number and shows and number > shows:
        day = f"{shows} show{'s' if shows > 1 else ''}"
        raise _Unknown(f"the section day has {day}, so there is no show {number}")
    if not rows or usual.show is None:
        return Night(date=date, number=number or 0)
    new = list_gone(reading, usual)
    return Night(blank_doubted(usual.show, usual.findings), new, date, number or 0)


def _keep_set(tonight: Tonight, show: Show, usual: Show) -> Tonight:
    """The evening in which a capsule that is set for tonight is on its pack, whatever the row of a cover says."""
    channels = show.channels
    set_now = {id for id, one in channels.items() if id in usual.channels and one.capsule != usual.channels[id].capsule}
    return replace(tonight, capsule_of={id: channels[id].capsule for id in sorted(set_now)})


def _read_row(text: str) -> Row:
    match = _ROW.fullmatch(text.strip())
    if not match:
        raise _Unknown(f"{text} is not a value for tonight, as in channels/01/capsule=tone 2")
    place, record = Place("--set"), match["record"].strip()
    return Row(text, match["section"], record, match["field"], Text(match["value"].strip(), place), place)


def _find_person(shows: Iterable[Show], name: str) -> str:
    """The full name of somebody in the company: by all of it, or by a part that is only theirs."""
    known = list(dict.fromkeys(filter(None, (one for show in shows for one in _names(show)))))
    whole = [one for one in known if fold(one) == fold(name)]
    part = [one for one in known if fold(name) in fold(one).split() or fold(one).startswith(fold(name))]
    found = whole or part
    if len(found) > 1:
        raise _Unknown(f"{name} can be {join_words(found)}; write the whole name")
    if not found:
        raise _Unknown(f"there is nobody called {name} in the show{hint(name, known)}")
    return found[0]


def _names(show: Show) -> Iterable[str]:
    yield from show.people
    for role in show.roles.values():
        yield from (role.by, *role.alternates)
    yield from (channel.by for channel in show.channels.values())
    yield from (cover.by for cover in show.covers)


def _find_pack(show: Show, id: str) -> Channel:
    """The channel of a dead pack: by the pack's own number before any channel's, as it is the pack that died."""
    by_pack, by_id = _list_named(show, id)
    if found := next(chain(by_pack, by_id), None):
        return found
    packs = [channel.pack for channel in show.channels.values()]
    raise _Unknown(f"no channel has a pack {id}{hint(id, packs)}")


def _find_channel(show: Show, id: str) -> Channel:
    """The channel of a bad frequency: by its own number before its pack's."""
    by_pack, by_id = _list_named(show, id)
    if found := next(chain(by_id, by_pack), None):
        return found
    raise _Unknown(f"there is no channel {id}{hint(id, show.channels)}")


def _list_named(show: Show, id: str) -> tuple[list[Channel], list[Channel]]:
    """The channels whose pack is called so, and those that are."""
    channels = show.channels.values()
    by_number = [one for one in channels if one.id.lstrip("0") == id.lstrip("0") != ""]
    by_pack = [one for one in channels if fold(one.pack) == fold(id)]
    return by_pack, [*(one for one in channels if fold(one.id) == fold(id)), *by_number]


def _list_idle_rows(name: str, venue: str, on: str, rows: Sequence[Row], show: Show) -> Iterator[str]:
    """A line for each row without which tonight would be the same."""
    for row in rows:
        others = tuple(one for one in rows if one is not row)
        if read_show(Path(name), name, venue=venue, on=on, tonight=others).show == show:
            yield f"--set {row.id}: changes nothing, the show has it already"


def _list_evening(
    reading: Reading, night: "Night", show: Show, tonight: Tonight, packs: Sequence[Channel], papers: Papers
) -> Iterator[str]:
    """The page in a few lines, for whoever typed the command."""
    if reading.show:
        yield from _list_set(reading.show, night)
    yield from _list_dead(reading, show, tonight, packs, night)
    yield from _list_company(show, tonight)
    numbers = dict.fromkeys(number for paper in papers.printed for number, _ in paper.tags)
    yield f"labels to print: {shorten_ids(tuple(numbers)) or 'none'}"


def _list_set(show: Show, night: "Night") -> Iterator[str]:
    """What is set for tonight, old and new, and what is found by it."""
    from paperwork.changes import diff_shows, list_changes

    if night.usual is None:
        return
    for entry in list_changes(night.usual, show, diff_shows(night.usual, show)):
        yield f"tonight: {entry.what}, {entry.field}: {entry.old} -> {entry.new}"
    for finding in night.findings:
        yield f"new tonight: {finding.severity}: {finding.text} [{finding.code}]"


def _list_dead(
    reading: Reading, show: Show, tonight: Tonight, packs: Sequence[Channel], night: "Night"
) -> Iterator[str]:
    """For each dead pack and bad frequency what the page says, but for the line to log."""
    from paperwork.sheets.evening.dead import describe_bad, describe_dead
    from paperwork.sheets.evening.page import list_capsules, pair_spares

    certain = blank_doubted(show, reading.findings)
    certain = replace(certain, production=replace(certain.production, language="en"))
    capsules = list_capsules(certain, tonight)
    pairs = pair_spares(certain, tuple(certain.channels[channel.id] for channel in packs))
    for one in pairs:
        panel = describe_dead(certain, one, " / ".join(capsules[one.channel.id]))
        yield panel.title
        yield from (f"  {line}" for line in (panel.lines[:-1] if one.spare else panel.lines))
    out = [channel for one in pairs for channel in (one.channel, one.spare) if channel]
    for id, hz in night.bad:
        panel = describe_bad(certain, certain.channels[id], hz, out)
        yield panel.title
        yield from (f"  {line}" for line in (panel.lines if "no spare" in panel.facts else panel.lines[:-1]))


def _list_company(show: Show, tonight: Tonight) -> Iterator[str]:
    """Who covers which role, and what nobody covers."""
    for change in tonight.uncovered:
        scenes = join_words(filter(None, (show.scenes[index].name or show.scenes[index].id for index in change.scenes)))
        yield f"NO COVER: {change.role} ({change.instead_of}) in {scenes or 'the whole show'}"
    for change in tonight.changes:
        number = f"channel {change.channel}" if change.channel else "no channel"
        scenes = f"{len(change.scenes)} scene{'s' if len(change.scenes) > 1 else ''}"
        yield f"{change.role}: {change.by} for {change.instead_of}, {number}, {scenes}"
    if tonight.off and not tonight.changes and not tonight.uncovered:
        yield f"{join_words(tonight.off)}: plays no role on a channel"
