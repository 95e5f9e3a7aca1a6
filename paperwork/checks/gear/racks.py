"""Racks among each other: places in the antenna tree and its cables, addresses on the network."""

from collections.abc import Iterator
from ipaddress import ip_address, ip_network

from paperwork.finding import Finding, Subject, find
from paperwork.model import Rack, Show
from paperwork.plan.aerials import find_ring
from paperwork.plan.rules import longest_chain
from paperwork.text.names import fold


def check_antennas(show: Show) -> Iterator[Finding]:
    """Each place in an antenna chain holds one rack, and no chain is longer than its limit."""
    chains: dict[str, list[Rack]] = {}
    for rack in show.racks.values():
        if rack.antenna:
            chains.setdefault(fold(rack.antenna), []).append(rack)
    limit = longest_chain(show)
    for chain in chains.values():
        holders: dict[str, Rack] = {}
        for rack in chain:
            first = holders.setdefault(fold(rack.place), rack) if rack.place else rack
            if first is not rack:
                yield find(
                    "antenna-place-doubled",
                    rack.where["place"],
                    about=_about(first, rack),
                    others=(first.where["place"],),
                    first=first.id,
                    second=rack.id,
                    antenna=rack.antenna,
                    socket=rack.place,
                )
        last = max(chain, key=_place_of)
        if _place_of(last) > limit:
            yield find(
                "antenna-chain-long",
                last.where["place"],
                about=_about(last),
                others=(show.day.where["chain"],),
                rack=last.id,
                antenna=last.antenna,
                socket=last.place,
                limit=limit,
            )


def check_first_places(show: Show) -> Iterator[Finding]:
    """A rack behind another on an antenna has one before it, unless the section groups has the antenna."""
    chains: dict[str, list[Rack]] = {}
    declared = {fold(group.id) for group in show.groups.values() if group.kind == "antenna"}
    for rack in show.racks.values():
        if rack.antenna and fold(rack.antenna) not in declared and _place_of(rack):
            chains.setdefault(fold(rack.antenna), []).append(rack)
    for chain in chains.values():
        first, *more = sorted(chain, key=_place_of)
        if _place_of(first) > 1:
            yield find(
                "antenna-without-first",
                first.where["place"],
                about=_about(first, *more),
                others=tuple(rack.where["place"] for rack in more),
                rack=first.id,
                socket=first.place,
                antenna=first.antenna,
            )


def _place_of(rack: Rack) -> int:
    return int(rack.place) if rack.place.isascii() and rack.place.isdigit() else 0


def check_addresses(show: Show) -> Iterator[Finding]:
    """Each network address is used once, and lies on the network that its rack names."""
    first: dict[str, Rack] = {}
    for rack in show.racks.values():
        if not rack.address:
            continue
        other = first.setdefault(rack.address, rack)
        if other is not rack:
            yield find(
                "address-doubled",
                rack.where["address"],
                about=_about(other, rack),
                others=(other.where["address"],),
                address=rack.address,
                first=other.id,
                second=rack.id,
            )
        elif rack.network and ip_address(rack.address) not in ip_network(rack.network):
            yield find(
                "address-off-network",
                rack.where["address"],
                about=_about(rack),
                others=(rack.where["network"],),
                address=rack.address,
                rack=rack.id,
                network=rack.network,
            )


def _about(*racks: Rack) -> tuple[Subject, ...]:
    return tuple(Subject("racks", rack.id) for rack in racks)


def check_ring(show: Show) -> Iterator[Finding]:
    """No part is fed by what it feeds."""
    if ring := find_ring(show):
        about = tuple(Subject("antennas", id) for id in ring)
        others = tuple(show.antennas[id].where["feeds"] for id in ring[1:])
        place = show.antennas[ring[0]].where["feeds"]
        yield find("antenna-ring", place, about=about, others=others, parts=", ".join((*ring, ring[0])))


def check_lengths(show: Show) -> Iterator[Finding]:
    """One length for all cables of a part, or one for each."""
    for part in show.antennas.values():
        if len(part.cables) > 1 and len(part.cables) != len(part.feeds):
            yield find(
                "antenna-lengths",
                part.where["cables"],
                about=(Subject("antennas", part.id),),
                part=part.id,
                lengths=len(part.cables),
                feeds=len(part.feeds),
            )


CHECKS = (check_antennas, check_first_places, check_addresses, check_ring, check_lengths)
