"""The nearest clean frequency of many carriers at once, each given all the others where they are now."""

from bisect import bisect_left
from collections.abc import Iterable, Sequence

from paperwork import limits
from paperwork.coordinate.carriers import OnAir
from paperwork.coordinate.wants import STEP_HZ, ranges_of, want_of
from paperwork.radio.carrier import Carrier
from paperwork.radio.search.lattice import Want
from paperwork.radio.search.occupancy import Occupancy
from paperwork.radio.search.problem import Problem, find_clean_hz
from paperwork.text.units import format_mhz

REACH_HZ = 4_000_000
"""How far on either side a clean frequency is looked for where nothing states what can be tuned to: half a European
television channel."""


MOST_WORK = 120_000
LEAST = 10
"""Placings on a occupancy, weighed by what is there already, that a check may cost: 1 to 2 s, measured on two cores; a show
of 60 carriers that are all wrong takes a fifth of it. This many carriers are always looked after."""


def find_nearest(on_air: OnAir, names: Iterable[str]) -> dict[str, tuple[int | None, str]]:
    """For each carrier the nearest clean frequency in hertz, or None, and the same as the end of a sentence:
    `; 486.425 MHz is clean for channel 05`."""
    asked = list(dict.fromkeys(names))
    most = _count_affordable(len(on_air.carriers), len(asked))
    found = _find_nearest(on_air, [want_again(on_air, name) for name in asked[:most]])
    words = {
        name: (hz, _word_none(on_air, name) if hz is None else f"; {format_mhz(hz)} MHz is clean for {name}")
        for name, hz in found.items()
    }
    late = (None, "; delete its mhz, and `paperwork assign` finds a clean one")
    return words | dict.fromkeys(asked[most:], late)


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
    while count > LEAST and (carriers + count * count.bit_length()) * carriers > MOST_WORK:
        count -= 1
    return count


def list_openings(on_air: OnAir, name: str) -> tuple[int, ...]:
    """Every frequency that would be clean for a carrier, from the lowest."""
    return find_clean_hz(want_again(on_air, name), on_air.carriers, on_air.air.blocks, on_air.rules)


def find_movable(on_air: OnAir, first: str, second: str) -> str:
    """Of two carriers the one that is ours to retune, the second if both are."""
    return first if not on_air.is_channel(second) and on_air.is_channel(first) else second


def want_again(on_air: OnAir, name: str) -> Want:
    """A carrier that is on the air, as something that wants a frequency."""
    record = on_air.subjects[name][0]
    carrier = next(one for one in on_air.carriers if one.id == name)
    around = ((carrier.hz - REACH_HZ, carrier.hz + REACH_HZ),)
    if record.section != "channels":
        return Want(carrier, around, STEP_HZ)
    channel = on_air.show.channels[record.id]
    ranges = ranges_of(on_air.show, channel)
    return want_of(on_air.show, channel, around if ranges is None else ranges)


def _find_nearest(on_air: OnAir, wants: Sequence[Want]) -> dict[str, int | None]:
    """By carrier the nearest clean frequency, or None.

    Each is asked of a occupancy that holds all carriers but itself. Halving the wants shares most of the placing: some
    n + k log k carriers are placed for k wants, not n times k.
    """
    problem = Problem(wants, on_air.carriers, on_air.air.blocks, on_air.rules)
    asked = {want.carrier.id for want in wants}
    occupancy = Occupancy(on_air.rules, problem.families, problem.target_count, problem.lattice)
    _place(occupancy, problem, (carrier for carrier in on_air.carriers if carrier.id not in asked))
    found: dict[str, int | None] = {}
    _halve(problem, occupancy, range(len(wants)), found)
    return {want.carrier.id: found[want.carrier.id] for want in wants}


def _halve(problem: Problem, occupancy: Occupancy, wants: range, found: dict[str, int | None]) -> None:
    if not wants:
        return
    if len(wants) == 1:
        want = problem.wants[wants[0]]
        found[want.carrier.id] = _nearest_to(problem.list_clean_hz(wants[0], occupancy), want.carrier.hz)
        return
    middle = len(wants) // 2
    for part, rest in ((wants[:middle], wants[middle:]), (wants[middle:], wants[:middle])):
        fuller = occupancy.copy()
        _place(fuller, problem, (problem.wants[index].carrier for index in rest))
        _halve(problem, fuller, part, found)


def _place(occupancy: Occupancy, problem: Problem, carriers: Iterable[Carrier]) -> None:
    for carrier in carriers:
        occupancy.add(problem.families.index(carrier.family), problem.lattice.position(carrier.hz))


def _nearest_to(clean: list[int], hz: int) -> int | None:
    at = bisect_left(clean, hz)
    return min(clean[max(0, at - 1) : at + 1], key=lambda one: (abs(one - hz), one), default=None)
