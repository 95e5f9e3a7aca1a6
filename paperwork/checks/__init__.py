"""Whether the show makes sense: small functions from the whole show to findings, one visible list.

A check is a generator named in its file's `CHECKS`; its codes are rows in `codes`. The order here is the order in
which one fault hides another: what sits nowhere cannot be patched wrongly.
"""

from collections.abc import Callable, Iterator

from paperwork.checks import gaps, glyphs, groups, licence, names, references
from paperwork.checks.air import frequencies, power, reach, spectrum, sweeps
from paperwork.checks.company import covers, people, performances, swaps
from paperwork.checks.gear import batteries, capsules, clock, outputs, packs, pairs, racks, slots
from paperwork.finding import Finding
from paperwork.model import Show

CHECKS: tuple[Callable[[Show], Iterator[Finding]], ...] = (
    *licence.CHECKS,
    *names.CHECKS,
    *groups.CHECKS,
    *references.CHECKS,
    *slots.CHECKS,
    *racks.CHECKS,
    *packs.CHECKS,
    *people.CHECKS,
    *swaps.CHECKS,
    *capsules.CHECKS,
    *covers.CHECKS,
    *batteries.CHECKS,
    *performances.CHECKS,
    *spectrum.CHECKS,
    *reach.CHECKS,
    *sweeps.CHECKS,
    *frequencies.CHECKS,
    *power.CHECKS,
    *outputs.CHECKS,
    *pairs.CHECKS,
    *clock.CHECKS,
    *glyphs.CHECKS,
    *gaps.CHECKS,
)


def check_show(show: Show) -> tuple[Finding, ...]:
    """Everything that does not make sense, in the order of the checks."""
    return tuple(finding for check in CHECKS for finding in check(show))


def check_since(old: Show, new: Show) -> tuple[Finding, ...]:
    """What is wrong only in the light of the last revision: digital pairs that changed sides."""
    return tuple(pairs.check_flips(old, new))
