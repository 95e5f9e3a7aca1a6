"""Who is on tonight: when people are off, who plays each of their roles in each scene, and who plays theirs.

The atom is a role in a scene, but a role has one body for the evening where one of its covers can take all of it. A cover
may take some scenes only; a cover who leaves a role of their own opens it for the next cover. Nobody is ever put in two
places at once.
"""

from collections.abc import Iterable, Mapping
from dataclasses import field, replace

from paperwork.frozen import frozen
from paperwork.model import Channel, Cover, Role, Scene, Show
from paperwork.plan.bodies.carried import list_given


@frozen
class Substitution:
    """One role in some scenes (by index): who plays it tonight instead of whom, and with what.

    `by` is "" where nobody can: then only the role's own channel and pack are given.
    """

    role: str
    scenes: tuple[int, ...]
    instead_of: str
    by: str = ""
    cover: str = ""
    channel: str = ""
    pack: str = ""
    pouch: str = ""
    capsule: str = ""


@frozen
class Tonight:
    """What differs tonight. `played_by` is whole: who plays each role in each scene in which it is live."""

    off: tuple[str, ...]
    changes: tuple[Substitution, ...]
    uncovered: tuple[Substitution, ...]
    played_by: Mapping[tuple[str, int], str] = field(default_factory=dict)
    channel_of: Mapping[tuple[str, int], str] = field(default_factory=dict)
    """Where a cover brings a channel of their own: role and scene to that channel."""
    capsule_of: Mapping[str, str] = field(default_factory=dict)
    """The capsule of a channel's pack where it is set for tonight, whatever the row of a cover says."""

    def on(self, role: str, index: int) -> str:
        """Who plays a role in a scene, "" if nobody does."""
        return self.played_by.get((role, index), "")


def plan_tonight(show: Show, off: Iterable[str]) -> Tonight:
    """Covers for all who are off, first choice first. Nobody's name is nobody, and not whoever plays a free role."""
    return _Planner(show, tuple(filter(None, off))).plan()


def stage_all(show: Show) -> Show:
    """The show with one scene more for channels that no scene mentions: they are on all evening.

    A small show has no scenes at all, and a bandleader or a host may be in none; they can be off all the same.
    """
    seen = {role for scene in show.scenes for role in scene.live}
    idle = [one for one in show.channels.values() if not one.spare and seen.isdisjoint(show.roles_on(one))]
    roles = dict(show.roles)
    channels = dict(show.channels)
    for channel in idle:
        if not channel.roles and channel.by:
            roles.setdefault(channel.by, Role(channel.by, by=channel.by, where=channel.where))
            channels[channel.id] = replace(channel, roles=(channel.by,))
    live = tuple(dict.fromkeys(role for channel in idle for role in channels[channel.id].roles))
    scenes = (*show.scenes, Scene("", live=live)) if live else show.scenes
    return replace(show, roles=roles, channels=channels, scenes=scenes)


def usual_evening(show: Show) -> Tonight:
    """The evening on which nobody is off."""
    played = {(role, index): show.roles[role].by for index, scene in enumerate(show.scenes) for role in scene.live}
    return Tonight((), (), (), played)


