"""The one axis of the day: when each scene is, when each role is on, when packs are powered.

Scene times count from curtain up or by the clock (`plan.day.clockface`), powered times are times of day; both in whole
seconds. What the show does not state
is None, and nothing is concluded from it.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from paperwork.model import Move, Scene, Show


class Packs:
    """The channels of each role; second packs last."""

    def __init__(self, show: Show) -> None:
        self.own: dict[str, tuple[str, ...]] = {}
        self.doubles: dict[str, tuple[str, ...]] = {}
        for channel in sorted(show.channels.values(), key=lambda channel: bool(channel.doubles)):
            for role in dict.fromkeys(channel.roles):
                self.own[role] = (*self.own.get(role, ()), channel.id)
            if channel.doubles:
                self.doubles[channel.doubles] = (*self.doubles.get(channel.doubles, ()), channel.id)

    def carried(self, role: str, given: str) -> tuple[str, ...]:
        """The channels of a role in a stint for which a channel is given, "" for its own."""
        return (given, *self.doubles.get(given, ())) if given else self.own.get(role, ())


LONG_S = 8 * 3600
"""No show of scenes lasts so long without a scene in its last hours (common practice, no source)."""

LONGEST_S = 16 * 3600
"""No day of shows without timed scenes lasts so long from curtain up (common practice, no source)."""


class Stretch(NamedTuple):
    """From one time to another, in seconds, the end not included."""

    from_s: int
    to_s: int


class Stint(NamedTuple):
    """One role on stage in one scene, or in one part of it that a move is about.

    `index` is the scene's place in the show. `from_s` and `to_s` are the move's where it states them (`stated_from`,
    `stated_to`), else the scene's, which the role may enter later and leave earlier. `channels` are those whose packs
    the role carries in it, second ones last: its own, or what a move has `given`. `turn` counts from 1 where the moves
    of the role in the scene say which pack is whose turn, else it is 0.
    """

    role: str
    index: int  # type: ignore[assignment]  # a tuple that nobody searches
    from_s: int | None = None
    to_s: int | None = None
    enter: str = ""
    exit: str = ""
    stated_from: bool = False
    stated_to: bool = False
    channels: tuple[str, ...] = ()
    given: bool = False
    turn: int = 0

    @property
    def timed(self) -> bool:
        """Whether entrance and exit are both stated."""
        return self.stated_from and self.stated_to


def scene_times(show: Show) -> tuple[tuple[int | None, int | None], ...]:
    """Start and end of each scene. A scene ends at its `until`, an interval, the next scene or the bows."""
    bows_s = _list_scene_bows(show)
    times = []
    for index, scene in enumerate(show.scenes):
        following = [later.at_s for later in show.scenes[index + 1 : index + 2]]
        end_s = scene.until_s
        if end_s is None and scene.at_s is not None:
            start_s = scene.at_s
            over_s = next((at_s for at_s in bows_s if at_s > start_s), bows_s[-1] if bows_s else None)
            end_s = following[0] if following else over_s
            known_s = (*show.day.interval_s, *(bows_s if end_s is not None else ()))
            breaks = [at_s for at_s in known_s if at_s > start_s and (end_s is None or at_s < end_s)]
            end_s = min(breaks, default=end_s)
            end_s = None if end_s is not None and end_s < start_s else end_s
        times.append((scene.at_s, end_s))
    return tuple(times)


def list_days(show: Show) -> tuple[int, ...]:
    """For each scene the number of its day, where there are several: by the clock each power-up begins one, and nothing is
    handed on or kept in between. () where all is one day."""
    ups = show.day.power_up_s if show.day.times == "clock" else ()
    if len(ups) < 2:
        return ()
    days: list[int] = []
    for scene in show.scenes:
        known = sum(up_s <= scene.at_s for up_s in ups) if scene.at_s is not None else 0
        days.append(known if scene.at_s is not None or not days else days[-1])
    return tuple(days)


def _list_scene_bows(show: Show) -> list[int]:
    """Which bows end a scene: by the clock those of each show; from curtain up, where all shows have the same scenes, the
    last of any."""
    day = show.day
    return sorted(day.bows_s) if day.times == "clock" else [max(day.bows_s)] if day.bows_s else []


def list_stints(show: Show, roles: Iterable[str] | None = None) -> Mapping[str, tuple[Stint, ...]]:
    """The stints of each role in show order; of the given roles, in their order, or of all."""
    wanted = dict.fromkeys(show.roles if roles is None else roles).keys()
    if not wanted:
        return {}
    plan = _LATEST.of(show)
    return {role: tuple(_list_stints_of(role, show, plan)) for role in wanted}


def _list_stints_of(role: str, show: Show, plan: "_Plan") -> Iterator[Stint]:
    for index in plan.scenes.get(role, ()):
        here = plan.moves.get((role, show.scenes[index].id), ())
        turn = plan.turns.get(here[0].id, 0) if len(here) == 1 else 0
        stints = _stints_in(role, index, plan.times[index], here, plan.packs)
        yield from (stint._replace(turn=turn) for stint in stints) if turn else stints


class _Plan(NamedTuple):
    """What is looked up for the stints of any role: made once for a show, whose channels ask one by one."""

    times: Sequence[tuple[int | None, int | None]]
    scenes: Mapping[str, Sequence[int]]
    moves: Mapping[tuple[str, str], Sequence[Move]]
    packs: Packs
    turns: Mapping[str, int]


class _Latest:
    """The plan of the show that was asked for last."""

    def __init__(self) -> None:
        self._held: tuple[Show, _Plan] | None = None

    def of(self, show: Show) -> _Plan:
        held = self._held
        if held is None or held[0] is not show:
            plan = _Plan(scene_times(show), _scenes_of(show), _moves_by_place(show), Packs(show), _list_turns(show))
            held = self._held = show, plan
        return held[1]


_LATEST = _Latest()


def _scenes_of(show: Show) -> dict[str, list[int]]:
    """The scenes, by index, in which each role is live, as often as it is named there."""
    found: dict[str, list[int]] = {}
    for index, scene in enumerate(show.scenes):
        for role in scene.live:
            found.setdefault(role, []).append(index)
    return found


def _moves_by_place(show: Show) -> dict[tuple[str, str], list[Move]]:
    moves: dict[tuple[str, str], list[Move]] = {}
    for move in show.moves.values():
        group = show.roles[move.role].group if move.channel and move.role in show.roles else ()
        for role in dict.fromkeys(group or (move.role,)):
            moves.setdefault((role, move.scene), []).append(move)
    return moves


def _list_turns(show: Show) -> Mapping[str, int]:
    """The turn of each move whose role has no other in the scene, where moves give its channel to another role there
    too: they have the pack one after the other, in the order of the moves. By the move's id."""
    own = Counter((move.role, move.scene) for move in show.moves.values())
    order: Counter[tuple[str, str]] = Counter()
    holders: dict[tuple[str, str], list[tuple[Move, int]]] = {}
    for move in show.moves.values():
        order[move.role, move.scene] += 1
        if move.channel:
            holders.setdefault((move.scene, move.channel), []).append((move, order[move.role, move.scene]))
    found: dict[str, int] = {}
    for listed in holders.values():
        last = 0
        for move, turn in listed if len({move.role for move, _ in listed}) > 1 else ():
            last = last + 1 if own[move.role, move.scene] == 1 else turn
            found[move.id] = last
    return found


