"""How many alike carriers fit at most: by spacing, by differences that may not repeat, and by trying everything.

A count that a search finds is a floor. Where one of these ceilings meets it, the count is proved.
"""

from bisect import bisect_left
from collections.abc import Sequence

from paperwork.radio.carrier import THIRD3, Carrier, Rules
from paperwork.radio.products.forms import FORMS, Judge
from paperwork.radio.spacing import centres_apart_hz


def pick_apart(places: Sequence[int], apart: int) -> list[int]:
    """The most of some ascending places, no two nearer than `apart`: on a line lowest first is the best there is."""
    picked: list[int] = []
    at = 0
    while at < len(places):
        picked.append(places[at])
        at = max(at + (apart <= 0), bisect_left(places, places[at] + apart, at))
    return picked


def bound_by_differences(span_hz: int, apart_hz: int, guard_hz: int) -> int | None:
    """The most marks within a span of which neighbours are `apart_hz` apart at least and no two differences are nearer
    to each other than `guard_hz`. None where the guard is 0, for then differences may repeat.

    Of n marks take the differences over one step, two steps, to r steps: M = rn - r(r+1)/2 of them. All are `apart_hz`
    at least and a guard from each other, so that they add up to M apart + guard M(M-1)/2 or more. The differences over
    j steps add up to the top j marks less the bottom j, so to j span - j(j-1) apart at most. Where for some r the
    first is more than the second, n do not fit. The argument is that of B. Lindström, An inequality for B2-sequences,
    Journal of Combinatorial Theory 6, 1969, for real marks (reference from memory; the tests hold it against the
    shortest rulers).
    """
    least_hz = min(guard_hz, apart_hz)
    if least_hz <= 0:
        return None
    count = 1
    while _may_fit(count + 1, span_hz, apart_hz, least_hz):
        count += 1
    return count


def _may_fit(count: int, span_hz: int, apart_hz: int, guard_hz: int) -> bool:
    for steps in range(1, count):
        several = steps * count - steps * (steps + 1) // 2
        needed = several * apart_hz + guard_hz * several * (several - 1) // 2
        room = span_hz * steps * (steps + 1) // 2 - apart_hz * (steps - 1) * steps * (steps + 1) // 3
        if needed > room:
            return False
    return True


def bound_alike(clean_hz: Sequence[int], like: Carrier, rules: Rules) -> int:
    """The most carriers like one that fit on some ascending frequencies, each of which is clean for one alone."""
    if not clean_hz:
        return 0
    apart_hz = centres_apart_hz(rules, like, like)
    most = len(pick_apart(clean_hz, apart_hz))
    judge = Judge(rules)
    three = [judge.guard_of(form, (like.family,) * len(form.coefs)) for form in FORMS if form.kind == THIRD3]
    guard_hz = min(three) if THIRD3 in rules.kinds and judge.together((like.family,) * 4) else 0
    bound = bound_by_differences(clean_hz[-1] - clean_hz[0], apart_hz, guard_hz)
    return most if bound is None else min(most, bound)
