"""Who plays what, told in one place: channels tell of roles and performers, groups stand for their members."""

from collections.abc import Mapping
from dataclasses import replace

from paperwork.build.fields import Fields
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Role, Where
from paperwork.names import key_of, nearest
from paperwork.place import Place


def tell_roles(
    told: Mapping[str, Role], channels: Mapping[str, Channel], fields: Mapping[str, Fields], found: list[Finding]
) -> tuple[dict[str, Role], dict[str, Channel]]:
    """Roles with the performers that channels tell of, and channels with nothing but role ids, groups expanded."""
    shared = {id: [(role, fields[id].somebody(by)) for role, by in fields[id].pairs("shared")] for id in channels}
    named = [role for channel in channels.values() for role in channel.roles]
    named += [role for pairs in shared.values() for role, _ in pairs]
    teller = _Teller(told, named, found)
    linked: dict[str, Channel] = {}
    for id, channel in channels.items():
        where = channel.where
        roles = [name for role in channel.roles for name in teller.tell(role, channel.by, where["by"], id)]
        roles += [name for role, by in shared[id] for name in teller.tell(role, by, where["shared"], id)]
        if not roles and key_of(channel.by) in teller.members:
            roles = [teller.members[key_of(channel.by)]]
        linked[id] = replace(channel, roles=tuple(dict.fromkeys(roles)), by="" if roles else channel.by)
    return teller.roles, linked


class _Teller:
    """Roles as they become known. `members` are the roles of people whom a group names: key of the name to role id."""

    def __init__(self, told: Mapping[str, Role], named: list[str], found: list[Finding]) -> None:
        self.roles = dict(told)
        self.members: dict[str, str] = {}
        self._found = found
        self._by_key = {key_of(id): id for id in told}
        known = {key_of(role): role for role in named} | self._by_key
        for id, role in told.items():
            if role.group:
                self.roles[id] = replace(role, group=self._expand(role, told, known, (id,)))

    def _expand(
        self, group: Role, told: Mapping[str, Role], known: Mapping[str, str], inside: tuple[str, ...]
    ) -> tuple[str, ...]:
        """The roles that a group stands for. A name that is no role is a person, who becomes a role of that name."""
        found: list[str] = []
        for name in group.group:
            id = known.get(key_of(name), "")
            if id in inside:
                continue
            if id in told and told[id].group:
                found += self._expand(told[id], told, known, (*inside, id))
                continue
            if not id:
                id = self.members.setdefault(key_of(name), name)
                self.roles.setdefault(id, Role(id, by=name, where=Where(group.where["group"])))
                self._by_key.setdefault(key_of(id), id)
            found.append(id)
        return tuple(dict.fromkeys(found))

    def tell(self, name: str, by: str, place: Place, channel: str) -> tuple[str, ...]:
        """The roles that a channel means by a name, after what it says of their performer has been taken in."""
        id = self._by_key.setdefault(key_of(name), name)
        known = self.roles.get(id)
        if known and known.group:
            return self._tell_group(known, by, place, channel)
        if known is None:
            self.roles[id] = Role(id, by=by, where=Where(place))
        elif by and not known.by:
            self.roles[id] = replace(known, by=by)
        elif by and key_of(by) != key_of(known.by):
            self._found.append(
                find(
                    "performer-twice-told",
                    place,
                    about=(Subject("channels", channel),),
                    others=(known.where["by"],),
                    role=id,
                    by=by,
                    other=known.by,
                    first=known.where["by"],
                )
            )
        return (id,)

    def _tell_group(self, group: Role, by: str, place: Place, channel: str) -> tuple[str, ...]:
        """All members of a group that shares one pack, or the one whose performer is told."""
        if not by:
            return group.group
        mine = tuple(id for id in group.group if key_of(by) in (key_of(id), key_of(self._by_of(id))))
        if not mine:
            performers = [self._by_of(id) or id for id in group.group]
            self._found.append(
                find(
                    "id-unknown",
                    place,
                    about=(Subject("channels", channel),),
                    record=f"channel {channel}",
                    name="by",
                    id=by,
                    section=f"the group {group.id}",
                    near=nearest(by, performers),
                )
            )
        return mine

    def _by_of(self, id: str) -> str:
        role = self.roles.get(id)
        return role.by if role else ""
