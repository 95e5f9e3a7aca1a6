"""The air: is each carrier where it may be, does the sweep agree, and is what the show says of the air to be read."""

from collections.abc import Callable, Iterator, Mapping

from paperwork.checks.air.drafts import Draft
from paperwork.coordinate import BACKUPS, OnAir, Region, find_region, list_region_names, region_of, window_of
from paperwork.coordinate.air import CLOSED, CROWDED, KEEP_CLEAR, REFUSED, SWEEP, TV, find_tv
from paperwork.coordinate.carriers import carrier_of
from paperwork.coordinate.regions import format_tv
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Rack, Show
from paperwork.place import Place
from paperwork.radio.bands import BlockedRange, Range, block_tv, blocks_on
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz, is_inside
from paperwork.text.names import join_words, nearest
from paperwork.text.units import format_edge, format_khz, format_level, format_mhz

SUSPECTED = 2
"""Carriers under television that make a region doubtful: one alone may be a slip. Choice of this project."""


def check_places(on_air: OnAir, known: frozenset[Subject]) -> Iterator[Draft]:
    """Each carrier lies in its window and clear of what is in the air. `known`: records that a plainer finding names.

    One finding for a carrier, the root first: what is outside its window has to move whatever is on the air there.
    """
    for carrier in on_air.carriers:
        if known.isdisjoint(on_air.subjects[carrier.id]):
            yield from _check_place(on_air, carrier)


def _check_place(on_air: OnAir, carrier: Carrier) -> Iterator[Draft]:
    for subject in on_air.subjects[carrier.id]:
        channel = on_air.show.channels[subject.id] if on_air.is_channel(carrier.id) else None
        outside = channel and _draft_outside(on_air, carrier, channel)
        if outside:
            yield outside
            return
    ours, theirs = (KEEP_CLEAR, REFUSED, TV, CROWDED, CLOSED, SWEEP), (REFUSED, TV, CLOSED)
    causes: tuple[str, ...] = ours if on_air.is_channel(carrier.id) else theirs
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
    section = on_air.subjects[carrier.id][0].section
    place, about = channel.where[on_air.field_of(carrier.id)], (Subject(section, channel.id),)
    others = (rack.where["window"],)
    facts = {"mhz": format_mhz(carrier.hz), "name": on_air.name_of(carrier.id, channel), "rack": rack.id}
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
    if block.cause == REFUSED:  # what was refused to the carrier itself is a finding of its own
        is_ours = any(one.refused for one in on_air.records_of(carrier.id))
        return draft("frequency-near-refused", where["refused"], refused=block.name) if not is_ours else None
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
    """What a sweep shows under a carrier. None where that is ourselves, the noise of the sweep, or not too loud for
    just this carrier."""
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
    """All channels and others that have a frequency or a backup: they are doubted where the air is not known."""
    channels = [Subject("channels", channel.id) for channel in show.channels.values() if channel.hz is not None]
    channels += (Subject(BACKUPS, channel.id) for channel in show.channels.values() if channel.backup_hz is not None)
    return (*channels, *(Subject("others", other.id) for other in show.others.values() if other.hz is not None))


def check_spectrum(show: Show) -> Iterator[Finding]:
    """What the show says of the air can be read: the region is in the table, and its TV channels are of its raster."""
    spectrum = show.spectrum
    region = region_of(spectrum)
    known, about = list_region_names(), list_tuned(show)
    if spectrum.region and find_region(spectrum.region) is None:
        yield find(
            "region-unknown",
            spectrum.where["region"],
            about=about,
            region=spectrum.region,
            known=", ".join(known),
            near=nearest(spectrum.region, known),
        )
    for field, named in (("tv", spectrum.tv), ("weak tv", spectrum.weak_tv)):
        if named and not spectrum.region and not spectrum.raster:
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
                    elsewhere=_word_elsewhere(show, known),
                )


def _word_elsewhere(show: Show, known: tuple[str, ...]) -> str:
    """Where all TV channels that a show names are channels, as the end of a sentence."""
    fitting = [name for name in known if _has_all_tv(name, (*show.spectrum.tv, *show.spectrum.weak_tv))]
    return f"; all that are named are channels in {join_words(fitting)}: is region right?" if fitting else ""


def check_raster(show: Show) -> Iterator[Finding]:
    """A plan that avoids the TV channels of another region, and not those of its own, was made for the other."""
    spectrum = show.spectrum
    if spectrum.raster or not find_region(spectrum.region) or not spectrum.tv:
        return
    ours = {one.id: carrier_of(show, one, one.hz) for one in show.channels.values() if one.hz is not None}
    struck = _list_struck(ours, spectrum.region, spectrum.tv)
    if len(struck) < SUSPECTED:
        return
    others = [name for name in list_region_names() if _has_all_tv(name, spectrum.tv)]
    clean = [name for name in others if not _list_struck(ours, name, spectrum.tv)]
    if clean:
        yield find(
            "region-suspected",
            spectrum.where["region"],
            about=tuple(Subject("channels", id) for id in struck),
            others=(spectrum.where["tv"],),
            count=len(struck),
            region=spectrum.region,
            rasters=join_words(clean),
        )


def _list_struck(carriers: Mapping[str, Carrier], name: str, tv: tuple[str, ...]) -> list[str]:
    """The channels that are in TV channels of these numbers, as a region counts them."""
    region = find_region(name)
    blocks = [block_tv(channel) for channel in find_tv(region, tv)] if region else []
    return [id for id, one in carriers.items() if blocks_on(blocks, one.hz, one.bandwidth_hz)]


def _has_all_tv(name: str, tv: tuple[str, ...]) -> bool:
    region = find_region(name)
    return region is not None and all(region.find_tv(one) for one in tv)


CHECKS = (check_spectrum, check_raster)