def _stints_in(
    role: str, index: int, times: tuple[int | None, int | None], moves: Sequence[Move], packs: Packs
) -> list[Stint]:
    stints = []
    for move in moves:
        stated = move.from_s is not None, move.to_s is not None
        from_s, to_s = (
            own if own is not None else time for own, time in zip((move.from_s, move.to_s), times, strict=True)
        )
        carried = packs.carried(role, move.channel)
        stints.append(Stint(role, index, from_s, to_s, move.enter, move.exit, *stated, carried, bool(move.channel)))
    stints.sort(key=_sort_known)
    if len(moves) > 1 and any(move.channel for move in moves):
        return [stint._replace(turn=number) for number, stint in enumerate(stints, 1)]
    return stints or [Stint(role, index, *times, channels=packs.carried(role, ""))]


def _sort_known(stint: Stint) -> tuple[bool, int]:
    """By the entrance, else by the exit; what has neither is last."""
    at_s = stint.from_s if stint.from_s is not None else stint.to_s
    return at_s is None, at_s or 0


def scenes_by_role(show: Show) -> Mapping[str, frozenset[int]]:
    """The scenes, by index, in which each role is live."""
    found: dict[str, set[int]] = {role: set() for role in show.roles}
    for index, scene in enumerate(show.scenes):
        for role in scene.live:
            found[role].add(index)
    return {role: frozenset(indexes) for role, indexes in found.items()}


def are_apart(one: Stint, two: Stint) -> bool:
    """Whether two stints are known not to meet: one exit is stated to be no later than the other entrance.

    Where times are missing, stints in one scene whose moves say different turns do not meet.
    """
    in_turn = one.turn != two.turn and one.turn and two.turn and not (one.timed and two.timed)
    return _is_before(one, two) or _is_before(two, one) or bool(in_turn)


def _is_before(one: Stint, two: Stint) -> bool:
    return bool(
        one.stated_to and two.stated_from and one.to_s is not None and two.from_s is not None and one.to_s <= two.from_s
    )


def list_bows(show: Show) -> tuple[int, ...]:
    """When the bows of each show of the day are over, as scenes count: as the day says, else the stated end of the last
    scene; from curtain up one for each curtain, () where there is another number of them."""
    day = show.day
    if first_by_clock(show) is not None:
        return ()
    bows_s = day.bows_s
    if not bows_s or bows_by_clock(show):
        until_s = show.scenes[-1].until_s if show.scenes else None
        bows_s = () if until_s is None else (until_s,)
    if day.times == "clock" or len(bows_s) != 1:
        return bows_s if day.times == "clock" or len(bows_s) == len(day.curtain_s) else ()
    return bows_s * max(1, len(day.curtain_s))


def first_by_clock(show: Show) -> Scene | None:
    """The first timed scene, where scenes are given as times of day: from curtain up it would be hours into the night."""
    timed = [scene for scene in show.scenes if scene.at_s is not None]
    first = min(timed, key=lambda scene: scene.at_s or 0, default=None)
    if show.day.times == "clock":
        return None
    is_late = first is not None and (first.at_s or 0) >= max((LONG_S, *show.day.curtain_s[:1]))
    return first if is_late and show.day.curtain_s else None


def bows_by_clock(show: Show) -> tuple[int, ...]:
    """When the bows are from curtain up where they are given as times of day, long after every scene.

    () where they count from curtain up as they should. Of two shows a day it is the one that bows are nearest after.
    """
    day, times = show.day, [scene.until_s or scene.at_s or 0 for scene in show.scenes]
    if day.times == "clock" or any(at_s < (LONG_S if any(times) else LONGEST_S) for at_s in day.bows_s):
        return ()
    after = [[bow_s - curtain_s for curtain_s in day.curtain_s] for bow_s in day.bows_s]
    meant = [min((end_s for end_s in ends if end_s >= max(times, default=0)), default=None) for ends in after]
    known = tuple(end_s for end_s in meant if end_s is not None)
    return () if len(known) < len(meant) else known[:1] if len({*known}) == 1 else known
