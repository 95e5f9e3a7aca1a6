"""Who is live: scene by scene the channels that are up, each in its own place. Beside the desk and at the rack."""

from collections.abc import Iterator, Mapping
from itertools import groupby
from typing import TypeAlias

from paperwork.document import Board, BoardGroup, BoardRow, Line, Sheet, fact
from paperwork.model import Scene, Show
from paperwork.names import natural_key, shorten_ids
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel
from paperwork.styles import LIVE_BODY, LIVE_SCENE, RACK_SMALL
from paperwork.words import words_of

NAME = "who-is-live"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in show order, act by act. Second packs count: they are up with the first.

    A channel keeps its place from scene to scene; one that is live in no scene has none, and is named in the head.
    """
    live = [_live_in(show, scene) for scene in show.scenes]
    ids = tuple(sorted({id for now in live for id in now}, key=natural_key))
    if not ids:
        return ()
    w = words_of(show.production.language)
    idle = [one.id for one in show.channels.values() if not one.spare and one.id not in ids]
    told = [w["live order"], w["live signs"]]
    told += [w["show time"]] if any(scene.at_s is not None for scene in show.scenes) else []
    told += [w["live never"].format(channels=shorten_ids(idle))] if idle else []
    board = Board(ids, tuple(_groups(show, live)), facts=tuple(idle))
    return (
        frame_sheet(
            show, NAME, w["who is live"], (board,), subtitle=tuple(told), cautions=(w["privacy caution"],), landscape=True,
        ),
    )


Live: TypeAlias = Mapping[str, Mapping[str, str]]
"""The channels that are up; of each the roles that are live on it, and who plays them."""


def _live_in(show: Show, scene: Scene) -> Live:
    return {
        channel.id: {role: show.roles[role].by or role for role in channel.roles if role in scene.live}
        for channel in show.channels.values()
        if not channel.spare and not set(channel.roles).isdisjoint(scene.live)
    }


def _groups(show: Show, live: list[Live]) -> Iterator[BoardGroup]:
    before: Live | None = None
    last: Live = {}
    for act, scenes in groupby(zip(show.scenes, live, strict=True), key=lambda pair: pair[0].act):
        rows = []
        for scene, now in scenes:
            rows.append(_row_of(show, scene, now, before, last))
            before, last = now, {**last, **now}
        yield BoardGroup(tuple(rows), act)


def _row_of(show: Show, scene: Scene, now: Live, before: Live | None, last: Live) -> BoardRow:
    """A channel is new when it comes up, and when it comes up on another body than the last time. At first all would be."""
    number = short_scene(scene)
    rest = scene.name.removeprefix(number).strip()
    under = "  ·  ".join(filter(None, (rest, forms.show_time(scene))))
    moved = [id for id in sorted(now, key=natural_key) if id in last and {*now[id].values()} != {*last[id].values()}]
    new = [id for id in now if before is not None and (id not in before or id in moved)]
    return BoardRow(
        fact(number, LIVE_SCENE), fact(under, RACK_SMALL) if under else None, tuple(sorted(now, key=natural_key)),
        tuple(sorted(new, key=natural_key)), tuple(sorted((before or {}).keys() - now.keys(), key=natural_key)),
        tuple(_note(id, now) for id in moved),
        subjects=tuple(subject for id in now for subject in subjects_of_channel(show, show.channels[id])),
        where=scene.where.record,
    )


def _note(id: str, now: Live) -> Line:
    return fact(f"{id} → {' / '.join(now[id])}", LIVE_BODY)
