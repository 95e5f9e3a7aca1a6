"""In-ear pack labels: who hears what, on the receiver pack itself."""

from collections.abc import Iterator
from itertools import zip_longest

from paperwork.document import Label, Labels, Sheet
from paperwork.finding import Subject
from paperwork.model import Other, Show
from paperwork.sheets.frame import frame_sheet
from paperwork.sheets.pack_labels import COPIES, STOCKS
from paperwork.units import format_mhz
from paperwork.words import words_of

KIND = "in-ear"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of labels, two copies a pack. A carrier whose frequency is not told has none."""
    labels = tuple(
        label for other in show.others.values() if other.kind == KIND and other.hz is not None
        for label in _labels_of(show, other)
    )
    if not labels:
        return ()
    w = words_of(show.production.language)
    block = Labels(STOCKS[show.production.paper], labels)
    return (frame_sheet(show, "in-ear-labels", w["in-ear labels"], (block,)),)


def _labels_of(show: Show, other: Other) -> Iterator[Label]:
    """One for each pack and each listener, who belong together in their order."""
    frequency = format_mhz(other.hz) if other.hz is not None else ""
    for pack, listener in zip_longest(other.packs, other.listeners or ("",), fillvalue=""):
        yield Label(
            number=pack or other.id, role=listener or other.id, frequency=frequency, capsule=other.id if pack and listener else "",
            short_role=other.id, copies=COPIES, facts=(other.id, pack, listener, frequency),
            subjects=(Subject("others", other.id), *((Subject("people", listener),) if listener else ())),
            where=other.where.record,
        )
