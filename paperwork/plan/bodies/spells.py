"""Spells: one body with one pack, from putting it on to giving it away, or to the end of the day. What mic plots and pouches are made of."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import groupby, zip_longest

from paperwork.frozen import frozen
from paperwork.model import Channel, Show
from paperwork.plan.handovers import Handover, Wearing, follow_pack, list_wearings
from paperwork.plan.timeline import Stint, list_days, list_stints


@frozen
class Spell:
    """One body with a channel's pack without a break. `by` is who plays, or the role where nobody is named.

    `scenes` are those in which it is live, by index; in between it stays on. `gives` is the handover at its end, None
    where the pack stays on to the end of the show or the day. Times count as scenes do. `off` are scenes after the first in which
    the body wears another pack instead: that of another of its roles, or one that a move gives it.
    """

    channel: Channel
    by: str
    roles: tuple[str, ...]
    scenes: tuple[int, ...]
    from_s: int | None = None
    to_s: int | None = None
    gives: Handover | None = None
    off: frozenset[int] = frozenset()


def list_spells(show: Show) -> tuple[Spell, ...]:
    """Every spell of every channel: channels in the show's order, then in show order."""
    roles_of = {channel.id: show.roles_on(channel) for channel in show.channels.values()}
    stints = list_stints(show, (role for roles in roles_of.values() for role in roles))
    spells: list[Spell] = []
    worn_in: dict[tuple[str, int], set[str]] = {}
    for id, roles in roles_of.items():

        def worn_by(stint: Stint, id: str = id) -> str:
            return (show.roles[stint.role].by or stint.role) if id in stint.channels else ""

        worn = list_wearings(roles, stints, worn_by)
        spells += _spells_of(show, show.channels[id], worn)
        for wearing in worn if _is_worn(show, id) else ():
            if wearing.stint.given or not show.channels[id].doubles:
                worn_in.setdefault((wearing.by, wearing.stint.index), set()).add(id)
    return tuple(_leave_off(show, spell, worn_in) for spell in spells)


def _is_worn(show: Show, id: str) -> bool:
    radio = show.radio_of(show.channels[id])
    return radio is None or radio.kind == "pack"


def _leave_off(show: Show, spell: Spell, worn_in: Mapping[tuple[str, int], set[str]]) -> Spell:
    """A pack comes off where its body wears another: not so a handheld, which was never on, nor a second pack beside
    its first."""
    if not _is_worn(show, spell.channel.id):
        return spell
    later = set(range(spell.scenes[0], len(show.scenes))) - set(spell.scenes)
    own = {spell.channel.id, spell.channel.doubles}
    return replace(spell, off=frozenset(index for index in later if worn_in.get((spell.by, index), set()) - own))


def _spells_of(show: Show, channel: Channel, worn: tuple[Wearing, ...]) -> list[Spell]:
    days = list_days(show)

    def body_of(wearing: Wearing) -> tuple[str, int]:
        return wearing.by, days[wearing.stint.index] if days else 0

    groups = [(body, tuple(group)) for body, group in groupby(worn, key=body_of)]
    between = iter(follow_pack(show, channel.id, worn))
    spells = []
    for (body, group), following in zip_longest(groups, groups[1:]):
        is_given = following and following[0][0] != body[0] and following[0][1] == body[1]
        gives = next(between) if is_given else None
        stints = [wearing.stint for wearing in group]
        roles = tuple(dict.fromkeys(stint.role for stint in stints))
        scenes = tuple(sorted({stint.index for stint in stints}))
        spells.append(Spell(channel, group[0].by, roles, scenes, stints[0].from_s, stints[-1].to_s, gives))
    return spells
