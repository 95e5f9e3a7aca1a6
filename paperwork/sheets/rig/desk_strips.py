"""Desk strips: the names under the faders of each destination, in the order of its inputs, to be cut out."""

from collections.abc import Iterator, Mapping

from paperwork.document import Block, CardSlot, Sheet, Strips, UnitStrip, fact, words
from paperwork.document.styles import STRIP_DESK, STRIP_INPUT, STRIP_OWN
from paperwork.finding import Subject
from paperwork.model import Console, Show
from paperwork.plan.patch import DeskInput, list_inputs
from paperwork.plan.rules import letters_of
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, phrase, subjects_in_rack

NAME = "desk-strips"

HEIGHT_UM = 18_000
"""Room for a name, and for revision and code set upwards at the end."""

BANK = 8
"""Inputs of one strip: faders come in banks of eight (common practice, no source)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, desk by desk; a bank in which nothing is patched has no strip. Needs outputs, and a desk that says
    how wide its strip is."""
    inputs = list_inputs(show)
    blocks: list[Block] = []
    for console in show.consoles.values():
        own = {one.number: one for one in inputs if one.console == console.id}
        if own and console.strip:
            strips = tuple(_strips_of(show, console, own))
            blocks.append(Strips(strips, console.strip * 1_000 * BANK, HEIGHT_UM))
    if not blocks:
        return ()
    landscape = show.production.paper in ("A4", "Letter")
    return (frame_sheet(show, NAME, "desk strips", tuple(blocks), order="desk strips order", landscape=landscape),)


def _strips_of(show: Show, console: Console, inputs: Mapping[int, DeskInput]) -> Iterator[UnitStrip]:
    for first in range(1, max(inputs) + 1, BANK):
        numbers = range(first, first + BANK)
        if any(number in inputs for number in numbers):
            title = phrase(show, "desk strips bank", first=first, last=first + BANK - 1)
            slots = tuple(_slot(show, console, number, inputs.get(number)) for number in numbers)
            desk = tuple(dict.fromkeys((console.id, console.name or console.id)))
            yield UnitStrip(title, slots, desk[-1], (*desk, str(first)))


def _slot(show: Show, console: Console, number: int, one: DeskInput | None) -> CardSlot:
    """The name as the desk shows it, over the input and the channel; a disputed slot has a line for a pen."""
    claims = show.claimants_of(show.racks[one.rack]).get(one.slot, ()) if one else ()
    about = Subject("consoles", console.id)
    if len(claims) != 1:
        return CardSlot(fact(str(number), STRIP_INPUT), (words(" ", STRIP_DESK),), subjects=(about,))
    channel = claims[0]
    return CardSlot(
        fact(str(number), STRIP_INPUT),
        (forms.desk_line(show, channel, letters_of(console), STRIP_DESK),),
        (fact(channel.id, STRIP_OWN),),
        channel.spare,
        subjects=(about, *subjects_in_rack(show, channel)),
        where=channel.where.record,
    )
