"""What each carrier has to spare: its nearest neighbour, and of each kind the product nearest to a hit.

To spare is what is left of a distance beyond what the rules want. Below 0 is what `list_close_pairs` and
`iterate_hits` find; 0 is clean. Of products with different guards the one with least to spare is the nearest.
"""

from bisect import bisect_left
from collections.abc import Collection, Iterator, Sequence
from itertools import combinations, permutations

from paperwork.frozen import frozen
from paperwork.radio.carrier import Carrier, Family, Rules, are_together, split_by_zone, wanted_apart_hz
from paperwork.radio.products.forms import Form, Judge
from paperwork.radio.products.hits import widest_guard


@frozen
class Margin:
    """A distance, what is wanted of it, and to what: `names` are a neighbour, or the makers in the order of `text`.

    To a neighbour it is edge to edge, rounded down and negative where the two overlap; to a product from its
    centre to the victim's.
    """

    kind: str
    text: str
    names: tuple[str, ...]
    distance_hz: int
    wanted_hz: int

    @property
    def spare_hz(self) -> int:
        """What is left beyond what is wanted."""
        return self.distance_hz - self.wanted_hz


NEIGHBOUR = "neighbour"


def find_neighbours(
    carriers: Sequence[Carrier], rules: Rules, among: Collection[str] | None = None
) -> dict[str, Margin]:
    """By carrier the neighbour with least to spare, of those that are on the air with it. With `among`, only pairs
    count in which one of these is."""
    found: dict[str, Margin] = {}
    for one, two in combinations(carriers, 2):
        if not are_together((one, two)) or (among is not None and one.id not in among and two.id not in among):
            continue
        gap_hz = (2 * abs(one.hz - two.hz) - one.bandwidth_hz - two.bandwidth_hz) // 2
        wanted_hz = wanted_apart_hz(rules, one, two)
        for name, other in ((one.id, two.id), (two.id, one.id)):
            if name not in found or gap_hz - wanted_hz < found[name].spare_hz:
                found[name] = Margin(NEIGHBOUR, NEIGHBOUR, (other,), gap_hz, wanted_hz)
    return found


def find_products(
    carriers: Sequence[Carrier], rules: Rules, among: Collection[str] | None = None
) -> dict[tuple[str, str], Margin]:
    """By carrier and kind the product with least to spare; none where no product of the kind is looked at there. With
    `among`, only products count in which one of these is, as a maker or struck."""
    found: dict[tuple[str, str], Margin] = {}
    judge = Judge(rules)
    for _, reached in split_by_zone(carriers):
        for form in judge.forms:
            for victim, margin in _Nearest(form, reached, judge, among).find():
                key = victim, form.kind
                if key not in found or margin.spare_hz < found[key].spare_hz:
                    found[key] = margin
    return found


def find_least_hz(carriers: Sequence[Carrier], rules: Rules, among: Collection[str]) -> int | None:
    """The least that any has to spare of what some of them have part in; None where nothing is near any of those."""
    margins = [*find_neighbours(carriers, rules, among).values(), *find_products(carriers, rules, among).values()]
    return min((margin.spare_hz for margin in margins), default=None)


class _Nearest:
    """One form among carriers of which no two are in different zones.

    The sums of its first two slots are sorted. For each filling of the others the search walks from the sum
    that would hit exactly to both sides, until nothing farther can have less to spare than what was found.
    """

    def __init__(self, form: Form, carriers: Sequence[Carrier], judge: Judge, among: Collection[str] | None) -> None:
        self._form, self._carriers, self._judge = form, carriers, judge
        self._families: list[Family] = [carrier.family for carrier in carriers]
        self._among = frozenset(i for i, carrier in enumerate(carriers) if among is None or carrier.id in among)
        self._makers = [i for i, carrier in enumerate(carriers) if judge.may_make(carrier)]
        self._widest_hz = widest_guard(form, self._families, judge)
        first, second = form.coefs[:2]
        choose = combinations if form.alike == (0, 1) else permutations
        pairs = choose(self._makers, 2) if self._widest_hz else ()
        self._pairs = sorted((first * carriers[i].hz + second * carriers[j].hz, i, j) for i, j in pairs)
        self._sums = [pair[0] for pair in self._pairs]

    def find(self) -> Iterator[tuple[str, Margin]]:
        """Each carrier that some product can strike, with the product that has least to spare."""
        makers = set(self._makers)
        for victim, carrier in enumerate(self._carriers):
            if self._pairs and carrier.listens and (victim in makers or not self._form.lands_on_maker):
                margin = self._find_one(victim)
                if margin:
                    yield carrier.id, margin

    def _find_one(self, victim: int) -> Margin | None:
        best: tuple[int, int, tuple[int, ...], int] | None = None
        thirds = [(third,) for third in self._makers if third != victim] if len(self._form.coefs) == 4 else [()]
        for third in thirds:
            rest = (*third, victim)
            if not self._judge.together(tuple(self._families[i] for i in rest)):
                continue
            coefs = self._form.coefs[2:]
            centre = -sum(coef * self._carriers[i].hz for coef, i in zip(coefs, rest, strict=True))
            for distance, slots in self._walk(centre, rest):
                if best and distance - self._widest_hz >= best[0]:
                    break
                filled = tuple(self._families[i] for i in slots)
                guard = self._judge.guard_of(self._form, filled)
                if guard and self._judge.together(filled) and (best is None or distance - guard < best[0]):
                    best = distance - guard, distance, slots, guard
        if best is None:
            return None
        names = tuple(self._carriers[i].id for i in best[2][: len(self._form.weights)])
        return Margin(self._form.kind, self._form.text, names, best[1], best[3])

    def _walk(self, centre: int, rest: tuple[int, ...]) -> Iterator[tuple[int, tuple[int, ...]]]:
        """Fillings of all slots with different carriers, with their distance, the nearest first."""
        above = bisect_left(self._sums, centre)
        below = above - 1
        while below >= 0 or above < len(self._sums):
            is_above = below < 0 or (
                above < len(self._sums) and self._sums[above] - centre < centre - self._sums[below]
            )
            total, i, j = self._pairs[above if is_above else below]
            above, below = above + is_above, below - (not is_above)
            if i not in rest and j not in rest and not self._among.isdisjoint((i, j, *rest)):
                yield abs(total - centre), (i, j, *rest)
