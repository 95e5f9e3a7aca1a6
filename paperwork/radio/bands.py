"""Ranges of spectrum: half-open [low, high) in Hz, and what blocks them.

A carrier may touch a block but not overlap it, and may touch the edges of the range it must stay in.
"""

from collections.abc import Iterable

from paperwork.frozen import frozen

Range = tuple[int, int]


@frozen
class BlockedRange:
    """A range that no carrier's bandwidth may overlap. `cause` is the reason it is counted under, such as "tv",
    "keep-clear" or "sweep"; `name` says which one. `bandwidths_hz`: of which carriers it is true; empty: of all."""

    low_hz: int
    high_hz: int
    cause: str
    name: str = ""
    bandwidths_hz: frozenset[int] = frozenset()

    def holds_for(self, bandwidth_hz: int) -> bool:
        """Whether it keeps carriers of a bandwidth away."""
        return not self.bandwidths_hz or bandwidth_hz in self.bandwidths_hz


def check_range(low_hz: int, high_hz: int) -> Range:
    """The pair itself. ValueError when it is empty or runs backwards."""
    if high_hz <= low_hz:
        raise ValueError(f"range runs backwards or is empty: {low_hz} to {high_hz} Hz")
    return low_hz, high_hz


def merge_ranges(ranges: Iterable[Range]) -> tuple[Range, ...]:
    """The same spectrum as ranges that neither overlap nor touch, from the lowest up."""
    merged: list[Range] = []
    for low, high in sorted(ranges):
        if high <= low:
            check_range(low, high)
        if merged and low <= merged[-1][1]:
            merged[-1] = merged[-1][0], max(high, merged[-1][1])
        else:
            merged.append((low, high))
    return tuple(merged)


def subtract_ranges(ranges: Iterable[Range], taken: Iterable[Range]) -> tuple[Range, ...]:
    """What is left of the ranges outside the taken ones."""
    left = []
    away = merge_ranges(taken)
    for low, high in merge_ranges(ranges):
        for start, end in away:
            if end <= low or high <= start:
                continue
            if low < start:
                left.append((low, start))
            low = end
            if low >= high:
                break
        if low < high:
            left.append((low, high))
    return tuple(left)


def intersect_ranges(one: Iterable[Range], two: Iterable[Range]) -> tuple[Range, ...]:
    """The spectrum that lies in both."""
    other = merge_ranges(two)
    return tuple(
        (max(low, start), min(high, end))
        for low, high in merge_ranges(one)
        for start, end in other
        if max(low, start) < min(high, end)
    )


def width_hz(ranges: Iterable[Range]) -> int:
    """The spectrum in the ranges, overlaps counted once."""
    return sum(high - low for low, high in merge_ranges(ranges))


def block_ranges(blocks: Iterable[BlockedRange], cause: str | None = None) -> tuple[Range, ...]:
    """The merged ranges of all blocks, or of those with one cause."""
    return merge_ranges((block.low_hz, block.high_hz) for block in blocks if cause in (None, block.cause))


def blocks_on(blocks: Iterable[BlockedRange], hz: int, bandwidth_hz: int) -> tuple[BlockedRange, ...]:
    """The blocks that a carrier at `hz` overlaps."""
    return tuple(
        block
        for block in blocks
        if block.holds_for(bandwidth_hz)
        and 2 * hz - bandwidth_hz < 2 * block.high_hz
        and 2 * hz + bandwidth_hz > 2 * block.low_hz
    )


@frozen
class RasterRun:
    """A run of television channels of one width: numbers `first` to `last`, the lower edge of `first` at
    `low_hz`. `prefix` and `suffix` surround the number in the channel's name ("E5", "9A")."""

    first: int
    last: int
    low_hz: int
    channel_width_hz: int
    prefix: str = ""
    suffix: str = ""


@frozen
class TvChannel:
    """One television channel of a raster."""

    name: str
    low_hz: int
    high_hz: int


def list_tv_channels(segments: Iterable[RasterRun]) -> tuple[TvChannel, ...]:
    """All channels of a raster, from the lowest up. Channels of a real raster may overlap."""
    channels = [
        TvChannel(
            f"{part.prefix}{number}{part.suffix}",
            part.low_hz + (number - part.first) * part.channel_width_hz,
            part.low_hz + (number - part.first + 1) * part.channel_width_hz,
        )
        for part in segments
        for number in range(part.first, part.last + 1)
    ]
    return tuple(sorted(channels, key=lambda channel: (channel.low_hz, channel.high_hz)))


def find_tv_channel(channels: Iterable[TvChannel], name: str) -> TvChannel | None:
    """The channel of that name, upper or lower case; None when the raster has none."""
    return next((channel for channel in channels if channel.name.casefold() == name.strip().casefold()), None)


def block_tv(channel: TvChannel) -> BlockedRange:
    """The block of a channel in use."""
    return BlockedRange(channel.low_hz, channel.high_hz, "tv", channel.name)
