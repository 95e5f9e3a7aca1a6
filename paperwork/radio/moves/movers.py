"""Which channels move: sets of movers, each with the places that were found for it.

Sets that answer every conflict are tried from the cheapest up (`_branch`), which proves what is fewest in small plans.
In large ones a plan in which all are placed is made and then brought home (`stay`), and the sets that are cheaper are
tried with what is left.
"""

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Sequence

from paperwork.radio.bands import BlockedRange
from paperwork.radio.board.lattice import Want
from paperwork.radio.board.occupancy import Occupancy
from paperwork.radio.board.problem import Problem
from paperwork.radio.carrier import Carrier, Rules
from paperwork.radio.moves.stay import bring_home
from paperwork.radio.search.climb import WORK_A_UNIT
from paperwork.radio.search.dice import Dice
from paperwork.radio.search.exhaust import Exhaustion, OutOfWork
from paperwork.radio.search.fill import Placing, fill

_PLACE_UNITS = 20
"""What trying everything may cost for one set of movers."""

_WORTH = 4
"""Each channel that does not move saves papers and labels: so many times the work of a new plan is spent for it."""

_NODE_WORK = 20
"""What looking at one set of movers costs, in the measure of placing."""

Names = frozenset[str]


class MoverSearch:
    """A search for the cheapest movers. All wants are on one lattice, whoever moves."""

    def __init__(
        self,
        wants: Sequence[Want],
        fixed: Sequence[Carrier],
        blocks: Sequence[BlockedRange],
        rules: Rules,
        conflicts: Sequence[Names],
        costly: Collection[str],
        effort: int,
        stop: Callable[[], bool],
    ) -> None:
        self._wants = {want.carrier.id: want for want in wants}
        self._problem = Problem(wants, fixed, blocks, rules, guests=[want.carrier for want in wants])
        self._base = self._problem.occupancy()
        self._number = {wants[at].carrier.id: at for at in range(len(wants))}
        self._group = {at: number for number, group in enumerate(self._problem.groups) for at in group.wants}
        self._home = {id: self._find_home(id) for id in self._wants}
        self._stop = stop
        self._cost = {id: len(wants) + 1 if id in costly else 1 for id in self._wants}
        movable = frozenset(self._wants)
        self._conflicts = [one & movable for one in conflicts if one & movable]
        self._shares = Counter(name for one in self._conflicts for name in one)
        self._until = effort * WORK_A_UNIT * _WORTH
        self._known: dict[Names, tuple[Placing, bool]] = {}
        self._is_sure = True

    def run(self, is_exact: bool = True) -> tuple[Names, dict[str, int], bool]:
        """The cheapest movers that all find a place, their frequencies, and whether that is proved; where no set was found of
        which all do, one of which most do. Where places are denied that would do (not `is_exact`), conflicts alone prove it."""
        movers = self._cover()
        placing = self._place(movers)
        most = self._price(movers) if len(placing) == len(movers) else self._price(self._wants) + 1
        least = self._bound(frozenset())
        limit, self._is_sure, until = least, True, self._until
        self._until = until // 2
        while limit < most and self._may_go_on():
            found = self._branch(frozenset(), frozenset(), limit)
            if found is not None:
                movers, placing, most = found, self._place(found), self._price(found)
            else:
                limit += 1
        hz = self._name(movers, placing)
        if not (self._is_sure and limit >= most):
            movers, hz = self._look_further(movers, placing, until)
            most = self._price(movers)
        is_proved = most == least or (is_exact and self._is_sure and limit >= most)
        return movers, hz, is_proved and len(hz) == len(movers)

    def _find_home(self, id: str) -> tuple[int, int] | None:
        """The group and place at which a channel is now; None where it could not be put there again."""
        number, hz = self._number[id], self._wants[id].carrier.hz
        place, places = self._problem.lattice.position(hz), self._problem.places[number]
        is_there = place >= 0 and places.allowed >> place & 1 and places.hz_at(place) == hz
        return (self._group[number], place) if is_there else None

    def _look_further(self, movers: Names, placing: Placing, until: int) -> tuple[Names, dict[str, int]]:
        """The best plan that is found with half of the work that is left, and with the other half only where that plan
        is not whole: then as many are freed as it takes."""
        self._until = until - (until - self._problem.meter.work) // 2
        first = self._bring_home(*self._release(movers, placing, least=1))
        if len(first[0]) == len(first[1]):
            self._until = until
            return self._bring_home(*self._again(first))
        self._until = until
        second = self._bring_home(*self._release(movers, placing, least=0))
        return min(second, first, key=lambda one: len(one[0]) - len(one[1]))

    def _again(self, found: tuple[Names, dict[str, int]]) -> tuple[Names, Placing]:
        """MoverSearch and frequencies as movers and places."""
        movers, hz = found
        return movers, [(self._group_of(id), self._problem.lattice.position(one)) for id, one in hz.items()]

    def _release(self, movers: Names, placing: Placing, *, least: int) -> tuple[Names, Placing]:
        """The movers and as few more as it takes for all to find a place: each time the one that leaves most room for
        itself and for those without, as long as that are `least` places."""
        while len(placing) < len(movers) and len(movers) < len(self._wants) and self._may_go_on():
            staying = self._order(self._wants.keys() - movers)
            counts = Counter(number for number, _ in placing)
            wanted = Counter(self._group_of(id) for id in movers)
            short = [number for number, count in wanted.items() if counts[number] < count]
            rooms = self._list_rooms(self._base.copy(), staying, short)
            freed = max(staying, key=lambda id: (rooms[id], -self._cost[id]))
            if rooms[freed] < least:
                break
            movers |= {freed}
            placing = self._place(movers)
        return movers, placing

    def _list_rooms(self, occupancy: Occupancy, staying: list[str], short: list[int]) -> dict[str, int]:
        """For each of those that stay, how many places those without one, or itself, would have at least without it."""
        if len(staying) == 1:
            id, groups = staying[0], self._problem.groups
            frees = {at: groups[at].allowed & ~occupancy.total[groups[at].comb] for at in {*short, self._group_of(id)}}
            own, home = frees[self._group_of(id)], self._home[id]
            own_room = own.bit_count() - (home is not None and own >> home[1] & 1)
            return {id: min([own_room, *(frees[at].bit_count() for at in short)])}
        middle = len(staying) // 2
        rooms: dict[str, int] = {}
        for mine, others in ((staying[:middle], staying[middle:]), (staying[middle:], staying[:middle])):
            there = [self._wants[id].carrier for id in others]
            rooms |= self._list_rooms(self._problem.place(occupancy.copy(), there), mine, short)
        return rooms

    def _bring_home(self, movers: Names, placing: Placing) -> tuple[Names, dict[str, int]]:
        """Those that move in the best plan of all, and their frequencies."""
        wrong = {id for one in self._conflicts if len(one) == 1 for id in one}
        pinned = [id for id, home in self._home.items() if home is None and id not in movers]
        homes: dict[tuple[int, int], list[int]] = {}
        for id in self._order(self._wants.keys() - wrong, dearest=True):
            home = self._home[id]
            if home is not None:
                homes.setdefault(home, []).append(self._cost[id])
        base = self._problem.place(self._base.copy(), [self._wants[id].carrier for id in pinned])
        there = [home for id, home in self._home.items() if id not in movers and home is not None]
        start = [*self._entries(pinned), *there, *placing]
        best = bring_home(self._problem, base, self._entries(pinned), homes, start, self._until, self._stop)
        return self._tell_apart(best[len(pinned) :], frozenset(pinned), wrong)

    def _tell_apart(self, placing: Placing, pinned: Names, wrong: set[str]) -> tuple[Names, dict[str, int]]:
        """Who is at home in a placing, and what the others of each group get."""
        left, staying = Counter(placing), set(pinned)
        for id in self._order(self._wants.keys() - wrong - pinned, dearest=True):
            home = self._home[id]
            if home is not None and left[home]:
                left[home] -= 1
                staying.add(id)
        movers = frozenset(self._wants.keys() - staying)
        return movers, self._name(movers, sorted(left.elements()))

    def _name(self, movers: Names, placing: Placing) -> dict[str, int]:
        """The frequencies of movers, as many as there are places for."""
        places: dict[int, list[int]] = {}
        for number, place in sorted(placing, reverse=True):
            places.setdefault(number, []).append(place)
        found = {}
        for id, at in self._number.items():
            if id in movers and places.get(self._group[at]):
                found[id] = self._problem.places[at].hz_at(places[self._group[at]].pop())
        return found

    def _entries(self, ids: Iterable[str]) -> Placing:
        """Channels that are placed for good, counted in their groups; nobody asks for the place."""
        return [(self._group_of(id), -1) for id in ids]

    def _group_of(self, id: str) -> int:
        return self._group[self._number[id]]

    def _price(self, movers: Iterable[str]) -> int:
        return sum(self._cost[id] for id in movers)

    def _may_go_on(self) -> bool:
        may = self._problem.meter.work < self._until and not self._stop()
        self._is_sure = self._is_sure and may
        return may

    def _order(self, names: Iterable[str], *, dearest: bool = False) -> list[str]:
        """The cheapest first, or the dearest, and of equals that with most conflicts."""
        sign = -1 if dearest else 1
        return sorted(names, key=lambda id: (sign * self._cost[id], -self._shares[id], -self._number[id]))

    def _cover(self) -> Names:
        """MoverSearch that answer every conflict, taken greedily: those with most conflicts for their price first."""
        movers: set[str] = set()
        left = self._conflicts
        while left:
            shares = Counter(name for one in left for name in one)
            best = max(self._order(shares), key=lambda id: shares[id] / self._cost[id])
            movers.add(best)
            left = [one for one in left if best not in one]
        return frozenset(movers)

    def _bound(self, movers: Names) -> int:
        """No set with these movers is cheaper: conflicts that share nobody each take one more."""
        used: set[str] = set()
        price = self._price(movers)
        for one in sorted((one for one in self._conflicts if not one & movers), key=len):
            if used.isdisjoint(one):
                used |= one
                price += min(self._cost[id] for id in one)
        return price

    def _branch(self, movers: Names, staying: Names, limit: int) -> Names | None:
        """Movers with these and without those that stay, within a price; None if there are none or all is spent."""
        self._problem.meter.work += _NODE_WORK
        if self._bound(movers) > limit or not self._may_go_on():
            return None
        unanswered = [one - staying for one in self._conflicts if not one & movers]
        if not unanswered and len(self._place(movers)) == len(movers):
            return movers
        choices = min(unanswered, key=len) if unanswered else self._wants.keys() - movers - staying
        for id in self._order(choices):
            found = self._branch(movers | {id}, staying, limit)
            if found is not None:
                return found
            staying |= {id}
        return None

    def _place(self, movers: Names) -> Placing:
        """Places for the movers, as many as are found."""
        if movers not in self._known:
            self._known[movers] = self._search(movers)
        placing, is_sure = self._known[movers]
        self._is_sure = self._is_sure and is_sure
        return placing

    def _search(self, movers: Names) -> tuple[Placing, bool]:
        problem, meter = self._problem, self._problem.meter
        staying = [id for id in self._wants if id not in movers]
        empty = problem.place(self._base.copy(), [self._wants[id].carrier for id in staying])
        there = self._entries(staying)
        placing = [*there]
        fill(empty.copy(), problem, placing, Dice())
        placing = placing[len(there) :]
        if len(placing) == len(movers):
            return placing, True
        taken = Counter(number for number, _ in there)
        left = tuple(len(group.wants) - taken[number] for number, group in enumerate(problem.groups))
        try:
            found = Exhaustion(problem, meter.work + _PLACE_UNITS * WORK_A_UNIT).place(empty, left, len(movers))
        except OutOfWork:
            return placing, False
        return found or placing, problem.is_exact or found is not None
