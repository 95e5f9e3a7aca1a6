"""From the antennas to the racks: which cables there are, and what hangs together."""

from collections.abc import Iterable, Iterator, Sequence
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
    cables = [Cable(part.id, *ends) for part in show.antennas.values() for ends in part.cables_out]
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
    """The parts and racks that hang together, each system by itself, in the order of the show. Steps grow with the cables."""
    known = dict.fromkeys((*show.antennas, *show.racks, *(one.end for one in cables)))
    joined: dict[str, list[str]] = {id: [] for id in known}
    for cable in cables:
        joined[cable.start].append(cable.end)
        joined[cable.end].append(cable.start)
    order = {id: number for number, id in enumerate(known)}
    systems, seen = [], set()
    for id in known:
        group = [] if id in seen else [id]
        seen.add(id)
        for one in group:
            new = [other for other in dict.fromkeys(joined[one]) if other not in seen]
            seen.update(new)
            group += new
        if not show.antennas.keys().isdisjoint(group):
            systems.append(tuple(sorted(group, key=order.__getitem__)))
    return tuple(systems)


def measure_depths(ids: Sequence[str], cables: Iterable[Cable]) -> dict[str, int]:
    """How many cables lead from each part or rack to the end that is farthest from it. Of parts in a ring it says nothing."""
    behind: dict[str, list[str]] = {id: [] for id in ids}
    left = dict.fromkeys(ids, 0)
    for cable in cables:
        if cable.start in left:
            behind[cable.end].append(cable.start)
            left[cable.start] += 1
    depths = dict.fromkeys(ids, 0)
    settled = [id for id in ids if not left[id]]
    for id in settled:
        for start in behind[id]:
            depths[start] = max(depths[start], depths[id] + 1)
            left[start] -= 1
            if not left[start]:
                settled.append(start)
    return depths


def find_ring(show: Show) -> tuple[str, ...]:
    """Parts that feed each other in a ring; () where there is none. Each cable is followed once."""
    ended: set[str] = set()
    for first in show.antennas:
        chain: dict[str, Iterator[str]] = {} if first in ended else {first: iter(show.antennas[first].feeds)}
        while chain:
            part = next(reversed(chain))
            fed = next(chain[part], None)
            if fed is None:
                ended.add(part)
                del chain[part]
            elif fed in chain:
                listed = list(chain)
                return tuple(listed[listed.index(fed) :])
            elif fed in show.antennas and fed not in ended:
                chain[fed] = iter(show.antennas[fed].feeds)
    return ()
