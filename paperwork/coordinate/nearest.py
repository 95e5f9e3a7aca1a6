"""The nearest clean frequency of many carriers at once, each given all the others where they are now."""

from bisect import bisect_left
from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from paperwork import limits
from paperwork.coordinate.carriers import OnAir, find_granted, has_grant, rank_movable
from paperwork.coordinate.wants import STEP_HZ, narrow_to_backed, ranges_of, want_of
from paperwork.model import Show
from paperwork.radio.bands import intersect_ranges
from paperwork.radio.search.lattice import Want
from paperwork.radio.search.occupancy import Occupancy
from paperwork.radio.search.problem import Problem
from paperwork.text.units import format_mhz

REACH_HZ = 4_000_000
"""How far on either side a clean frequency is looked for where nothing states what can be tuned to: half a European
television channel."""


MOST_WORK = 120_000
LEAST = 10
"""Placings on an occupancy, weighed by what is there already, that a check may cost: 1 to 2 s, measured on two cores; a show
of 60 carriers that are all wrong takes a fifth of it. This many carriers are always looked after."""


def find_nearest(on_air: OnAir, names: Collection[str]) -> dict[str, tuple[int | None, str]]:
    """For each carrier the nearest clean frequency in hertz, or None, and the same as the end of a sentence:
    `; 486.425 MHz is clean for channel 05`.

    Each is clean of all that is on the air now, and of all with what is given here for those before it: one of them can be
    taken alone, and all together. Where something was granted, only that is looked at; what was refused is never given.
    """
    granted = {name: hz for name in names if (hz := find_granted(on_air, name)) is not None}
    asked = sorted(dict.fromkeys(names), key=lambda name: name not in granted)
    most = _count_affordable(len(on_air.carriers), len(asked))
    found = _Search(on_air, [want_again(on_air, name) for name in asked[:most]]).find()
    late = (None, "; delete its mhz, and `paperwork assign` finds a clean one")
    return {name: (found[name], _word(on_air, name, found[name])) for name in asked[:most]} | dict.fromkeys(
        asked[most:], late
    )


def list_refused(show: Show) -> frozenset[int]:
    """The frequencies in hertz for which a coordinator said no, to whichever channel."""
    found: set[int | None] = set()
    for channel in show.channels.values():
        if channel.refused:
            found |= {channel.hz, channel.asked_hz}
        elif channel.granted_hz is not None and channel.granted_hz != channel.asked_hz:
            found.add(channel.asked_hz)
    given = {channel.granted_hz for channel in show.channels.values()}
    return frozenset(hz for hz in found - given if hz is not None)


def _word(on_air: OnAir, name: str, hz: int | None) -> str:
    granted = find_granted(on_air, name)
    if granted is not None:
        if hz is None:
            return f"; {name} cannot be set to {format_mhz(granted)} MHz, which was granted, or not cleanly: ask for another"
        return f"; write `mhz: {format_mhz(granted)}`, which was granted"
    if hz is None:
        return _word_none(on_air, name)
    if has_grant(on_air, name):
        return f"; ask for {format_mhz(hz)} MHz: it is clean for {name}"
    return f"; {format_mhz(hz)} MHz is clean for {name}"


def _word_none(on_air: OnAir, name: str) -> str:
    """One alone has nowhere to go; our channels can be placed together."""
    words = f"; no frequency in reach is clean for {name}"
    together = "; delete mhz here and at the lines below, and `paperwork assign` places those channels together"
    return words + together * on_air.is_channel(name)


def _count_affordable(carriers: int, asked: int) -> int:
    """How many carriers are looked after one by one: a check of a show that is wrong all over has to end, too."""
    if carriers > limits.CARRIERS_NEAREST:
        return 0
    count = asked
    while count > LEAST and (carriers + 2 * count * count.bit_length()) * (carriers + count) > MOST_WORK:
        count -= 1
    return count


def take_openings(on_air: OnAir, names: Sequence[str], take: Callable[[str, list[int]], int | None]) -> dict[str, int]:
    """By carrier, one after the other, what `take` chooses of the frequencies that are clean for it, from the lowest, among
    all the others as they are now and with what was taken before it on the air beside them."""
    return _Taking(on_air, [want_again(on_air, name) for name in dict.fromkeys(names)], take).find() if names else {}


def find_movable(on_air: OnAir, first: str, second: str) -> str:
    """Of two carriers the one to retune: ours before one of the others, one without a grant, else the second."""
    return max(second, first, key=lambda name: rank_movable(on_air, name))


