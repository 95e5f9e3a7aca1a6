"""Spells: one body with one pack, from putting it on to giving it away. What mic plots and pouches are made of."""

from dataclasses import dataclass
from itertools import groupby, zip_longest
from operator import attrgetter

from paperwork.model import Channel, Show
from paperwork.plan.handovers import Handover, Wearing, follow_pack, list_wearings
from paperwork.plan.timeline import list_stints


@dataclass(frozen=True, slots=True)
class Spell:
    """One body with a channel's pack without a break. `by` is who plays, or the role where nobody is named.

    `scenes` are those in which it is live, by index; in between it stays on. `gives` is the handover at its
    end, None where the pack stays on to the end of the show. Times count from curtain up.
    """

    channel: Channel
    by: str
    roles: tuple[str, ...]
    scenes: tuple[int, ...]
    from_s: int | None = None
    to_s: int | None = None
    gives: Handover | None = None


def list_spells(show: Show) -> tuple[Spell, ...]:
    """Every spell of every channel: channels in the show's order, then in show order."""
    roles = {role for channel in show.channels.values() for role in channel.roles}
    stints = list_stints(show, roles)

    def played_by(role: str, _index: int) -> str:
        return show.roles[role].by or role

    return tuple(
        spell
        for channel in show.channels.values()
        for spell in _spells_of(show, channel, list_wearings(channel.roles, stints, played_by))
    )


def _spells_of(show: Show, channel: Channel, worn: tuple[Wearing, ...]) -> list[Spell]:
    groups = [tuple(group) for _, group in groupby(worn, key=attrgetter("by"))]
    between = follow_pack(show, channel.id, worn)
    spells = []
    for group, gives in zip_longest(groups, between):
        stints = [wearing.stint for wearing in group]
        roles = tuple(dict.fromkeys(stint.role for stint in stints))
        scenes = tuple(sorted({stint.index for stint in stints}))
        spells.append(Spell(channel, group[0].by, roles, scenes, stints[0].from_s, stints[-1].to_s, gives))
    return spells
