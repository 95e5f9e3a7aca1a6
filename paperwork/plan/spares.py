"""Spares: whom they stand by for."""

from paperwork.model import Channel, Show

ALL = "all"
"""Stands for every channel, as a fact: a paper says it in a word of its language."""


def list_backed(show: Show, spare: Channel) -> tuple[Channel, ...]:
    """The channels behind a spare: those that it names, else all of its radio type."""
    if spare.backs:
        return tuple(show.channels[id] for id in spare.backs if id in show.channels)
    return tuple(one for one in _list_played(show) if one.radio == spare.radio)


def name_backed(show: Show, spare: Channel) -> tuple[str, ...]:
    """Their ids; `all` where the show does not name them and it is everything that plays."""
    backed = list_backed(show, spare)
    return (ALL,) if not spare.backs and backed == _list_played(show) else tuple(one.id for one in backed)


def _list_played(show: Show) -> tuple[Channel, ...]:
    return tuple(channel for channel in show.channels.values() if not channel.spare)
