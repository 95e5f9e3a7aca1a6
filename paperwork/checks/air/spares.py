"""Spares: can what they back be tuned to them, and do they survive the loss of a TV channel."""

from collections.abc import Iterator

from paperwork.coordinate import gather_on_air
from paperwork.coordinate.spares import find_elsewhere
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
from paperwork.plan.spares import list_backed
from paperwork.text.names import join_words
from paperwork.text.units import format_mhz, format_range


def check_spares(show: Show) -> Iterator[Finding]:
    """Each spare's frequency is one that the channels behind it can be set to, and is not lost with them."""
    spares = [channel for channel in show.channels.values() if channel.spare and channel.hz is not None]
    on_air = gather_on_air(show) if spares else None
    for spare in spares:
        untunable = _check_tunable(show, spare)
        elsewhere = None if untunable or on_air is None else find_elsewhere(on_air, spare)
        if untunable:
            yield untunable
        elif elsewhere:
            own, other, hz = elsewhere
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
        half_hz = -(-(radio.bandwidth_hz or 0) // 2) if radio else 0
        if (
            radio
            and radio.tunes
            and not any(one.low_hz <= hz - half_hz and hz + half_hz <= one.high_hz for one in radio.tunes)
        ):
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


CHECKS = (check_spares,)
