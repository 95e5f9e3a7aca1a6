"""The one axis of the day: when each scene is, when each role is on, when packs are powered.

Scene times count from curtain up, powered times are times of day; both in whole seconds. What the show does not state
is None, and nothing is concluded from it.
"""

import itertools
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from paperwork.model import Channel, Move, Scene, Show

LONG_S = 8 * 3600
"""No show of scenes lasts so long without a scene in its last hours (common practice, no source)."""


class Stretch(NamedTuple):
    """From one time to another, in seconds, the end not included."""

    from_s: int
    to_s: int


@dataclass(frozen=True, slots=True)
class Stint:
    """One role on stage in one scene, or in one part of it that a move is about.

    `index` is the scene's place in the show. `from_s` and `to_s` are the move's where it states them (`stated_from`,
    `stated_to`), else the scene's, which the role may enter later and leave earlier.
    """

    role: str
    index: int
    from_s: int | None = None
    to_s: int | None = None
    enter: str = ""
    exit: str = ""
    stated_from: bool = False
    stated_to: bool = False

    @property
    def timed(self) -> bool:
        """Whether entrance and exit are both stated."""
        return self.stated_from and self.stated_to


def scene_times(show: Show) -> tuple[tuple[int | None, int | None], ...]:
    """Start and end of each scene from curtain up. A scene ends at its `until`, an interval, the next scene or the bows."""
    bows_s = show.day.bows_s
    times = []
    for index, scene in enumerate(show.scenes):
        following = [later.at_s for later in show.scenes[index + 1 : index + 2]]
        end_s = scene.until_s
        if end_s is None and scene.at_s is not None:
            end_s = following[0] if following else bows_s
            start_s = scene.at_s
            breaks = [at_s for at_s in show.day.interval_s if at_s > start_s and (end_s is None or at_s < end_s)]
            end_s = min(breaks, default=end_s)
            end_s = None if end_s is not None and end_s < start_s else end_s
        times.append((scene.at_s, end_s))
    return tuple(times)


def list_stints(show: Show, roles: Iterable[str] | None = None) -> Mapping[str, tuple[Stint, ...]]:
    """The stints of each role in show order; of the given roles, or of all."""
    wanted = set(show.roles) if roles is None else set(roles)
    times = scene_times(show)
    moves = _moves_by_place(show, wanted)
    found: dict[str, list[Stint]] = {role: [] for role in wanted}
    for index, scene in enumerate(show.scenes):
        for role in scene.live:
            if role in wanted:
                found[role] += _stints_in(role, index, times[index], moves.get((role, scene.id), ()))
    return {role: tuple(stints) for role, stints in found.items()}


def _moves_by_place(show: Show, roles: set[str]) -> dict[tuple[str, str], list[Move]]:
    moves: dict[tuple[str, str], list[Move]] = {}
    for move in show.moves.values():
        if move.role in roles:
            moves.setdefault((move.role, move.scene), []).append(move)
    return moves


def _stints_in(role: str, index: int, times: tuple[int | None, int | None], moves: Iterable[Move]) -> list[Stint]:
    stints = []
    for move in moves:
        stated = move.from_s is not None, move.to_s is not None
        from_s, to_s = (
            own if own is not None else time for own, time in zip((move.from_s, move.to_s), times, strict=True)
        )
        stints.append(Stint(role, index, from_s, to_s, move.enter, move.exit, *stated))
    stints.sort(key=lambda stint: (stint.from_s is None, stint.from_s or 0))
    return stints or [Stint(role, index, *times)]


def scenes_by_role(show: Show) -> Mapping[str, frozenset[int]]:
    """The scenes, by index, in which each role is live."""
    found: dict[str, set[int]] = {role: set() for role in show.roles}
    for index, scene in enumerate(show.scenes):
        for role in scene.live:
            found[role].add(index)
    return {role: frozenset(indexes) for role, indexes in found.items()}


def are_apart(one: Stint, two: Stint) -> bool:
    """Whether two stints are known not to meet: one exit is stated to be no later than the other entrance."""
    return _is_before(one, two) or _is_before(two, one)


