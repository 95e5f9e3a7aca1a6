"""What sweeps show: the power in a carrier's bandwidth, what of it is noise, and television that nobody listed."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from paperwork.frozen import frozen
from paperwork.model import Measured
from paperwork.radio.bands import Range, TvChannel, merge_ranges
from paperwork.radio.sweep import MILLIWATT, Bin, Sweep, hold, make_bins, spread, to_level, to_power

SWEEP_LIMIT_CDBM = -8_500
"""The most power in a carrier's bandwidth that counts as free, unless the house states its own. Common practice, no
source; 47 CFR 74.802(b) takes a television signal under -84 dBm over its channel for none, indoors."""

DISTINCT_CDB = 1_000
"""What a signal must be above the noise floor to stand out from it. Choice of this project, no source."""

TELEVISION_CDB, TELEVISION_SHARE_PERCENT = 600, 75
"""Television fills its channel evenly: so much of the channel must be so far above the noise floor. Its signal is 7.61
MHz wide in a channel of 8 MHz (EN 300 744, 2K and 8K modes), and no other raster's is under nine tenths of the
channel. Radio microphones in one channel leave more of it free than this. Choices of this project, no source."""


@frozen
class Heard:
    """What sweeps show in one bandwidth, in hundredths of a dBm. `floor_cdbm` is the noise in it, None where too little was
    swept to tell. `loud_in` of the `swept_in` sweeps that reach there show more than the limit, each by itself."""

    level_cdbm: int
    limit_cdbm: int
    floor_cdbm: int | None
    is_loud: bool
    loud_in: int
    swept_in: int

    @property
    def is_drowned(self) -> bool:
        """Whether the noise itself is over the limit, and what is there does not stand out from it."""
        floor = self.floor_cdbm
        return floor is not None and self.limit_cdbm <= floor and self.level_cdbm <= floor + DISTINCT_CDB


@frozen
class Swept:
    """The sweep of each file, in the order of the show, and all held at their highest.

    `limit_cdb` up to 0 is a level in hundredths of a dBm; above 0 it is how far above the noise floor of its own sweep
    a level may be, in hundredths of a dB.
    """

    files: tuple[Sweep, ...]
    held: Sweep
    limit_cdb: int = SWEEP_LIMIT_CDBM

    @property
    def level_limit_cdbm(self) -> int:
        """The limit as a level, where the noise floor has no part in it."""
        return min(self.limit_cdb, 0) or SWEEP_LIMIT_CDBM

    @property
    def judged(self) -> tuple[Sweep, ...]:
        """What is held against a limit: all together, or each against its own noise."""
        return self.files if self.limit_cdb > 0 else (self.held,)

    def limit_of(self, sweep: Sweep, bandwidth_hz: int) -> int:
        """The power that is free in a bandwidth. Without a noise floor the limit is that of a show that states none."""
        if self.limit_cdb > 0 and sweep.floor is not None:
            return sweep.floor * max(1, bandwidth_hz) * to_power(self.limit_cdb) // MILLIWATT
        return to_power(self.level_limit_cdbm)

    def missing(self, low_hz: int, high_hz: int) -> tuple[Range, ...]:
        """The parts of [low, high) that no sweep covers."""
        return self.held.missing(low_hz, high_hz)

    def floor_between(self, low_hz: int, high_hz: int) -> int | None:
        """The highest noise density of the sweeps that reach there; None where none has one."""
        return max((one.floor for one in self.files if one.floor and one.power(low_hz, high_hz)), default=None)

    def hear(self, low_hz: int, high_hz: int) -> Heard | None:
        """What is between two frequencies, by the sweep that is most above its limit; None where nothing was swept."""
        from fractions import Fraction

        width = high_hz - low_hz
        found = [(one.power(low_hz, high_hz), self.limit_of(one, width)) for one in self.judged]
        power, limit = max(found, key=lambda pair: Fraction(*pair))
        if not power:
            return None
        alone = [(one.power(low_hz, high_hz), self.limit_of(one, width)) for one in self.files]
        floor = self.floor_between(low_hz, high_hz)
        return Heard(
            to_level(power),
            to_level(limit),
            floor and to_level(floor * width),
            power > limit,
            sum(power > limit for power, limit in alone),
            sum(power > 0 for power, _ in alone),
        )

    def list_loud(self, bandwidths_hz: Sequence[int]) -> tuple[Range, ...]:
        """Ranges that no carrier of these bandwidths may overlap. What is loud for the widest is loud for all."""
        low, high = min(bandwidths_hz), max(bandwidths_hz)
        return merge_ranges(pair for one in self.judged for pair in one.list_loud(high, self.limit_of(one, low)))

    def find_television(self, channels: Iterable[TvChannel]) -> tuple[tuple[TvChannel, int], ...]:
        """The channels that are filled evenly with more power than the limit, and the level over the whole channel."""
        found = []
        for channel in channels:
            low, high = channel.low_hz, channel.high_hz
            power, floor = self.held.power(low, high), self.floor_between(low, high)
            if floor is None or power <= to_power(self.level_limit_cdbm):
                continue
            filled = self.held.width_above(low, high, floor * to_power(TELEVISION_CDB) // MILLIWATT)
            if filled * 100 >= (high - low) * TELEVISION_SHARE_PERCENT:
                found.append((channel, to_level(power)))
        return tuple(found)

    def without(self, ranges: Sequence[Range]) -> "Swept":
        """The same without the bins that reach into some ranges, or lie beside what does."""
        if not ranges:
            return self
        files = tuple(one.without(ranges) for one in self.files)
        return replace(self, files=files, held=files[0] if self.files == (self.held,) else self.held.without(ranges))


@lru_cache(maxsize=2)
def make_swept(measured: tuple[Measured, ...], limit_cdb: int | None) -> Swept | None:
    """The sweeps of a show; None where nothing was measured. Points of one file become bins by themselves: two files
    have two steps. Several checks ask for the same sweep, so it is kept."""
    files = tuple(map(_make_sweep, measured))
    if not any(one.segments for one in files):
        return None
    held = files[0] if len(files) == 1 else Sweep(hold(segment for one in files for segment in one.segments))
    return Swept(files, held, SWEEP_LIMIT_CDBM if limit_cdb is None else limit_cdb)


def _make_sweep(levels: Measured) -> Sweep:
    bins = [Bin(low, high, level) for low, high, level in levels if low < high]
    bins += make_bins((low, level) for low, high, level in levels if low == high)
    return Sweep(spread(bins))
