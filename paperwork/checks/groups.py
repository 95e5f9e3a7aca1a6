"""Names that records share and no section has to list: a slip sets carriers apart that are on together."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import product
from typing import NamedTuple

from paperwork.finding import Edit, Finding, Subject, find
from paperwork.model import Show
from paperwork.model.fields import SINGLES, list_marked
from paperwork.place import Place
from paperwork.plan.bodies.carried import scenes_on
from paperwork.plan.day.bill import join_stretches, list_each, list_scene_names
from paperwork.plan.day.clockface import say_time
from paperwork.plan.timeline import Stretch, scene_times
from paperwork.text.names import Hints, group_key, join_words
from paperwork.text.spellings import find_meant, is_slip

_APART = ("zone", "bill", "exclusive", "carrier")
"""Kinds that set carriers apart or make several one."""

_WORDS = {"bill": "part of the bill", "exclusive": "exclusive group", "carrier": "wide carrier"}


class _Use(NamedTuple):
    """A record that uses a name, and everything that its field holds."""

    subject: Subject
    place: Place
    value: tuple[str, ...]


def check_names(show: Show) -> Iterator[Finding]:
    """A name that sets carriers apart is declared or used twice, and no name is a slip of one used more often."""
    uses, hints = _gather_uses(show), Hints()
    for kind, named in uses.items():
        declared = _list_declared(show, kind)
        keys = {group_key(name) for name in declared}
        for name, used in named.items():
            if group_key(name) in keys:
                continue
            known = (*declared, *(other for other, more in named.items() if len(more) > len(used)))
            slip = hints.first(name, known, is_slip)
            if kind in _APART and (slip or len(used) == 1):
                near = slip or hints.nearest(name, known, find_meant)
                yield _word(show, "group-unknown", kind, name, used, near)
            elif slip:
                yield _word(show, "group-misspelled", kind, name, used, slip)


def _gather_uses(show: Show) -> Mapping[str, Mapping[str, list[_Use]]]:
    """Who uses each name, by kind, which is also what its fields are called. Channels come first, the day last."""
    found: dict[str, dict[str, list[_Use]]] = defaultdict(lambda: defaultdict(list))
    for section, kinds in reversed(list_marked("shared").items()):
        held = getattr(show, section)
        records = [("", held)] if section in SINGLES else held.items()
        for (id, record), kind in product(records, kinds):
            value = getattr(record, kind)
            value = value if isinstance(value, tuple) else (value,)
            for name in dict.fromkeys(filter(None, value)):
                found[kind][name].append(_Use(Subject(section, id), record.where[kind], value))
    return found


def _list_declared(show: Show, kind: str) -> tuple[str, ...]:
    """The names of a kind without doubt: those of the section groups, and a part of the bill that is a scene."""
    groups = tuple(group.id for group in show.groups.values() if group.kind == kind)
    scenes = (name for scene in show.scenes for name in list_scene_names(scene)) if kind == "bill" else ()
    return tuple(dict.fromkeys((*groups, *scenes)))


def _word(show: Show, code: str, kind: str, name: str, used: list[_Use], near: str) -> Finding:
    what = _WORDS.get(kind, kind)
    edits = _respell(kind, name, used, near) if near else _declare(show, kind, name)
    declare = f"add it to the section groups with `kind: {kind}`"
    made = find(
        code,
        used[0].place,
        about=tuple(use.subject for use in used if use.subject.id),
        others=tuple(use.place for use in used[1:]),
        what=what,
        name=name,
        count={1: "once", 2: "twice"}.get(len(used), f"{len(used)} times"),
        near=near,
        remedy=f"write {near} for {name}, or {declare} if it is another name" if near else declare,
    )
    return replace(made, edits=edits)


def _respell(kind: str, name: str, used: list[_Use], near: str) -> tuple[Edit, ...]:
    """The near name in each field that holds the other; none where a name in a list could be taken for two."""
    if any(sign in one for use in used for one in use.value for sign in ",;"):
        return ()
    return tuple(Edit(*_path(use), kind, ", ".join(near if one == name else one for one in use.value)) for use in used)


def _path(use: _Use) -> tuple[str, str]:
    return use.subject.section, use.subject.id


def _declare(show: Show, kind: str, name: str) -> tuple[Edit, ...]:
    return () if name in show.groups else (Edit("groups", name, "kind", kind),)


def check_teams(show: Show) -> Iterator[Finding]:
    """Nobody is a team alone, unless others of other teams play the same role on other days."""
    declared = {group_key(name) for name in _list_declared(show, "team")}
    teams = {person.id: person.team for person in show.people.values() if person.team}
    casts = [
        {teams[name] for name in (role.by, *role.alternates) if name in teams}
        for role in show.roles.values()
        if role.alternates
    ]
    for name, (first, *more) in _gather_uses(show)["team"].items():
        is_usual = bool(more) or group_key(name) in declared or any(name in cast and len(cast) > 1 for cast in casts)
        if first.subject.section == "people" and not is_usual:
            yield find("team-of-one", first.place, about=(first.subject,), person=first.subject.id, team=name)


def check_empty_teams(show: Show) -> Iterator[Finding]:
    """A team that plays a performance has somebody in it, where people have teams at all."""
    filled = tuple(dict.fromkeys(person.team for person in show.people.values() if person.team))
    keys, hints = {group_key(name) for name in (*filled, *_list_declared(show, "team"))}, Hints()
    for id, one in show.performances.items():
        if filled and one.team and group_key(one.team) not in keys and not hints.first(one.team, filled, is_slip):
            about = (Subject("performances", id),)
            near = hints.nearest(one.team, filled, find_meant)
            yield find("team-empty", one.where["team"], about=about, performance=id, team=one.team, near=near)


def check_bill(show: Show) -> Iterator[Finding]:
    """Whoever is on in parts of the bill alone is live in no scene outside of them: others may have the frequency
    there."""
    stretches = list_each(show, (channel.bill for channel in show.channels.values()))
    billed = dict(zip(show.channels, map(join_stretches, stretches), strict=True))
    times = scene_times(show)
    for channel in show.channels.values():
        outside = [
            show.scenes[index]
            for index in (scenes_on(show, channel) if billed[channel.id] else ())
            if _is_outside(*times[index], billed[channel.id])
        ]
        if outside:
            scene = outside[0]
            yield find(
                "live-outside-bill",
                channel.where["bill"],
                about=(Subject("channels", channel.id), *(Subject("scenes", one.id) for one in outside)),
                others=tuple(one.where["at"] for one in outside),
                channel=channel.id,
                bill=join_words(channel.bill),
                times=join_words(
                    f"{say_time(show, one.from_s)} to {say_time(show, one.to_s)}" for one in billed[channel.id]
                ),
                scene=scene.name or scene.id,
                at=say_time(show, scene.at_s or 0) + (f" to {say_time(show, scene.until_s)}" if scene.until_s else ""),
                rest=f" ({len(outside) - 1} more)" if len(outside) > 1 else "",
            )


def _is_outside(from_s: int | None, to_s: int | None, spans: Sequence[Stretch]) -> bool:
    """Whether a scene is known to be in none of the times. In one that is partly, the role may be live in that part."""
    if from_s is None:
        return False
    return all(from_s >= one.to_s or (to_s is not None and to_s <= one.from_s) for one in spans)


CHECKS = (check_names, check_teams, check_empty_teams, check_bill)