class _Planner:
    """Roles in scenes that need somebody, until there are none left or nobody can."""

    def __init__(self, show: Show, off: tuple[str, ...]) -> None:
        self.show = show
        self.off = off
        self.places: dict[str, list[int]] = {}
        self.busy: dict[tuple[str, int], list[str]] = {}
        self.played: dict[tuple[str, int], str] = {}
        self.taken: dict[tuple[str, int], Cover] = {}
        self.open: list[str] = []
        self.lost: dict[str, set[int]] = {}
        self.given = list_given(show)
        for index, scene in enumerate(show.scenes):
            for role in scene.live:
                self.places.setdefault(role, []).append(index)
                self.played[role, index] = show.roles[role].by
                self.busy.setdefault((show.roles[role].by, index), []).append(role)

    def plan(self) -> Tonight:
        """Goes through the open roles; a cover's own role that has to be given up is opened in its turn."""
        for role, indexes in self.places.items():
            if self.show.roles[role].by in self.off:
                self._open(role, indexes)
        tried: set[tuple[str, int]] = set()
        asked: set[str] = set()
        while waiting := [place for place in self._wanted() if place not in tried]:
            role, index = waiting[0]
            if role not in asked:
                asked.add(role)
                self._fill_whole(role, [at for one, at in waiting if one == role])
                continue
            tried.add(waiting[0])
            self._fill(role, index)
        return self._result()

    def _wanted(self) -> list[tuple[str, int]]:
        """Every role and scene that has been given up and not yet filled, in the order in which roles fell open."""
        return [
            (role, index) for role in self.open for index in sorted(self.lost[role]) if not self.played[role, index]
        ]

    def _open(self, role: str, indexes: Iterable[int]) -> None:
        """Somebody else is wanted for a role in these scenes."""
        if role not in self.lost:
            self.open.append(role)
        for index in indexes:
            person = self.played[role, index]
            if person and person == self.show.roles[role].by:
                self.lost.setdefault(role, set()).add(index)
                self.played[role, index] = ""
                self.busy[person, index].remove(role)

    def _fill_whole(self, role: str, indexes: list[int]) -> None:
        """The first cover who can take all of it, where somebody is free for each role of their own that they leave."""
        for cover in covers_of(self.show, role):
            if all(self._can(cover, index) and self._can_leave(cover.by, index) for index in indexes):
                for index in indexes:
                    self._take(cover, role, index)
                return

    def _can_leave(self, by: str, index: int) -> bool:
        """Whether somebody else is free in a scene for each role that a body has there."""
        return all(
            any(self._can(other, index) and not self.busy.get((other.by, index)) for other in covers_of(self.show, own))
            for own in self.busy.get((by, index), ())
        )

    def _fill(self, role: str, index: int) -> None:
        """The first cover who is free, else the first who can leave a role of their own."""
        able = [cover for cover in covers_of(self.show, role) if self._can(cover, index)]
        free = [cover for cover in able if not self.busy.get((cover.by, index))]
        if able:
            self._take((free or able)[0], role, index)

    def _take(self, cover: Cover, role: str, index: int) -> None:
        for own in list(self.busy.get((cover.by, index), ())):
            covered = [i for i in self.places[own] if i == index or self._is_covered(own, i)]
            self._open(own, covered)
        self.played[role, index] = cover.by
        self.taken[role, index] = cover
        self.busy.setdefault((cover.by, index), []).append(role)

    def _can(self, cover: Cover, index: int) -> bool:
        """A cover who is here, is asked for this scene, and has not yet taken another role in it."""
        scene = self.show.scenes[index]
        if not cover.by or cover.by in self.off or (cover.scenes and scene.id not in cover.scenes):
            return False
        return all((own, index) not in self.taken for own in self.busy.get((cover.by, index), ()))

    def _is_covered(self, role: str, index: int) -> bool:
        scene = self.show.scenes[index].id
        return any(
            cover.by not in self.off and (not cover.scenes or scene in cover.scenes)
            for cover in covers_of(self.show, role)
        )

    def _result(self) -> Tonight:
        changes: list[Substitution] = []
        uncovered: list[Substitution] = []
        channel_of: dict[tuple[str, int], str] = {}
        for role in self.open:
            by_cover: dict[tuple[Cover | None, str], list[int]] = {}
            for index in sorted(self.lost[role]):
                key = self.taken.get((role, index)), self.given.get((role, index), "")
                by_cover.setdefault(key, []).append(index)
            for (cover, given), indexes in by_cover.items():
                change = self._equip(role, tuple(indexes), cover, given)
                (changes if cover else uncovered).append(change)
                if not given and change.channel and role not in self.show.channels[change.channel].roles:
                    channel_of |= {(role, index): change.channel for index in indexes}
        return Tonight(self.off, tuple(changes), tuple(uncovered), self.played, channel_of)

    def _equip(self, role: str, indexes: tuple[int, ...], cover: Cover | None, given: str) -> Substitution:
        """What a cover plays with: a channel that the scenes give, else by the cover; of a role without one, only whose
        channel and pack it is."""
        instead_of = self.show.roles[role].by
        channel = self.show.channels[given] if given else channel_for(self.show, cover or Cover("", role, ""), role)
        number, pack, capsule = (channel.id, channel.pack, channel.capsule) if channel else ("", "", "")
        if cover is None:
            return Substitution(role, indexes, instead_of, channel=number, pack=pack)
        person = self.show.people.get(cover.by)
        pouch = cover.pouch or (person.pouch if person else "")
        return Substitution(
            role, indexes, instead_of, cover.by, cover.id, number, pack, pouch, cover.capsule or capsule
        )


def covers_of(show: Show, role: str) -> tuple[Cover, ...]:
    """Who can go on for a role, first choice first: its alternates, then its covers and those of its groups."""
    groups = {id for id, one in show.roles.items() if role in one.group} | {role}
    others = (Cover("", role, by) for by in show.roles[role].alternates)
    return (*others, *(cover for cover in show.covers if cover.role in groups and cover.by))


def channels_of(show: Show, role: str) -> tuple[Channel, ...]:
    """The channels that carry a role, second packs last."""
    worn = [channel for channel in show.channels.values() if role in channel.roles]
    return tuple(sorted(worn, key=lambda channel: bool(channel.doubles)))


def channel_for(show: Show, cover: Cover, role: str) -> Channel | None:
    """The channel on which a cover plays a role: as stated, else the person's own, else the role's."""
    if cover.channel:
        return show.channels.get(cover.channel)
    if cover.follows == "person":
        own = [channel for channel in show.channels.values() if cover.by in show.performers_of(channel)]
        if own:
            return min(own, key=lambda channel: bool(channel.doubles))
    return next(iter(channels_of(show, role)), None)
