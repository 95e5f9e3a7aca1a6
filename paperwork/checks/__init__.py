"""Whether the show makes sense: small functions from the whole show to findings, one visible list.

A check is a generator named in its file's `CHECKS`; its codes are rows in `codes`. The order here is the order in
which one fault hides another: what sits nowhere cannot be patched wrongly.
"""

from collections.abc import Callable, Iterator

from paperwork.checks import capsules, frequencies, glyphs, outputs, packs, slots
from paperwork.finding import Finding
from paperwork.model import Show

CHECKS: tuple[Callable[[Show], Iterator[Finding]], ...] = (
    *slots.CHECKS,
    *packs.CHECKS,
    *capsules.CHECKS,
    *frequencies.CHECKS,
    *outputs.CHECKS,
    *glyphs.CHECKS,
)


def check_show(show: Show) -> tuple[Finding, ...]:
    """Everything that does not make sense, in the order of the checks."""
    return tuple(finding for check in CHECKS for finding in check(show))
