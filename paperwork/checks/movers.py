"""Which channels have to move, so that the frequencies of all others can stay: what a plan is asked in another house."""

from paperwork.checks.frequencies import draft_frequencies
from paperwork.codes import CODES
from paperwork.coordinate import gather_on_air
from paperwork.coordinate.assign import free_channels
from paperwork.model import Show
from paperwork.names import natural_key


def list_movers(show: Show, kept: frozenset[str] = frozenset()) -> tuple[str, ...]:
    """The ids of the channels whose frequency is not clean, each time the one that a finding would tell to move, until
    nothing is wrong with the rest. Those `kept` stay, whatever they disturb."""
    moved: set[str] = set()
    while True:
        on_air = gather_on_air(free_channels(show, moved))
        found = {
            subject.id
            for draft in draft_frequencies(on_air)
            if CODES[draft.code].severity == "error"
            for subject in on_air.subjects[draft.mover]
            if subject.section == "channels"
        } - kept
        if not found - moved:
            return tuple(sorted(moved, key=natural_key))
        moved |= found
