"""The spectrum, window by window: television, what the sweep measured, our carriers and spares; then what each has to
spare. Read at arm's length."""

from itertools import pairwise

from paperwork.coordinate import OnAir, gather_on_air, window_of
from paperwork.coordinate.air import CLOSED, CROWDED, KEEP_CLEAR, REFUSED, TV, Air
from paperwork.coordinate.carriers import BANDWIDTH_HZ
from paperwork.coordinate.survey import list_windows
from paperwork.coordinate.swept import SWEEP_LIMIT_CDBM
from paperwork.document import Band, BandKind, Block, Mark, Note, Sheet, SpectrumWindow
from paperwork.document.styles import SMALL_PRINT
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.radio.bands import Range, block_ranges, intersect_ranges, merge_ranges, width_hz
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz
from paperwork.radio.sweep import to_level
from paperwork.sheets.frame import frame_sheet, phrase
from paperwork.sheets.margins import list_margin_tables
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_edge, format_khz, format_level
from paperwork.text.words import decimal

NAME = "spectrum"

WIDEST_HZ = 64_000_000
"""A wider window is divided, so that carriers 600 kHz apart stay apart on A4."""

GAP_HZ = 16_000_000
ROUND_HZ = 1_000_000

STEP_HZ, MOST_STEPS = 50_000, 480
"""Steps of the profile: finer than a column of it is in the widest window."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs a carrier, and something to show it against: a window, TV channels in use, or a sweep."""
    on_air = gather_on_air(show)
    air = on_air.air
    if not on_air.carriers or not (list_windows(show) or air.blocks or air.weak or air.sweep):
        return ()
    windows = _choose_windows(on_air)
    legend = phrase(show, "spectrum legend")
    if any(map(on_air.is_backup, on_air.subjects)):
        legend = f"{legend} {phrase(show, 'spectrum legend backup')}"
    lines = [legend, *_describe_sweep(on_air)]
    zones = [*(one.zone for one in show.channels.values()), *(one.zone for one in show.others.values())]
    if any(zones):
        lines.append(phrase(show, "spectrum zones"))
    outside = _list_outside(air, [window for _, window in windows])
    if outside:
        lines.append(phrase(show, "spectrum outside", channels=", ".join(outside)))
    swept = "" if air.sweep is None else "on" if air.own_on else "off"
    floors = tuple(f"{floor} {name}" for floor, names in _list_floors(on_air).items() for name in names)
    note = Note(" ".join(lines), SMALL_PRINT, facts=(swept, *outside, str(_bandwidth_of(on_air)), *floors))
    drawn = (_draw(on_air, owners, window) for owners, window in windows)
    blocks: tuple[Block, ...] = (note, *drawn, *list_margin_tables(on_air))
    return (frame_sheet(show, NAME, "spectrum", blocks, order="spectrum order", cautions=("licence caution",)),)


def _describe_sweep(on_air: OnAir) -> list[str]:
    """What the profile is, the noise floor of each sweep, and whether our own transmitters were on."""
    show, sweep = on_air.show, on_air.air.sweep
    if sweep is None:
        return [phrase(show, "spectrum unswept")]
    width = format_khz(_bandwidth_of(on_air))
    lines = [phrase(show, "spectrum swept", width=width)]
    for floor, files in _list_floors(on_air).items():
        key = "spectrum floor" if floor else "spectrum no floor"
        shown = decimal(floor, show.production.language)
        lines.append(phrase(show, key, names=", ".join(files), width=width, floor=shown))
    lines.append(phrase(show, "spectrum own on" if on_air.air.own_on else "spectrum own off"))
    return lines


def _list_floors(on_air: OnAir) -> dict[str, list[str]]:
    """The noise floors as printed, "" where one is not known, each with the sweeps that have it."""
    floors: dict[str, list[str]] = {}
    files = on_air.air.sweep.files if on_air.air.sweep else ()
    for name, one in zip(on_air.show.spectrum.sweeps, files, strict=False):
        if one.segments:
            level = format_level(to_level(one.floor * _bandwidth_of(on_air))) if one.floor else ""
            floors.setdefault(level.replace("-", "\u2212"), []).append(name)
    return floors


def _bandwidth_of(on_air: OnAir) -> int:
    """The bandwidth that the profile is drawn for: that of our narrowest channel, where a signal is strongest."""
    ours = [one.bandwidth_hz for one in on_air.carriers if on_air.is_channel(one.id) and one.bandwidth_hz]
    return min(ours, default=BANDWIDTH_HZ)


