"""The acts of a bill: what each brings, what the house gives it, when and where it is on, what then changes."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import NamedTuple, TypeAlias, TypeVar

from paperwork.model import Channel, Other, Scene, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.day.bill import list_scene_names, list_stretches
from paperwork.plan.timeline import Stretch
from paperwork.text.names import group_key

Worn: TypeAlias = dict[str, dict[str, list[str]]]
"""By scene and channel the roles on it."""

_Record = TypeVar("_Record", Channel, Other, Scene)


class BilledAct(NamedTuple):
    """One part of the bill, or a set without a row of its own.

    `brought` are the channels that are on for it alone, `lent` those of the house that its scenes carry. `zones` are
    those of both, () where everything reaches everything. `stretches` are in the seconds of scenes, () where no time
    is stated. `title` is its name as it is printed, and `worn` says by channel which roles its scenes have on it.
    """

    name: str
    scenes: tuple[Scene, ...]
    brought: tuple[Channel, ...]
    lent: tuple[Channel, ...]
    others: tuple[Other, ...]
    zones: tuple[str, ...]
    stretches: tuple[Stretch, ...]
    title: str
    worn: Mapping[str, tuple[str, ...]]

    @property
    def channels(self) -> tuple[Channel, ...]:
        """What is on for it, the house's first."""
        return (*self.lent, *self.brought)


class ChangeOver(NamedTuple):
    """From one act to the next in a zone ("" everywhere): what goes off, comes on, stays, and the seconds between.

    `last` is None before the first act, and `seconds` where times are missing or the two overlap.
    """

    zone: str
    last: BilledAct | None
    next: BilledAct
    off: tuple[Channel, ...]
    on: tuple[Channel, ...]
    stays: tuple[Channel, ...]
    seconds: int | None

    def roles_on(self, channel: Channel) -> tuple[str, ...]:
        """Who has a channel in the next act, or in the last one, from which it goes off."""
        is_off = any(one.id == channel.id for one in self.off)
        act = self.last if is_off and self.last else self.next
        return act.worn.get(channel.id, ())


def list_acts(show: Show) -> tuple[BilledAct, ...]:
    """Every act in the order of the bill: by the time at which it is first on, those without a time last."""
    carried: Worn = {}
    for (role, index), ids in list_carried(show).items():
        for id in ids:
            carried.setdefault(show.scenes[index].id, {}).setdefault(id, []).append(role)
    scenes = _by_part(show.scenes, list_scene_names)
    brought = _by_part(show.channels.values(), lambda one: one.bill)
    others = _by_part(show.others.values(), lambda one: one.bill)
    acts = [
        _make_act(show, name, scenes.get(key, ()), brought.get(key, ()), others.get(key, ()), carried)
        for key, name in _name_parts(show).items()
    ]
    return tuple(sorted(acts, key=lambda act: act.stretches[:1] or (Stretch(10**9, 10**9),)))


def _name_parts(show: Show) -> dict[str, str]:
    """By its key each part of the bill, spelled as declared, else as first used; and each set that belongs to none."""
    named = [group.id for group in show.groups.values() if group.kind == "bill"]
    records: tuple[Channel | Other, ...] = (*show.channels.values(), *show.others.values())
    named += [name for one in records for name in one.bill]
    parts = {group_key(name): name for name in reversed(named)}
    parts = dict(reversed(parts.items()))
    for scene in show.scenes:
        if scene.kind == "set" and not any(group_key(name) in parts for name in list_scene_names(scene)):
            parts[group_key(scene.id)] = scene.id
    return parts


def _by_part(
    records: Iterable[_Record], names_of: Callable[[_Record], Iterable[str]]
) -> dict[str, tuple[_Record, ...]]:
    """By the key of a part of the bill the records that name it."""
    found: dict[str, list[_Record]] = {}
    for one in records:
        for key in dict.fromkeys(map(group_key, names_of(one))):
            found.setdefault(key, []).append(one)
    return {key: tuple(own) for key, own in found.items()}


def _make_act(
    show: Show,
    name: str,
    scenes: tuple[Scene, ...],
    brought: tuple[Channel, ...],
    others: tuple[Other, ...],
    carried: Worn,
) -> BilledAct:
    worn: dict[str, list[str]] = {}
    for id, roles in (pair for scene in scenes for pair in carried.get(scene.id, {}).items()):
        worn.setdefault(id, []).extend(roles)
    known = {one.id for one in brought}
    lent = tuple(one for one in show.channels.values() if one.id in worn and one.id not in known)
    own: tuple[Channel | Other, ...] = (*brought, *lent, *others)
    zones = tuple(dict.fromkeys(one.zone for one in own if one.zone))
    full = next((group.name for group in show.groups.values() if group.kind == "bill" and group.id == name), "")
    title = full or (scenes[0].name if len(scenes) == 1 else "") or name
    by_id = {id: tuple(dict.fromkeys(roles)) for id, roles in worn.items()}
    return BilledAct(name, scenes, brought, lent, others, zones, list_stretches(show, (name,)), title, by_id)


def list_change_overs(show: Show) -> tuple[ChangeOver, ...]:
    """Act by act in each zone in which there are two or more."""
    acts = [act for act in list_acts(show) if act.channels]
    zones = dict.fromkeys(zone for act in acts for zone in act.zones or ("",))
    followed = (tuple(_follow(zone, acts)) for zone in zones)
    return tuple(one for own in followed if len(own) > 1 for one in own)


def _follow(zone: str, acts: list[BilledAct]) -> Iterator[ChangeOver]:
    last: BilledAct | None = None
    for act in acts:
        if zone not in (act.zones or ("",)):
            continue
        own = [one for one in act.channels if one.zone in (zone, "")]
        before = [one for one in last.channels if one.zone in (zone, "")] if last else []
        now, then = {one.id for one in own}, {one.id for one in before}
        yield ChangeOver(
            zone,
            last,
            act,
            off=tuple(one for one in before if one.id not in now),
            on=tuple(one for one in own if one.id not in then),
            stays=tuple(one for one in own if one.id in then),
            seconds=_seconds_between(last, act),
        )
        last = act


def _seconds_between(last: BilledAct | None, act: BilledAct) -> int | None:
    if last is None or not last.stretches or not act.stretches:
        return None
    seconds = act.stretches[0].from_s - last.stretches[-1].to_s
    return seconds if seconds >= 0 else None
