"""People and roles: bodies in two places, roles without a microphone, second packs, teams, in-ears."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Look, Role, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.timeline import Stint, are_apart, list_stints
from paperwork.text.names import fold, join_words, nearest


def check_roles(show: Show) -> Iterator[Finding]:
    """A role that is live has a channel, or is marked unmiked. One finding, at its first scene."""
    own = {role for channel in show.channels.values() for role in channel.roles}
    open_ = [
        role
        for role in show.roles.values()
        if role.id not in own and not (role.unmiked or role.group or _is_heard_by_person(show, role))
    ]
    carried = list_carried(show, (role.id for role in open_))
    for role in open_:
        scenes = [scene for index, scene in enumerate(show.scenes) if carried.get((role.id, index)) == ()]
        if scenes:
            others = tuple(scene.where["live"] for scene in scenes[1:])
            yield find(
                "role-silent",
                scenes[0].where["live"],
                about=(Subject("roles", role.id),),
                others=others,
                role=role.id,
                scene=scenes[0].name or scenes[0].id,
                more=f" and {len(others)} more" if others else "",
            )


def _is_heard_by_person(show: Show, role: Role) -> bool:
    """Whether its performer wears a channel that names no role: a channel of the person's own."""
    return bool(role.by) and any(channel.by == role.by for channel in show.channels.values())


def check_bodies(show: Show) -> Iterator[Finding]:
    """Nobody is in two places: two roles of one person on two worn packs in one scene, or two scenes at one time."""
    roles_of: dict[str, list[str]] = {}
    for role in show.roles.values():
        if role.by and not role.group:
            roles_of.setdefault(role.by, []).append(role.id)
    overlap = any(scene.until_s is not None for scene in show.scenes)
    several = {person: roles for person, roles in roles_of.items() if overlap or len(roles) > 1}
    stints = list_stints(show, (role for roles in several.values() for role in roles))
    for person, roles in several.items():
        own = sorted(
            (stint for role in roles for stint in stints[role]),
            key=lambda stint: (stint.index, roles.index(stint.role)),
        )
        seen: set[tuple[str, str]] = set()
        for one, two in _meetings(show, own):
            pair = (one.role, two.role)
            if pair in seen:
                continue
            first, second = _worn_packs(show, one), _worn_packs(show, two)
            if not first or not second or (one.index == two.index and first & second):
                continue
            seen.add(pair)
            yield _word_bodies(show, person, one, two)


def _worn_packs(show: Show, stint: Stint) -> set[str]:
    """The worn channels of a role in a stint; a handheld is held beside a pack."""
    worn = [channel for id in stint.channels if wears_pack(show, channel := show.channels[id])]
    return {id for channel in worn for id in (channel.id, channel.doubles) if id}


def _meetings(show: Show, stints: list[Stint]) -> Iterator[tuple[Stint, Stint]]:
    """Stints of one person that cannot both be: two roles in one scene, or two scenes whose given times overlap."""
    for number, two in enumerate(stints):
        for one in reversed(stints[:number]):
            if one.index != two.index:
                break
            if one.role != two.role and not are_apart(one, two):
                yield one, two
    timed = sorted(
        (stint for stint in stints if show.scenes[stint.index].until_s is not None or stint.timed),
        key=lambda stint: (stint.from_s or 0, stint.index),
    )
    going: list[Stint] = []
    for two in timed:
        going = [one for one in going if one.to_s is not None and two.from_s is not None and two.from_s < one.to_s]
        yield from ((one, two) if one.index < two.index else (two, one) for one in going if one.index != two.index)
        going.append(two)


def _word_bodies(show: Show, person: str, one: Stint, two: Stint) -> Finding:
    first, second = show.scenes[one.index], show.scenes[two.index]
    where = first.name or first.id if first is second else f"{first.name or first.id} and {second.name or second.id}"
    return find(
        "body-in-two-places",
        second.where["live"],
        about=(Subject("people", person), Subject("roles", one.role), Subject("roles", two.role)),
        others=(first.where["live"], show.roles[two.role].where["by"]),
        person=person,
        first=one.role,
        second=two.role,
        scene=where,
    )


def check_doubles(show: Show) -> Iterator[Finding]:
    """A second pack is on the body of the channel that it doubles."""
    for channel in show.channels.values():
        lead = show.channels.get(channel.doubles)
        if lead is None or channel.spare:
            continue
        bodies, other = show.performers_of(channel), show.performers_of(lead)
        if bodies and other and not set(bodies) & set(other):
            yield find(
                "double-on-another-body",
                channel.where["doubles"],
                about=(Subject("channels", channel.id), Subject("channels", lead.id)),
                others=(lead.where.record,),
                channel=channel.id,
                lead=lead.id,
                body=join_words(bodies),
                other=join_words(other),
            )


