"""The air: is each carrier where it may be, does the sweep agree, and is what the show says of the air to be read."""

from collections.abc import Callable, Iterator

from paperwork.checks.air.drafts import Draft
from paperwork.coordinate import OnAir, Region, find_region, list_region_names, window_of
from paperwork.coordinate.air import CLOSED, CROWDED, KEEP_CLEAR, SWEEP, TV
from paperwork.coordinate.regions import format_tv
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Rack, Show
from paperwork.place import Place
from paperwork.radio.bands import BlockedRange, Range, blocks_on
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz, is_inside
from paperwork.text.names import join_words, nearest
from paperwork.text.units import format_edge, format_khz, format_level, format_mhz


def check_places(on_air: OnAir, known: frozenset[Subject] = frozenset()) -> Iterator[Draft]:
    """Each carrier lies inside its window and clear of what is in the air. `known`: records that a plainer finding names.

    One finding for a carrier, the root first: what is outside its window has to move whatever is on the air there.
    """
    for carrier in on_air.carriers:
        if known.isdisjoint(on_air.subjects[carrier.id]):
            yield from _check_place(on_air, carrier)


def _check_place(on_air: OnAir, carrier: Carrier) -> Iterator[Draft]:
    for subject in on_air.subjects[carrier.id]:
        channel = on_air.show.channels[subject.id] if subject.section == "channels" else None
        outside = channel and _draft_outside(on_air, carrier, channel)
        if outside:
            yield outside
            return
    causes = (KEEP_CLEAR, TV, CROWDED, CLOSED, SWEEP) if on_air.is_channel(carrier.id) else (TV, CLOSED)
    if not carrier.listens:
        return
    found = {block.cause: block for block in reversed(blocks_on(on_air.air.blocks, carrier.hz, carrier.bandwidth_hz))}
    for cause in causes:
        draft = _draft_block(on_air, carrier, found[cause]) if cause in found else None
        if draft:
            yield draft
            return


def _draft_outside(on_air: OnAir, carrier: Carrier, channel: Channel) -> Draft | None:
    rack = on_air.show.racks.get(channel.slot.rack) if channel.slot else None
    window = window_of(on_air.show, rack) if rack else None
    if rack is None or window is None or any(is_inside(carrier, low, high) for low, high in window):
        return None
    place, about, others = channel.where["mhz"], (Subject("channels", channel.id),), (rack.where["window"],)
    facts = {"mhz": format_mhz(carrier.hz), "channel": channel.id, "rack": rack.id}
    facts["window"] = _window_words(rack, window)
    return Draft(carrier.id, "frequency-out-of-window", place, about, others, facts)


def _window_words(rack: Rack, window: tuple[Range, ...]) -> str:
    if not window:
        return "which passes nothing: the windows along its antenna do not meet"
    words = f"{format_ranges(window)} MHz"
    return words if rack.window is not None and window == (tuple(rack.window),) else f"{words} along its antenna"


def _draft_block(on_air: OnAir, carrier: Carrier, block: BlockedRange) -> Draft | None:
    region, show = on_air.air.region, on_air.show
    where = show.spectrum.where

    def draft(code: str, other: Place, **facts: str) -> Draft:
        facts |= {"mhz": format_mhz(carrier.hz), "name": carrier.id}
        return Draft(carrier.id, code, on_air.places[carrier.id], on_air.subjects[carrier.id], (other,), facts)

    if block.cause == KEEP_CLEAR:
        return draft("keep-clear-touched", where["keep clear"], range=_block_words(block))
    if block.cause == TV and region:
        return draft("tv-in-use", where["tv"], tv=_name_tv(region, block.name))
    if block.cause == CROWDED and region and region.crowd:
        cities = region.cities_at(show.production.venue)
        city = next((one for one in cities if block.name in region.crowd.cities[one]), "")
        tv, source = _name_tv(region, block.name), region.crowd.source
        return draft("tv-crowded", show.production.where["venue"], tv=tv, city=city, source=source)
    if block.cause == CLOSED and region:
        closed = next(one for one in region.closed if one.low_hz == block.low_hz)
        facts = {"why": closed.why, "region": region.name, "dated": closed.dated, "caution": region.caution}
        return draft("region-closed", where["region"], range=_block_words(block), **facts)
    return _draft_swept(on_air, carrier, block, draft)


