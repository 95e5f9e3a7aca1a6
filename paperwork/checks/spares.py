"""Spares: can what they back be tuned to them, and do they survive the loss of a TV channel."""

from collections.abc import Iterator

from paperwork.coordinate import OnAir, carrier_name, gather_on_air, list_openings
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.names import join_words
from paperwork.units import format_mhz, format_range


def check_spares(show: Show) -> Iterator[Finding]:
    """Each spare's frequency is one that the channels behind it can be set to, and is not lost with them."""
    spares = [channel for channel in show.channels.values() if channel.spare and channel.hz is not None]
    on_air = gather_on_air(show) if spares else None
    for spare in spares:
        finding = _check_tunable(show, spare) or (on_air and _check_beside(on_air, spare))
        if finding:
            yield finding


def list_backed(show: Show, spare: Channel) -> tuple[Channel, ...]:
    """The channels behind a spare: those that it names, else all of its radio type."""
    if spare.backs:
        return tuple(show.channels[id] for id in spare.backs if id in show.channels)
    return tuple(one for one in show.channels.values() if not one.spare and one.radio == spare.radio)


def _check_tunable(show: Show, spare: Channel) -> Finding | None:
    hz = spare.hz or 0
    for channel in list_backed(show, spare):
        radio = show.radio_of(channel)
        half_hz = -(-(radio.bandwidth_hz or 0) // 2) if radio else 0
        if radio and radio.tunes and not any(one.low_hz <= hz - half_hz and hz + half_hz <= one.high_hz for one in radio.tunes):
            return find(
                "spare-untunable", spare.where["mhz"], others=(radio.where["tunes"], channel.where.record),
                about=(Subject("channels", spare.id), Subject("channels", channel.id)), spare=spare.id,
                mhz=format_mhz(hz), channel=channel.id, radio=radio.id, tunes=join_words(map(format_range, radio.tunes)),
            )
    return None


def _check_beside(on_air: OnAir, spare: Channel) -> Finding | None:
    """A warning where everything stands in one TV channel and another holds a clean frequency for the spare."""
    region = on_air.air.region
    if region is None:
        return None
    own = region.tv_under(spare.hz or 0)
    others = {region.tv_under(channel.hz) for channel in list_backed(on_air.show, spare) if channel.hz is not None}
    if own is None or others != {own}:
        return None
    for hz in list_openings(on_air, carrier_name(spare)):
        other = region.tv_under(hz)
        if other is not None and other != own:
            return find(
                "spare-beside", spare.where["mhz"], about=(Subject("channels", spare.id),),
                spare=spare.id, tv=own.name, mhz=format_mhz(hz), other=other.name,
            )
    return None


CHECKS = (check_spares,)
