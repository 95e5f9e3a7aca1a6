"""A show without the frequencies that are to be found anew, and where those stay that find nothing."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from typing import TypeVar

from paperwork.coordinate.assign import Assigned
from paperwork.coordinate.backups import Missing
from paperwork.coordinate.carriers import carrier_name
from paperwork.coordinate.grants import asked_hz
from paperwork.model import Channel, Other, Show

_Held = TypeVar("_Held", Channel, Other)


def is_movable(show: Show, other: Other) -> bool:
    """Whether one of the others is ours and it is known where it may go: another frequency can be found for it."""
    return other.kind != "neighbour" and bool(show.type_of(other).reach)


def free_channels(
    show: Show, ids: Collection[str], backups: Collection[str] = (), others: Collection[str] = ()
) -> Show:
    """The show without the frequencies of some channels, and of all that share a carrier with them; a grant was for
    those. `backups` are channels whose backup is to be found anew, `others` are in-ears and their like."""
    names = {carrier_name(show.channels[id]) for id in ids}
    freed = {id: _free(channel) for id, channel in show.channels.items() if carrier_name(channel) in names}
    channels = {**show.channels, **freed}
    channels |= {id: replace(channels[id], backup_hz=None, wants_backup=True) for id in backups}
    return replace(show, channels=channels, others={**show.others, **{id: _free(show.others[id]) for id in others}})


def free_answered(show: Show, ids: Collection[str]) -> Show:
    """The show without the frequencies of those of some channels that are not what a coordinator answered: for a
    refused one another is found that is not beside it, for the others what was granted."""
    channels = [one for id, one in show.channels.items() if id in ids]
    names = {carrier_name(one) for one in channels if one.refused or one.granted_hz not in (None, one.hz)}
    freed = {
        one.id: replace(_free(one), asked_hz=asked_hz(one), granted_hz=one.granted_hz, refused=one.refused)
        for one in show.channels.values()
        if carrier_name(one) in names
    }
    return replace(show, channels={**show.channels, **freed})


def _free(one: _Held) -> _Held:
    where = replace(one.where, fields={name: at for name, at in one.where.fields.items() if name != "mhz"})
    return replace(one, hz=None, asked_hz=None, granted_hz=None, refused=False, where=where)


def assign_freed(
    show: Show, freed: Show, search: Callable[[Show], Assigned], losing: Collection[tuple[str, str]]
) -> Assigned:
    """What a search gives the freed. Who finds nothing stays on the air where the show has it, and the others are
    looked for once more beside it; but those `losing` (section and id) lose what they had."""
    missing: list[Missing] = []
    while True:
        found = search(freed)
        stay = [one for one in found.missing if (one.section, one.channel) not in losing and _had(show, one)]
        if not stay:
            return replace(found, missing=(*missing, *found.missing))
        missing += stay
        freed = _put_back(show, freed, stay)


def _had(show: Show, one: Missing) -> bool:
    """Whether it had in the show what it did not find."""
    if one.section == "others":
        return show.others[one.channel].hz is not None
    channel = show.channels.get(one.channel)
    return channel is not None and (channel.backup_hz if one.is_backup else channel.hz) is not None


def _put_back(show: Show, freed: Show, stay: Sequence[Missing]) -> Show:
    """The freed show with some as the show has them."""
    channels, others = dict(freed.channels), dict(freed.others)
    for one in stay:
        if one.section == "others":
            others[one.channel] = show.others[one.channel]
        elif one.is_backup:
            backup_hz = show.channels[one.channel].backup_hz
            channels[one.channel] = replace(channels[one.channel], backup_hz=backup_hz, wants_backup=False)
        else:
            name = carrier_name(show.channels[one.channel])
            channels |= {id: own for id, own in show.channels.items() if carrier_name(own) == name}
    return replace(freed, channels=channels, others=others)
