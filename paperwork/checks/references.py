"""Channels that refer to themselves: as a second pack, as a spare, as what shares a desk input."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.finding import Edit, Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.text.names import shorten_ids


def check_itself(show: Show) -> Iterator[Finding]:
    """No channel doubles, backs or alternates with itself."""
    for channel in show.channels.values():
        if channel.doubles == channel.id:
            yield _word(channel, "doubles", f"channel {channel.id} is the second pack of itself")
        if channel.alternate == channel.id:
            yield _word(channel, "alternate", f"channel {channel.id} shares a desk input with itself")
        if channel.id in channel.backs:
            kept = shorten_ids([id for id in channel.backs if id != channel.id]).replace("\u2013", "-")
            yield _word(channel, "backs", f"spare {channel.id} backs itself", kept)


def check_circles(show: Show) -> Iterator[Finding]:
    """Second packs lead to a first one: not round in a circle."""
    seen: set[str] = set()
    for id in show.channels:
        chain: dict[str, None] = {}
        while id in show.channels and id not in seen:
            seen.add(id)
            chain[id] = None
            id = show.channels[id].doubles
        listed = list(chain)
        circle = [show.channels[one] for one in listed[listed.index(id) :]] if id in chain else []
        if len(circle) > 1:
            first = next(channel for channel in show.channels.values() if channel in circle)
            ids = shorten_ids([channel.id for channel in circle])
            yield _word(
                first, "doubles", f"channels {ids} are second packs of each other, and none is a first", "", circle
            )


def _word(channel: Channel, field: str, what: str, kept: str = "", circle: list[Channel] | None = None) -> Finding:
    """The finding at one field; `kept` is what should be left of it."""
    circle = circle or [channel]
    made = find(
        "channel-of-itself",
        channel.where[field],
        about=tuple(Subject("channels", one.id) for one in circle),
        others=tuple(one.where[field] for one in circle if one is not channel),
        what=what,
        remedy=f"write `{field}: {kept}` at channel {channel.id}"
        if kept
        else f"delete {field} of channel {channel.id}",
    )
    return replace(made, edits=(Edit("channels", channel.id, field, kept),))


CHECKS = (check_itself, check_circles)
