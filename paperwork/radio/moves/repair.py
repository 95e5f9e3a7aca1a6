"""The fewest moves that make a plan clean: which carriers go elsewhere, so that all others can stay where they are.

Each conflict names carriers of which one has to move. Sets of movers that answer every conflict are tried from the
cheapest up; the first whose members all find a place is the answer, and proved to be the fewest where every cheaper
set was tried.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace

from paperwork.frozen import frozen
from paperwork.radio.bands import BlockedRange
from paperwork.radio.board.lattice import Want
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.moves.movers import MoverSearch, Names
from paperwork.radio.products.hits import gather, list_hits
from paperwork.radio.search.climb import Climb
from paperwork.radio.search.fill import Placing
from paperwork.radio.search.settle import settle
from paperwork.radio.search.widen import carriers_of, find_margin_hz, widen
from paperwork.radio.spacing import list_close_pairs


@frozen
class Repaired:
    """`moved`: the new frequency of each that moves. `stuck`: those that have to move and found no place; they are where they
    were. `margin_hz`: the least that the moved have to spare. `is_fewest`: it is proved that fewer moves are not enough."""

    moved: dict[str, int]
    stuck: tuple[str, ...]
    margin_hz: int | None
    is_fewest: bool
    stopped: bool


def list_conflicts(carriers: Sequence[Carrier], rules: Rules, wrong: Collection[str] = ()) -> list[Names]:
    """Sets of carriers of which one has to move: those that are wrong by themselves, too near each other, or in one
    product that hits."""
    found = _single(wrong)
    found += (frozenset((pair.lower, pair.upper)) for pair in list_close_pairs(carriers, rules))
    found += (frozenset(clash.carriers) for clash in gather(list_hits(carriers, rules)))
    return list(dict.fromkeys(found))


def _single(names: Collection[str]) -> list[Names]:
    return [frozenset((name,)) for name in names]


def repair(
    wants: Sequence[Want],
    fixed: Sequence[Carrier],
    blocks: Sequence[BlockedRange],
    rules: Rules,
    *,
    wrong: Collection[str] = (),
    costly: Collection[str] = (),
    conflicts: Sequence[Names] | None = None,
    effort: int,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> Repaired:
    """The fewest of the wanted carriers, now at their `hz`, that have to move for all to be clean, and where to.

    `wrong` ones have to move whatever the others do; of `costly` ones as few as possible move, whatever the number of
    others. `conflicts` are given where fewer count than carriers have that all meet; then a place may be denied to a
    mover that it could have, and only conflicts prove what is fewest. What fixed carriers do to each other is not
    touched. Movers get the widest worst margin that they can have together. Those that find no place stay on the air,
    and the others keep clear of them.
    """
    may_stop = stop or (lambda: False)
    stuck: dict[str, Carrier] = {}
    while True:
        left = [want for want in wants if want.carrier.id not in stuck]
        held = [*fixed, *stuck.values()]
        bad = [name for name in wrong if name not in stuck]
        found = _repair(
            left, held, blocks, rules, bad, costly, conflicts, effort, may_stop, progress or (lambda *_: None)
        )
        if not found.stuck:
            return replace(found, stuck=tuple(stuck), is_fewest=found.is_fewest and not stuck)
        stuck |= {want.carrier.id: want.carrier for want in left if want.carrier.id in found.stuck}


def _repair(
    wants: Sequence[Want],
    fixed: Sequence[Carrier],
    blocks: Sequence[BlockedRange],
    rules: Rules,
    wrong: Collection[str],
    costly: Collection[str],
    conflicts: Sequence[Names] | None,
    effort: int,
    may_stop: Callable[[], bool],
    progress: Callable[[int, int, int], None],
) -> Repaired:
    """The fewest moves where each that has to move may find no place; then all are where they were."""
    counted = [*_single(wrong), *(conflicts or ())]
    if conflicts is None:
        counted = list_conflicts([*fixed, *(want.carrier for want in wants)], rules, wrong)
    search = MoverSearch(wants, fixed, blocks, rules, counted, costly, effort, may_stop)
    movers, hz, is_fewest = search.run(is_exact=conflicts is None)
    kept = [want.carrier for want in wants if want.carrier.id not in movers]
    problem = Problem([want for want in wants if want.carrier.id in movers], [*fixed, *kept], blocks, rules)
    climb = Climb(problem, max(1, effort // 4), may_stop, progress)
    placing = _lay(problem, hz)
    best, margin_hz, _ = widen(climb, placing)
    best = settle(problem, best, margin_hz)
    placed = {carrier.id: carrier.hz for carrier in carriers_of(problem, best)}
    was = {want.carrier.id: want.carrier.hz for want in problem.wants}
    moved = {id: hz for id, hz in placed.items() if hz != was[id]}
    stuck = tuple(id for id in was if id not in placed)
    least_hz = find_margin_hz(problem, best, margin_hz)
    return Repaired(moved, stuck, least_hz, is_fewest, may_stop() or climb.stopped)


def _lay(problem: Problem, hz: Mapping[str, int]) -> Placing:
    """The frequencies of a problem's channels as a placing."""
    named = [
        (number, problem.wants[want].carrier.id) for number, group in enumerate(problem.groups) for want in group.wants
    ]
    return [(number, problem.lattice.position(hz[id])) for number, id in named if id in hz]
