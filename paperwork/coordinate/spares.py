"""Spares: what they can be tuned to, and where they would survive the loss of a TV channel."""

from collections.abc import Iterable

from paperwork.coordinate.carriers import OnAir, carrier_name
from paperwork.model import Channel
from paperwork.plan.spares import list_backed
from paperwork.radio.bands import TvChannel


def find_elsewhere(on_air: OnAir, spares: Iterable[Channel]) -> dict[str, tuple[TvChannel, TvChannel, int]]:
    """For each spare in one TV channel with all that it backs: that channel, another, and a clean frequency there.

    All can be taken together. A spare that is well placed, or has nowhere else to go, is left out.
    """
    region = on_air.air.region
    if region is None:
        return {}
    beside = [(spare, own) for spare in spares if (own := _find_shared(on_air, spare)) is not None]
    owns = {carrier_name(spare): own for spare, own in beside}

    def take(name: str, clean: list[int]) -> int | None:
        return next((hz for hz in clean if region.tv_under(hz) not in (None, owns[name])), None)

    if not owns:
        return {}
    from paperwork.coordinate.nearest import take_openings

    taken = take_openings(on_air, list(owns), take)
    found = {}
    for spare, own in beside:
        hz = taken.get(carrier_name(spare))
        other = region.tv_under(hz) if hz is not None else None
        if hz is not None and other is not None:
            found[spare.id] = own, other, hz
    return found


def _find_shared(on_air: OnAir, spare: Channel) -> TvChannel | None:
    """The TV channel that a spare is in together with all that it backs."""
    region = on_air.air.region
    if region is None or spare.hz is None:
        return None
    own = region.tv_under(spare.hz)
    backed = {region.tv_under(channel.hz) for channel in list_backed(on_air.show, spare) if channel.hz is not None}
    return own if backed == {own} else None
