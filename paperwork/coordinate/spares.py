"""Spares: what they can be tuned to, and where they would survive the loss of a TV channel."""

from paperwork.coordinate.carriers import OnAir, carrier_name
from paperwork.coordinate.nearest import list_openings
from paperwork.model import Channel
from paperwork.plan.spares import list_backed
from paperwork.radio.bands import TvChannel


def find_elsewhere(on_air: OnAir, spare: Channel) -> tuple[TvChannel, TvChannel, int] | None:
    """For a spare that shares one TV channel with all that it backs: that channel, another, and a clean frequency there.

    None where the spare is well placed, or has nowhere else to go.
    """
    region = on_air.air.region
    if region is None or spare.hz is None:
        return None
    own = region.tv_under(spare.hz)
    backed = {region.tv_under(channel.hz) for channel in list_backed(on_air.show, spare) if channel.hz is not None}
    if own is None or backed != {own}:
        return None
    for hz in list_openings(on_air, carrier_name(spare)):
        other = region.tv_under(hz)
        if other is not None and other != own:
            return own, other, hz
    return None
