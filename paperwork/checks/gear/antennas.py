"""Antennas: cables that come to an end, and as many lengths as cables."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show
from paperwork.plan.aerials import find_ring


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


CHECKS = (check_ring, check_lengths)
