"""What is in the air besides us: television, ranges kept clear, regional limits, and what a sweep shows."""

from collections.abc import Iterable, Sequence
from functools import lru_cache

from paperwork.coordinate.grants import WIDTH_HZ, list_granted, list_refused
from paperwork.coordinate.regions import Region, block_closed, region_of
from paperwork.coordinate.swept import Swept, make_swept
from paperwork.frozen import frozen
from paperwork.model import Measured, Show
from paperwork.radio.bands import BlockedRange, Range, TvChannel, block_tv, subtract_ranges
from paperwork.radio.carrier import Carrier
from paperwork.radio.spacing import carrier_edges_hz
from paperwork.text.units import format_mhz

BANDWIDTHS = 6
"""So many groups of bandwidths are kept apart under a sweep: each takes a search. Choice of this project."""

KEEP_CLEAR, REFUSED, TV, CROWDED, CLOSED, SWEEP = "keep-clear", "refused", "tv", "crowded", "closed", "sweep"

CAUSE_WORDS = {
    KEEP_CLEAR: "in a range kept clear",
    REFUSED: "beside a frequency that the coordinator refused",
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


@frozen
class Air:
    """The air at the venue. `blocks` in the order in which one hides another; `weak` is second choice, not blocked.

    `sweep` is None where no sweep was read. `own_on`: our own transmitters may be in it, so it says nothing about the
    spectrum under our own carriers. `shown` are television channels that a sweep shows and the show does not list, with
    the level over each in hundredths of a dBm. `narrowest_hz` is the least bandwidth that was asked for.
    """

    region: Region | None = None
    blocks: tuple[BlockedRange, ...] = ()
    weak: tuple[TvChannel, ...] = ()
    sweep: Swept | None = None
    own_on: bool = False
    shown: tuple[tuple[TvChannel, int], ...] = ()
    narrowest_hz: int = 0

    @property
    def blocks_for_narrowest(self) -> tuple[BlockedRange, ...]:
        """What keeps the narrowest carriers away: what a sweep shows may be too much for a wide one alone."""
        return tuple(block for block in self.blocks if block.holds_for(self.narrowest_hz))


def gather_air(show: Show, ours: Sequence[Carrier] = (), bandwidths_hz: Sequence[int] = ()) -> Air:
    """The air of a show. `ours` are our carriers with a frequency, which a sweep may hold; `bandwidths_hz` those of all
    carriers that are asked about, the bandwidths of ours if none are given."""
    spectrum = show.spectrum
    region = region_of(spectrum)
    blocks = [BlockedRange(span.low_hz, span.high_hz, KEEP_CLEAR) for span in spectrum.keep_clear]
    blocks += _block_refused(show, spectrum.refused_hz)
    weak: tuple[TvChannel, ...] = ()
    if region is not None:
        blocks += (block_tv(channel) for channel in find_tv(region, spectrum.tv))
        crowded = region.crowded_at(show.production.venue)
        blocks += (BlockedRange(one.low_hz, one.high_hz, CROWDED, one.name) for one in crowded)
        blocks += block_closed(region)
        weak = find_tv(region, spectrum.weak_tv)
    own_on = spectrum.own_on is not False
    widths = tuple(sorted(set(bandwidths_hz) or {carrier.bandwidth_hz for carrier in ours}))
    shown: tuple[tuple[TvChannel, int], ...] = ()
    if spectrum.measured:
        own = tuple(map(carrier_edges_hz, ours)) if own_on else ()
        loud, television = _search(
            spectrum.measured, spectrum.sweep_limit_cdb, own, widths, region.channels if region else ()
        )
        shown = tuple(pair for pair in television if pair[0] not in weak and not _is_known(pair[0], blocks))
        blocks += (BlockedRange(one.low_hz, one.high_hz, SWEEP, one.name) for one, _ in shown)
        blocks += loud
    return Air(region, tuple(blocks), weak, gather_sweep(show), own_on, shown, min(widths, default=0))


def block_refused(show: Show) -> tuple[BlockedRange, ...]:
    """Everything that was refused, as blocks for a search; what was granted is not refused."""
    return _block_refused(show, list_refused(show))


def _block_refused(show: Show, refused: Iterable[int]) -> tuple[BlockedRange, ...]:
    granted = list_granted(show)
    return tuple(
        BlockedRange(low, high, REFUSED, format_mhz(hz))
        for hz in sorted(refused)
        for low, high in subtract_ranges([(hz - WIDTH_HZ // 2, hz + WIDTH_HZ // 2)], granted)
    )


def _is_known(channel: TvChannel, blocks: Sequence[BlockedRange]) -> bool:
    """Whether no carrier can be in a channel anyhow."""
    return not subtract_ranges([(channel.low_hz, channel.high_hz)], [(one.low_hz, one.high_hz) for one in blocks])


@lru_cache(maxsize=4)
def _search(
    measured: tuple[Measured, ...],
    limit_cdb: int | None,
    own: tuple[Range, ...],
    widths: tuple[int, ...],
    raster: tuple[TvChannel, ...],
) -> tuple[tuple[BlockedRange, ...], tuple[tuple[TvChannel, int], ...]]:
    """What is too loud for carriers of some bandwidths, and the television channels that are in use, without what our
    own carriers put there. The same show is asked for many papers, so it is kept."""
    whole = make_swept(measured, limit_cdb)
    if whole is None:
        return (), ()
    others = whole.without(own)
    size = -(-len(widths) // BANDWIDTHS) or 1
    groups = [widths[first : first + size] for first in range(0, len(widths), size)]
    loud = tuple(
        BlockedRange(low, high, SWEEP, bandwidths_hz=frozenset(group) if len(groups) > 1 else frozenset())
        for group in groups
        for low, high in others.list_loud(group)
    )
    return loud, others.find_television(raster) if raster else ()


def find_tv(region: Region, named: Sequence[str]) -> tuple[TvChannel, ...]:
    """The television channels that some texts name; those that name none are left out."""
    return tuple(channel for text in named if (channel := region.find_tv(text)) is not None)


def gather_sweep(show: Show) -> Swept | None:
    """All sweeps of a show; None where nothing was measured."""
    return make_swept(show.spectrum.measured, show.spectrum.sweep_limit_cdb) if show.spectrum.measured else None
