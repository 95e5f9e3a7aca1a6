"""Covers: whether somebody who goes on has a pack, a capsule, and one in the right colour."""

from collections.abc import Iterator

from paperwork.checks.gear.capsules import FIXED
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Cover, Scene, Show
from paperwork.plan.covers import channel_for
from paperwork.text.names import fold, join_words


def check_covers(show: Show) -> Iterator[Finding]:
    """Each cover has a channel and a capsule that suits, and is not who plays the role anyway."""
    bare: set[str] = set()
    for cover in show.covers:
        role = show.roles.get(cover.role)
        if role is None or role.group or role.unmiked:
            continue
        about = (Subject("covers", cover.id), Subject("roles", cover.role))
        if cover.by and cover.by == role.by and show.at_performance:
            continue  # on this night the cover is cast: nobody has to be named instead
        if cover.by and cover.by == role.by:
            yield find(
                "cover-is-performer",
                cover.where["by"],
                about=about,
                others=(role.where["by"],),
                by=cover.by,
                role=cover.role,
                cover=_own_id(cover),
            )
            continue
        yield from _check_own_roles(show, cover)
        channel = channel_for(show, cover, cover.role)
        if channel is None:
            yield find("cover-without-pack", cover.where.record, about=about, by=cover.by, role=cover.role)
        else:
            yield from _check_capsule(show, cover, channel, bare)


def _check_own_roles(show: Show, cover: Cover) -> Iterator[Finding]:
    """What falls away when a cover goes on: roles of their own in those scenes, which nobody else covers there."""
    lost: dict[str, list[Scene]] = {}
    for scene in show.scenes:
        if cover.role in scene.live and (not cover.scenes or scene.id in cover.scenes):
            for own in scene.live:
                if (
                    cover.by
                    and show.roles[own].by == cover.by
                    and own != cover.role
                    and not _is_covered(show, own, scene, cover)
                ):
                    lost.setdefault(own, []).append(scene)
    if lost:
        scenes = dict.fromkeys(scene for several in lost.values() for scene in several)
        yield find(
            "cover-is-on",
            cover.where["by"],
            about=(Subject("covers", cover.id), *(Subject("roles", role) for role in (cover.role, *lost))),
            others=tuple(scene.where["live"] for scene in scenes),
            by=cover.by,
            role=cover.role,
            own=join_words(lost),
            scenes=join_words(scene.name or scene.id for scene in scenes),
        )


def _is_covered(show: Show, role: str, scene: Scene, by: Cover) -> bool:
    """Whether somebody else can play a role in a scene."""
    groups = {id for id, one in show.roles.items() if role in one.group} | {role}
    return bool(show.roles[role].alternates) or any(
        other.role in groups and other.by not in ("", by.by) and (not other.scenes or scene.id in other.scenes)
        for other in show.covers
    )


def _check_capsule(show: Show, cover: Cover, channel: Channel, bare: set[str]) -> Iterator[Finding]:
    """What is wrong with a cover's capsule. A channel without one is reported once: `bare` holds those that were."""
    about = (Subject("covers", cover.id), Subject("channels", channel.id))
    radio = show.radio_of(channel)
    wanted = radio is not None and bool(radio.fit) and fold(radio.fit) != FIXED
    named = cover.capsule or channel.capsule
    if wanted and not named and channel.id not in bare:
        bare.add(channel.id)
        yield find(
            "cover-without-capsule",
            cover.where.record,
            about=about,
            others=(channel.where.record,),
            by=cover.by,
            role=cover.role,
            channel=channel.id,
        )
    capsule, person = show.capsules.get(named), show.people.get(cover.by)
    if capsule and person and person.colour and capsule.colour and fold(person.colour) != fold(capsule.colour):
        suited = _find_suited(show, person.colour, capsule.fit)
        yield find(
            "cover-colour",
            cover.where["capsule"],
            about=about,
            others=(person.where["colour"], capsule.where["colour"]),
            by=cover.by,
            role=cover.role,
            capsule=capsule.id,
            has=capsule.colour,
            wants=person.colour,
            cover=_own_id(cover),
            suited=suited,
            free=f", for example {suited}" if suited else "",
        )


def _find_suited(show: Show, colour: str, fit: str) -> str:
    """A capsule of this colour that fits where the other does; "" if there is none."""
    for capsule in show.capsules.values():
        if fold(capsule.colour) == fold(colour) and fold(capsule.fit) == fold(fit):
            return capsule.id
    return ""


def _own_id(cover: Cover) -> str:
    """The id by which the file has the cover; "" for one of several that a row stands for."""
    return "" if cover.id.endswith(f" {cover.role}") else cover.id


CHECKS = (check_covers,)
