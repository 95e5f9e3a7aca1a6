"""Spares: can what they back be tuned to them, and do they survive the loss of a TV channel."""

from collections.abc import Iterator

from paperwork.coordinate import OnAir, carrier_name
from paperwork.coordinate.spares import find_elsewhere
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.plan.spares import list_backed
from paperwork.text.names import join_words
from paperwork.text.units import format_mhz, format_range


def check_spares(on_air: OnAir, moving: frozenset[str]) -> Iterator[Finding]:
    """Each spare's frequency is one that the channels behind it can be set to, and is not lost with them. `moving` are
    carriers that have to move anyway; what is offered to them is on the air already."""
    show = on_air.show
    spares = [channel for channel in show.channels.values() if channel.spare and channel.hz is not None]
    untunable = {spare.id: finding for spare in spares if (finding := _check_tunable(show, spare))}
    placed = [spare for spare in spares if spare.id not in untunable and carrier_name(spare) not in moving]
    elsewhere = find_elsewhere(on_air, placed)
    for spare in spares:
        if spare.id in untunable:
            yield untunable[spare.id]
        elif spare.id in elsewhere:
            own, other, hz = elsewhere[spare.id]
            yield find(
                "spare-beside",
                spare.where["mhz"],
                about=(Subject("channels", spare.id),),
                spare=spare.id,
                tv=own.name,
                mhz=format_mhz(hz),
                clean=format_mhz(hz) if spare.granted_hz is None else "",
                other=other.name,
            )


def _check_tunable(show: Show, spare: Channel) -> Finding | None:
    hz = spare.hz or 0
    for channel in list_backed(show, spare):
        radio = show.radio_of(channel)
        if radio and not radio.can_tune(hz):
            return find(
                "spare-untunable",
                spare.where["mhz"],
                others=(radio.where["tunes"], channel.where.record),
                about=(Subject("channels", spare.id), Subject("channels", channel.id)),
                spare=spare.id,
                mhz=format_mhz(hz),
                channel=channel.id,
                radio=radio.id,
                tunes=join_words(map(format_range, radio.tunes)),
            )
    return None
