"""Television channels as a second witness of a frequency."""

from collections.abc import Sequence
from typing import NamedTuple

from paperwork.text.units import MHZ


class Raster(NamedTuple):
    """A television raster: its lowest channel, where that begins, and how wide each channel is."""

    first: int
    low_hz: int
    width_hz: int


RASTERS = (
    Raster(21, 470 * MHZ, 8 * MHZ),  # ITU GE06 agreement: channel 21 is 470 to 478 MHz, 8 MHz each
    Raster(14, 470 * MHZ, 6 * MHZ),  # 47 CFR 73.603: channel 14 is 470 to 476 MHz, 6 MHz each
    Raster(28, 526 * MHZ, 7 * MHZ),  # from memory: channel 28 is 526 to 533 MHz in the 7 MHz raster of Australia
)


def edges_of(channel: int, raster: Raster) -> tuple[int, int]:
    """The edges of a channel in hertz."""
    low = raster.low_hz + (channel - raster.first) * raster.width_hz
    return low, low + raster.width_hz


def find_raster(pairs: Sequence[tuple[int, int]]) -> Raster | None:
    """The raster with which most pairs of channel and frequency agree; None if none agrees with any."""

    def agree(raster: Raster) -> int:
        return sum(edges_of(tv, raster)[0] <= hz < edges_of(tv, raster)[1] for tv, hz in pairs)

    best = max(RASTERS, key=agree)
    return best if pairs and agree(best) else None
