"""Receiver strips: one for the front of each rack unit, cut to the opening of a 19-inch rack, read from 1 m."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from paperwork.document import CardSlot, Sheet, Strips, UnitStrip, fact, words
from paperwork.document.styles import RACK_SMALL, STRIP_NUMBER, STRIP_ROLE
from paperwork.model import Channel, Rack, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, phrase, subjects_in_rack, title_fact_of, title_of

NAME = "receiver-strips"

WIDTH_UM = 440_000
"""What is usable of a 19-inch opening, which is at least 450 mm wide (EIA-310; the figures are from memory)."""

LANDSCAPE = ("A4", "Letter")
"""On these half a strip is as long as the page is wide; larger paper takes it upright, and more of them."""

HEIGHT_UM, HEIGHTS_MM = 22_000, (8, 10, 12, 22, 44)
"""Half of a rack unit of 44.45 mm (EIA-310, from memory): it fits a blank panel and leaves the displays free. What
else a strip can be high: a whole unit, and what is left above or below a display (common practice, no source)."""


MOST_SLOTS, STRIP_SLOTS = 8, 4
"""No front has more slots, and most have four or fewer (common practice, no source): a unit of more is a rack whose
units are not given, and gets strips of four at the most, as even as can be."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet with the strips of all units, rack by rack; a unit without channels has none."""
    strips = tuple(strip for rack in show.racks.values() for strip in _strips_of(show, rack))
    if not strips:
        return ()
    sheet = frame_sheet(
        show,
        NAME,
        "receiver strips",
        (Strips(strips, WIDTH_UM, HEIGHT_UM, scaled=True, named=False),),
        order="strip order",
        landscape=show.production.paper in LANDSCAPE,
    )
    return (sheet,)


def _strips_of(show: Show, rack: Rack) -> Iterator[UnitStrip]:
    claimants = show.claimants_of(rack)
    for number, slots in _list_fronts(rack.units):
        if any(slot in claimants for slot in slots):
            key = "strip title" if len(rack.units) > 1 else "strip slots"
            title = phrase(show, key, rack=rack.id, unit=number, first=slots[0], last=slots[-1], count=len(slots))
            yield UnitStrip(
                title,
                tuple(_slot(show, rack, slot, claimants.get(slot, ())) for slot in slots),
                phrase(show, "rack", rack=rack.id),
                (rack.id, str(number), str(slots[0]), str(slots[-1])),
            )


def _list_fronts(units: Sequence[int]) -> Iterator[tuple[int, range]]:
    """The number of each unit, and the slots of each front that it has."""
    first = 1
    for number, size in enumerate(units, 1):
        count = -(-size // STRIP_SLOTS) if size > MOST_SLOTS else 1
        edges = [first + size * index // count for index in range(count + 1)]
        yield from ((number, range(one, two)) for one, two in pairwise(edges))
        first += size


def _slot(show: Show, rack: Rack, number: int, channels: tuple[Channel, ...]) -> CardSlot:
    """A disputed slot names its channels and has no number."""
    if not channels:
        return CardSlot(words("–", STRIP_NUMBER), (), (words(phrase(show, "empty"), RACK_SMALL),))
    channel = channels[0]
    if len(channels) > 1:
        text = fact(f"{' / '.join(one.id for one in channels)}?", RACK_SMALL)
        subjects = tuple(subject for one in channels for subject in subjects_in_rack(show, one))
        return CardSlot(words("?", STRIP_NUMBER), (), (text,), subjects=subjects, where=channel.where.record)
    output = next((f"{o.console} {o.input}" for o in rack.outputs if o.slot == number), "")
    mhz = forms.marked_frequency(show, channel, channel.hz) if channel.hz is not None else "____.______"
    joined = "   ".join(filter(None, (mhz, output)))
    small = (fact(mhz, RACK_SMALL, of=joined), *((words(output, RACK_SMALL),) if output else ()))
    return CardSlot(
        fact(channel.id, STRIP_NUMBER),
        (fact(title_of(show, channel), STRIP_ROLE, of=title_fact_of(show, channel)),),
        small,
        hatch=channel.spare,
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )
