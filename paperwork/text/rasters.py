"""Television rasters as a show states them: the channels of a place, and the edges of them all."""

import re
import unicodedata

from paperwork.frozen import frozen
from paperwork.text.units import Doubt, format_edge, parse_range

_RASTER = r"(?P<first>[0-9]{1,3})\s*[-\u2013]\s*(?P<last>[0-9]{1,3})\s+(?:at|=)\s+(?P<edges>.+)"


@frozen
class TvRaster:
    """A run of television channels of one width, by number, and the edges of them all in whole hertz."""

    first: int
    last: int
    low_hz: int
    high_hz: int

    @property
    def width_hz(self) -> int:
        """How wide each channel is."""
        return (self.high_hz - self.low_hz) // (self.last - self.first + 1)

    def __str__(self) -> str:
        return f"{self.first}-{self.last} at {format_edge(self.low_hz)}-{format_edge(self.high_hz)}"


def parse_raster(text: str) -> TvRaster:
    """Channels and their edges in MHz, `21-48 at 470-694`: the width of a channel follows. Raises Doubt where it is no
    whole number of kilohertz."""
    match = re.fullmatch(_RASTER, unicodedata.normalize("NFKC", text).strip())
    if not match:
        raise Doubt(f"{text} is not channels and their edges, as in 21-48 at 470-694")
    first, last, (low_hz, high_hz) = int(match["first"]), int(match["last"]), parse_range(match["edges"])
    if last < first:
        raise Doubt(f"{text} runs backwards")
    if (high_hz - low_hz) % (1000 * (last - first + 1)):
        raise Doubt(
            f"{text}: {last - first + 1} channels of one width do not fill it; state the edges of just those channels"
        )
    return TvRaster(first, last, low_hz, high_hz)