def check_declared(show: Show) -> Iterator[Finding]:
    """A role on two worn packs is said to be so: one doubles the other, or they are never powered together."""
    carriers: dict[str, list[Channel]] = {}
    for channel in show.channels.values():
        if wears_pack(show, channel) and not channel.spare and not channel.doubles:
            for role in channel.roles:
                carriers.setdefault(role, []).append(channel)
    for role, channels in carriers.items():
        first, *rest = channels
        for channel in rest:
            apart = channel.exclusive and channel.exclusive == first.exclusive
            if not apart and channel.id != first.alternate and first.id != channel.alternate:
                yield find(
                    "role-on-two-packs",
                    channel.where["role"],
                    about=(Subject("roles", role), Subject("channels", first.id), Subject("channels", channel.id)),
                    others=(first.where["role"],),
                    role=role,
                    first=first.id,
                    second=channel.id,
                )


def check_team(show: Show) -> Iterator[Finding]:
    """The day's team is one that somebody belongs to; where it is a performance's own, `groups` says so."""
    own = show.performances.get(show.at_performance)
    if own and own.team:
        return
    teams = {fold(person.team): person.team for person in show.people.values() if person.team}
    if show.day.team and fold(show.day.team) not in teams:
        known, near = join_words(sorted(teams.values())) or "none yet", nearest(show.day.team, teams.values())
        yield find("team-unknown", show.day.where["team"], team=show.day.team, known=known, near=near)


def check_listeners(show: Show) -> Iterator[Finding]:
    """Every listener of an in-ear carrier wears a receiver, where receivers are listed."""
    for other in show.others.values():
        if other.packs and len(other.listeners) > len(other.packs):
            yield find(
                "listener-without-pack",
                other.where["packs"],
                about=(Subject("others", other.id),),
                others=(other.where["listeners"],),
                other=other.id,
                packs=len(other.packs),
                listeners=len(other.listeners),
                missing=join_words(other.listeners[len(other.packs) :]),
            )


def check_looks(show: Show) -> Iterator[Finding]:
    """Of one person one look begins in a scene: with two, it is unclear where pack and capsule go."""
    first: dict[tuple[str, str], Look] = {}
    for look in show.looks.values():
        if not look.by:
            continue
        known = first.setdefault((look.by, look.scene), look)
        if known is not look:
            scene = next((one.name or one.id for one in show.scenes if one.id == look.scene), "")
            yield find(
                "look-doubled",
                look.where["scene"],
                about=(Subject("looks", known.id), Subject("looks", look.id)),
                others=(known.where["scene"],),
                first=known.id,
                second=look.id,
                person=look.by,
                begin=f"in {scene}" if scene else "with the show",
            )


def check_listed(show: Show) -> Iterator[Finding]:
    """Where most of those who are named are listed, nobody listed is named nowhere while a performer is not listed:
    that is what a recast leaves that was made in one place alone."""
    named = set(map(fold, _list_named(show)))
    known = {fold(name): name for name in show.people}
    idle = [name for key, name in known.items() if key not in named]
    playing = {one.by: one.where["by"] for one in show.channels.values() if one.by}
    playing |= {role.by: role.where["by"] for role in show.roles.values() if role.by}
    missing = [name for name in playing if fold(name) not in known]
    if idle and missing and 2 * len(named & known.keys()) > len(named):
        yield find(
            "recast-unfinished",
            playing[missing[0]],
            about=tuple(Subject("people", name) for name in idle),
            others=tuple(show.people[name].where.record for name in idle),
            new=join_words(missing),
            are="are" if len(missing) > 1 else "is",
            old=join_words(idle),
            were="are" if len(idle) > 1 else "is",
        )


def _list_named(show: Show) -> Iterator[str]:
    """Everybody whom some record names, in any house and at any performance."""
    for role in show.roles.values():
        yield from (role.by, *role.alternates)
    for records in (show.channels.values(), show.covers, show.looks.values()):
        yield from (one.by for one in records if one.by)
    yield from (name for one in show.others.values() for name in one.listeners)
    yield from (name for one in show.performances.values() for _, name in one.cast)
    yield from (row.value for row in show.venues.values())


def wears_pack(show: Show, channel: Channel) -> bool:
    """Whether the channel's transmitter is worn: a handheld may be passed on in sight of everybody."""
    radio = show.radio_of(channel)
    return radio is None or radio.kind == "pack"


CHECKS = (
    check_roles,
    check_bodies,
    check_declared,
    check_doubles,
    check_team,
    check_listeners,
    check_looks,
    check_listed,
)
