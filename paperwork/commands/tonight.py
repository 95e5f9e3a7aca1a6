"""`paperwork tonight SHOW --off NAME --dead PACK`: one page for tonight, and only the labels that it makes wrong."""

import re
from collections.abc import Iterable
from pathlib import Path

import click

from paperwork.commands.build import publish_papers
from paperwork.model import Channel, Show
from paperwork.names import fold, hint, join_words
from paperwork.overlay import Row
from paperwork.pipeline import make_tonight
from paperwork.place import Place
from paperwork.plan.covers import Tonight, plan_tonight, stage_all
from paperwork.raw import Text
from paperwork.reading import read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import VENUE
from paperwork.terminal.report import format_findings

_ROW = re.compile(r"(?P<section>[a-z]+)/(?P<record>[^/]+)/(?P<field>[a-z ]+)=(?P<value>.+)")


class _Unknown(ValueError):
    """A name on the command line that the show does not know. The words say which, and what was meant."""


@click.command(
    epilog=(
        "Examples:  paperwork tonight show.yaml --off 'Noor Haddad'  |  paperwork tonight show.yaml --dead 05  |  "
        "paperwork tonight show.yaml --off Noor --set 'channels/01/capsule=tone 2'"
    ),
)
@click.argument("show", type=click.Path())
@click.option("--off", multiple=True, help="Somebody who is off tonight, by name; again for each.")
@click.option("--dead", multiple=True, help="A pack that has died, by pack or channel; again for each.")
@click.option(
    "--set", "rows", multiple=True, help="One value for tonight, as channels/01/capsule=tone 2; again for each."
)
@VENUE
@click.option("-o", "--output", type=click.Path(), help="Folder for the papers.  [default: SHOW-tonight, beside SHOW]")
@click.pass_context
def command(
    context: click.Context,
    show: str,
    off: tuple[str, ...],
    dead: tuple[str, ...],
    rows: tuple[str, ...],
    venue: str,
    output: str | None,
) -> Outcome:
    """Print one page for tonight from SHOW, and only the labels that tonight makes wrong.

    It says who covers which role in which scene with which pack, pouch and capsule, which swaps change, what nobody
    covers, and for a dead pack the spare, what to set it to, and the line for the log. SHOW is only read.
    """
    try:
        changed = tuple(_read_row(row) for row in rows)
        if not (off or dead or rows):
            raise _Unknown("say what is different tonight: --off NAME, --dead PACK or --set ROW")
        reading = read_show(Path(show), show, venue=venue, tonight=changed)
        if reading.show is None:
            told = format_findings(reading.findings, "text")
            return Outcome(aside=f"{told}no papers were printed\n", code=1 if reading.readable else 2)
        away = tuple(dict.fromkeys(_find_person(reading.show, name) for name in off))
        packs = tuple({channel.id: channel for channel in (_find_pack(reading.show, id) for id in dead)}.values())
    except _Unknown as unknown:
        return Outcome(aside=f"{unknown}\n", code=2)
    whole = stage_all(reading.show)
    tonight = plan_tonight(whole, away)
    papers = make_tonight(reading.show, reading.findings, tonight, packs, made=(context.obj or {}).get("made", ""))
    folder = Path(output) if output else Path(show).with_name(f"{Path(show).stem}-tonight")
    told = "".join(f"{line}\n" for line in _summarise(whole, tonight))
    lost = len({change.role for change in tonight.uncovered})
    outcome = publish_papers(
        folder, papers, [f"{lost} role{'s' if lost > 1 else ''} without a cover tonight"] if lost else ()
    )
    return Outcome(told + outcome.text, outcome.aside, max(outcome.code, int(lost > 0)))


def _read_row(text: str) -> Row:
    match = _ROW.fullmatch(text.strip())
    if not match:
        raise _Unknown(f"{text} is not a value for tonight, as in channels/01/capsule=tone 2")
    place = Place("--set")
    return Row(
        text, match["section"], match["record"].strip(), match["field"], Text(match["value"].strip(), place), place
    )


def _find_person(show: Show, name: str) -> str:
    """The full name of somebody in the company: by all of it, or by a part that is only theirs."""
    known = list(dict.fromkeys(filter(None, _names(show))))
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
    for channel in show.channels.values():
        if fold(id) in (fold(channel.pack), fold(channel.id)) or channel.id.lstrip("0") == id.lstrip("0") != "":
            return channel
    packs = [channel.pack for channel in show.channels.values()]
    raise _Unknown(f"no channel has a pack {id}{hint(id, packs)}")


def _summarise(show: Show, tonight: Tonight) -> Iterable[str]:
    """The page in a few lines, for whoever typed the command."""
    for change in tonight.uncovered:
        scenes = join_words(filter(None, (show.scenes[index].name or show.scenes[index].id for index in change.scenes)))
        yield f"NO COVER: {change.role} ({change.instead_of}) in {scenes or 'the whole show'}"
    for change in tonight.changes:
        number = f"channel {change.channel}" if change.channel else "no channel"
        scenes = f"{len(change.scenes)} scene{'s' if len(change.scenes) > 1 else ''}"
        yield f"{change.role}: {change.by} for {change.instead_of}, {number}, {scenes}"
    if tonight.off and not tonight.changes and not tonight.uncovered:
        yield f"{join_words(tonight.off)}: plays nothing that a channel carries"
