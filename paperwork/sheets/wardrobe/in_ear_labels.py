"""In-ear pack labels: who hears what, on the receiver pack itself."""

from paperwork.document import Label, Labels, Sheet
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.sheets.forms import marked_frequency
from paperwork.sheets.frame import frame_sheet
from paperwork.sheets.wardrobe.ears import Ears, list_ears
from paperwork.sheets.wardrobe.pack_labels import COPIES, STOCKS

NAME = "in-ear-labels"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of labels, two copies a pack. A carrier whose frequency is not given has none."""
    labels = tuple(_label_of(show, ears, ears.other.hz) for ears in list_ears(show) if ears.other.hz is not None)
    if not labels:
        return ()
    block = Labels(STOCKS[show.production.paper], labels)
    return (frame_sheet(show, NAME, "in-ear labels", (block,)),)


def _label_of(show: Show, ears: Ears, hz: int) -> Label:
    other, pack, listener = ears
    frequency = marked_frequency(show, other, hz)
    return Label(
        number=ears.number,
        role=listener or other.id,
        frequency=frequency,
        capsule=other.id if pack and listener else "",
        short_role=other.id,
        copies=COPIES,
        facts=(other.id, pack, listener, frequency),
        subjects=(Subject("others", other.id), *((Subject("people", listener),) if listener else ())),
        where=other.where.record,
    )
