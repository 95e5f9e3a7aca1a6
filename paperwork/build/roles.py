"""Who plays what, in one place: channels name roles and performers, groups stand for their members."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from paperwork import limits
from paperwork.build.bounds import Allowance
from paperwork.build.fields import Fields
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Role, Where
from paperwork.model.fields import SECTIONS
from paperwork.place import Place
from paperwork.text.names import Hints, id_key, split_known, split_names


def gather_roles(
    stated: Mapping[str, Role],
    channels: Mapping[str, Channel],
    fields: Mapping[str, Fields],
    found: list[Finding],
    allowance: Allowance,
) -> tuple[dict[str, Role], dict[str, Channel]]:
    """Roles with the performers that channels name, and channels with nothing but role ids, groups expanded. Raises
    Large."""
    shared = {id: [(role, fields[id].somebody(by)) for role, by in fields[id].pairs("shared")] for id in channels}
    known = _list_known(stated, channels)
    listed = {
        id: split_known(one.roles, {key: name for key, name in known.items() if name not in one.roles})
        for id, one in channels.items()
    }
    named = [role for several in listed.values() for role in several]
    named += [role for pairs in shared.values() for role, _ in pairs]
    gatherer = _Gatherer(stated, named, found, allowance)
    linked: dict[str, Channel] = {}
    for id, channel in channels.items():
        where = channel.where
        roles = [name for role in listed[id] for name in gatherer.add(role, channel.by, where["by"], id)]
        roles += [name for role, by in shared[id] for name in gatherer.add(role, by, where["shared"], id)]
        if not roles and id_key(channel.by) in gatherer.members:
            roles = [gatherer.members[id_key(channel.by)]]
        linked[id] = replace(channel, roles=tuple(dict.fromkeys(roles)), by="" if roles else channel.by)
    return gatherer.roles, linked


def _list_known(stated: Mapping[str, Role], channels: Mapping[str, Channel]) -> dict[str, str]:
    """The names of roles by key: those of the section, and what channels carry alone."""
    alone = [one.roles[0] for one in channels.values() if len(one.roles) == 1]
    return {id_key(name): name for name in (*alone, *stated)}


def part_roles(records: Mapping[str, Any], roles: Mapping[str, Role], allowance: Allowance) -> dict[str, Any]:
    """Moves or covers, one that names several roles, or a group, as one for each of them. Raises Large."""
    known = {id_key(id): id for id in roles}
    found: dict[str, Any] = {}
    for id, record in records.items():
        named = [known.get(id_key(name), name) for name in split_known((record.role,), known)]
        members = dict.fromkeys(
            one for name in named for one in (roles[name].group if name in roles else ()) or (name,)
        )
        if len(members) > 1:
            allowance.take(members, record.where["role"])
            found |= {f"{id} {role}": replace(record, id=f"{id} {role}", role=role) for role in members}
        else:
            found[id] = replace(record, role=next(iter(members)))
    return found


class _Gatherer:
    """Roles as they become known. `members` are the roles of people whom a group names: key of the name to role id."""

    def __init__(
        self, stated: Mapping[str, Role], named: list[str], found: list[Finding], allowance: Allowance
    ) -> None:
        self.roles = dict(stated)
        self.members: dict[str, str] = {}
        self._found = found
        self._hints = Hints()
        self._allowance = allowance
        self._by_key = {id_key(id): id for id in stated}
        known = {id_key(role): role for role in reversed(named)} | self._by_key
        self._is_deep = False
        self._expanded: dict[str, tuple[tuple[str, ...], int]] = {}
        for id, role in stated.items():
            if role.group:
                self.roles[id] = replace(role, group=self._expand(role, stated, known, (id,))[0])

    def _expand(
        self, group: Role, stated: Mapping[str, Role], known: Mapping[str, str], inside: tuple[str, ...]
    ) -> tuple[tuple[str, ...], int]:
        """The roles that a group stands for, and how many groups deep it is. A name that is not a role is a person, who
        becomes a role of that name. Each group is expanded once."""
        if group.id in self._expanded:
            return self._expanded[group.id]
        found: list[str] = []
        depth = 1
        for name in _split_group(group.group, known):
            id = known.get(id_key(name), "")
            if id in inside:
                self._complain(group, "role-group-endless", id=id, chain=", ".join((*inside[inside.index(id) :], id)))
            elif id in stated and stated[id].group:
                if len(inside) < limits.LIKE_DEPTH:
                    members, below = self._expand(stated[id], stated, known, (*inside, id))
                    found += members
                    self._allowance.take(members, group.where["group"])
                    depth = max(depth, below + 1)
                else:
                    depth = limits.LIKE_DEPTH + 1
            else:
                found.append(id or self._add_member(name, group))
        if depth > limits.LIKE_DEPTH and not self._is_deep:
            self._is_deep = True
            self._complain(group, "role-group-deep", id=group.id, most=limits.LIKE_DEPTH)
        self._expanded[group.id] = tuple(dict.fromkeys(found)), depth
        return self._expanded[group.id]

    def _add_member(self, name: str, group: Role) -> str:
        id = self.members.setdefault(id_key(name), name)
        self.roles.setdefault(id, Role(id, by=name, where=Where(group.where["group"], known=group.where.known)))
        self._by_key.setdefault(id_key(id), id)
        return id

    def _complain(self, group: Role, code: str, **facts: Any) -> None:
        self._found.append(find(code, group.where["group"], about=(Subject("roles", group.id),), **facts))

    def add(self, name: str, by: str, place: Place, channel: str) -> tuple[str, ...]:
        """The roles that a channel means by a name, after what it says of their performer has been taken in."""
        id = self._by_key.setdefault(id_key(name), name)
        known = self.roles.get(id)
        if known and known.group:
            return self._add_group(known, by, place, channel)
        if known is None:
            self.roles[id] = Role(id, by=by, where=Where(place, known=SECTIONS["roles"].fields))
        elif by and not known.by:
            self.roles[id] = replace(known, by=by)
        elif by and id_key(by) != id_key(known.by):
            about, first = (Subject("channels", channel),), known.where["by"]
            facts: dict[str, Any] = {"role": id, "by": by, "other": known.by, "first": first}
            self._found.append(find("performer-twice-told", place, about=about, others=(first,), **facts))
        return (id,)

    def _add_group(self, group: Role, by: str, place: Place, channel: str) -> tuple[str, ...]:
        """All members of a group that shares one pack, or the one whose performer is named."""
        self._allowance.take(group.group, place)
        if not by:
            return group.group
        mine = tuple(id for id in group.group if id_key(by) in (id_key(id), id_key(self._by_of(id))))
        if not mine:
            performers = [self._by_of(id) or id for id in group.group]
            facts: dict[str, Any] = {
                "record": f"channel {channel}",
                "name": "by",
                "section": f"the group {group.id}",
                "are": "is",
            }
            about = (Subject("channels", channel),)
            self._found.append(
                find("id-unknown", place, about=about, id=by, near=self._hints.nearest(by, performers), **facts)
            )
        return mine

    def _by_of(self, id: str) -> str:
        role = self.roles.get(id)
        return role.by if role else ""


def _split_group(group: tuple[str, ...], known: Mapping[str, str]) -> tuple[str, ...]:
    """The members of a group, written as the roles of a scene are: `VERA TOM` and `VERA and TOM` are two of them.

    A member may be a person, so that blanks part only where two of the names are roles: `Tom Ried` stays one.
    """
    names = split_names(", ".join(group), known.values(), lambda id: id_key(id) in known)
    is_person = len(group) == 1 and id_key(group[0]) not in known
    return group if is_person and sum(id_key(name) in known for name in names) < 2 else names
