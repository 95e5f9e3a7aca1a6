"""From the antennas to the racks: which cables there are, and what hangs together."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from paperwork.model import Show
from paperwork.text.names import fold


class Cable(NamedTuple):
    """One cable from a part or a rack to another, with its length as it was written, "" where it was not."""

    start: str
    end: str
    length: str = ""


def list_cables(show: Show) -> tuple[Cable, ...]:
    """What each part feeds, then from rack to rack along an antenna chain whose places are numbered."""
    cables = [Cable(part.id, fed, part.cable_to(fed)) for part in show.antennas.values() for fed in part.feeds]
    fed = {cable.end for cable in cables}
    chains: dict[str, list[tuple[int, str]]] = {}
    for rack in show.racks.values():
        if rack.antenna and rack.place.isascii() and rack.place.isdigit():
            chains.setdefault(fold(rack.antenna), []).append((int(rack.place), rack.id))
    for chain in chains.values():
        ids = [id for _, id in sorted(chain)]
        cables += (Cable(one, two) for one, two in pairwise(ids) if two not in fed and one in fed)
    return tuple(cables)


def list_systems(show: Show, cables: Sequence[Cable]) -> tuple[tuple[str, ...], ...]:
    """The parts and racks that hang together, each system by itself, in the order of the show."""
    known = tuple(dict.fromkeys((*show.antennas, *show.racks, *(one.end for one in cables))))
    joined: dict[str, set[str]] = {id: {id} for id in known}
    for cable in cables:
        whole = joined[cable.start] | joined[cable.end]
        for id in whole:
            joined[id] = whole
    systems = {frozenset(group) for id, group in joined.items() if not group.isdisjoint(show.antennas)}
    order = {id: number for number, id in enumerate(known)}
    listed = [tuple(sorted(group, key=order.__getitem__)) for group in systems]
    return tuple(sorted(listed, key=lambda group: order[group[0]]))


def find_ring(show: Show) -> tuple[str, ...]:
    """The first parts that feed each other in a ring; () where there is none."""
    for part in show.antennas:
        chain, at = [part], list(show.antennas[part].feeds)
        found = _follow(show, chain, at)
        if found:
            return found
    return ()


def _follow(show: Show, chain: list[str], feeds: list[str]) -> tuple[str, ...]:
    for fed in feeds:
        if fed == chain[0]:
            return tuple(chain)
        if (
            fed in show.antennas
            and fed not in chain
            and (found := _follow(show, [*chain, fed], [*show.antennas[fed].feeds]))
        ):
            return found
    return ()
