"""Who wears or holds what: role x scene x channel. Nothing else asks a channel for its roles to answer that."""

from collections.abc import Iterable, Iterator, Mapping

from paperwork.model import Channel, Show
from paperwork.plan.timeline import Stint, list_stints


def list_carried(show: Show, roles: Iterable[str] | None = None) -> Mapping[tuple[str, int], tuple[str, ...]]:
    """Which channels each role carries in each scene (by index) in which it is live: role x scene x channel.

    That is its own channels, or what its moves in the scene say instead.
    """
    return {
        (role, index): tuple(dict.fromkeys(id for stint in stints for id in stint.channels))
        for role, own in list_stints(show, roles).items()
        for index, stints in _by_index(own).items()
    }


def scenes_on(show: Show, channel: Channel) -> tuple[int, ...]:
    """The scenes, by index, in which a channel's pack is worn or held."""
    carried = list_carried(show, show.roles_on(channel))
    return tuple(sorted({index for (_, index), ids in carried.items() if channel.id in ids}))


def list_given(show: Show) -> Mapping[tuple[str, int], str]:
    """The channel of each role and scene (by index) in which moves say it for all of the scene."""
    return {
        (role, index): stints[0].channels[0]
        for role, own in list_stints(show, _roles_given(show)).items()
        for index, stints in _by_index(own).items()
        if all(stint.given for stint in stints)
    }


def _roles_given(show: Show) -> Iterator[str]:
    named = (show.roles[move.role] for move in show.moves.values() if move.channel and move.role in show.roles)
    return (id for role in named for id in role.group or (role.id,))


def _by_index(stints: Iterable[Stint]) -> Mapping[int, list[Stint]]:
    found: dict[int, list[Stint]] = {}
    for stint in stints:
        found.setdefault(stint.index, []).append(stint)
    return found
