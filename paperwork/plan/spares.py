"""Spares: whom they stand by for."""

from paperwork.model import Channel, Show


def list_backed(show: Show, spare: Channel) -> tuple[Channel, ...]:
    """The channels behind a spare: those that it names, else all of its radio type."""
    if spare.backs:
        return tuple(show.channels[id] for id in spare.backs if id in show.channels)
    return tuple(one for one in _list_played(show) if one.radio == spare.radio)


def name_backed(show: Show, spare: Channel) -> tuple[str, ...]:
    """Their ids; () where the show does not name them and it is all that play: a paper says so in a word."""
    backed = list_backed(show, spare)
    return () if not spare.backs and backed == _list_played(show) else tuple(one.id for one in backed)


def _list_played(show: Show) -> tuple[Channel, ...]:
    return tuple(channel for channel in show.channels.values() if not channel.spare)
