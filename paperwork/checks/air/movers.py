"""Which channels have to move, so that the frequencies of all others can stay: what a plan is asked in another house."""

from collections.abc import Iterator

from paperwork.checks.air.drafts import Draft
from paperwork.checks.air.frequencies import draft_frequencies
from paperwork.codes import CODES
from paperwork.coordinate import OnAir, gather_on_air
from paperwork.coordinate.assign import free_channels
from paperwork.model import Show
from paperwork.text.names import natural_key


def list_movers(show: Show, kept: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """The ids of the channels whose frequency is not clean, each time those that findings would move, until
    nothing is wrong with the rest. Those `kept` stay, whatever they disturb."""
    moved: set[str] = set()
    while True:
        on_air = gather_on_air(free_channels(show, moved))
        drafts = [draft for draft in draft_frequencies(on_air) if CODES[draft.code].severity == "error"]
        found = {id for draft in drafts for id in _list_moving(on_air, draft)} - kept
        if not found - moved:
            return tuple(sorted(moved, key=natural_key))
        moved |= found


def _list_moving(on_air: OnAir, draft: Draft) -> Iterator[str]:
    """The channels of the carrier that would have to move; of a plan with more hits than are listed, the worse half."""
    for subject in (*on_air.subjects[draft.mover], *draft.movers):
        if subject.section == "channels":
            yield subject.id
