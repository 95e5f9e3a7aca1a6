"""What most channels have and a few leave open: reported once for each field, with all who leave it open."""

from collections.abc import Callable, Iterator

from paperwork.checks.names import is_sum
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.text.names import join_words, shorten_ids

EXAMPLE = "EXAMPLE"
"""With this begin title, role, performer and notes of a show that has yet to be filled in."""


def check_gaps(show: Show) -> Iterator[Finding]:
    """Where some channels have a frequency, or more than half a slot, those without are named: each may be forgotten.

    A show that gives no frequency is still being planned, and nothing is reported. A blank that was written is meant,
    and what could not be read is a finding already. A spare may be no more than a pack, unless it has a receiver, and
    an act may bring receivers of its own.
    """
    channels = tuple(channel for channel in show.channels.values() if not channel.spare and not is_sum(channel))
    spares = tuple(channel for channel in show.channels.values() if channel.spare and _has_slot(channel))
    yield from _name_gaps(
        (*channels, *spares),
        "frequency",
        lambda channel: channel.hz is not None or channel.refused or "mhz" in channel.where,
        "add mhz, or let `paperwork assign` find one",
    )
    if 2 * sum(map(_has_slot, channels)) > len(channels):
        remedy = "add it to channels of a rack, or add slot here; without one it has no receiver"
        yield from _name_gaps(
            tuple(one for one in channels if _has_slot(one) or not one.bill), "slot", _has_slot, remedy
        )


def _has_slot(channel: Channel) -> bool:
    return bool(channel.slots) or "slot" in channel.where


_EXPLAINED = "free the channel, or say in notes of the channel when it is used"


def check_roles(show: Show) -> Iterator[Finding]:
    """Where most roles on channels are live in some scene, so are the others, or the notes of their channel say why
    not. Notes were written for the show as it was: they do not explain a role whose last scene is cut."""
    live = {role for scene in show.scenes for role in scene.live}
    worn: dict[str, list[Channel]] = {}
    for channel in show.channels.values():
        for role in channel.roles:
            worn.setdefault(role, []).append(channel)
    resting = [role for role in worn if role not in live]
    handed = {id for id in {one.id for role in resting for one in worn[role]} if _is_handed_on(show, show.channels[id])}
    idle = [role for role in resting if not any(one.id in handed for one in worn[role])]
    are_most_live = len(worn) > 2 * len(idle)
    explained = {role for role in idle if not are_most_live or any(channel.notes for channel in worn[role])}
    left = [role for role in idle if role in show.cut_roles or role not in explained]
    if not left:
        return
    channels = [channel for role in left for channel in worn[role]]
    place, *others = (channel.where["role"] for channel in channels)
    count = len(worn) - len(idle)
    ways = "or free the channel" if show.cut_roles & set(left) else _EXPLAINED
    yield find(
        "role-in-no-scene",
        place,
        about=tuple(Subject("roles", role) for role in left),
        others=tuple(others),
        roles=f"{join_words(left)} {'has' if len(left) == 1 else 'have'}",
        channels=shorten_ids([channel.id for channel in channels]),
        rest="1 other is" if count == 1 else f"{count} others are",
        ways=ways,
        live="is" if len(left) == 1 else "are",
    )


def _is_handed_on(show: Show, channel: Channel) -> bool:
    """Whether moves give the channel to somebody else in a scene: its own role is then the name of a handheld."""
    own = set(channel.roles)
    others = [role for role in show.roles_on(channel) if role not in own]
    return bool(others) and any(channel.id in ids for ids in list_carried(show, others).values())


def check_example(show: Show) -> Iterator[Finding]:
    """Nothing of the file that `paperwork new` writes is left: it would be printed."""
    production = show.production
    left = {production.where["title"]: ""} if production.title.startswith(EXAMPLE) else {}
    for channel in show.channels.values():
        written = {
            channel.where["role"]: channel.roles,
            channel.where["by"]: show.performers_of(channel),
            channel.where["notes"]: (channel.notes,),
        }
        left |= {
            place: channel.id for place, texts in written.items() if any(text.startswith(EXAMPLE) for text in texts)
        }
    if left:
        about = tuple(Subject("channels", id) for id in dict.fromkeys(filter(None, left.values())))
        yield find("example-left", next(iter(left)), about=about, others=tuple(left)[1:])


def _name_gaps(
    channels: tuple[Channel, ...], what: str, has: Callable[[Channel], bool], remedy: str
) -> Iterator[Finding]:
    open_ = [channel for channel in channels if not has(channel)]
    if 0 < len(open_) < len(channels):
        ids, given = shorten_ids([channel.id for channel in open_]), len(channels) - len(open_)
        yield find(
            "channel-unlike-others",
            open_[0].where.record,
            about=tuple(Subject("channels", one.id) for one in open_),
            others=tuple(one.where.record for one in open_[1:]),
            what=what,
            count=f"{given} others have one" if given > 1 else "1 other has one",
            remedy=remedy,
            channels=f"channels {ids} have" if len(open_) > 1 else f"channel {ids} has",
        )


CHECKS = (check_gaps, check_roles, check_example)
