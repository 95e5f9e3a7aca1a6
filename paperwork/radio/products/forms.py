"""The kinds of intermodulation product, each as one equation between carriers.

A product hits a victim when |product - victim| < guard; exactly at the guard is clean. Written as an
equation, 2a-b hits v when |2a - b - v| < guard, and so on.

Convention for a product that lands on one of its own makers. The makers of a product are different
carriers, and a product does not threaten its own makers, with one exception: a+b-c that lands on c. That
says the same as 2c-a on b and 2c-b on a, namely that c lies midway between a and b; the three are listed
as hits, because each has its own victim and guard, and gathered into one clash (`hits.gather`). Every
fifth-order product on its own maker repeats another hit and is left out.

Makers: every maker's type must make intermodulation, the doubled carrier's first, unless the rules say
close quarters. What the product strikes may be of any type.
"""

from collections.abc import Sequence
from typing import NamedTuple

from paperwork.radio.carrier import (
    FIFTH2,
    FIFTH3,
    KIND_FIELDS,
    THIRD2,
    THIRD3,
    Carrier,
    Family,
    Rules,
    are_together,
    guard_hz,
)


class Form(NamedTuple):
    """One equation: the sum of coefs[i] * carrier[i] is near 0.

    `text` names the product, `weights` are the makers' multiplicities and `victim` is the slot that is
    struck; the slots before `len(weights)` are makers. Slots in `alike` may be swapped without change.
    """

    text: str
    kind: str
    coefs: tuple[int, ...]
    weights: tuple[int, ...]
    victim: int
    alike: tuple[int, int] | None = None

    @property
    def lands_on_maker(self) -> bool:
        """Whether the victim is one of the makers."""
        return self.victim < len(self.weights)


FORMS = (
    Form("2a-b", THIRD2, (2, -1, -1), (2, -1), 2),
    Form("a+b-c", THIRD3, (1, 1, -1, -1), (1, 1, -1), 3, (0, 1)),
    Form("a+b-c", THIRD3, (1, 1, -2), (1, 1, -1), 2, (0, 1)),
    Form("3a-2b", FIFTH2, (3, -2, -1), (3, -2), 2),
    Form("2a+b-2c", FIFTH3, (2, 1, -2, -1), (2, 1, -2), 3),
    Form("3a-b-c", FIFTH3, (3, -1, -1, -1), (3, -1, -1), 3, (1, 2)),
)


def forms_of(rules: Rules) -> tuple[Form, ...]:
    """The equations that the rules count."""
    return tuple(form for form in FORMS if form.kind in rules.kinds)


def product_hz(form: Form, makers: Sequence[Carrier]) -> int:
    """Where the product of these makers, in the order of the form's text, lands."""
    return sum(weight * maker.hz for weight, maker in zip(form.weights, makers, strict=True))


class Judge:
    """Guards by family, remembered, because a big plan asks for the same few over and over."""

    def __init__(self, rules: Rules) -> None:
        self.rules = rules
        self.forms = forms_of(rules)
        self._guards: dict[tuple[Form, tuple[tuple[object, ...], ...]], int] = {}

    def may_make(self, family: Carrier | Family) -> bool:
        """Whether carriers of this family make products under the rules."""
        return family.makes or self.rules.close_quarters

    def guard_of(self, form: Form, families: tuple[Family, ...]) -> int:
        """The guard when the slots are filled with these families; 0, which nothing hits, when a maker makes
        none or the victim is not protected. Zones, times and exclusive groups are not looked at."""
        # Without zones, times and groups, of which there may be as many as carriers.
        key = form, tuple([family[:KIND_FIELDS] for family in families])
        if key not in self._guards:
            makers, victim = families[: len(form.weights)], families[form.victim]
            counts = victim.listens and all(map(self.may_make, makers))
            guard = guard_hz(self.rules, form.kind, victim, makers, form.weights) if counts else 0
            self._guards[key] = max(0, guard)
        return self._guards[key]

    def together(self, families: tuple[Family, ...]) -> bool:
        """Whether different carriers of these families can radiate at one moment."""
        if not any(family.exclusive or family.zone or family.times for family in families):
            return True
        return are_together(families)
