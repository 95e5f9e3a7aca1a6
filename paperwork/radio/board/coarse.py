"""The same carriers as fewer combs, so that a search over carriers of many kinds and times ends.

The work of a board grows with the fourth power of the combs that can meet. First the times are said in as few as tell
the same meetings: that changes nothing. What is still too much is looked at more coarsely, step by step: rare kinds as
one that asks for most, neighbouring times as one time, carriers of an exclusive group and of a zone as everybody's.
Each step lets more meet and asks for more, never for less: what is clean here is clean in truth, what is not may be.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from paperwork.radio.board.lattice import Comb, Lattice, positions_of
from paperwork.radio.board.meetings import list_meetings
from paperwork.radio.carrier import KIND_FIELDS, SHARES_PERCENT, WIDE_OVER_HZ, Rules, in_time_order, thin_times
from paperwork.radio.products.forms import FORMS

MOST_EQUATIONS = 20_000
"""Targets, each with one that joins and one or two others that it can meet, weighed by how wide the sets of a board are:
two seconds and 80 MB, measured. The largest real shows have a few hundred. A choice of this project."""

WEIGHED_BITS = 20_000
"""So many places on a lattice make its sums twice as dear."""

MOST_KINDS = 6
"""Kinds of carrier, by bandwidth and by what they state, that are kept apart in a board that is too large."""

ANY_KIND = "\0any"
"""The kind of carriers that are taken as one; no show can write it."""

Times = frozenset[str]


class CoarseBoard(NamedTuple):
    """Combs in the order given, of which some may have become one; rules that know every kind among them; whether
    nothing is forbidden that the exact ones allow."""

    combs: tuple[Comb, ...]
    rules: Rules
    is_same: bool


def make_board(combs: Sequence[Comb], target_count: int, lattice: Lattice, rules: Rules) -> CoarseBoard:
    """The combs, the first of which want places, as they are where that is not too many, else the least coarse."""
    weight = 1 + lattice.size // WEIGHED_BITS
    most = MOST_EQUATIONS // weight
    board = CoarseBoard(_thin(combs), rules, is_same=True)
    for coarser in _coarsen(board, lattice):
        if count_equations(board.combs, target_count, most) <= most:
            break
        board = coarser
    return board


def count_equations(combs: Sequence[Comb], target_count: int, most: int) -> int:
    """How many targets, each with one that joins and one or two others, can meet two by two; beyond `most` no more are
    counted."""
    targets = dict.fromkeys(combs[:target_count])
    meets = list_meetings([comb.family for comb in dict.fromkeys(combs)])
    count = 0
    for target in range(len(targets)):
        for comb in positions_of(meets[target]):
            near = meets[target] & meets[comb]
            for other in positions_of(near):
                count += 1 + ((near & meets[other]) >> other).bit_count()
                if count > most:
                    return count
    return count


def _thin(combs: Sequence[Comb]) -> tuple[Comb, ...]:
    """The combs in the fewest times."""
    return _with_times(combs, thin_times(comb.family.times for comb in combs))


def _with_times(combs: Sequence[Comb], names: Mapping[Times, Times]) -> tuple[Comb, ...]:
    return tuple(
        comb._replace(family=comb.family._replace(times=names.get(comb.family.times, comb.family.times)))
        for comb in combs
    )


def _coarsen(board: CoarseBoard, lattice: Lattice) -> Iterator[CoarseBoard]:
    """Boards of which each is coarser than the one before it; the last has one comb."""
    combs, rules = _join_kinds(_drop_groups(board.combs), board.rules, MOST_KINDS)
    yield CoarseBoard(combs, rules, is_same=False)
    while len({time for comb in combs for time in comb.family.times}) > 1:
        combs = _thin(_join_times(combs))
        yield CoarseBoard(combs, rules, is_same=False)
    combs = tuple(comb._replace(family=comb.family._replace(exclusive="", times=frozenset())) for comb in combs)
    yield CoarseBoard(combs, rules, is_same=False)
    half_hz = lattice.unit_hz // 2
    combs = tuple(comb._replace(offset_hz=half_hz, slack_hz=half_hz + 1) for comb in combs)
    yield CoarseBoard(combs, rules, is_same=False)
    combs = tuple(comb._replace(family=comb.family._replace(zone="")) for comb in combs)
    yield CoarseBoard(*_join_kinds(combs, rules, 1), is_same=False)


def _join_times(combs: Sequence[Comb]) -> tuple[Comb, ...]:
    """The combs with every two neighbouring times as one: of those that somebody shares, as long as there are two."""
    who = {comb.family.times for comb in combs}
    counts = Counter(time for times in who for time in times)
    shared = [time for time, count in counts.items() if count > 1]
    every = sorted(shared if len(shared) > 1 else counts, key=in_time_order)
    names = {time: f"\0{number // 2}" for number, time in enumerate(every)}
    return _with_times(combs, {times: frozenset(names.get(time, time) for time in times) for times in who})


def _drop_groups(combs: Sequence[Comb]) -> tuple[Comb, ...]:
    """The combs with the commonest exclusive groups alone."""
    counts = Counter(comb.family.exclusive for comb in combs if comb.family.exclusive)
    kept = {"", *(group for group, _ in counts.most_common(MOST_KINDS))}
    return tuple(
        comb if comb.family.exclusive in kept else comb._replace(family=comb.family._replace(exclusive=""))
        for comb in combs
    )


def _join_kinds(combs: Sequence[Comb], rules: Rules, most: int) -> tuple[tuple[Comb, ...], Rules]:
    """The combs with the commonest kinds as they are, and all others as one that asks for most of all."""
    kinds = Counter(comb.family[:KIND_FIELDS] for comb in combs)
    rare = {kind for kind, _ in kinds.most_common()[most - 1 :]} if len(kinds) > most else set()
    if not rare:
        return tuple(combs), rules
    widths, _, makes, listens = zip(*rare, strict=True)
    joined = tuple(
        comb._replace(
            family=comb.family._replace(bandwidth_hz=max(widths), kind=ANY_KIND, makes=any(makes), listens=any(listens))
        )
        if comb.family[:KIND_FIELDS] in rare
        else comb
        for comb in combs
    )
    return joined, _ask_most(rules, combs)


def _ask_most(rules: Rules, combs: Sequence[Comb]) -> Rules:
    """The rules with a kind that asks for as much distance, and is guarded as widely, as any of the combs."""
    widths = {comb.family.bandwidth_hz for comb in combs}
    narrow_hz = max((width for width in widths if width <= WIDE_OVER_HZ), default=0)
    wide_hz = max((width for width in widths if width > WIDE_OVER_HZ), default=0)
    guards: dict[tuple[str, str], int] = {}
    for form in FORMS:
        weighed_hz = narrow_hz * (1 + sum(map(abs, form.weights)))
        unstated_hz = -(-weighed_hz * SHARES_PERCENT[form.kind] // 200) + -(-wide_hz // 2) + 1
        stated = (hz for (_, kind), hz in rules.guards.items() if kind == form.kind)
        guards[ANY_KIND, form.kind] = max([unstated_hz, guards.get((ANY_KIND, form.kind), 0), *stated])
    apart = {(ANY_KIND, ""): max([rules.apart_hz, *rules.apart.values()])}
    return replace(rules, guards={**rules.guards, **guards}, apart={**rules.apart, **apart})
