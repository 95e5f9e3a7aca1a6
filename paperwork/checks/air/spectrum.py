"""The air: is each carrier where it may be, does the sweep agree, and is what the show says of the air to be read."""

from collections.abc import Iterator

from paperwork.checks.air.drafts import Draft
from paperwork.coordinate import OnAir, Region, find_region, list_region_names, window_of
from paperwork.coordinate.air import CLOSED, CROWDED, KEEP_CLEAR, SWEEP, TV, gather_sweep
from paperwork.coordinate.carriers import carrier_of
from paperwork.coordinate.regions import format_tv
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Rack, Show
from paperwork.place import Place
from paperwork.radio.bands import BlockedRange, Range, blocks_on, merge_ranges
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz, is_inside
from paperwork.radio.sweep import Sweep
from paperwork.text.names import fold, join_words, nearest
from paperwork.text.units import format_edge, format_level, format_mhz


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
        if cause in found and not (cause == SWEEP and on_air.air.own_on):
            yield _draft_block(on_air, carrier, found[cause])
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
    words = f"{_range_words(window)} MHz"
    return words if rack.window is not None and window == (tuple(rack.window),) else f"{words} along its antenna"


def _draft_block(on_air: OnAir, carrier: Carrier, block: BlockedRange) -> Draft:
    air, region, show = on_air.air, on_air.air.region, on_air.show
    where = show.spectrum.where

    def draft(code: str, other: Place, **facts: str) -> Draft:
        facts |= {"mhz": format_mhz(carrier.hz), "name": carrier.id}
        return Draft(carrier.id, code, on_air.places[carrier.id], on_air.subjects[carrier.id], (other,), facts)

    if block.cause == KEEP_CLEAR:
        return draft("keep-clear-touched", where["keep clear"], range=_block_words(block))
    if block.cause == TV and region:
        return draft("tv-in-use", where["tv"], tv=_name_tv(region, block.name))
    if block.cause == CROWDED and region and region.crowd:
        city = next((city for city in region.crowd.cities if fold(city) in fold(show.production.venue)), "")
        tv, source = _name_tv(region, block.name), region.crowd.source
        return draft("tv-crowded", show.production.where["venue"], tv=tv, city=city, source=source)
    if block.cause == CLOSED and region:
        closed = next(one for one in region.closed if one.low_hz == block.low_hz)
        facts = {"why": closed.why, "region": region.name, "dated": closed.dated, "caution": region.caution}
        return draft("region-closed", where["region"], range=_block_words(block), **facts)
    level = air.sweep.level_under(carrier.hz, carrier.bandwidth_hz) if air.sweep else None
    return draft("sweep-loud", where["sweeps"], level=format_level(level or 0), limit=format_level(air.limit_cdbm))


def _name_tv(region: Region, name: str) -> str:
    channel = region.find_tv(name)
    return format_tv(channel) if channel else name


def _block_words(block: BlockedRange) -> str:
    return _range_words(((block.low_hz, block.high_hz),))


def _range_words(ranges: tuple[Range, ...]) -> str:
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


def check_sweeps(show: Show) -> Iterator[Finding]:
    """The sweeps cover every window in use, and say whether our own transmitters were in them."""
    spectrum = show.spectrum
    if not spectrum.sweeps:
        return
    if spectrum.own_on is None:
        yield find("sweep-own-untold", spectrum.where["sweeps"])
    sweep = gather_sweep(show)
    if sweep is None:
        return
    windows: dict[tuple[Range, ...], list[Rack]] = {}
    for rack in show.racks.values():
        window = window_of(show, rack)
        if window and any(channel.slot and channel.slot.rack == rack.id for channel in show.channels.values()):
            windows.setdefault(window, []).append(rack)
    for window, racks in windows.items():
        missing = tuple(gap for low, high in window for gap in sweep.missing(low, high))
        if missing:
            names = join_words(rack.id for rack in racks)
            what = f"the window of rack {names}" if len(racks) == 1 else f"the window of racks {names}"
            yield find(
                "sweep-short",
                racks[0].where["window"],
                about=tuple(Subject("racks", rack.id) for rack in racks),
                others=(spectrum.where["sweeps"],),
                missing=_range_words(missing),
                what=what,
            )
    yield from _check_loose(show, sweep, windows)


def _check_loose(show: Show, sweep: Sweep, windows: dict[tuple[Range, ...], list[Rack]]) -> Iterator[Finding]:
    """One finding for all channels outside every window that was looked at."""
    covered = merge_ranges(pair for window in windows for pair in window)
    missed: list[tuple[Channel, Range]] = []
    for channel in show.channels.values():
        if channel.hz is None:
            continue
        carrier = carrier_of(show, channel, channel.hz)
        low, high = carrier_edges_hz(carrier)
        if not any(start <= low and high <= end for start, end in covered) and sweep.missing(low, high):
            missed.append((channel, (low, high)))
    if missed:
        first = missed[0][0]
        names = join_words(channel.id for channel, _ in missed)
        yield find(
            "sweep-short",
            first.where["mhz"],
            about=tuple(Subject("channels", channel.id) for channel, _ in missed),
            others=(show.spectrum.where["sweeps"], *(channel.where["mhz"] for channel, _ in missed[1:])),
            missing=_range_words(merge_ranges(edges for _, edges in missed)),
            what=f"channel{'s' if len(missed) > 1 else ''} {names}",
        )


CHECKS = (check_spectrum, check_sweeps)
