"""Transmitters: which channel a pack belongs to, whose body it is on, and whether its name and serial are its own."""

from collections.abc import Iterator
from itertools import combinations

from paperwork.checks.company.people import wears_pack
from paperwork.finding import Finding, Subject, find
from paperwork.model import Capsule, Channel, Scene, Show, Transmitter
from paperwork.plan.rules import TRANSMITTER_ID_LETTERS
from paperwork.plan.timeline import are_apart, list_stints, scenes_by_role
from paperwork.text.names import fold


def check_packs(show: Show) -> Iterator[Finding]:
    """One pack sends one channel, unless the channels are never powered together."""
    first: dict[str, str] = {}
    for channel in show.channels.values():
        other = show.channels[first.setdefault(channel.pack, channel.id)]
        together = not channel.exclusive or channel.exclusive != other.exclusive
        if other is not channel and together:
            yield find(
                "pack-doubled",
                max(channel.where["pack"], other.where["pack"]),
                about=(Subject("channels", other.id), Subject("channels", channel.id)),
                others=(other.where["pack"],),
                pack=channel.pack,
                first=other.id,
                second=channel.id,
            )


def check_radios(show: Show) -> Iterator[Finding]:
    """A pack is of the radio type that its channel names."""
    for channel in show.channels.values():
        pack = show.transmitters.get(channel.pack)
        if pack and pack.radio and pack.radio != channel.radio:
            field = "radio" if "radio" in channel.where else "spare"
            other = show.radios.get(pack.radio)
            is_tuned = channel.hz is None or not other or other.can_tune(channel.hz)
            yield find(
                "pack-of-other-radio",
                channel.where[field],
                about=(Subject("channels", channel.id), Subject("transmitters", pack.id)),
                others=(pack.where["radio"],),
                channel=channel.id,
                radio=channel.radio,
                pack=pack.id,
                other=pack.radio,
                field=field if is_tuned else "",
                otherwise=f", or write `{field}: {pack.radio}`" if is_tuned else "",
            )


def check_bodies(show: Show) -> Iterator[Finding]:
    """A worn pack is on one body at a time: reported once for each pair of roles, at the first scene where they meet.

    A handheld may be passed on in sight of everybody, and two stints in one scene may be apart.
    """
    live = scenes_by_role(show)
    for channel in show.channels.values():
        roles = show.roles_on(channel)
        if len(roles) < 2 or not wears_pack(show, channel):
            continue
        for one, two in combinations(roles, 2):
            bodies = (show.roles[one].by, show.roles[two].by)
            scenes = [] if bodies[0] == bodies[1] or not live[one] & live[two] else _meetings(show, channel, one, two)
            if scenes:
                named = [f"{role} ({by})" if by else role for role, by in zip((one, two), bodies, strict=True)]
                yield find(
                    "pack-on-two-bodies",
                    scenes[0].where["live"],
                    about=(Subject("channels", channel.id), Subject("scenes", scenes[0].id)),
                    others=(channel.where["shared"], *(scene.where["live"] for scene in scenes[1:])),
                    channel=channel.id,
                    first=named[0],
                    second=named[1],
                    role=two,
                    scene=" and ".join(scene.name or scene.id for scene in scenes),
                )


def _meetings(show: Show, channel: Channel, one: str, two: str) -> list[Scene]:
    """The scenes in which two roles are live with a channel's pack and not known to be apart."""
    stints = list_stints(show, (one, two))
    meet = {
        mine.index
        for mine in stints[one]
        for other in stints[two]
        if mine.index == other.index
        and not are_apart(mine, other)
        and channel.id in mine.channels
        and channel.id in other.channels
    }
    return [show.scenes[index] for index in sorted(meet)]


def check_transmitter_ids(show: Show) -> Iterator[Finding]:
    """An id of a transmitter fits on a label and a display: plain ASCII, and not too long."""
    limit = TRANSMITTER_ID_LETTERS
    named = {channel.pack: channel for channel in show.channels.values()}
    for id in dict.fromkeys((*show.transmitters, *named)):
        if id.isascii() and len(id) <= limit:
            continue
        record = show.transmitters.get(id)
        place = record.where.record if record else named[id].where["pack"]
        about = (Subject("transmitters", id),) if record else (Subject("channels", named[id].id),)
        fault = f"has {len(id)} letters" if id.isascii() else "has letters that a display cannot show"
        yield find("transmitter-id-unfit", place, about=about, id=id, fault=fault, limit=limit)


def check_serials(show: Show) -> Iterator[Finding]:
    """A serial number belongs to one thing."""
    yield from _doubled_serials("transmitters", tuple(show.transmitters.values()))
    yield from _doubled_serials("capsules", tuple(show.capsules.values()))


def _doubled_serials(section: str, things: tuple[Transmitter | Capsule, ...]) -> Iterator[Finding]:
    first: dict[str, Transmitter | Capsule] = {}
    for thing in things:
        other = first.setdefault(fold(thing.serial), thing) if thing.serial else thing
        if other is not thing:
            yield find(
                "serial-doubled",
                thing.where["serial"],
                about=(Subject(section, other.id), Subject(section, thing.id)),
                others=(other.where["serial"],),
                serial=thing.serial,
                first=other.id,
                second=thing.id,
            )


CHECKS = (check_packs, check_radios, check_bodies, check_transmitter_ids, check_serials)
