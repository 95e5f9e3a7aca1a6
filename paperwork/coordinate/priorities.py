"""Who gets a frequency where not all can: those that must, then the acts of a bill as evenly as can be."""

from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import replace

from paperwork.frozen import frozen
from paperwork.radio.board.lattice import Want
from paperwork.radio.carrier import Carrier
from paperwork.radio.search.assign import FrequencyPlan

Search = Callable[[Sequence[Want], Sequence[Carrier]], FrequencyPlan]
"""A search for some wants beside carriers that stay; blocks, rules and effort are in it."""

Act = frozenset[str]
"""The times in which a carrier is powered; empty for always."""

TRIES = 4
"""So many fewer of the others are tried beside those that must, which then are placed alone. Our own choice."""


def search_by_rank(
    wants: Sequence[Want], must: Collection[str], fixed: Sequence[Carrier], search: Search
) -> FrequencyPlan:
    """A plan for the wants. Where not all fit, as many as can of those in `must` (ids of carriers) have a place, whatever
    others lose by it; and acts give each other places as long as the total stays, until none has two more than another.

    Alike wants come in their order: who is first has a place before who is last.
    """
    ordered = tuple(sorted(wants, key=lambda want: want.carrier.id not in must))
    first = plan = search(ordered, fixed)
    if not plan.unplaced:
        return plan
    ranking = _Ranking(ordered, frozenset(must), tuple(fixed), search)
    if any(one.id in must for one in plan.unplaced):
        plan = ranking.lead(plan)
    plan = ranking.share_out(plan)
    return replace(plan, is_most=first.is_most and len(plan.placed) == len(first.placed))


@frozen
class _Ranking:
    wants: tuple[Want, ...]
    must: frozenset[str]
    fixed: tuple[Carrier, ...]
    search: Search

    def lead(self, plan: FrequencyPlan) -> FrequencyPlan:
        """The plan with more of those that must: beside as many others as had a place, beside some fewer, alone."""
        room = max(0, len(plan.placed) - len(self.must))
        for others in dict.fromkeys([*range(room, max(room - TRIES, 0), -1), 0]):
            found = self._in_two(self.wants[: len(self.must) + others])
            if self._count(found) > self._count(plan):
                plan = found
            if self._count(plan) == len(self.must):
                break
        return plan

    def share_out(self, plan: FrequencyPlan) -> FrequencyPlan:
        """The plan with places handed from the act that has most to the one that has least of those that lack some."""
        asked = Counter(want.carrier.times for want in self.wants)
        while True:
            has = Counter(want.carrier.times for want in self.wants if want.carrier.id in plan.placed)
            least = min((act for act in asked if has[act] < asked[act]), key=lambda act: has[act], default=None)
            most = max(asked, key=lambda act: has[act], default=None)
            if least is None or most is None or has[most] - has[least] < 2:
                return plan
            found = self._in_two(self._choose({**has, most: has[most] - 1, least: has[least] + 1}))
            then = Counter(want.carrier.times for want in self.wants if want.carrier.id in found.placed)
            is_fewer = len(found.placed) < len(plan.placed) or self._count(found) < self._count(plan)
            if is_fewer or then[least] <= has[least]:
                return plan
            plan = found

    def _choose(self, quotas: Mapping[Act, int]) -> list[Want]:
        """The first wants of each act, as many as it may have; those that must are first."""
        taken: Counter[Act] = Counter()
        chosen = []
        for want in self.wants:
            if taken[want.carrier.times] < quotas.get(want.carrier.times, 0):
                taken[want.carrier.times] += 1
                chosen.append(want)
        return chosen

    def _in_two(self, leading: Sequence[Want]) -> FrequencyPlan:
        """The plan of some wants alone, then of all others beside it."""
        first = self.search(leading, self.fixed)
        there = [
            replace(one.carrier, hz=first.placed[one.carrier.id]) for one in leading if one.carrier.id in first.placed
        ]
        second = self.search([one for one in self.wants if one.carrier.id not in first.placed], [*self.fixed, *there])
        placed = {**first.placed, **second.placed}
        return replace(
            second,
            placed={one.carrier.id: placed[one.carrier.id] for one in self.wants if one.carrier.id in placed},
            margin_hz=min((one.margin_hz for one in (first, second) if one.margin_hz is not None), default=None),
            is_widest=False,
            is_most=False,
            spent=first.spent + second.spent,
            stopped=first.stopped or second.stopped,
        )

    def _count(self, plan: FrequencyPlan) -> int:
        """How many that must have a place."""
        return len(self.must & plan.placed.keys())
