"""Zones that reach each other through their walls: which carriers meet where attenuation is stated.

Zones are all or nothing: carriers of two zones do not meet, or meet with every guard and distance. Where both state
their attenuation, a carrier of one is weaker in the other by both together, less what the strongest transmitter of the
show has more power than the weakest (decibels add along a path; 10 log of a ratio of powers). What stays under the
wanted `zones apart` makes them meet. Of two of which one states none, the other's alone counts: what nobody knows of a
wall must hide no clash. Two that state none do not meet. How guards would shrink with attenuation no source that was
read says, so they stay whole, which is on the safe side.
"""

from collections.abc import Iterator
from functools import lru_cache
from math import ceil, log10

from paperwork.model import Channel, Group, Other, Show
from paperwork.plan.day.bill import moments_of
from paperwork.text.names import group_key
from paperwork.text.units import Doubt, parse_power

ZONES_APART_CDB = 6_000
"""How much weaker a carrier of another zone must be before it does not count, in hundredths of a dB, unless the show says.
Choice of this project, no source: 20 dB for what a receiver wants of its own carrier over another on its frequency, and
40 dB for one that is a hundred times farther from its antenna than the other, the square law of free space."""

ALWAYS = "always"

MOST_PAIRS = 10_000
"""So many pairs of a zone with a stated attenuation and one without are looked at. A choice of this project."""


def place_of(show: Show, zone: str, parts: tuple[str, ...]) -> tuple[str, frozenset[str]]:
    """The zone and the times of a carrier for the arithmetic. Where zones reach each other, zones become part of the
    times: carriers meet if and only if they have a time in common."""
    moments, rooms = moments_of(show, parts), _list_rooms(show)
    if not rooms:
        return zone, moments
    own = rooms.get(group_key(zone), (f"zone {group_key(zone)}",)) if zone else _list_all(show, rooms)
    whens = moments or _list_moments(show)
    return "", frozenset(f"{when}, {room}" for when in whens for room in own)


def _list_all(show: Show, rooms: dict[str, tuple[str, ...]]) -> tuple[str, ...]:
    """Every room, those of zones without a stated attenuation too."""
    alone = {
        f"zone {group_key(one.zone)}" for one in _list_powered(show) if one.zone and group_key(one.zone) not in rooms
    }
    return tuple(sorted({room for some in rooms.values() for room in some} | alone | {ALWAYS}))


def _list_moments(show: Show) -> tuple[str, ...]:
    """Every moment in which anybody is on, and one beside them all."""
    found = {moment for parts in {one.bill for one in _list_powered(show)} for moment in moments_of(show, parts)}
    return (*sorted(found), ALWAYS)


def _list_powered(show: Show) -> tuple[Channel | Other, ...]:
    return (*show.channels.values(), *show.others.values())


def _list_rooms(show: Show) -> dict[str, tuple[str, ...]]:
    """By a zone's key, the largest sets of zones that reach each other and it is in; empty where no two do."""
    if all(one.attenuation_cdb is None for one in show.groups.values()):
        return {}
    wanted = show.spectrum.zones_apart_cdb
    spread = _power_spread_cdb(show)
    zones = {group_key(one.zone): None for one in _list_powered(show) if one.zone}
    return _share_rooms(
        tuple(show.groups.values()), tuple(zones), (ZONES_APART_CDB if wanted is None else wanted) + spread
    )


@lru_cache(8)
def _share_rooms(groups: tuple[Group, ...], zones: tuple[str, ...], wanted_cdb: int) -> dict[str, tuple[str, ...]]:
    stated = {
        group_key(one.id): one.attenuation_cdb
        for one in groups
        if one.kind == "zone" and one.attenuation_cdb is not None
    }
    silent = [key for key in zones if key not in stated]
    if len(silent) * len(stated) > MOST_PAIRS:
        # Too many to keep apart from each other, which errs to the safe side.
        stated, silent = stated | dict.fromkeys(silent, 0), []
    rooms: dict[str, list[str]] = {key: [] for key in (*stated, *silent)}
    beside = [{key: 0} for key in silent] or [{}]
    largest = list(dict.fromkeys(room for one in beside for room in _list_largest(stated | one, wanted_cdb)))
    if all(len(room) < 2 for room in largest):
        return {}
    for number, room in enumerate(largest):
        for key in room:
            rooms[key].append(f"room {number}")
    return {key: tuple(some) for key, some in rooms.items()}


def _list_largest(stated: dict[str, int], wanted_cdb: int) -> Iterator[frozenset[str]]:
    """The largest sets of zones of which any two have too little attenuation between them.

    Any two under half of what is wanted reach each other. One that is over it reaches only those that leave too little
    together with it, and all of these reach each other.
    """
    low = frozenset(key for key, cdb in stated.items() if 2 * cdb < wanted_cdb)
    yield low
    for key, cdb in stated.items():
        if key not in low:
            yield frozenset({key, *(one for one in low if stated[one] + cdb < wanted_cdb)})


def _power_spread_cdb(show: Show) -> int:
    """How many hundredths of a dB the strongest transmitter with a stated power has over the weakest, rounded up."""
    powers = [power for text in {_power_of(show, one) for one in _list_powered(show)} if (power := _read(text))]
    return ceil(1_000 * log10(max(powers) / min(powers))) if powers else 0


def _power_of(show: Show, one: Channel | Other) -> str:
    if isinstance(one, Other):
        return show.type_of(one).power
    pack, radio = show.transmitters.get(one.pack), show.radio_of(one)
    return (pack.power if pack else "") or (radio.power if radio else "")


def _read(text: str) -> int:
    """The power in microwatts; 0 where it is not one that can be read."""
    try:
        return parse_power(text)
    except Doubt:
        return 0
