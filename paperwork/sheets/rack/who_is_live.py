"""Who is live: scene by scene the channels that are up, big, and which come and go. Beside the desk and at the rack."""

from itertools import groupby

from paperwork.document import Column, Group, Row, Sheet, Table, cell, fact, row, words
from paperwork.model import Scene, Show
from paperwork.names import natural_key
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, short_scene
from paperwork.styles import LIVE_CHANGES, LIVE_NUMBERS, LIVE_SCENE, RACK_SMALL, RACK_STRONG
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
        Column(w["live head scene"], 46_000), Column(w["live head live"]), Column(w["live head on"], 49_000),
        Column(w["live head off"], 49_000),
    )
    groups, before = [], None
    for act, scenes in groupby(show.scenes, key=lambda scene: scene.act):
        rows = []
        for scene in scenes:
            now = _live_in(show, scene)
            rows.append(_row_of(show, scene, now, before))
            before = now
        groups.append(Group(tuple(rows), act, facts=(act,)))
    block = Table(columns, tuple(groups), row_um=17_000)
    return (
        frame_sheet(
            show, NAME, w["who is live"], (block,), subtitle=(w["live order"],), cautions=(w["privacy caution"],),
            landscape=True,
        ),
    )


def _live_in(show: Show, scene: Scene) -> frozenset[str]:
    return frozenset(
        channel.id for channel in show.channels.values() if not channel.spare and not set(channel.roles).isdisjoint(scene.live)
    )


def _row_of(show: Show, scene: Scene, now: frozenset[str], before: frozenset[str] | None) -> Row:
    w = words_of(show.production.language)
    number = short_scene(scene)
    rest = scene.name.removeprefix(number).strip()
    under = "  ·  ".join(filter(None, (rest, forms.scene_time(show, scene))))
    return row(
        cell(fact(number, LIVE_SCENE), fact(under, RACK_SMALL)),
        cell(fact(_told(now), LIVE_NUMBERS) if now else words("–", LIVE_NUMBERS)),
        cell(fact(_told(now - before), LIVE_CHANGES) if before is not None else words(w["live all"], RACK_STRONG)),
        cell(fact(_told(before - now), LIVE_CHANGES) if before is not None else words("–", RACK_STRONG)),
        where=scene.where.record,
    )


def _told(ids: frozenset[str]) -> str:
    return APART.join(sorted(ids, key=natural_key))
