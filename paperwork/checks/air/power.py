"""Transmit power against what a read source gives a region: a caution, never a permission."""

from collections.abc import Iterator

from paperwork.coordinate import find_region
from paperwork.coordinate.regions import PowerLimit, Region
from paperwork.finding import Finding, Subject, find
from paperwork.model import Show
from paperwork.place import Place
from paperwork.text.names import shorten_ids
from paperwork.text.units import Doubt, parse_power

Powered = tuple[Subject, int, str, Place]
"""Who transmits, on which frequency, with which power as written, and where that is written."""


def check_power(show: Show) -> Iterator[Finding]:
    """No transmitter is set to more than its region's limit for its frequency. One finding for those alike."""
    region = find_region(show.spectrum.region) if show.spectrum.region else None
    alike: dict[tuple[str, str, PowerLimit], list[Powered]] = {}
    for one in _list_powered(show) if region else ():
        limit = _find_limit(region, one[1], one[2], is_licensed=bool(show.production.licence)) if region else None
        if limit:
            alike.setdefault((one[0].section, one[2], limit), []).append(one)
    for (_, power, limit), several in alike.items():
        who, is_channel = shorten_ids([one[0].id for one in several]), several[0][0].section == "channels"
        yield find(
            "power-over-limit",
            several[0][3],
            about=tuple(one[0] for one in several),
            others=(show.spectrum.where["region"],),
            who=f"{'each of ' * (len(several) > 1)}{'channel' * is_channel}{'s' * (is_channel and len(several) > 1)} {who}".strip(),
            power=power,
            most=f"{limit.mw} mW {limit.what}",
            region=region.name if region else "",
            source=limit.source,
            dated=limit.dated,
            caution=region.caution if region else "",
        )


def _list_powered(show: Show) -> Iterator[Powered]:
    """Everything of ours that is on a frequency with a stated power."""
    for channel in show.channels.values():
        pack, radio = show.transmitters.get(channel.pack), show.radio_of(channel)
        record = pack if pack and pack.power else radio
        if channel.hz is not None and record and record.power:
            yield Subject("channels", channel.id), channel.hz, record.power, record.where["power"]
    for other in show.others.values():
        radio = show.radios.get(other.radio_type)
        if other.hz is not None and radio and radio.power and other.kind != "neighbour":
            yield Subject("others", other.id), other.hz, radio.power, radio.where["power"]


def _find_limit(region: Region, hz: int, power: str, *, is_licensed: bool) -> PowerLimit | None:
    """The strictest limit that a power exceeds."""
    try:
        microwatts = parse_power(power)
    except Doubt:
        return None
    over = [
        limit
        for limit in region.power
        if limit.low_hz <= hz <= limit.high_hz
        and microwatts > limit.mw * 1_000
        and not (limit.unlicensed and is_licensed)
    ]
    return min(over, key=lambda limit: limit.mw, default=None)


CHECKS = (check_power,)
