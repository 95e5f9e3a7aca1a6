"""Names as they are written: one person spelled two ways, and a line of totals that became a channel."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.place import Place
from paperwork.text.spellings import find_doubled
from paperwork.text.vocabulary import is_total


def check_spellings(show: Show) -> Iterator[Finding]:
    """Nobody is spelled two ways, as `Björn Übel` and `Bjoern Uebel`: to every paper these are two bodies."""
    places: dict[str, Place] = {}
    for name, place in _list_names(show):
        places.setdefault(name, place)
    for one, other in find_doubled(places):
        about = tuple(Subject("people", name) for name in (one, other))
        yield find("name-two-ways", places[other], about=about, others=(places[one],), one=one, other=other)


def _list_names(show: Show) -> Iterator[tuple[str, Place]]:
    """Everybody whom the show names, with where; first those that it lists."""
    for person in show.people.values():
        yield person.id, person.where.record
    for role in show.roles.values():
        yield from ((name, role.where["by"]) for name in (role.by,) if name)
        yield from ((name, role.where["alternates"]) for name in role.alternates)
    yield from ((channel.by, channel.where["by"]) for channel in show.channels.values() if channel.by)
    yield from ((cover.by, cover.where["by"]) for cover in show.covers if cover.by)
    yield from ((look.by, look.where["by"]) for look in show.looks.values() if look.by)
    for other in show.others.values():
        yield from ((name, other.where["listeners"]) for name in other.listeners)


def check_totals(show: Show) -> Iterator[Finding]:
    """A row `Total` below a list is not a channel."""
    for channel in show.channels.values():
        if is_sum(channel):
            yield find(
                "channel-is-total", channel.where.record, about=(Subject("channels", channel.id),), channel=channel.id
            )


def is_sum(channel: Channel) -> bool:
    """Whether a channel is called like a total and has no frequency and no slot: a sheet's sum became a record."""
    return is_total(channel.id) and channel.hz is None and not channel.slots


CHECKS = (check_totals, check_spellings)
