"""What each window holds: free spectrum, how many channels fit, and what eats the rest."""

from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.coordinate.air import Air
from paperwork.coordinate.carriers import BANDWIDTH_HZ, OnAir, gather_on_air, kind_of
from paperwork.coordinate.wants import STEP_HZ, window_of
from paperwork.model import RadioType, Show
from paperwork.radio.bands import Range, intersect_ranges, width_hz
from paperwork.radio.carrier import Carrier
from paperwork.radio.search.lattice import Want
from paperwork.radio.survey import fit_carriers, survey_spectrum
from paperwork.text.names import join_words

EFFORT = 60
"""Effort of each search for how many fit. More is found with more, so the counts are what is sure, not what is best."""


@dataclass(frozen=True, slots=True)
class TypeFit:
    """How many channels of some radio types fit: by spacing alone, free of third-order hits, and how many more beside
    the carriers that are on the air."""

    radios: tuple[str, ...]
    bandwidth_hz: int
    by_spacing: int
    clean: int
    more: int


@dataclass(frozen=True, slots=True)
class WindowSurvey:
    """One window. `eaten` is what each cause takes, all adding up with `free_hz` to the width.

    `weak_hz` of the free spectrum is in weak TV channels; `unswept` is what no sweep covers, where there is a sweep.
    """

    name: str
    low_hz: int
    high_hz: int
    free: tuple[Range, ...]
    free_hz: int
    eaten: tuple[tuple[str, int], ...]
    weak_hz: int
    swept: bool
    unswept: tuple[Range, ...]
    fits: tuple[TypeFit, ...]

    @property
    def best(self) -> int:
        """The most channels of one type that fit free of hits."""
        return max((fit.clean for fit in self.fits), default=0)


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
        weak_hz=width_hz(intersect_ranges(free, _weak_ranges(air))),
        swept=air.sweep is not None,
        unswept=air.sweep.missing(low, high) if air.sweep else (),
        fits=tuple(_fit(on_air, radios, low, high, effort) for radios in _alike(on_air.show, low, high)),
    )


def _weak_ranges(air: Air) -> tuple[Range, ...]:
    return tuple((channel.low_hz, channel.high_hz) for channel in air.weak)


def _alike(show: Show, low: int, high: int) -> list[tuple[RadioType, ...]]:
    """The radio types that reach into a window, those together that are alike in all that counts for it."""
    groups: dict[tuple[object, ...], list[RadioType]] = {}
    for radio in show.radios.values() or (RadioType(id=""),):
        ranges = _ranges(radio, low, high)
        if ranges:
            key = (ranges, radio.bandwidth_hz, radio.step_hz, kind_of(radio), radio.makes_intermodulation)
            groups.setdefault(key, []).append(radio)
    return [tuple(group) for group in groups.values()]


def _ranges(radio: RadioType, low: int, high: int) -> tuple[Range, ...]:
    window = ((low, high),)
    return intersect_ranges(radio.tunes, window) if radio.tunes else window


def _fit(on_air: OnAir, radios: tuple[RadioType, ...], low: int, high: int, effort: int) -> TypeFit:
    radio = radios[0]
    bandwidth_hz = BANDWIDTH_HZ if radio.bandwidth_hz is None else radio.bandwidth_hz
    carrier = Carrier("sample", 0, bandwidth_hz, kind_of(radio), radio.makes_intermodulation)
    sample = Want(carrier, _ranges(radio, low, high), radio.step_hz or STEP_HZ)
    others = [one for one in on_air.carriers if not on_air.is_channel(one.id)]
    blocks = [block for block in on_air.air.blocks if block.holds_for(bandwidth_hz)]
    by_spacing, alone = fit_carriers(sample, others, blocks, on_air.rules, effort=effort)
    beside = alone
    if len(others) < len(on_air.carriers):
        _, beside = fit_carriers(sample, on_air.carriers, blocks, on_air.rules, effort=effort)
    ids = tuple(one.id for one in radios if one.id)
    return TypeFit(ids, bandwidth_hz, by_spacing, len(alone), len(beside))