def _is_before(one: Stint, two: Stint) -> bool:
    return bool(
        one.stated_to and two.stated_from and one.to_s is not None and two.from_s is not None and one.to_s <= two.from_s
    )


def bows_s(show: Show) -> int | None:
    """When the bows are over, from curtain up: as the day says, else the stated end of the last scene."""
    if first_by_clock(show) is not None:
        return None
    if show.day.bows_s is None or bows_by_clock_s(show) is not None:
        return show.scenes[-1].until_s if show.scenes else None
    return show.day.bows_s


def first_by_clock(show: Show) -> Scene | None:
    """The first timed scene, where scenes are given as times of day: from curtain up it would be hours into the night."""
    timed = [scene for scene in show.scenes if scene.at_s is not None]
    first = min(timed, key=lambda scene: scene.at_s or 0, default=None)
    is_late = first is not None and (first.at_s or 0) >= max((LONG_S, *show.day.curtain_s[:1]))
    return first if is_late and show.day.curtain_s else None


def bows_by_clock_s(show: Show) -> int | None:
    """When the bows are from curtain up where the show gives them as a time of day: they would be long after every scene.

    None where they count from curtain up as they should. Of two shows a day it is the one that the bows are nearest after.
    """
    day, times = show.day, [scene.until_s or scene.at_s or 0 for scene in show.scenes]
    if day.bows_s is None or day.bows_s < LONG_S or not any(times):
        return None
    after = [day.bows_s - curtain_s for curtain_s in day.curtain_s]
    return min((end_s for end_s in after if end_s >= max(times)), default=None)


def powered_stretches(show: Show) -> tuple[Stretch, ...]:
    """When packs are on, in times of day: from each power-up to the bows; () where the show does not state enough.

    One power-up on a day of two shows: they stay on between.
    """
    day, end_s = show.day, bows_s(show)
    if end_s is None or not day.power_up_s or not day.curtain_s:
        return ()
    ends = [curtain_s + end_s for curtain_s in day.curtain_s]
    if len(day.power_up_s) == 1:
        ends = ends[-1:]
    if len(day.power_up_s) != len(ends):
        return ()
    stretches = tuple(Stretch(*pair) for pair in zip(day.power_up_s, ends, strict=True))
    edges = [edge_s for stretch in stretches for edge_s in stretch]
    return stretches if all(one < two for one, two in itertools.pairwise(edges)) else ()


def powered_stretches_of(show: Show, channel: Channel) -> tuple[Stretch, ...]:
    """When one channel's transmitter is on, in times of day.

    An idle spare is off. One of an exclusive group has its cells in only from its first scene to its last, and a
    channel that plays nothing but sets on a bill only in those; where times are unknown, it counts as on all day.
    """
    if channel.spare:
        return ()
    whole = powered_stretches(show)
    if not channel.exclusive and all(scene.kind != "set" for scene in show.scenes):
        return whole
    roles, scenes = set(channel.roles), zip(show.scenes, scene_times(show), strict=True)
    own = [(scene, time) for scene, time in scenes if not roles.isdisjoint(scene.live)]
    if not own or not (channel.exclusive or all(scene.kind == "set" for scene, _ in own)):
        return whole
    times = [time for _, time in own]
    known = sorted(Stretch(start_s, end_s) for start_s, end_s in times if start_s is not None and end_s is not None)
    if len(known) < len(times):
        return whole
    parts = [Stretch(known[0].from_s, max(stretch.to_s for stretch in known))] if channel.exclusive else _merge(known)
    return (
        tuple(
            Stretch(curtain_s + part.from_s, curtain_s + part.to_s)
            for curtain_s in show.day.curtain_s
            for part in parts
        )
        or whole
    )


def _merge(stretches: list[Stretch]) -> list[Stretch]:
    """Sorted stretches with those that touch or overlap made one."""
    merged: list[Stretch] = []
    for stretch in stretches:
        if merged and stretch.from_s <= merged[-1].to_s:
            merged[-1] = Stretch(merged[-1].from_s, max(merged[-1].to_s, stretch.to_s))
        else:
            merged.append(stretch)
    return merged
