"""Who is live: scene by scene the channels that are up, each in its own place. Beside the desk and at the rack."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import NamedTuple, TypeAlias

from paperwork.document import Board, BoardGroup, BoardRow, Sheet, fact
from paperwork.document.styles import LIVE_BODY, LIVE_SCENE, RACK_SMALL
from paperwork.model import Scene, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.day.clockface import say_time
from paperwork.sheets.frame import frame_sheet, is_staged, phrase, short_scene, subjects_of_channel
from paperwork.sheets.times import clock_fact, clock_word, time_line, time_words
from paperwork.text.names import natural_key, shorten_ids

NAME = "who-is-live"

MOST_PLACED = 40
"""Of more channels only those that change are shown: else each scene would be a page. Our own choice."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in show order, act by act. Second packs count: they are up with the first.

    A channel keeps its place from scene to scene; one that is live in no scene has none, and is named in the head.
    """
    moments = _list_moments(show)
    carried = _carried_by_scene(show)
    live = [_live_in(show, moment.scenes, carried) for moment in moments]
    ids = tuple(sorted({id for now in live for id in now}, key=natural_key))
    if not ids:
        return ()
    idle = [one.id for one in show.channels.values() if not one.spare and one.id not in ids]
    texts = [
        phrase(show, "live order") if is_staged(show) else phrase(show, "live order parts"),
        phrase(show, "live signs"),
    ]
    texts += [clock_word(show)] if any(scene.at_s is not None for scene in show.scenes) else []
    texts += [phrase(show, "live never", channels=shorten_ids(idle))] if idle else []
    changes = len(ids) > MOST_PLACED
    texts += [phrase(show, "live changes")] if changes else []
    board = Board(ids, tuple(_groups(show, moments, live)), changes)
    return (
        frame_sheet(
            show,
            NAME,
            "who is live",
            (board,),
            subtitle=tuple(texts),
            cautions=("privacy caution",),
            facts=(clock_fact(show), str(len(texts)), *idle),
            landscape=True,
            turns=True,
        ),
    )


Live: TypeAlias = Mapping[str, Mapping[str, str]]
"""The channels that are up; of each the roles that are live on it, and who plays them."""


class Moment(NamedTuple):
    """A scene begins, or `ends` while others go on; `scenes`, by id, are on from here on."""

    scene: Scene
    ends: bool
    scenes: frozenset[str]


def _list_edges(show: Show) -> list[tuple[Scene, bool]]:
    """Every scene's beginning, and the end of each that goes on into a later one, as games on two fields do."""
    begun = [(scene, False) for scene in show.scenes]
    for number, scene in enumerate(show.scenes):
        later = [one.at_s for one in show.scenes[number + 1 :] if one.at_s is not None]
        if scene.until_s is not None and scene.until_s not in later and any(at_s < scene.until_s for at_s in later):
            place = max(i for i, (one, ends) in enumerate(begun) if _from_s(one, ends, scene.until_s) < scene.until_s)
            begun.insert(place + 1, (scene, True))
    return begun


def _list_moments(show: Show) -> list[Moment]:
    """Every beginning and end with the scenes that are on from it on."""
    moments: list[Moment] = []
    running: dict[str, Scene] = {}
    for scene, ends in _list_edges(show):
        at_s = scene.until_s if ends else scene.at_s
        running = {
            id: one
            for id, one in running.items()
            if at_s is not None and one.until_s is not None and one.until_s > at_s and id != scene.id
        }
        if not ends:
            running[scene.id] = scene
        moments.append(Moment(scene, ends, frozenset(running)))
    return moments


def _from_s(scene: Scene, ends: bool, unknown_s: int) -> int:
    at_s = scene.until_s if ends else scene.at_s
    return unknown_s if at_s is None else at_s


def _carried_by_scene(show: Show) -> Mapping[str, Sequence[tuple[str, tuple[str, ...]]]]:
    """By the id of a scene the roles in it, each with what it carries."""
    found: dict[str, list[tuple[str, tuple[str, ...]]]] = {}
    for (role, index), ids in list_carried(show).items():
        found.setdefault(show.scenes[index].id, []).append((role, ids))
    return found


def _live_in(show: Show, scenes: frozenset[str], carried: Mapping[str, Sequence[tuple[str, tuple[str, ...]]]]) -> Live:
    up: dict[str, set[str]] = {}
    for role, ids in (one for scene in scenes for one in carried.get(scene, ())):
        for id in ids:
            up.setdefault(id, set()).add(role)
    return {
        channel.id: {role: show.roles[role].by or role for role in show.roles_on(channel) if role in up[channel.id]}
        for channel in show.channels.values()
        if not channel.spare and channel.id in up
    }


def _groups(show: Show, moments: list[Moment], live: list[Live]) -> Iterator[BoardGroup]:
    before: Live | None = None
    last: Live = {}
    for act, pairs in groupby(zip(moments, live, strict=True), key=lambda pair: pair[0].scene.act):
        rows = []
        for moment, now in pairs:
            rows.append(_row_of(show, moment, now, before, last))
            before, last = now, {**last, **now}
        yield BoardGroup(tuple(rows), act)


def _row_of(show: Show, moment: Moment, now: Live, before: Live | None, last: Live) -> BoardRow:
    """A channel is new when it comes up, or is on another body than the last time. At first all would be."""
    scene = moment.scene
    number = short_scene(scene)
    if moment.ends and scene.until_s is not None:
        under, of = (phrase(show, "live ends", time=say(show, scene.until_s)) for say in (time_words, say_time))
    else:
        name, times = scene.name.removeprefix(number).strip(), time_line(show, scene.at_s, RACK_SMALL)
        under, of = ("  ·  ".join(filter(None, (name, time))) for time in (times.text, times.fact))
    moved = [id for id in sorted(now, key=natural_key) if id in last and {*now[id].values()} != {*last[id].values()}]
    new = [id for id in now if before is not None and (id not in before or id in moved)]
    return BoardRow(
        fact(number, LIVE_SCENE),
        fact(under, RACK_SMALL, of=of) if under else None,
        tuple(sorted(now, key=natural_key)),
        tuple(sorted(new, key=natural_key)),
        tuple(sorted((before or {}).keys() - now.keys(), key=natural_key)),
        tuple(fact(f"{id} → {' / '.join(now[id])}", LIVE_BODY) for id in moved),
        subjects=tuple(subject for id in now for subject in subjects_of_channel(show, show.channels[id])),
        where=scene.where.record,
    )
