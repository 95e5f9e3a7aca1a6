"""Every product that hits, by name: makers, victim and how far off.

Products that miss are never made. A four-carrier form is split in two pairs; the sums of the one half are
sorted, and the other half asks for the sums within its guard. So the work is n^2 log n plus the hits.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations, permutations

from paperwork.frozen import frozen
from paperwork.radio.carrier import KIND_FIELDS, Carrier, Family, Rules, split_by_zone
from paperwork.radio.products.forms import FORMS, Form, Judge, product_hz
from paperwork.radio.products.times import split_by_time


@frozen
class Hit:
    """A product on a victim. `makers` are ids in the order of `text`; `offset_hz` is product - victim."""

    kind: str
    text: str
    makers: tuple[str, ...]
    victim: str
    offset_hz: int


@frozen
class Clash:
    """One fact about carriers, though it may be a hit on several of them.

    a+b = c+v is four hits, one on each; an evenly spaced row of three is up to three. `offset_hz` is the
    distance of the nearest of them.
    """

    carriers: tuple[str, ...]
    offset_hz: int
    hits: tuple[Hit, ...]


def iterate_hits(carriers: Sequence[Carrier], rules: Rules) -> Iterator[Hit]:
    """Every hit among the carriers, zone by zone and form by form.

    Ids must be unique. A row of equal spaces has about n^3/3 hits: take as many as you need.
    """
    judge = Judge(rules)
    for zone, reached in split_by_zone(carriers):
        for form, filled in iterate_met(reached, judge):
            if not zone or any(carrier.zone for carrier in filled):
                yield _describe(form, filled)


def iterate_met(carriers: Sequence[Carrier], judge: Judge) -> Iterator[tuple[Form, tuple[Carrier, ...]]]:
    """The hits among carriers of which no two are in different zones, as a form and the carrier in each of its slots.

    Where few are on at one time, each time is looked at by itself: of acts that follow each other on the same frequencies
    nearly all that would hit never meets. What shares several times is found at the first of them.
    """
    day = split_by_time(carriers)
    if not day.is_parted:
        for form, slots in iterate_group(carriers, judge):
            yield form, tuple(carriers[i] for i in slots)
        return
    for time, there in day.parts:
        for form, slots in iterate_group(there, judge):
            filled = tuple(there[i] for i in slots)
            if day.first_of(filled) == time:
                yield form, filled


def iterate_group(carriers: Sequence[Carrier], judge: Judge) -> Iterator[tuple[Form, tuple[int, ...]]]:
    """The same as the index in each slot, however few of the carriers are ever on together."""
    families = [carrier.family for carrier in carriers]
    victims = [i for i, carrier in enumerate(carriers) if carrier.listens]
    makers = [i for i, carrier in enumerate(carriers) if judge.may_make(carrier)]
    for form in judge.forms:
        guard = widest_guard(form, families, judge)
        if guard:
            find = _find_fours if len(form.coefs) == 4 else _find_threes
            for slots, total_hz in find(form, carriers, makers, victims, guard):
                if _is_hit(form, slots, total_hz, families, judge):
                    yield form, slots


def list_hits(carriers: Sequence[Carrier], rules: Rules) -> tuple[Hit, ...]:
    """All hits, in the order of victims in `carriers`, nearest first."""
    return sort_hits(iterate_hits(carriers, rules), carriers)


def sort_hits(hits: Iterable[Hit], carriers: Sequence[Carrier]) -> tuple[Hit, ...]:
    """Hits among these carriers in the same order."""
    place = {carrier.id: i for i, carrier in enumerate(carriers)}
    return tuple(
        sorted(
            hits,
            key=lambda hit: (place[hit.victim], abs(hit.offset_hz), hit.kind, [place[maker] for maker in hit.makers]),
        )
    )


def gather(hits: Iterable[Hit]) -> tuple[Clash, ...]:
    """The hits put together where they state one fact, in order of first appearance."""
    groups: dict[frozenset[tuple[str, int]], list[Hit]] = {}
    for hit in hits:
        groups.setdefault(_fact(hit), []).append(hit)
    return tuple(_clash(group) for group in groups.values())


def _fact(hit: Hit) -> frozenset[tuple[str, int]]:
    """The equation behind the hit, without sides: the same for all hits that mirror each other."""
    coefs = {hit.victim: -1}
    for maker, weight in zip(hit.makers, _WEIGHTS[hit.text], strict=True):
        coefs[maker] = coefs.get(maker, 0) + weight
    items = sorted(coefs.items())
    sign = -1 if items[0][1] < 0 else 1
    return frozenset((name, sign * coef) for name, coef in items)


_WEIGHTS = {form.text: form.weights for form in FORMS}


def _clash(group: list[Hit]) -> Clash:
    names = dict.fromkeys(name for hit in group for name in (*hit.makers, hit.victim))
    return Clash(tuple(names), min(abs(hit.offset_hz) for hit in group), tuple(group))


def _describe(form: Form, slots: Sequence[Carrier]) -> Hit:
    makers, victim = slots[: len(form.weights)], slots[form.victim]
    offset_hz = product_hz(form, makers) - victim.hz
    return Hit(form.kind, form.text, tuple(maker.id for maker in makers), victim.id, offset_hz)


def _is_hit(form: Form, slots: tuple[int, ...], total_hz: int, families: Sequence[Family], judge: Judge) -> bool:
    """Whether the slots hold different carriers, in the one order that counts, on the air together, and the
    sum is within the guard."""
    if len(set(slots)) < len(slots):
        return False
    if form.alike and slots[form.alike[0]] > slots[form.alike[1]]:
        return False
    filled = tuple(families[i] for i in slots)
    return abs(total_hz) < judge.guard_of(form, filled) and judge.together(filled)


def widest_guard(form: Form, families: Iterable[Family], judge: Judge) -> int:
    """No guard of this form is wider, whichever of these families fill its slots.

    Every maker adds its own share, so the widest is met with one family in all maker slots, but for the
    rounding up of the two parts, hence the 2 Hz.
    """
    distinct = {family[:KIND_FIELDS]: family for family in families}
    guards = [
        judge.guard_of(form, (maker,) * (len(form.coefs) - 1) + (victim,))
        for maker in distinct.values()
        for victim in distinct.values()
    ]
    return max(guards, default=0) and max(guards) + 2


def _find_threes(
    form: Form, carriers: Sequence[Carrier], makers: list[int], victims: list[int], guard: int
) -> Iterator[tuple[tuple[int, ...], int]]:
    """Slots that may hit, each with the sum of its equation."""
    own = set(makers)
    allowed = sorted((i for i in victims if i in own or not form.lands_on_maker), key=lambda i: carriers[i].hz)
    lands = [carriers[i].hz for i in allowed]
    first, second, last = form.coefs
    for i, j in permutations(makers, 2):
        if form.alike and i > j:
            continue
        centre = first * carriers[i].hz + second * carriers[j].hz
        low = bisect_left(lands, (centre - guard) // -last)
        for at in range(low, bisect_right(lands, -((-centre - guard) // -last))):
            k = allowed[at]
            yield (i, j, k), centre + last * carriers[k].hz


def _find_fours(
    form: Form, carriers: Sequence[Carrier], makers: list[int], victims: list[int], guard: int
) -> Iterator[tuple[tuple[int, ...], int]]:
    """As `_find_threes`, for four carriers."""
    first, second, third, fourth = form.coefs
    choose = combinations if form.alike == (0, 1) else permutations
    pairs = sorted((first * carriers[i].hz + second * carriers[j].hz, i, j) for i, j in choose(makers, 2))
    sums = [pair[0] for pair in pairs]
    for v in victims:
        for k in makers:
            wanted = -third * carriers[k].hz - fourth * carriers[v].hz
            low = bisect_right(sums, wanted - guard)
            for at in range(low, bisect_left(sums, wanted + guard)):
                total, i, j = pairs[at]
                yield (i, j, k, v), total - wanted
