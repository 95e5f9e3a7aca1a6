"""What is in the air at the venue besides us: television, ranges kept clear, regional limits, and what a sweep shows."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from paperwork.coordinate.regions import Region, block_closed, find_region
from paperwork.model import Measured, Show
from paperwork.radio.bands import BlockedRange, Range, TvChannel, block_tv, subtract_ranges
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz
from paperwork.radio.sweep import Bin, Sweep, make_bins

SWEEP_LIMIT_CDBM = -8_500
"""The highest level that counts as free, unless the house states its own. Common practice, no source; 47 CFR 74.802(b)
takes a television signal under -84 dBm over its channel for none, indoors."""

KEEP_CLEAR, TV, CROWDED, CLOSED, SWEEP = "keep-clear", "tv", "crowded", "closed", "sweep"

CAUSE_WORDS = {
    KEEP_CLEAR: "in a range kept clear",
    TV: "in a TV channel in use",
    CROWDED: "in a TV channel that land mobile radio uses there",
    CLOSED: "in a range that the region keeps for others",
    SWEEP: "too loud in the sweep",
    "spacing": "too near another carrier",
    "third2": "hit by or making 2a-b",
    "third3": "hit by or making a+b-c",
    "fifth2": "hit by or making 3a-2b",
    "fifth3": "hit by or making a three-signal product of fifth order",
}
"""What takes a frequency away, in the order in which it is counted."""


@dataclass(frozen=True, slots=True)
class Air:
    """The air at the venue. `blocks` in the order in which one hides another; `weak` is second choice, not blocked.

    `sweep` is None where no sweep was read. `own_on`: our own transmitters may be in it, so it says nothing about the
    spectrum under our own carriers.
    """

    region: Region | None = None
    blocks: tuple[BlockedRange, ...] = ()
    weak: tuple[TvChannel, ...] = ()
    sweep: Sweep | None = None
    limit_cdbm: int = SWEEP_LIMIT_CDBM
    own_on: bool = False


def gather_air(show: Show, ours: Sequence[Carrier] = ()) -> Air:
    """The air of a show. `ours` are our carriers with a frequency, which a sweep may hold."""
    spectrum = show.spectrum
    region = find_region(spectrum.region) if spectrum.region else None
    blocks = [BlockedRange(span.low_hz, span.high_hz, KEEP_CLEAR) for span in spectrum.keep_clear]
    weak: tuple[TvChannel, ...] = ()
    if region is not None:
        blocks += (block_tv(channel) for channel in find_tv(region, spectrum.tv))
        crowded = region.crowded_at(show.production.venue)
        blocks += (BlockedRange(one.low_hz, one.high_hz, CROWDED, one.name) for one in crowded)
        blocks += block_closed(region)
        weak = find_tv(region, spectrum.weak_tv)
    sweep = gather_sweep(show)
    limit_cdbm = SWEEP_LIMIT_CDBM if spectrum.sweep_limit_cdbm is None else spectrum.sweep_limit_cdbm
    own_on = spectrum.own_on is not False
    if sweep is not None:
        loud = sweep.louder_than(limit_cdbm)
        own = _list_own(sweep, ours) if own_on else ()
        blocks += (BlockedRange(low, high, SWEEP) for low, high in subtract_ranges(loud, own))
    return Air(region, tuple(blocks), weak, sweep, limit_cdbm, own_on)


def find_tv(region: Region, named: Sequence[str]) -> tuple[TvChannel, ...]:
    """The television channels that some texts name; those that name none are left out."""
    return tuple(channel for text in named if (channel := region.find_tv(text)) is not None)


def gather_sweep(show: Show) -> Sweep | None:
    """All sweeps of a show as one, at its highest; None where nothing was measured."""
    return _make_sweep(show.spectrum.measured)


@lru_cache(maxsize=2)
def _make_sweep(measured: tuple[Measured, ...]) -> Sweep | None:
    """Several checks ask for the same sweep. Points of one file become bins by themselves: two files have two steps."""
    bins: list[Bin] = []
    for levels in measured:
        bins += (Bin(low, high, level) for low, high, level in levels if low < high)
        bins += make_bins((low, level) for low, high, level in levels if low == high)
    return Sweep(bins) if bins else None


def _list_own(sweep: Sweep, ours: Sequence[Carrier]) -> tuple[Range, ...]:
    """Where a sweep would show our own carriers: their bandwidth, and the bins that they reach into."""
    widest_hz = max(one.high_hz - one.low_hz for one in sweep.bins)
    edges = (carrier_edges_hz(carrier) for carrier in ours)
    return tuple((low - widest_hz, high + widest_hz) for low, high in edges)
