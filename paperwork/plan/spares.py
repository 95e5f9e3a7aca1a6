"""Spares: whom they stand by for."""

from paperwork.model import Channel, Show

ALL = "all"
"""Stands for every channel, as a fact: a paper says it in a word of its language."""


def is_backed(spare: Channel, channel: Channel) -> bool:
    """Whether a spare stands by for a channel: it names it, or names none and is of its radio type."""
    return channel.id in spare.backs if spare.backs else not channel.spare and channel.radio == spare.radio


def list_backed(show: Show, spare: Channel) -> tuple[Channel, ...]:
    """The channels behind a spare."""
    return tuple(channel for channel in show.channels.values() if is_backed(spare, channel))


def name_backed(show: Show, spare: Channel) -> tuple[str, ...]:
    """Their ids; `all` where the show does not name them and it is everything that plays."""
    backed = list_backed(show, spare)
    return (ALL,) if not spare.backs and backed == _list_played(show) else tuple(one.id for one in backed)


def _list_played(show: Show) -> tuple[Channel, ...]:
    return tuple(channel for channel in show.channels.values() if not channel.spare)
