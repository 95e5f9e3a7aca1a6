"""The nearest clean frequency of many carriers at once, each given all the others where they are now."""

from bisect import bisect_left
from collections.abc import Callable, Collection, Sequence
from dataclasses import replace

from paperwork import limits
from paperwork.coordinate.air import block_refused
from paperwork.coordinate.carriers import OnAir, find_granted, has_grant
from paperwork.coordinate.grants import describe_step, settle_grant
from paperwork.coordinate.wants import want_of, want_other
from paperwork.model import RadioType
from paperwork.plan.windows import narrow_to_backed, ranges_of
from paperwork.radio.bands import intersect_ranges
from paperwork.radio.board.lattice import Want
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.text.units import format_mhz

REACH_HZ = 4_000_000
"""How far on either side a clean frequency is looked for where nothing states what can be tuned to: half a European
television channel."""


_NONE, _NOT_FOUND, _OFFERED = (
    "no frequency in reach is clean for {name}",
    "no clean frequency was found for {name}",
    "no clean frequency was found for {name} beside those offered to others here",
)
"""Why nothing is named: it is proved that there is none; the search was stricter than the check; it would be clean
now, but not together with what is named for others."""

MOST_WORK = 120_000
LEAST = 10
"""Placings on an occupancy, weighed by what is there already, that a check may cost: 1 to 2 s, measured on two cores;
a show of 60 carriers that are all wrong takes a fifth of it. This many carriers are always looked after."""


def find_nearest(on_air: OnAir, names: Collection[str]) -> dict[str, tuple[int | None, str]]:
    """For each carrier the nearest clean frequency in hertz, or None, and the same as the end of a sentence:
    `; 486.425 MHz is clean for channel 05`.

    Each is clean of all that is on the air now, and of all with what is given here for those before it: one of them
    can be taken alone, and all together. Where something was granted, only that is looked at; what was refused is
    never given.
    """
    granted = {name: hz for name in names if (hz := find_granted(on_air, name)) is not None}
    asked = sorted(dict.fromkeys(names), key=lambda name: name not in granted)
    most = _count_affordable(len(on_air.carriers), len(asked))
    search = _Search(on_air, [want_again(on_air, name) for name in asked[:most]])
    found = search.find()
    return {name: (found[name], _word(on_air, name, found[name], search.why_none(name))) for name in asked[:most]} | {
        name: (None, f"; {_way_to_assign(on_air, name)} a clean one") for name in asked[most:]
    }


def _way_to_assign(on_air: OnAir, name: str) -> str:
    if on_air.is_backup(name):
        return "write `backup: yes`, and `paperwork assign` finds"
    if on_air.is_channel(name):
        return "`paperwork assign --repair` finds it"
    return "delete its mhz, and `paperwork assign` finds"


def _word(on_air: OnAir, name: str, hz: int | None, why_none: str) -> str:
    granted = find_granted(on_air, name)
    if granted is not None:
        if step := describe_step(name, granted, settle_grant(_radio_of(on_air, name), granted)):
            return f"; {step}"
        if hz is None:
            why = f"{name} is not clean on" if why_none == _NONE else f"{name} was not found clean on"
            return f"; {why} {format_mhz(granted)} MHz, which was granted: ask for another"
        return f"; write `mhz: {format_mhz(granted)}`, which was granted"
    if hz is None:
        return _word_none(on_air, name, why_none)
    if has_grant(on_air, name):
        return f"; ask for {format_mhz(hz)} MHz: it is clean for {name}"
    return f"; {format_mhz(hz)} MHz is clean for {name}"


def _radio_of(on_air: OnAir, name: str) -> RadioType | None:
    """The radio type behind a carrier, of one of the others with what that says itself."""
    id = on_air.subjects[name][0].id
    if on_air.is_channel(name):
        return on_air.show.radio_of(on_air.show.channels[id])
    return on_air.show.type_of(on_air.show.others[id])


def _word_none(on_air: OnAir, name: str, why_none: str) -> str:
    """One alone has nowhere to go; our channels can be placed together."""
    words = f"; {why_none.format(name=name)}"
    if on_air.is_backup(name):
        return f"{words}: take its backup out"
    together = "; `paperwork assign --repair` finds the fewest channels to move together"
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
    """By carrier, one after the other, what `take` chooses of the frequencies that are clean for it, from the lowest,
    among all the others as they are now and with what was taken before it on the air beside them."""
    return _Taking(on_air, [want_again(on_air, name) for name in dict.fromkeys(names)], take).find() if names else {}


def want_again(on_air: OnAir, name: str) -> Want:
    """A carrier that is on the air, as something that wants a frequency: the granted one alone, if it has another."""
    record = on_air.subjects[name][0]
    carrier = next(one for one in on_air.searched if one.id == name)
    granted = find_granted(on_air, name)
    hz = carrier.hz if granted is None else granted
    around = ((hz - REACH_HZ, hz + REACH_HZ),)
    if on_air.is_channel(name):
        channel = on_air.show.channels[record.id]
        ranges = ranges_of(on_air.show, channel)
        want = replace(want_of(on_air.show, channel, around if ranges is None else ranges), carrier=carrier)
        if channel.spare:
            want = replace(want, ranges=narrow_to_backed(on_air.show, channel, want.ranges))
    else:
        other = on_air.show.others[record.id]
        want = want_other(on_air.show, other, on_air.show.type_of(other).reach or around)
    if granted is None:
        return want
    radio = _radio_of(on_air, name)
    half_hz = -(-carrier.bandwidth_hz // 2)
    held = intersect_ranges(want.ranges, [(granted - half_hz, granted + half_hz)])
    is_free = radio is None or not (radio.step_hz or radio.spots_hz)
    return replace(want, ranges=held, origin_hz=granted if is_free else want.origin_hz)


class _Board:
    """Wants beside all that is on the air, on one lattice."""

    def __init__(self, on_air: OnAir, wants: Sequence[Want]) -> None:
        self._on_air = on_air
        blocks = (*on_air.air.blocks, *block_refused(on_air.show))
        self._problem = Problem(wants, on_air.searched, blocks, on_air.rules)

    def _begin(self) -> Occupancy:
        """An occupancy with all carriers but those that want a frequency."""
        asked = {want.carrier.id for want in self._problem.wants}
        others = (carrier for carrier in self._on_air.searched if carrier.id not in asked)
        return self._problem.place(self._problem.empty_occupancy(), others)

    def _list_clean(self, want: int, occupancy: Occupancy) -> list[int]:
        return self._problem.list_clean_hz(want, occupancy)


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
    """A frequency for one carrier after the other, each clean in two occupancies: among all carriers as they are now,
    and among them with those before it where they would go.

    Halving the wants shares most of the placing: some n + 2 k log k carriers are placed for k wants, not n times k.
    """

    def __init__(self, on_air: OnAir, wants: Sequence[Want]) -> None:
        super().__init__(on_air, wants)
        self._found: dict[str, int | None] = {}
        self._offered: set[str] = set()

    def why_none(self, name: str) -> str:
        """Why a carrier has no frequency: a sentence with room for its name."""
        if name in self._offered:
            return _OFFERED
        return _NONE if self._problem.is_exact and not self._on_air.is_searched_strictly else _NOT_FOUND

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
            clean = self._list_clean(wants[0], now)
            both = sorted({*clean} & {*self._list_clean(wants[0], then)}) if then is not now else clean
            self._found[carriers[0].id] = _nearest_to(both, carriers[0].hz)
            if clean and not both:
                self._offered.add(carriers[0].id)
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