def _draft_swept(on_air: OnAir, carrier: Carrier, block: BlockedRange, draft: Callable[..., Draft]) -> Draft | None:
    """What a sweep shows under a carrier. None where that is ourselves, the noise of the sweep, or not too loud for just
    this carrier."""
    air, where = on_air.air, on_air.show.spectrum.where["sweeps"]
    if block.name and air.region:
        level = next(level for channel, level in air.shown if channel.name == block.name)
        return draft("sweep-tv", where, tv=_name_tv(air.region, block.name), level=format_level(level))
    heard = air.sweep.hear(*carrier_edges_hz(carrier)) if air.sweep and not air.own_on else None
    if heard is None or not heard.is_loud or heard.is_drowned:
        return None
    facts = {"level": format_level(heard.level_cdbm), "limit": format_level(heard.limit_cdbm)}
    facts["width"] = format_khz(carrier.bandwidth_hz)
    facts["floor"] = f", the noise floor {format_level(heard.floor_cdbm)} dBm" if heard.floor_cdbm is not None else ""
    facts["share"] = f" in {heard.loud_in} of {heard.swept_in} sweeps" if heard.swept_in > 1 else ""
    return draft("sweep-loud", where, **facts)


def _name_tv(region: Region, name: str) -> str:
    channel = region.find_tv(name)
    return format_tv(channel) if channel else name


def _block_words(block: BlockedRange) -> str:
    return format_ranges(((block.low_hz, block.high_hz),))


def format_ranges(ranges: tuple[Range, ...]) -> str:
    """Ranges in MHz, as `486 to 494 and 502 to 510`."""
    return join_words(f"{format_edge(low)} to {format_edge(high)}" for low, high in ranges)


def list_tuned(show: Show) -> tuple[Subject, ...]:
    """Every channel that has a frequency, and every other carrier: all are doubted where the air is not known."""
    channels = (Subject("channels", channel.id) for channel in show.channels.values() if channel.hz is not None)
    return (*channels, *(Subject("others", other.id) for other in show.others.values() if other.hz is not None))


def check_spectrum(show: Show) -> Iterator[Finding]:
    """What the show says of the air can be read: the region is in the table, and its TV channels are of its raster."""
    spectrum = show.spectrum
    region = find_region(spectrum.region) if spectrum.region else None
    known, about = list_region_names(), list_tuned(show)
    if spectrum.region and region is None:
        yield find(
            "region-unknown",
            spectrum.where["region"],
            about=about,
            region=spectrum.region,
            known=", ".join(known),
            near=nearest(spectrum.region, known),
        )
    for field, named in (("tv", spectrum.tv), ("weak tv", spectrum.weak_tv)):
        if named and not spectrum.region:
            fitting = [name for name in known if _has_all_tv(name, (*spectrum.tv, *spectrum.weak_tv))]
            near = fitting[0] if len(fitting) == 1 else ""
            yield find("region-untold", spectrum.where[field], about=about, known=", ".join(known), near=near)
            return
        for text in named:
            if region and region.find_tv(text) is None:
                yield find(
                    "tv-unknown",
                    spectrum.where[field],
                    about=about,
                    tv=text,
                    region=region.name,
                    runs=join_words(region.runs),
                )


def _has_all_tv(name: str, tv: tuple[str, ...]) -> bool:
    region = find_region(name)
    return region is not None and all(region.find_tv(one) for one in tv)


CHECKS = (check_spectrum,)