def want_again(on_air: OnAir, name: str) -> Want:
    """A carrier that is on the air, as something that wants a frequency: the granted one alone, if it has another."""
    record = on_air.subjects[name][0]
    carrier = next(one for one in on_air.carriers if one.id == name)
    granted = find_granted(on_air, name)
    hz = carrier.hz if granted is None else granted
    around = ((hz - REACH_HZ, hz + REACH_HZ),)
    if record.section != "channels":
        return Want(carrier, around, STEP_HZ)
    channel = on_air.show.channels[record.id]
    ranges = ranges_of(on_air.show, channel)
    want = want_of(on_air.show, channel, around if ranges is None else ranges)
    if channel.spare:
        want = replace(want, ranges=narrow_to_backed(on_air.show, channel, want.ranges))
    if granted is None:
        return want
    radio = on_air.show.radio_of(channel)
    half_hz = -(-carrier.bandwidth_hz // 2)
    held = intersect_ranges(want.ranges, [(granted - half_hz, granted + half_hz)])
    return replace(want, ranges=held, origin_hz=0 if radio and radio.step_hz else granted)


class _Board:
    """Wants beside all that is on the air, on one lattice."""

    def __init__(self, on_air: OnAir, wants: Sequence[Want]) -> None:
        self._on_air = on_air
        self._refused = list_refused(on_air.show)
        self._problem = Problem(wants, on_air.carriers, on_air.air.blocks, on_air.rules)

    def _begin(self) -> Occupancy:
        """An occupancy with all carriers but those that want a frequency."""
        asked = {want.carrier.id for want in self._problem.wants}
        others = (carrier for carrier in self._on_air.carriers if carrier.id not in asked)
        return self._problem.place(self._problem.empty_occupancy(), others)

    def _list_clean(self, want: int, occupancy: Occupancy) -> list[int]:
        return [hz for hz in self._problem.list_clean_hz(want, occupancy) if hz not in self._refused]


class _Taking(_Board):
    """One carrier after the other, by halves as in `_Search`; what one takes is on the air beside it from then on."""

    def __init__(self, on_air: OnAir, wants: Sequence[Want], take: Callable[[str, list[int]], int | None]) -> None:
        super().__init__(on_air, wants)
        self._take = take
        self._taken: dict[str, int] = {}

    def find(self) -> dict[str, int]:
        """By carrier what was taken, of those that took something."""
        self._halve(self._begin(), range(len(self._problem.wants)))
        return self._taken

    def _halve(self, occupancy: Occupancy, wants: range) -> None:
        carriers = [self._problem.wants[index].carrier for index in wants]
        if len(wants) == 1:
            hz = self._take(carriers[0].id, self._list_clean(wants[0], occupancy))
            if hz is not None:
                self._taken[carriers[0].id] = hz
            return
        middle = len(wants) // 2
        fuller = occupancy.copy()
        self._problem.place(fuller, carriers[middle:])
        self._halve(fuller, wants[:middle])
        beside = [replace(one, hz=self._taken[one.id]) for one in carriers[:middle] if one.id in self._taken]
        self._problem.place(occupancy, carriers[:middle] + beside)
        self._halve(occupancy, wants[middle:])


class _Search(_Board):
    """A frequency for one carrier after the other, each clean in two occupancies: among all carriers as they are now, and
    among them with those before it where they would go.

    Halving the wants shares most of the placing: some n + 2 k log k carriers are placed for k wants, not n times k.
    """

    def __init__(self, on_air: OnAir, wants: Sequence[Want]) -> None:
        super().__init__(on_air, wants)
        self._found: dict[str, int | None] = {}

    def find(self) -> dict[str, int | None]:
        """By carrier the nearest clean frequency, or None."""
        occupancy = self._begin()
        self._halve(occupancy, occupancy, range(len(self._problem.wants)))
        return self._found

    def _halve(self, now: Occupancy, then: Occupancy, wants: range) -> None:
        if not wants:
            return
        carriers = [self._problem.wants[index].carrier for index in wants]
        if len(wants) == 1:
            clean = set(self._list_clean(wants[0], now))
            if then is not now:
                clean &= set(self._list_clean(wants[0], then))
            self._found[carriers[0].id] = _nearest_to(sorted(clean), carriers[0].hz)
            return
        middle = len(wants) // 2
        fuller = now.copy()
        self._problem.place(fuller, carriers[middle:])
        later = fuller if then is now else then.copy()
        if later is not fuller:
            self._problem.place(later, carriers[middle:])
        self._halve(fuller, later, wants[:middle])
        moved = [replace(one, hz=self._found[one.id] or one.hz) for one in carriers[:middle]]
        then = then.copy()
        self._problem.place(then, moved)
        self._problem.place(now, carriers[:middle])
        self._halve(now, then, wants[middle:])


def _nearest_to(clean: list[int], hz: int) -> int | None:
    at = bisect_left(clean, hz)
    return min(clean[max(0, at - 1) : at + 1], key=lambda one: (abs(one - hz), one), default=None)
