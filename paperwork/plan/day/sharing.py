"""Frequencies that several are on, one after the other or out of each other's reach."""

from typing import TypeAlias

from paperwork.model import Channel, Other, Show

Carried: TypeAlias = Channel | Other
"""Whatever has a frequency."""


def list_sharers(show: Show, one: Carried) -> tuple[str, ...]:
    """The ids of all others on the frequency of a carrier, where a zone or a bill lets them; () where nothing does.

    Channels of one exclusive group or of one wide carrier are no others: their own papers say how they belong together.
    """
    if one.hz is None or not (one.zone or one.bill):
        return ()
    records: tuple[Carried, ...] = (*show.channels.values(), *show.others.values())
    return tuple(other.id for other in records if other is not one and other.hz == one.hz and not _belong(one, other))


def _belong(one: Carried, other: Carried) -> bool:
    if not (isinstance(one, Channel) and isinstance(other, Channel)):
        return False
    return any(a and a == b for a, b in ((one.exclusive, other.exclusive), (one.carrier, other.carrier)))
