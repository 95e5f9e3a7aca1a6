"""Who is live: scene by scene the channels that are up, big, and which come and go. Beside the desk and at the rack."""

from collections.abc import Collection, Mapping
from itertools import groupby
from typing import TypeAlias

from paperwork.document import Column, Group, Line, Row, Sheet, Table, cell, fact, row, words
from paperwork.model import Scene, Show
from paperwork.names import natural_key
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, short_scene
from paperwork.styles import LIVE_BODY, LIVE_CHANGES, LIVE_NUMBERS, LIVE_SCENE, RACK_SMALL, RACK_STRONG
from paperwork.words import words_of

NAME = "who-is-live"
APART = "  "
"""Between numbers: wider than a space, so that no two are read as one."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in show order, act by act. Second packs count: they are up with the first."""
    if not any(scene.live for scene in show.scenes) or not any(channel.roles for channel in show.channels.values()):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["live head scene"], 42_000), Column(w["live head live"]), Column(w["live head on"], 62_000),
        Column(w["live head off"], 40_000),
    )
    groups, before, last = [], None, {}
    for act, scenes in groupby(show.scenes, key=lambda scene: scene.act):
        rows = []
        for scene in scenes:
            now = _live_in(show, scene)
            rows.append(_row_of(show, scene, now, before, last))
            before, last = now, {**last, **now}
        groups.append(Group(tuple(rows), act, facts=(act,)))
    block = Table(columns, tuple(groups), row_um=15_000)
    return (
        frame_sheet(
            show, NAME, w["who is live"], (block,), subtitle=(w["live order"],), cautions=(w["privacy caution"],),
            landscape=True,
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


def _row_of(show: Show, scene: Scene, now: Live, before: Live | None, last: Live) -> Row:
    """A channel is new when it comes up, and when it comes up on another body than the last time."""
    w = words_of(show.production.language)
    number = short_scene(scene)
    rest = scene.name.removeprefix(number).strip()
    under = "  ·  ".join(filter(None, (rest, forms.scene_time(show, scene))))
    return row(
        cell(fact(number, LIVE_SCENE), fact(under, RACK_SMALL)),
        cell(fact(_told(now.keys()), LIVE_NUMBERS) if now else words("–", LIVE_NUMBERS)),
        cell(*_changes(now, before, last)) if before is not None else cell(words(w["live all"], RACK_STRONG)),
        cell(fact(_told(before.keys() - now.keys()), LIVE_CHANGES) if before is not None else words("–", RACK_STRONG)),
        where=scene.where.record,
    )


def _changes(now: Live, before: Live, last: Live) -> tuple[Line, ...]:
    """The numbers that come up, and under them each that is on another body than when it was last up."""
    moved = [
        id for id in sorted(now, key=natural_key) if id in last and {*now[id].values()} != {*last[id].values()}
    ]
    fresh = {id for id in now if id not in before and id not in moved}
    lines = [fact(_told(fresh), LIVE_CHANGES)] if fresh else []
    return (*lines, *(fact(f"{id} → {' / '.join(now[id])}", LIVE_BODY) for id in moved))


def _told(ids: Collection[str]) -> str:
    return APART.join(sorted(ids, key=natural_key))
