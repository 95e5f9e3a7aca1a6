"""The evening as it will be: the swaps that a cover changes, and the spare for a dead pack."""

from collections.abc import Iterable
from itertools import pairwise
from typing import Literal, NamedTuple, TypeAlias

from paperwork.frozen import frozen
from paperwork.model import Channel, Scene, Show
from paperwork.plan.covers import Tonight
from paperwork.plan.handovers import Handover, Wearing, follow_pack, list_wearings, time_facts
from paperwork.plan.spares import is_backed
from paperwork.plan.timeline import Stint, list_days, list_stints


@frozen
class PackChange:
    """One body that goes from one worn pack to another between scenes. Times as in a handover."""

    by: str
    from_channel: str
    to_channel: str
    from_role: str
    to_role: str
    after: Scene
    before: Scene
    exit: str = ""
    enter: str = ""
    seconds: int | None = None
    at_least: bool = False
    off_s: int | None = None
    on_s: int | None = None


def list_wearings_tonight(show: Show, tonight: Tonight) -> dict[str, tuple[Wearing, ...]]:
    """Who wears each channel's pack tonight, stint by stint. A channel that a cover brings along carries the role."""
    stints = list_stints(show)
    found: dict[str, tuple[Wearing, ...]] = {}
    for channel in show.channels.values():
        borrowed = [role for (role, _), id in tonight.channel_of.items() if id == channel.id]
        roles = tuple(dict.fromkeys((*show.roles_on(channel), *borrowed)))

        def wears(stint: Stint, channel: Channel = channel) -> str:
            carrier = tonight.channel_of.get((stint.role, stint.index))
            here = carrier == channel.id if carrier and not stint.given else channel.id in stint.channels
            return tonight.on(stint.role, stint.index) if here else ""

        found[channel.id] = list_wearings(roles, stints, wears)
    return found


def list_handovers_tonight(show: Show, tonight: Tonight) -> tuple[Handover, ...]:
    """Every handover of the evening as it will be, in show order."""
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    found = [
        handover
        for channel, worn in list_wearings_tonight(show, tonight).items()
        for handover in follow_pack(show, channel, worn)
    ]
    return tuple(sorted(found, key=lambda handover: place[handover.before.id]))


def list_pack_changes(show: Show, tonight: Tonight) -> tuple[PackChange, ...]:
    """Every body that changes its worn pack between two scenes, in show order. Second packs and handhelds stay out."""
    worn_by: dict[str, list[_Worn]] = {}
    for id, worn in list_wearings_tonight(show, tonight).items():
        radio = show.radio_of(show.channels[id])
        if show.channels[id].doubles or (radio and radio.kind == "handheld"):
            continue
        for wearing in worn:
            worn_by.setdefault(wearing.by, []).append(_Worn(wearing.stint.index, wearing.stint.turn, id, wearing))
    days = list_days(show)
    changes = [
        _change(show, one, two)
        for stints in worn_by.values()
        for one, two in pairwise(sorted(stints, key=lambda worn: worn[:3]))
        if one.channel != two.channel and (not days or days[one.place] == days[two.place])
    ]
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    return tuple(sorted(changes, key=lambda change: (place[change.before.id], change.by)))


class _Worn(NamedTuple):
    """One pack on one body, in the order of the show."""

    place: int
    turn: int
    channel: str
    wearing: Wearing


def _change(show: Show, one: _Worn, two: _Worn) -> PackChange:
    before, after = one.wearing.stint, two.wearing.stint
    return PackChange(
        by=one.wearing.by,
        from_channel=one.channel,
        to_channel=two.channel,
        from_role=before.role,
        to_role=after.role,
        after=show.scenes[before.index],
        before=show.scenes[after.index],
        **time_facts(before, after),
    )


Obstacle: TypeAlias = Literal["", "taken", "backs", "kind", "unknown", "range", "window", "silent", "type"]
"""Why a spare cannot take the place of a dead pack or of a bad frequency; "" where it can."""


def find_spare(show: Show, dead: Channel, taken: Iterable[str] = ()) -> Channel | None:
    """The spare that can be set to a dead pack's frequency: of its radio type, else of one that tunes there."""
    used = frozenset(taken)
    free = [one for one in show.channels.values() if one.spare and not _obstacle(show, one, dead, used)]
    same = [spare for spare in free if spare.radio == dead.radio]
    return None if _is_outside(show, dead) else next(iter([*same, *free]), None)


def find_spare_channel(show: Show, channel: Channel, taken: Iterable[str]) -> Channel | None:
    """The spare that takes a channel's place on its own frequency: of its radio type, else of its kind."""
    alike = [one for one, obstacle in list_channel_obstacles(show, channel, taken) if not obstacle]
    return next(iter([*(one for one in alike if one.radio == channel.radio), *alike]), None)


def list_channel_obstacles(show: Show, channel: Channel, taken: Iterable[str]) -> tuple[tuple[Channel, Obstacle], ...]:
    """What keeps each spare from taking a channel's place on its own frequency; "" where nothing does."""
    used = frozenset(taken)
    return tuple((one, _channel_obstacle(show, one, channel, used)) for one in show.channels.values() if one.spare)


def _channel_obstacle(show: Show, spare: Channel, channel: Channel, taken: frozenset[str]) -> Obstacle:
    if spare.id in taken:
        return "taken"
    if spare.hz is None:
        return "silent"
    if not is_backed(spare, channel):
        return "backs" if spare.backs else "type"
    own = show.radio_of(channel)
    return "" if (show.radio_of(spare) or own) == own or _are_of_one_kind(show, spare, channel) else "kind"


def _are_of_one_kind(show: Show, one: Channel, two: Channel) -> bool:
    own, other = show.radio_of(one), show.radio_of(two)
    return own is not None and other is not None and own.kind == other.kind


def list_obstacles(show: Show, dead: Channel, taken: Iterable[str]) -> tuple[tuple[Channel | None, Obstacle], ...]:
    """What keeps each spare from a dead pack's place; no spare, and `window`, where no pack could be received."""
    if _is_outside(show, dead):
        return ((None, "window"),)
    used = frozenset(taken)
    return tuple((one, _obstacle(show, one, dead, used)) for one in show.channels.values() if one.spare)


def _obstacle(show: Show, spare: Channel, dead: Channel, taken: frozenset[str]) -> Obstacle:
    own, other = show.radio_of(dead), show.radio_of(spare)
    if spare.id in taken:
        return "taken"
    if spare.backs and dead.id not in spare.backs:
        return "backs"
    if spare.radio == dead.radio:
        return ""
    if own is None or other is None or dead.hz is None:
        return "unknown"
    if own.kind != other.kind:
        return "kind"
    return "" if other.tunes and other.can_tune(dead.hz) else "range"


def _is_outside(show: Show, dead: Channel) -> bool:
    """Whether the windows of a channel's racks keep its frequency from its receivers."""
    windows = [show.racks[slot.rack].window for slot in dead.slots if slot.rack in show.racks]
    return (
        dead.hz is not None
        and bool(windows)
        and all(window is not None and not window.low_hz <= dead.hz <= window.high_hz for window in windows)
    )
