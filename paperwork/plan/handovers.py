"""Handovers: a pack that goes from one body to another between scenes. Derived from who is live, never typed."""

import itertools
from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple, TypeAlias

from paperwork.frozen import frozen
from paperwork.model import Channel, Scene, Show
from paperwork.plan.timeline import Stint, are_apart, list_days, list_stints
from paperwork.text.names import fold

BEFORE_ALL_S = -(10**9)
"""Before anything that a show states: where an entrance is not timed."""

WornBy: TypeAlias = Callable[[Stint], str]
"""Who has a pack in a stint, "" where nobody does, or it is on another pack."""


class Wearing(NamedTuple):
    """One body with a channel's pack, in one stint of one role."""

    by: str
    stint: Stint


@frozen
class Handover:
    """Pack of `channel` from one role to another: last live in `after`, next live in `before`.

    `exit` and `enter` are the sides of the stage, "" where unknown. `seconds` is the time off stage: exact, or no less
    than that (`at_least`), or None where the show does not state enough. `in_vision`: both are on stage at the time.
    `off_s` and `on_s` are when the first is off and the second on, where moves say it.
    """

    channel: str
    from_role: str
    to_role: str
    after: Scene
    before: Scene
    from_by: str = ""
    to_by: str = ""
    exit: str = ""
    enter: str = ""
    seconds: int | None = None
    at_least: bool = False
    in_vision: bool = False
    off_s: int | None = None
    on_s: int | None = None

    @property
    def crosses(self) -> bool:
        """Whether the pack is known to leave the stage on one side and to be wanted on another."""
        return bool(self.exit and self.enter and fold(self.exit) != fold(self.enter))


def list_handovers(show: Show, channel: Channel) -> tuple[Handover, ...]:
    """Every change of body of a channel's pack, in show order. Scenes in which nobody wears it are passed over."""
    return _list_of(show, (channel,))


def list_all_handovers(show: Show) -> tuple[Handover, ...]:
    """Every handover of the show, in show order: by the scene before which the pack is wanted."""
    return _list_of(show, show.channels.values())


def _list_of(show: Show, channels: Iterable[Channel]) -> tuple[Handover, ...]:
    roles_of = {channel.id: show.roles_on(channel) for channel in channels}
    shared = {id: roles for id, roles in roles_of.items() if len(roles) > 1}
    stints = list_stints(show, (role for roles in shared.values() for role in roles))
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    found: list[Handover] = []
    for id, roles in shared.items():

        def worn_by(stint: Stint, id: str = id) -> str:
            return show.roles[stint.role].by if id in stint.channels else ""

        found += follow_pack(show, id, list_wearings(roles, stints, worn_by))
    return tuple(sorted(found, key=lambda handover: place[handover.before.id]))


def list_wearings(
    roles: tuple[str, ...], stints: Mapping[str, tuple[Stint, ...]], worn_by: WornBy
) -> tuple[Wearing, ...]:
    """Who wears one pack, stint by stint in show order; in one scene by known time, else by turn, by role."""
    worn = [
        (
            (
                stint.index,
                stint.from_s if stint.stated_from and stint.from_s is not None else BEFORE_ALL_S,
                stint.turn,
                order,
            ),
            Wearing(by, stint),
        )
        for order, role in enumerate(roles)
        for stint in stints.get(role, ())
        if (by := worn_by(stint))
    ]
    return tuple(wearing for _, wearing in sorted(worn, key=lambda one: one[0]))


def follow_pack(show: Show, channel: str, worn: tuple[Wearing, ...]) -> tuple[Handover, ...]:
    """The handovers between wearings of one pack that follow each other on different bodies, and on one day."""
    days = list_days(show)
    return tuple(
        _hand_over(show, channel, one, two)
        for one, two in itertools.pairwise(worn)
        if one.by != two.by and (not days or days[one.stint.index] == days[two.stint.index])
    )


def _hand_over(show: Show, channel: str, one: Wearing, two: Wearing) -> Handover:
    before, after = one.stint, two.stint
    in_vision = before.index == after.index and not are_apart(before, after)
    facts = time_facts(before, after)
    if in_vision:
        facts |= {"seconds": None, "at_least": False}
    return Handover(
        channel=channel,
        from_role=before.role,
        to_role=after.role,
        after=show.scenes[before.index],
        before=show.scenes[after.index],
        from_by=one.by,
        to_by=two.by,
        in_vision=in_vision,
        **facts,
    )


def time_facts(one: Stint | None, two: Stint | None) -> dict[str, Any]:
    """What a change between two stints says of sides and times, by the fields of a `Handover`."""
    seconds, at_least = time_between(one, two) if one and two else (None, False)
    return {
        "exit": one.exit if one else "",
        "enter": two.enter if two else "",
        "seconds": seconds,
        "at_least": at_least,
        "off_s": one.to_s if one and one.stated_to else None,
        "on_s": two.from_s if two and two.stated_from else None,
    }


def time_between(one: Stint, two: Stint) -> tuple[int | None, bool]:
    """Seconds from an exit to an entrance, and whether it may be more; (None, False) where too little is stated."""
    if one.to_s is None or two.from_s is None:
        return None, False
    seconds = two.from_s - one.to_s
    if one.stated_to and two.stated_from:
        return seconds, False
    return (seconds, True) if seconds > 0 else (None, False)
