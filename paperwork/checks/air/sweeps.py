"""The sweeps: do they cover what is in use, can they show what is free there, and do they show television unlisted?"""

from collections.abc import Iterator

from paperwork.checks.air.spectrum import format_ranges
from paperwork.coordinate import OnAir, gather_on_air, window_of
from paperwork.coordinate.carriers import carrier_of
from paperwork.coordinate.regions import format_tv
from paperwork.coordinate.swept import Swept
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Rack, Show
from paperwork.radio.bands import Range, merge_ranges
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz
from paperwork.radio.sweep import to_level, to_power
from paperwork.text.names import join_words
from paperwork.text.units import format_khz, format_level


def check_sweeps(show: Show) -> Iterator[Finding]:
    """The sweeps say if our own transmitters were on, cover every window in use, and can show what is free."""
    spectrum = show.spectrum
    if not spectrum.sweeps:
        return
    if spectrum.own_on is None:
        yield find("sweep-own-untold", spectrum.where["sweeps"])
    on_air = gather_on_air(show)
    sweep = on_air.air.sweep
    if sweep is None:
        return
    yield from _check_television(on_air)
    ours = [one for one in on_air.carriers if on_air.is_channel(one.id)]
    if ours:
        yield from _check_noise(on_air, sweep, ours)
        yield from _check_width(show, sweep, min(one.bandwidth_hz for one in ours))
    windows: dict[tuple[Range, ...], list[Rack]] = {}
    for rack in show.racks.values():
        window = window_of(show, rack)
        if window and any(channel.slot and channel.slot.rack == rack.id for channel in show.channels.values()):
            windows.setdefault(window, []).append(rack)
    yield from _check_windows(show, sweep, windows)
    yield from _check_loose(show, sweep, windows)


def _check_television(on_air: OnAir) -> Iterator[Finding]:
    """Television that the sweeps show is in the list, since then nobody is put there."""
    spectrum, shown = on_air.show.spectrum, on_air.air.shown
    if shown:
        yield find(
            "tv-unlisted",
            spectrum.where["sweeps"],
            seen=join_words(f"{format_tv(channel)} with {format_level(level)} dBm" for channel, level in shown),
            which=f"channel{'s' if len(shown) > 1 else ''}",
            tv=", ".join((*spectrum.tv, *(channel.name for channel, _ in shown))),
        )


def _check_noise(on_air: OnAir, sweep: Swept, ours: list[Carrier]) -> Iterator[Finding]:
    """The noise of a sweep is below the limit. One finding for all: a carrier does not stand out from it."""
    width = min(one.bandwidth_hz for one in ours)
    limit = to_power(sweep.level_limit_cdbm)
    names = on_air.show.spectrum.sweeps
    noisy = [
        (one.floor * width, name)
        for one, name in zip(sweep.files, names, strict=False)
        if one.floor and sweep.limit_cdb <= 0 and one.floor * width >= limit
    ]
    if noisy:
        floor, name = max(noisy)
        heard = [(one, sweep.hear(*carrier_edges_hz(one))) for one in ours]
        drowned = [one.id for one, under in heard if under and under.is_drowned]
        yield find(
            "sweep-noisy",
            on_air.show.spectrum.where["sweeps"],
            about=on_air.subjects_of(drowned),
            name=name,
            floor=format_level(to_level(floor)),
            width=format_khz(width),
            limit=format_level(sweep.level_limit_cdbm),
            margin="10 dB",
        )


def _check_width(show: Show, sweep: Swept, bandwidth_hz: int) -> Iterator[Finding]:
    """The bins of a sweep are no wider than a carrier."""
    pairs = zip(sweep.files, show.spectrum.sweeps, strict=False)
    coarse = [(one.usual_hz, name) for one, name in pairs if one.usual_hz > bandwidth_hz]
    if coarse:
        yield find(
            "sweep-coarse",
            show.spectrum.where["sweeps"],
            names=join_words(name for _, name in coarse),
            widest=format_khz(max(coarse)[0]),
            width=format_khz(bandwidth_hz),
        )


def _check_windows(show: Show, sweep: Swept, windows: dict[tuple[Range, ...], list[Rack]]) -> Iterator[Finding]:
    """One finding for each window in use of which a part was not swept."""
    for window, racks in windows.items():
        missing = tuple(gap for low, high in window for gap in sweep.missing(low, high))
        if missing:
            names = join_words(rack.id for rack in racks)
            what = f"the window of rack {names}" if len(racks) == 1 else f"the window of racks {names}"
            yield find(
                "sweep-short",
                racks[0].where["window"],
                about=tuple(Subject("racks", rack.id) for rack in racks),
                others=(show.spectrum.where["sweeps"],),
                missing=format_ranges(missing),
                what=what,
            )


def _check_loose(show: Show, sweep: Swept, windows: dict[tuple[Range, ...], list[Rack]]) -> Iterator[Finding]:
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
            missing=format_ranges(merge_ranges(edges for _, edges in missed)),
            what=f"channel{'s' if len(missed) > 1 else ''} {names}",
        )


CHECKS = (check_sweeps,)
