"""When transmitters are on: packs as a whole, and each channel as its exclusive group and its sets on a bill let it."""

import itertools
from collections.abc import Mapping, Sequence
from functools import cached_property

from paperwork.model import Channel, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.day.bill import join_stretches, list_stretches
from paperwork.plan.day.clockface import is_by_clock, list_origins
from paperwork.plan.timeline import Stretch, list_bows, scene_times


def powered_stretches(show: Show) -> tuple[Stretch, ...]:
    """When packs are on, in times of day: from each power-up to the bows; () where the show does not state enough.

    One power-up on a day of two shows: they stay on between. By the clock there is a power-up for each day or
    show, and packs are on to its bows; where only the last are known, to the end of the last scene before the next
    power-up.
    """
    ends = _ends_by_clock(show) if is_by_clock(show) else _ends_from_curtain(show)
    if not ends or len(show.day.power_up_s) != len(ends):
        return ()
    stretches = tuple(Stretch(*pair) for pair in zip(show.day.power_up_s, ends, strict=True))
    edges = [edge_s for stretch in stretches for edge_s in stretch]
    return stretches if all(one < two for one, two in itertools.pairwise(edges)) else ()


def _ends_from_curtain(show: Show) -> list[int]:
    ends = list_ends(show)
    return ends[-1:] if len(show.day.power_up_s) == 1 else ends


def list_ends(show: Show) -> list[int]:
    """When each show of the day is over, in times of day: one for each curtain, or [] where the show does not state them."""
    curtain_s, bows_s = show.day.curtain_s, list_bows(show)
    if is_by_clock(show):
        return [*bows_s] if len(bows_s) == len(curtain_s) else []
    return [curtain_s + end_s for curtain_s, end_s in zip(curtain_s, bows_s, strict=False)]


def _ends_by_clock(show: Show) -> list[int]:
    known = [(from_s, to_s) for from_s, to_s in scene_times(show) if from_s is not None and to_s is not None]
    bows_s = show.day.bows_s
    if len(bows_s) > 1 and len(bows_s) == len(show.day.power_up_s):
        return [*bows_s]
    last_s = max(bows_s or (to_s for _, to_s in known), default=None)
    if last_s is None:
        return []
    ends = []
    for up_s in show.day.power_up_s[1:]:
        ends.append(max((to_s for from_s, to_s in known if from_s < up_s), default=up_s))
    return [*ends, last_s]


class Powered:
    """When each channel of a show is on. What holds for all of them is worked out once."""

    def __init__(self, show: Show) -> None:
        self._show = show
        self._has_sets = any(scene.kind == "set" for scene in show.scenes)

    def list_stretches_of(self, channel: Channel) -> tuple[Stretch, ...]:
        """When one channel's transmitter is on, in times of day.

        An idle spare is off. One of an exclusive group has its cells in only from its first scene to its last, one of
        parts of the bill, or that plays nothing but sets, only in those; where times are unknown, it counts as on all
        day.
        """
        if channel.spare:
            return ()
        parts = self.list_parts(channel)
        shifted = (Stretch(zero_s + from_s, zero_s + to_s) for zero_s in self._origins for from_s, to_s in parts)
        return tuple(shifted) or self._whole

    def list_parts(self, channel: Channel) -> list[Stretch]:
        """The parts of the show in which alone a channel is on, sorted; [] where it is on all day."""
        if not channel.exclusive and not channel.bill and not self._has_sets:
            return []
        own = self._list_scenes_on(channel)
        billed = list_stretches(self._show, channel.bill) if channel.bill else ()
        is_set = bool(own) and all(self._show.scenes[index].kind == "set" for index in own)
        if not (channel.exclusive and own) and not is_set and not billed:
            return []
        times = [self._within(index, billed) for index in own]
        known = sorted(Stretch(start_s, end_s) for start_s, end_s in times if start_s is not None and end_s is not None)
        if len(known) < len(times):
            return []
        if channel.exclusive and own:
            return [Stretch(known[0].from_s, max(stretch.to_s for stretch in known))]
        return join_stretches(sorted((*known, *billed)))

    def _within(self, index: int, billed: Sequence[Stretch]) -> tuple[int | None, int | None]:
        """Start and end of a scene; where it states no end, no longer than the part of the bill in which it begins."""
        start_s, end_s = self._times[index]
        if start_s is None or self._show.scenes[index].until_s is not None:
            return start_s, end_s
        over_s = next((to_s for from_s, to_s in join_stretches(billed) if from_s <= start_s < to_s), None)
        return start_s, min((at_s for at_s in (end_s, over_s) if at_s is not None), default=None)

    def _list_scenes_on(self, channel: Channel) -> list[int]:
        """The scenes, by index, in which its pack is worn or held: `carried.scenes_on` of it."""
        roles = self._show.roles_on(channel)
        return sorted({index for role in roles for index, ids in self._carried.get(role, ()) if channel.id in ids})

    @cached_property
    def _whole(self) -> tuple[Stretch, ...]:
        return powered_stretches(self._show)

    @cached_property
    def _origins(self) -> tuple[int, ...]:
        return tuple(list_origins(self._show))

    @cached_property
    def _times(self) -> tuple[tuple[int | None, int | None], ...]:
        return scene_times(self._show)

    @cached_property
    def _carried(self) -> Mapping[str, list[tuple[int, tuple[str, ...]]]]:
        found: dict[str, list[tuple[int, tuple[str, ...]]]] = {}
        for (role, index), ids in list_carried(self._show).items():
            found.setdefault(role, []).append((index, ids))
        return found
