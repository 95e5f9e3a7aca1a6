"""Room around each channel: where the margin leaves a choice, off what is avoided and far from all others."""

from paperwork.radio.board.lattice import positions_of
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import are_together
from paperwork.radio.search.fill import Placing, add_all

_ROUNDS = 3
"""Rounds in which a channel may move once more because another did."""


def settle(problem: Problem, placing: Placing, margin_hz: int) -> Placing:
    """The placing with each channel moved to where it has most room, this margin kept: off what it avoids first, then
    as far as can be from its nearest neighbour and, counted twice, from the edges of its ranges."""
    placing = sorted(placing, key=lambda item: item[1])
    empty = problem.occupancy(min(margin_hz, problem.most_margin_hz))
    for _ in range(_ROUNDS):
        before = placing.copy()
        _Settling(problem, placing).halve(empty, range(len(placing)))
        if placing == before:
            break
    return placing


class _Settling:
    """One round: channel by channel, each among all others where they are by then. By halves, so that n channels cost
    some n log n placings."""

    def __init__(self, problem: Problem, placing: Placing) -> None:
        self._problem, self._placing = problem, placing

    def halve(self, occupancy: Occupancy, part: range) -> None:
        """Move the channels of a part, on an occupancy that holds all others."""
        if len(part) > 1:
            for mine, others in (
                (part[: len(part) // 2], part[len(part) // 2 :]),
                (part[len(part) // 2 :], part[: len(part) // 2]),
            ):
                there = [self._placing[at] for at in others]
                self.halve(add_all(occupancy.copy(), self._problem, there), mine)
        elif part:
            at = part[0]
            self._placing[at] = self._placing[at][0], self._choose(occupancy, at)

    def _choose(self, occupancy: Occupancy, at: int) -> int:
        problem = self._problem
        number, place = self._placing[at]
        group = problem.groups[number]
        want = problem.wants[group.wants[0]]
        near = [carrier.hz for carrier in problem.fixed if are_together((carrier, want.carrier))]
        for other, (which, where) in enumerate(self._placing):
            one = problem.groups[which].wants[0]
            if other != at and are_together((problem.wants[one].carrier, want.carrier)):
                near.append(problem.places[one].hz_at(where))
        hz_at = problem.places[group.wants[0]].hz_at

        def rank(place: int) -> tuple[bool, int, int]:
            hz = hz_at(place)
            edges = [2 * min(hz - low, high - hz) for low, high in want.ranges if low <= hz <= high]
            room = min([abs(hz - other) for other in near] + edges[:1])
            return problem.is_avoided(group.wants[0], hz), -room, place

        free = positions_of(group.allowed & ~occupancy.total[group.comb])
        return min([place, *free], key=lambda one: (*rank(one)[:2], one != place, one))
