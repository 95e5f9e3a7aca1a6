"""A frequency for every channel without: most channels first, then the widest worst margin, then room around.

`climb` finds the most, `widen` the margin, `settle` the room; `exhaust` proves what is small enough to be proved.
Channels that can never be on the air together, directly or through others, are parts of a plan that are searched each
for itself.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from paperwork.frozen import frozen
from paperwork.radio.bands import BlockedRange
from paperwork.radio.board.lattice import Want
from paperwork.radio.board.problem import ENOUGH_HZ, Problem
from paperwork.radio.carrier import Carrier, Rules, are_together
from paperwork.radio.search import DEFAULT_EFFORT
from paperwork.radio.search.climb import Climb
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.fill import Placing, add_all, fill
from paperwork.radio.search.settle import settle
from paperwork.radio.search.widen import find_margin_hz, widen

MOST_JOINT = 120
"""More channels joined only by those that meet everybody are parted too: those first, beside the largest part."""

_FULL_PARTS = 16
"""So many different parts of a plan are searched with the whole effort each; more share that."""

Stop = Callable[[], bool]
Progress = Callable[[int, int, int], None]


@frozen
class Unplaced:
    """A channel without a place: how many frequencies it could be tuned to, and how many of them each cause
    takes away (each counted once, commonest cause first)."""

    id: str
    candidates: int
    causes: tuple[tuple[str, int], ...]


@frozen
class FrequencyPlan:
    """`placed`: frequency by channel id. `margin_hz`: the least that any of them has to spare, or leaves to another (of a
    large plan, at least this); None where nothing is near any. `is_most` and `is_widest`: it is proved that no more can be placed, and that as many have no
    wider margin. `spent` is the effort used; `stopped` when the caller cut it short."""

    placed: dict[str, int]
    unplaced: tuple[Unplaced, ...]
    margin_hz: int | None
    is_most: bool
    is_widest: bool
    spent: int
    stopped: bool


def assign(
    wants: Sequence[Want],
    fixed: Sequence[Carrier],
    blocks: Sequence[BlockedRange],
    rules: Rules,
    *,
    effort: int = DEFAULT_EFFORT,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> FrequencyPlan:
    """Places for the wanted channels among the fixed carriers, which stay where they are.

    No placed channel is nearer to another carrier than the rules want, none is hit and none takes part in a hit.
    Conflicts among the fixed carriers themselves are not touched. `effort` is an amount of work, and the same effort
    gives the same plan; `stop` is asked before each step; `progress` is called with the effort spent, the effort
    allowed and the channels placed so far. Ids must be unique. ValueError for a range that runs backwards or a step
    that is not positive.
    """
    parts = _Parts(fixed, blocks, rules, stop or (lambda: False), progress or (lambda *_: None))
    hubs, others = _part(wants)
    parts.search([[*hubs, *others[0]], *others[1:]] if others else [hubs], hubs, effort)
    placed = {want.carrier.id: parts.placed[want.carrier.id] for want in wants if want.carrier.id in parts.placed}
    plans = parts.plans
    margins = [plan.margin_hz for plan in plans if plan.margin_hz is not None]
    is_most = all(plan.is_most for plan in plans) and not (hubs and len(placed) < len(wants))
    narrowest = [plan for plan in plans if plan.margin_hz is not None and plan.margin_hz == min(margins)]
    is_widest = any(plan.is_widest for plan in narrowest) if narrowest else all(plan.is_widest for plan in plans)
    return FrequencyPlan(
        placed,
        tuple(parts.unplaced[want.carrier.id] for want in wants if want.carrier.id in parts.unplaced),
        min(margins, default=None),
        is_most,
        is_widest and (len(plans) == 1 or (is_most and not hubs)),
        parts.spent,
        any(plan.stopped for plan in plans),
    )


def _part(wants: Sequence[Want]) -> tuple[list[Want], list[list[Want]]]:
    """The wants in parts of which none meets another, the largest first; and before them, where that makes parts of
    many, those that meet everybody."""
    parts = _split(wants)
    if len(parts) > 1 or len(wants) <= MOST_JOINT:
        return [], parts
    hubs = [want for want in wants if not (want.carrier.zone or want.carrier.times or want.carrier.exclusive)]
    others = _split([want for want in wants if want.carrier.zone or want.carrier.times or want.carrier.exclusive])
    return (hubs, others) if len(others) > 1 else ([], parts)


def _split(wants: Sequence[Want]) -> list[list[Want]]:
    alike: dict[tuple[object, ...], list[Want]] = {}
    for want in wants:
        alike.setdefault((want.carrier.zone, want.carrier.times, want.carrier.exclusive), []).append(want)
    parts: list[list[list[Want]]] = []
    for some in alike.values():
        met = [part for part in parts if any(are_together((some[0].carrier, one[0].carrier)) for one in part)]
        parts = [part for part in parts if part not in met]
        parts.append([some, *(one for part in met for one in part)])
    order = {want.carrier.id: at for at, want in enumerate(wants)}
    whole = [
        sorted((want for some in part for want in some), key=lambda want: order[want.carrier.id]) for part in parts
    ]
    return sorted(whole, key=lambda part: (-len(part), order[part[0].carrier.id]))


class _Parts:
    """The parts of a plan that were searched, and what came of them. Those alike but for names are one."""

    def __init__(
        self, fixed: Sequence[Carrier], blocks: Sequence[BlockedRange], rules: Rules, stop: Stop, progress: Progress
    ) -> None:
        self._fixed, self._blocks, self._rules, self._stop, self._progress = fixed, blocks, rules, stop, progress
        self.placed: dict[str, int] = {}
        self.unplaced: dict[str, Unplaced] = {}
        self.plans: list[FrequencyPlan] = []
        self.spent = 0

    def search(self, parts: Sequence[Sequence[Want]], hubs: Sequence[Want], effort: int) -> None:
        """Search each part, those that meet everybody (in the first) beside all that come after them."""
        known: dict[tuple[object, ...], tuple[Sequence[Want], FrequencyPlan]] = {}
        count = len({_make_key(part, self._met_by(part, self._fixed)) for part in parts})
        each = max(1, effort * min(count, _FULL_PARTS) // count)
        there: list[Carrier] = []
        for number, part in enumerate(parts):
            fixed = self._met_by(part, [*self._fixed, *there])
            key = _make_key(part, fixed)
            if key not in known:
                known[key] = part, self._search_part(part, fixed, each, each * count)
                self.plans.append(known[key][1])
                self.spent += known[key][1].spent
            self._name(part, *known[key])
            if not number:
                there = [
                    replace(one.carrier, hz=self.placed[one.carrier.id])
                    for one in hubs
                    if one.carrier.id in self.placed
                ]

    def _met_by(self, part: Sequence[Want], carriers: Sequence[Carrier]) -> list[Carrier]:
        """The carriers that any of a part can meet."""
        some = {(one.carrier.zone, one.carrier.times, one.carrier.exclusive): one.carrier for one in part}
        return [carrier for carrier in carriers if any(are_together((carrier, one)) for one in some.values())]

    def _search_part(self, wants: Sequence[Want], fixed: Sequence[Carrier], effort: int, total: int) -> FrequencyPlan:
        spent, placed = self.spent, len(self.placed)
        return _search(
            wants,
            fixed,
            self._blocks,
            self._rules,
            effort,
            self._stop,
            lambda units, _, found: self._progress(spent + units, total, placed + found),
        )

    def _name(self, part: Sequence[Want], twin: Sequence[Want], plan: FrequencyPlan) -> None:
        causes = {one.id: one for one in plan.unplaced}
        for want, other in zip(part, twin, strict=True):
            if other.carrier.id in plan.placed:
                self.placed[want.carrier.id] = plan.placed[other.carrier.id]
            else:
                self.unplaced[want.carrier.id] = replace(causes[other.carrier.id], id=want.carrier.id)


def _make_key(wants: Sequence[Want], fixed: Sequence[Carrier]) -> tuple[tuple[Want, ...], tuple[Carrier, ...]]:
    """A part without its names: channels are called by their number, zones by the order in which they come."""
    zones: Mapping[str, str] = {
        zone: f"{at}" for at, zone in enumerate(dict.fromkeys(one.carrier.zone for one in wants if one.carrier.zone), 1)
    }

    def rename(carrier: Carrier, id: str) -> Carrier:
        return replace(carrier, id=id, zone=zones.get(carrier.zone, carrier.zone and f"beside {carrier.zone}"))

    return (
        tuple(replace(want, carrier=rename(want.carrier, str(at))) for at, want in enumerate(wants)),
        tuple(rename(carrier, f"fixed {at}") for at, carrier in enumerate(fixed)),
    )


def _search(
    wants: Sequence[Want],
    fixed: Sequence[Carrier],
    blocks: Sequence[BlockedRange],
    rules: Rules,
    effort: int,
    stop: Stop,
    progress: Progress,
) -> FrequencyPlan:
    """The plan of one part."""
    problem = Problem(wants, fixed, blocks, rules)
    climb = Climb(problem, effort, stop, progress)
    best, is_most = climb.place_most()
    best, margin_hz, is_widest = widen(climb, best)
    # What is avoided is worth less than a margin, and more than one that is wide beyond use.
    kept_hz = min(margin_hz, ENOUGH_HZ) if any(problem.is_avoided_at(*one) for one in best) else margin_hz
    best = settle(problem, best, kept_hz)
    count = len(best)
    fill(add_all(problem.occupancy(), problem, best), problem, best, Dice())
    is_kept = kept_hz == margin_hz and len(best) == count
    return _report(climb, best, kept_hz if len(best) == count else 0, is_most, is_widest and is_kept)


def _report(climb: Climb, placing: Placing, kept_hz: int, is_most: bool, is_widest: bool) -> FrequencyPlan:
    problem = climb.problem
    margin_hz = find_margin_hz(problem, placing, kept_hz)
    occupancy = add_all(problem.occupancy(), problem, placing)
    placed: dict[int, int] = {}
    unplaced: dict[int, Unplaced] = {}
    for number, group in enumerate(problem.groups):
        places = sorted(place for which, place in placing if which == number)
        for want, place in zip(group.wants, places, strict=False):
            placed[want] = problem.places[want].hz_at(place)
        missing = group.wants[len(places) :]
        causes = problem.count_causes(missing[0], occupancy) if missing else ()
        for want in missing:
            unplaced[want] = Unplaced(problem.wants[want].carrier.id, problem.places[want].every.bit_count(), causes)
    return FrequencyPlan(
        {problem.wants[want].carrier.id: placed[want] for want in sorted(placed)},
        tuple(unplaced[want] for want in sorted(unplaced)),
        margin_hz,
        not unplaced or (is_most and problem.is_exact),
        is_widest and problem.is_exact,
        climb.spent,
        climb.stopped,
    )
