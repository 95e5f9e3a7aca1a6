"""Transmitters: which channel a pack belongs to, and whose body it is on."""

from collections.abc import Iterator
from itertools import combinations

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show


def check_packs(show: Show) -> Iterator[Finding]:
    """One pack sends one channel, unless the channels are never powered together."""
    first: dict[str, str] = {}
    for channel in show.channels.values():
        other = show.channels[first.setdefault(channel.pack, channel.id)]
        together = not channel.exclusive or channel.exclusive != other.exclusive
        if other is not channel and together:
            yield find(
                "pack-doubled", max(channel.where["pack"], other.where["pack"]),
                about=(Subject("channels", other.id), Subject("channels", channel.id)),
                others=(other.where["pack"],), pack=channel.pack, first=other.id, second=channel.id,
            )


def check_bodies(show: Show) -> Iterator[Finding]:
    """A pack is on one body at a time: told once for each pair of roles, at the first scene where they meet."""
    for channel in show.channels.values():
        for one, two in combinations(channel.roles, 2):
            bodies = (show.roles[one].by, show.roles[two].by)
            if bodies[0] == bodies[1]:
                continue
            scenes = [scene for scene in show.scenes if one in scene.live and two in scene.live]
            if scenes:
                named = [f"{role} ({by})" if by else role for role, by in zip((one, two), bodies, strict=True)]
                yield find(
                    "pack-on-two-bodies", scenes[0].where["live"],
                    about=(Subject("channels", channel.id), Subject("scenes", scenes[0].id)),
                    others=(channel.where["shared"], *(scene.where["live"] for scene in scenes[1:])),
                    channel=channel.id, first=named[0], second=named[1], role=two,
                    scene=" and ".join(scene.name or scene.id for scene in scenes),
                )


CHECKS = (check_packs, check_bodies)