def _profile(on_air: OnAir, window: Range) -> tuple[tuple[int, int, int], ...]:
    """What a carrier would get in its bandwidth, step by step through a window; nothing where nothing was swept."""
    sweep = on_air.air.sweep
    if sweep is None:
        return ()
    half_hz = -(-_bandwidth_of(on_air) // 2)
    step = max(STEP_HZ, (window[1] - window[0]) // MOST_STEPS)
    levels = []
    for low in range(window[0], window[1], step):
        high = min(low + step, window[1])
        middle = (low + high) // 2
        level = sweep.held.level(middle - half_hz, middle + half_hz)
        if level is not None and not sweep.missing(middle, middle + 1):
            levels.append((low, high, level))
    return tuple(levels)


def _choose_windows(on_air: OnAir) -> list[tuple[tuple[str, ...], Range]]:
    """The windows of the show from the lowest up, then what its carriers take outside them; wide ones divided."""
    owners: dict[Range, list[str]] = {}
    for rack, window in rack_windows(on_air.show):
        owners.setdefault(window, []).append(rack)
    covered = merge_ranges(owners)
    outside = [one for one in on_air.carriers if not any(low <= one.hz <= high for low, high in covered)]
    chosen = [*owners.items(), *((window, []) for window in _spans(outside))]
    return [(tuple(racks), piece) for window, racks in sorted(chosen) for piece in _divide(window)]


def _list_outside(air: Air, windows: list[Range]) -> tuple[str, ...]:
    """The TV channels in use that no window shows: what is taken there is listed and not drawn."""
    taken = (block for block in air.blocks if block.cause == TV)
    return tuple(
        block.name
        for block in sorted(taken, key=lambda block: block.low_hz)
        if not any(block.low_hz < high and block.high_hz > low for low, high in windows)
    )


def rack_windows(show: Show) -> list[tuple[str, Range]]:
    """What passes to each rack, a pair for each part."""
    return [(rack.id, pair) for rack in show.racks.values() for pair in window_of(show, rack) or ()]


def _spans(carriers: list[Carrier]) -> list[Range]:
    """Whole megahertz around carriers that stand near each other."""
    found: list[Range] = []
    for low, high in sorted(map(carrier_edges_hz, carriers)):
        if found and low - found[-1][1] <= GAP_HZ:
            found[-1] = found[-1][0], max(high, found[-1][1])
        else:
            found.append((low, high))
    return [((low // ROUND_HZ - 1) * ROUND_HZ, (-(-high // ROUND_HZ) + 1) * ROUND_HZ) for low, high in found]


def _divide(window: Range) -> list[Range]:
    """The window in pieces as even as whole megahertz allow, which is what their heads say."""
    low, high = window
    count = -(-(high - low) // WIDEST_HZ)
    inner = ((low + (high - low) * part // count) // ROUND_HZ * ROUND_HZ for part in range(1, count))
    return list(pairwise((low, *inner, high)))


def _draw(on_air: OnAir, owners: tuple[str, ...], window: Range) -> SpectrumWindow:
    low, high = window
    bands = list_bands(on_air, window)
    inside = [one for one in on_air.carriers if low <= one.hz <= high]
    marks = tuple(_mark(on_air, one) for one in inside)
    free_hz = high - low - width_hz(intersect_ranges([window], block_ranges(on_air.air.blocks_for_narrowest)))
    parts = [phrase(on_air.show, "spectrum racks", racks=shorten_ids(owners), count=len(owners))] if owners else []
    parts.append(phrase(on_air.show, "spectrum free", free=format_edge(free_hz), width=format_edge(high - low)))
    levels = _profile(on_air, window)
    texts = [
        f"{low}-{high}",
        *owners,
        *(f"{band.low_hz}-{band.high_hz} {band.kind} {name}" for band, name in bands),
        f"free {free_hz} limit {_limit_in(on_air, window)}",
    ]
    texts += (f"{mark.hz} {mark.text} {mark.bandwidth_hz} {mark.spare}" for mark in marks)
    texts += (f"{start} {end} {level}" for start, end, level in levels)
    return SpectrumWindow(
        title=phrase(on_air.show, "spectrum window", low=format_edge(low), high=format_edge(high)),
        note="  ·  ".join(parts),
        low_hz=low,
        high_hz=high,
        bands=tuple(band for band, _ in bands),
        marks=marks,
        levels=levels,
        limit_cdbm=_limit_in(on_air, window),
        subjects=(*on_air.subjects_of([one.id for one in inside]), *(Subject("racks", rack) for rack in owners)),
        facts=tuple(texts),
    )


def _limit_in(on_air: OnAir, window: Range) -> int:
    """The limit in the bandwidth that the profile is drawn for."""
    sweep = on_air.air.sweep
    floor = sweep.floor_between(*window) if sweep and sweep.limit_cdb > 0 else None
    if sweep is None or floor is None:
        return sweep.level_limit_cdbm if sweep else SWEEP_LIMIT_CDBM
    return to_level(floor * _bandwidth_of(on_air)) + sweep.limit_cdb


_KEPT = {KEEP_CLEAR: "spectrum kept", REFUSED: "spectrum refused", CLOSED: "spectrum closed"}
"""What a range that is kept from us is called, by its cause."""


def list_bands(on_air: OnAir, window: Range) -> tuple[tuple[Band, str], ...]:
    """The TV channels of the raster, and what else is kept from us, as far as they reach into the window, each
    with its name or its cause."""
    air = on_air.air
    used = {block.name for block in air.blocks if block.cause in (TV, CROWDED)}
    weak = {channel.name for channel in air.weak}
    bands: list[tuple[Band, str]] = []
    for channel in air.region.channels if air.region else ():
        kind: BandKind = "taken" if channel.name in used else "weak" if channel.name in weak else "free"
        text = phrase(on_air.show, "tv", channel=channel.name)
        bands.append((Band(channel.low_hz, channel.high_hz, text, kind), channel.name))
    for block in air.blocks:
        if word := _KEPT.get(block.cause):
            bands.append((Band(block.low_hz, block.high_hz, phrase(on_air.show, word), "kept"), block.cause))
    low, high = window
    return tuple(one for one in bands if one[0].low_hz < high and one[0].high_hz > low)


def _mark(on_air: OnAir, carrier: Carrier) -> Mark:
    """A channel by its number, several of a wide carrier as a run of numbers, anything else by its name."""
    ids = [subject.id for subject in on_air.subjects[carrier.id]]
    spare = on_air.is_channel(carrier.id) and on_air.show.channels[ids[0]].spare
    text = shorten_ids(ids) if len(ids) > 1 else ids[0]
    return Mark(carrier.hz, f"({text})" if on_air.is_backup(carrier.id) else text, carrier.bandwidth_hz, spare)
