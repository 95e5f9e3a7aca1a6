"""Scenes that are cut: the show is as one in which they were never written, and what hung on them goes on or falls away."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import Any

from paperwork.model import Cover, Look, Move, Scene


def leave_out(scenes: Iterable[Scene], records: Mapping[str, Any], cut: Collection[str]) -> dict[str, Any]:
    """Scenes, moves, looks and covers without the scenes that are cut. A look of a cut scene is worn from the next one on; a
    cover of cut scenes alone, and a look after which nothing is played, fall away."""
    order = tuple(scenes)
    kept = tuple(scene for scene in order if scene.id not in cut)
    following: dict[str, str] = {}
    after = ""
    for scene in reversed(order):
        after = after if scene.id in cut else scene.id
        following[scene.id] = after
    moves: Mapping[str, Move] = records["moves"]
    looks: Mapping[str, Look] = records["looks"]
    covers: Mapping[str, Cover] = records["covers"]
    return {
        "scenes": kept,
        "moves": {id: one for id, one in moves.items() if one.scene not in cut},
        "looks": {
            id: replace(one, scene=following.get(one.scene, one.scene))
            for id, one in looks.items()
            if one.scene not in cut or following[one.scene]
        },
        "covers": {
            id: replace(one, scenes=tuple(scene for scene in one.scenes if scene not in cut))
            for id, one in covers.items()
            if not one.scenes or not set(one.scenes) <= set(cut)
        },
    }
