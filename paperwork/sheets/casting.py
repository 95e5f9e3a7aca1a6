"""Who is on in which performances, for papers of the whole run: alternates with the days on which they play."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from paperwork.document import Line, fact
from paperwork.document.styles import Style
from paperwork.model import Channel, Performance, Show
from paperwork.plan.bodies.spells import Spell, list_spells
from paperwork.sheets import forms
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import phrase, short_performance
from paperwork.sheets.production.performance_list import list_by_date
from paperwork.staging import stage_performance


class CastBody(NamedTuple):
    """Somebody, what they wear, and the line with the performances in which they do; None where it is all of them."""

    by: str
    spells: tuple[Spell, ...]
    days: Line | None


NARROW = "\u202f"
"""The space that holds: a day and its month stay on one line."""

LINES = 6
MOST = 6
"""So many performances are named; of more it is said how many, and the list of performances names them."""


def _stage_run(show: Show) -> list[tuple[Performance, Show]]:
    """Each performance of the run and the show as it is in it; nothing where the show is staged for one."""
    if show.at_performance in show.performances:
        return []
    return [(one, stage_performance(show, one)) for one in list_by_date(show)]


def list_worn_in_run(show: Show) -> dict[str, tuple[Worn, ...]]:
    """What each performer wears, as `forms.list_worn`, with what is worn in other performances alone after it."""
    found = dict(forms.list_worn(show))
    for _, staged in _stage_run(show):
        for by, worn in forms.list_worn(staged).items():
            known = found.get(by, ())
            mine = {(one.channel.id, one.roles) for one in known}
            found[by] = (*known, *(one for one in worn if (one.channel.id, one.roles) not in mine))
    return found


def list_bodies(show: Show, style: Style) -> list[CastBody]:
    """Who wears what from scene to scene, by the first pack: a body more for each other thing that somebody wears in some
    performances of the run alone."""
    run = _stage_run(show)
    found: dict[tuple[object, ...], tuple[tuple[Spell, ...], list[Performance]]] = {
        key: (spells, []) for key, spells in _list_bodies_of(show).items()
    }
    casts: dict[tuple[str, ...], list[Performance]] = {}
    staged = {tuple(role.by for role in one.roles.values()): one for _, one in run}
    for performance, one in run:
        casts.setdefault(tuple(role.by for role in one.roles.values()), []).append(performance)
    for cast, performances in casts.items():
        for key, spells in _list_bodies_of(staged[cast]).items():
            found.setdefault(key, (spells, []))[1].extend(performances)
    order = {id: at for at, id in enumerate(show.channels)}
    ordered = sorted(found.values(), key=lambda one: order[one[0][0].channel.id])
    days = [_name_part(show, on, len(run), style) for _, on in ordered]
    return [CastBody(spells[0].by, spells, line) for (spells, _), line in zip(ordered, days, strict=True)]


def _list_bodies_of(show: Show) -> dict[tuple[object, ...], tuple[Spell, ...]]:
    """The spells of each body, by who it is and what is worn in which scenes."""
    bodies: dict[str, list[Spell]] = {}
    for spell in list_spells(show):
        bodies.setdefault(spell.by, []).append(spell)
    return {(by, *((one.channel.id, one.roles, one.scenes) for one in own)): tuple(own) for by, own in bodies.items()}


def _name_part(show: Show, on: list[Performance], all_: int, style: Style) -> Line | None:
    """The line with the performances that are meant where they are only a part of the run."""
    known = sorted(on, key=lambda one: (one.date, one.id))
    return _line(show, "", known, all_, style) if 0 < len(on) < all_ else None


def list_performers(show: Show, channel: Channel) -> tuple[str, ...]:
    """Who wears a channel's pack, in this performance or in any of the run, each once."""
    run = (staged.performers_of(channel) for _, staged in _stage_run(show))
    return tuple(dict.fromkeys((*show.performers_of(channel), *(name for names in run for name in names))))


def list_roles(show: Show, channel: Channel, by: str) -> tuple[str, ...]:
    """What somebody plays with a channel's pack, in this performance or in any of the run."""
    shows = [show, *(staged for _, staged in _stage_run(show))]
    return tuple(role for role in show.roles_on(channel) if any(one.roles[role].by == by for one in shows))


def list_days(show: Show, by: str, style: Style) -> Iterator[Line]:
    """For each role that somebody does not play in every performance, a line with those in which they do."""
    run = _stage_run(show)
    days = {role: [one for one, staged in run if staged.roles[role].by == by] for role in show.roles}
    changing = {role: on for role, on in days.items() if on and len(on) < len(run)}
    for role, on in changing.items():
        yield _line(show, role if len(changing) > 1 else "", on, len(run), style)


def list_days_of(show: Show, by: str, role: str, style: Style) -> Iterator[Line]:
    """The same for one role."""
    run = _stage_run(show)
    if line := _name_part(show, [one for one, staged in run if staged.roles[role].by == by], len(run), style):
        yield line


def _line(show: Show, role: str, on: list[Performance], all_: int, style: Style) -> Line:
    said = _name_days(show, on) if len(on) <= MOST else phrase(show, "plays in", count=len(on), all=all_)
    of = " ".join((role, *(one.id for one in on))).strip()
    said = phrase(show, "labelled", name=role, text=said) if role else phrase(show, "plays", days=said)
    return fact(said, replace(style, lines=LINES), of=of)


def _name_days(show: Show, on: list[Performance]) -> str:
    """`evening 3 March, 5 March; matinee 6 March`: those of one name together, since a run has few names."""
    named: dict[str, list[str]] = {}
    for one in on:
        day, name = short_performance(show, one)
        named.setdefault(name, []).append(day.replace(" ", NARROW) if one.date else day)
    return phrase(show, "break").join(" ".join(filter(None, (name, ", ".join(days)))) for name, days in named.items())
