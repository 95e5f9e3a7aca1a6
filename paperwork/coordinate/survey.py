"""What each window holds: free spectrum, how many channels fit, and what eats the rest."""

from collections.abc import Sequence

from paperwork.coordinate.air import CROWDED, SWEEP, TV, Air
from paperwork.coordinate.carriers import BANDWIDTH_HZ, OnAir, gather_on_air, kind_of
from paperwork.coordinate.wants import make_want
from paperwork.frozen import frozen
from paperwork.model import RadioType, Show
from paperwork.plan.windows import window_of
from paperwork.radio.bands import BlockedRange, Range, intersect_ranges, width_hz
from paperwork.radio.carrier import Carrier
from paperwork.radio.survey import fit_carriers, survey_spectrum
from paperwork.text.names import join_words

EFFORT = 60
"""Effort of each search for how many fit: more is found with more."""


@frozen
class Count:
    """A number of channels of which `least` are sure, and no more than `most` can be: proved where the two are one."""

    least: int
    most: int

    @property
    def is_exact(self) -> bool:
        """Whether it is proved."""
        return self.least == self.most


@frozen
class TypeFit:
    """How many channels of some radio types fit: by spacing alone, under all the rules of the show, and how many more
    beside the carriers that are on the air."""

    radios: tuple[str, ...]
    bandwidth_hz: int
    by_spacing: int
    clean: Count
    more: Count


@frozen
class WindowSurvey:
    """One window. `eaten` is what each cause takes, all adding up with `free_hz` to the width.

    `tv` names the TV channels that reach into it and are in use, or were shown by a sweep. `weak_hz` of the free
    spectrum is in weak TV channels; `unswept` is what no sweep covers, where there is a sweep.
    """

    name: str
    low_hz: int
    high_hz: int
    free: tuple[Range, ...]
    free_hz: int
    eaten: tuple[tuple[str, int], ...]
    tv: tuple[str, ...]
    weak_hz: int
    swept: bool
    unswept: tuple[Range, ...]
    fits: tuple[TypeFit, ...]

    @property
    def best(self) -> int:
        """The most channels of one type that are sure to fit."""
        return max((fit.clean.least for fit in self.fits), default=0)


def survey_show(show: Show, windows: Sequence[Range] = (), *, effort: int = EFFORT) -> tuple[WindowSurvey, ...]:
    """Each window of the show, or each of the given ones, the one that holds most channels first."""
    on_air = gather_on_air(show)
    named = [("", window) for window in windows] or list_windows(show)
    found = [_survey(on_air, name, low, high, effort) for name, (low, high) in named]
    return tuple(sorted(found, key=lambda one: (-one.best, -one.free_hz, one.low_hz, one.high_hz)))


def count_searches(show: Show, windows: Sequence[Range] = ()) -> int:
    """How many searches a survey takes: one or two for each kind of radio in each window."""
    return sum(len(_alike(show, low, high)) for low, high in windows or [pair for _, pair in list_windows(show)])


def list_windows(show: Show) -> list[tuple[str, Range]]:
    """The windows that the show states, and whose: those of its racks, else what its radios tune to."""
    owners: dict[Range, list[str]] = {}
    for rack in show.racks.values():
        for pair in window_of(show, rack) or ():
            owners.setdefault(pair, []).append(rack.id)
    if owners:
        return [(f"rack{'s' if len(ids) > 1 else ''} {join_words(ids)}", pair) for pair, ids in owners.items()]
    for radio in show.radios.values():
        for span in radio.tunes:
            owners.setdefault(span, []).append(radio.id)
    return [(f"radio {join_words(ids)}", pair) for pair, ids in owners.items()]


def _survey(on_air: OnAir, name: str, low: int, high: int, effort: int) -> WindowSurvey:
    air = on_air.air
    free, eaten = survey_spectrum(low, high, air.blocks_for_narrowest)
    return WindowSurvey(
        name=name,
        low_hz=low,
        high_hz=high,
        free=free,
        free_hz=width_hz(free),
        eaten=tuple(pair for pair in eaten if pair[1]),
        tv=tuple(dict.fromkeys(one.name for one in _list_tv(air) if one.low_hz < high and one.high_hz > low)),
        weak_hz=width_hz(intersect_ranges(free, tuple((channel.low_hz, channel.high_hz) for channel in air.weak))),
        swept=air.sweep is not None,
        unswept=air.sweep.missing(low, high) if air.sweep else (),
        fits=tuple(_fit(on_air, radios, low, high, effort) for radios in _alike(on_air.show, low, high)),
    )


def _list_tv(air: Air) -> list[BlockedRange]:
    """The TV channels that keep us away, from the lowest up."""
    named = [one for one in air.blocks if one.cause in (TV, CROWDED) or (one.cause == SWEEP and one.name)]
    return sorted(named, key=lambda one: one.low_hz)


def divide_band(band: Range, every_hz: int) -> tuple[Range, ...]:
    """The divisions of a band from the lowest up, all of one width but the last."""
    low, high = band
    return tuple((start, min(start + every_hz, high)) for start in range(low, high, every_hz))


def _alike(show: Show, low: int, high: int) -> list[tuple[RadioType, ...]]:
    """The radio types that reach into a window, those together that are alike in all that counts for it."""
    groups: dict[tuple[object, ...], list[RadioType]] = {}
    for radio in show.radios.values() or (RadioType(id=""),):
        ranges = _ranges(radio, low, high)
        if ranges:
            key = (
                ranges,
                radio.bandwidth_hz,
                radio.step_hz,
                radio.step_from_hz,
                radio.spots_hz,
                kind_of(radio),
                radio.makes_intermodulation,
            )
            groups.setdefault(key, []).append(radio)
    return [tuple(group) for group in groups.values()]


def _ranges(radio: RadioType, low: int, high: int) -> tuple[Range, ...]:
    window = ((low, high),)
    return intersect_ranges(radio.reach, window) if radio.reach else window


def _fit(on_air: OnAir, radios: tuple[RadioType, ...], low: int, high: int, effort: int) -> TypeFit:
    radio = radios[0]
    bandwidth_hz = BANDWIDTH_HZ if radio.bandwidth_hz is None else radio.bandwidth_hz
    carrier = Carrier("sample", 0, bandwidth_hz, kind_of(radio), radio.makes_intermodulation)
    sample = make_want(carrier, _ranges(radio, low, high), radio)
    others = [one for one in on_air.searched if not on_air.is_channel(one.id)]
    blocks = [block for block in on_air.air.blocks if block.holds_for(bandwidth_hz)]
    alone = fit_carriers(sample, others, blocks, on_air.rules, effort=effort)
    beside = alone
    if len(others) < len(on_air.searched):
        beside = fit_carriers(sample, on_air.searched, blocks, on_air.rules, effort=effort)
    most = alone.most if on_air.is_searched_strictly else beside.most
    ids = tuple(one.id for one in radios if one.id)
    counts = Count(alone.least, alone.most), Count(beside.least, most)
    return TypeFit(ids, bandwidth_hz, alone.by_spacing, *counts)
