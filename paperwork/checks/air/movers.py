"""Which channels and in-ears have to move, so that all others can stay: what another house asks."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from paperwork.checks.air.drafts import Draft
from paperwork.checks.air.frequencies import draft_frequencies
from paperwork.codes import CODES
from paperwork.coordinate import BACKUPS, OnAir, gather_on_air
from paperwork.coordinate.freed import free_channels, is_movable
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.text.names import natural_key


class Movers(NamedTuple):
    """The ids of channels that have to move, of those whose backup has to, and of in-ears and their like."""

    channels: tuple[str, ...]
    backups: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


def list_movers(show: Show, kept: frozenset[Subject] = frozenset()) -> Movers:
    """The channels whose frequency or backup is not clean, each time those that findings would move, until
    nothing is wrong with the rest. Those `kept` stay, whatever they disturb."""
    moved: set[Subject] = set()
    while True:
        movers = Movers(*(_sort_ids(moved, section) for section in ("channels", BACKUPS, "others")))
        on_air = gather_on_air(free_channels(show, *movers))
        drafts = [draft for draft in draft_frequencies(on_air) if CODES[draft.code].severity == "error"]
        found = {one for draft in drafts for one in _list_moving(on_air, draft)} - kept
        if not found - moved:
            return movers
        moved |= found


def _sort_ids(subjects: Iterable[Subject], section: str) -> tuple[str, ...]:
    return tuple(sorted((one.id for one in subjects if one.section == section), key=natural_key))


def _list_moving(on_air: OnAir, draft: Draft) -> Iterator[Subject]:
    """The channels of the carrier that would have to move; of a plan with more hits than are listed, the worse half."""
    for subject in (*on_air.subjects[draft.mover], *draft.movers):
        if subject.section != "others" or is_movable(on_air.show, on_air.show.others[subject.id]):
            yield subject
