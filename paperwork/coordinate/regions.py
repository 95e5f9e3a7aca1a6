"""Whose television raster counts, and what a region keeps for others: dated data, never a permission."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from paperwork.frozen import frozen
from paperwork.model import Spectrum
from paperwork.radio.bands import BlockedRange, RasterRun, TvChannel, find_tv_channel, list_tv_channels
from paperwork.radio.region_rows import REGIONS
from paperwork.text.names import fold
from paperwork.text.units import MHZ, Doubt, parse_frequency

OWN_CAUTION = "no limit is known to us: check locally"

CENTRE_SLACK_HZ = 1_000
"""Lists of transmitters print sixths and sevenths of a megahertz cut or rounded to a kilohertz."""


@frozen
class Closed:
    """A range that a source keeps for others: `why` ends the sentence "the range ..."."""

    low_hz: int
    high_hz: int
    why: str
    dated: str
    source: str


@frozen
class PowerLimit:
    """The most transmit power in a range, in milliwatts, by a source: `what` ends the sentence "the most is 10 mW
    ..."; with `unlicensed`, where there is no licence."""

    low_hz: int
    high_hz: int
    mw: int
    what: str
    dated: str
    source: str
    unlicensed: bool = False


@frozen
class Crowd:
    """Television channels that others use around some cities, as far as `within_km`."""

    by: str
    within_km: int
    source: str
    cities: Mapping[str, tuple[str, ...]]

    @property
    def advice(self) -> str:
        """What to do where a venue names none of the cities."""
        *cities, last = self.cities
        return f"if {', '.join(cities)} or {last} is within {self.within_km} km, add its name to venue"


@frozen
class Region:
    """One region. `runs` names its channels (`21 to 69`); `offsets_hz` holds, by channel, how far from the middle its
    transmitters may stand."""

    name: str
    channels: tuple[TvChannel, ...]
    runs: tuple[str, ...]
    offsets_hz: Mapping[str, tuple[int, ...]]
    closed: tuple[Closed, ...]
    crowd: Crowd | None
    caution: str
    power: tuple[PowerLimit, ...] = ()

    def find_tv(self, text: str) -> TvChannel | None:
        """The channel of a number (`24`, `E5`, `9A`), or of a centre in MHz with any offset in use (`529.833`)."""
        named = find_tv_channel(self.channels, text)
        if named is not None or len(text) < 3:  # no raster counts to 100, and no centre is below it
            return named
        try:
            hz = parse_frequency(text)
        except Doubt:
            return None
        return self.find_tv_at(hz)

    def find_tv_at(self, centre_hz: int) -> TvChannel | None:
        """The channel whose transmitter is on a frequency; None where no offset in use leads there."""
        for channel in self.channels:
            middle_hz = (channel.low_hz + channel.high_hz) // 2
            if any(abs(centre_hz - middle_hz - offset) <= CENTRE_SLACK_HZ for offset in self.offsets_hz[channel.name]):
                return channel
        return None

    def tv_under(self, hz: int) -> TvChannel | None:
        """The channel that holds a frequency; of two that meet there, the upper."""
        return next((channel for channel in reversed(self.channels) if channel.low_hz <= hz < channel.high_hz), None)

    def cities_at(self, venue: str) -> tuple[str, ...]:
        """The cities around which others use channels that the venue's name holds."""
        said = f" {fold(venue)} ".replace(",", " ")
        return tuple(city for city in (self.crowd.cities if self.crowd else ()) if f" {fold(city)} " in said)

    def crowded_at(self, venue: str) -> tuple[TvChannel, ...]:
        """The channels that others use around the city that the venue's name holds."""
        names = {name for city in self.cities_at(venue) for name in (self.crowd.cities[city] if self.crowd else ())}
        return tuple(channel for channel in self.channels if channel.name in names)

    def is_shared(self, hz: int) -> bool:
        """Whether a frequency is in a channel that others use around some city."""
        shared = {name for names in (self.crowd.cities.values() if self.crowd else ()) for name in names}
        channel = self.tv_under(hz)
        return channel is not None and channel.name in shared


def list_region_names() -> tuple[str, ...]:
    """The names of all regions, in the order of the table."""
    return tuple(row["name"] for row in REGIONS)


@cache
def find_region(name: str) -> Region | None:
    """The region of a name or of one of its other names, in any case; None where the table has none."""
    for row in REGIONS:
        if fold(name) in map(fold, (row["name"], *row["also"])):
            base = next((other for other in REGIONS if other["name"] == row.get("like")), {})
            return _make_region({**base, **row})
    return None


def region_of(spectrum: Spectrum) -> Region | None:
    """The region of a show: that of the table, with the show's own raster in place of its channels where it gives one;
    None where it gives neither, or a name that the table does not have."""
    named = find_region(spectrum.region) if spectrum.region else None
    if not spectrum.raster or (spectrum.region and named is None):
        return named
    runs = [RasterRun(one.first, one.last, one.low_hz, one.width_hz) for one in spectrum.raster]
    channels = list_tv_channels(runs)
    base = named or Region("this place", (), (), {}, (), None, OWN_CAUTION)
    return replace(
        base,
        channels=channels,
        runs=tuple(map(_name_run, runs)),
        offsets_hz={channel.name: (0,) for channel in channels},
        crowd=None,
    )


def block_closed(region: Region) -> tuple[BlockedRange, ...]:
    """The ranges that a region keeps for others, as blocks."""
    return tuple(BlockedRange(one.low_hz, one.high_hz, "closed", one.why) for one in region.closed)


def _make_region(row: Mapping[str, Any]) -> Region:
    segments = [
        (
            RasterRun(
                run["first"], run["last"], run["low_hz"], run["width_hz"], run.get("prefix", ""), run.get("suffix", "")
            ),
            run["offsets_hz"],
        )
        for run in row["raster"]
    ]
    channels = list_tv_channels(segment for segment, _ in segments)
    offsets = {channel.name: offsets for segment, offsets in segments for channel in list_tv_channels([segment])}
    crowd = row.get("crowded")
    return Region(
        name=row["name"],
        channels=channels,
        runs=tuple(_name_run(segment) for segment, _ in segments),
        offsets_hz=offsets,
        closed=tuple(Closed(**one) for one in row.get("closed", ())),
        crowd=Crowd(**crowd) if crowd else None,
        caution=row["caution"],
        power=tuple(PowerLimit(**one) for one in row.get("power", ())),
    )


def _name_run(run: RasterRun) -> str:
    first, last = (f"{run.prefix}{number}{run.suffix}" for number in (run.first, run.last))
    return first if first == last else f"{first} to {last}"


def format_tv(channel: TvChannel) -> str:
    """A channel with its edges: `24 (494 to 502 MHz)`."""
    return f"{channel.name} ({channel.low_hz // MHZ} to {channel.high_hz // MHZ} MHz)"
