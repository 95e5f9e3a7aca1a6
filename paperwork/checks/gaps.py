"""What most channels have and a few leave open: reported once for each field, with all who leave it open."""

from collections.abc import Callable, Iterator

from paperwork.checks.names import is_sum
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.text.names import shorten_ids

EXAMPLE = "EXAMPLE"
"""With this begin title, role, performer and notes of a show that has yet to be filled in."""


def check_gaps(show: Show) -> Iterator[Finding]:
    """Where more than half of the channels have a frequency, or a slot, those without are named: each may be forgotten.

    A show that gives none, or few, is still being planned, and nothing is reported. What was written and could not be read is
    a finding already. A spare may be no more than a pack.
    """
    channels = tuple(channel for channel in show.channels.values() if not channel.spare and not is_sum(channel))
    yield from _name_gaps(
        channels,
        "frequency",
        lambda channel: channel.hz is not None or channel.refused or "mhz" in channel.where,
        "add mhz, or let `paperwork assign` find one",
    )
    yield from _name_gaps(
        channels,
        "slot",
        lambda channel: bool(channel.slots) or "slot" in channel.where,
        "add it to channels of a rack, or add slot here; without one it has no receiver",
    )


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
    if open_ and len(channels) > 2 * len(open_):
        ids = shorten_ids([channel.id for channel in open_])
        yield find(
            "channel-unlike-others",
            open_[0].where.record,
            about=tuple(Subject("channels", one.id) for one in open_),
            others=tuple(one.where.record for one in open_[1:]),
            what=what,
            count=len(channels) - len(open_),
            remedy=remedy,
            channels=f"channels {ids} have" if len(open_) > 1 else f"channel {ids} has",
        )


CHECKS = (check_gaps, check_example)
