"""The parts of the bill: when each is on, by its own row or by the scenes of that name, and which of them meet."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache

from paperwork.model import Day, Group, Scene, Show
from paperwork.plan.timeline import Stretch, scene_times
from paperwork.text.names import group_key


def moments_of(show: Show, parts: Iterable[str]) -> frozenset[str]:
    """What stands for the times of some parts of the bill: two lists of parts meet if and only if they have one in
    common.

    A part meets itself, a part that holds a scene of its own, and any that is on at one time with it. Where the times
    of a part are not stated, nothing is concluded from them.
    """
    keys = {group_key(part) for part in parts}
    if not keys:
        return frozenset()
    shared = _share_moments(tuple(show.groups.values()), show.scenes, show.day)
    return frozenset().union(*({f"part {key}", *shared.get(key, ())} for key in keys))


def list_stretches(show: Show, parts: Iterable[str]) -> tuple[Stretch, ...]:
    """When some parts of the bill are on, in the seconds of scenes, in order; () where one of them states no time."""
    return next(list_each(show, (parts,)))


def list_each(show: Show, several: Iterable[Iterable[str]]) -> Iterator[tuple[Stretch, ...]]:
    """The same for several lists of parts. What is known of the show is looked up once: that costs as much as it has
    groups."""
    shared = _list_times(tuple(show.groups.values()), show.scenes, show.day)
    for parts in several:
        found = [shared.get(group_key(part), ()) for part in parts]
        yield tuple(sorted(stretch for times in found for stretch in times)) if all(found) else ()


def join_stretches(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Sorted stretches with those that touch or overlap made one."""
    joined: list[Stretch] = []
    for stretch in stretches:
        if joined and stretch.from_s <= joined[-1].to_s:
            joined[-1] = Stretch(joined[-1].from_s, max(joined[-1].to_s, stretch.to_s))
        else:
            joined.append(stretch)
    return joined


def list_scene_names(scene: Scene) -> tuple[str, ...]:
    """Every name by which a part of the bill can mean a scene: its id, its name and its act."""
    return tuple(filter(None, (scene.id, scene.name, scene.name.removeprefix(f"{scene.id} "), scene.act)))


@lru_cache(8)
def _share_moments(groups: tuple[Group, ...], scenes: tuple[Scene, ...], day: Day) -> Mapping[str, tuple[str, ...]]:
    """By the key of a part: the scenes in it, and the times that it shares with other parts."""
    shared: dict[str, list[str]] = defaultdict(list)
    stated = _list_stated(groups)
    for index, scene in enumerate(scenes):
        for key in {group_key(name) for name in list_scene_names(scene)} - set(stated):
            shared[key].append(f"scene {index}")
    stretches = _list_times(groups, scenes, day)
    for number, keys in enumerate(_list_gatherings(stretches)):
        for key in keys:
            shared[key].append(f"time {number}")
    return {key: tuple(names) for key, names in shared.items()}


def _list_stated(groups: tuple[Group, ...]) -> dict[str, Stretch]:
    """By the key of a part: when it is on, where its own row says so."""
    return {
        group_key(group.id): Stretch(group.from_s, group.until_s)
        for group in groups
        if group.kind == "bill" and group.from_s is not None and group.until_s is not None
    }


@lru_cache(8)
def _list_times(groups: tuple[Group, ...], scenes: tuple[Scene, ...], day: Day) -> Mapping[str, tuple[Stretch, ...]]:
    """By the key of a part: when it is on, by its own row or else by the scenes of that name; those that say a time."""
    stated = _list_stated(groups)
    stretches: dict[str, tuple[Stretch, ...]] = {key: (one,) for key, one in stated.items()}
    for scene, (from_s, to_s) in zip(scenes, _times_of(scenes, day), strict=True):
        if from_s is not None and to_s is not None:
            for key in {group_key(name) for name in list_scene_names(scene)} - set(stated):
                stretches[key] = (*stretches.get(key, ()), Stretch(from_s, to_s))
    return stretches


def _times_of(scenes: tuple[Scene, ...], day: Day) -> Iterator[tuple[int | None, int | None]]:
    """Start and end of each scene; the last has an end only if stated, for bows end an evening and not a set."""
    for scene, (from_s, to_s) in zip(scenes, scene_times(Show(day=day, scenes=scenes)), strict=True):
        yield from_s, scene.until_s if scene is scenes[-1] else to_s


def _list_gatherings(stretches: Mapping[str, tuple[Stretch, ...]]) -> Iterator[frozenset[str]]:
    """The largest sets of parts that are on at one time. All that ever meet are together in one of them."""
    edges = sorted(
        edge
        for key, several in stretches.items()
        for from_s, to_s in several
        if from_s < to_s
        for edge in ((from_s, 1, key), (to_s, 0, key))
    )
    on: dict[str, int] = {}
    is_grown = False
    for _, starts, key in edges:
        if starts:
            on[key] = on.get(key, 0) + 1
            is_grown = True
            continue
        if is_grown and len(on) > 1:
            yield frozenset(on)
        is_grown = False
        on[key] -= 1
        if not on[key]:
            del on[key]
