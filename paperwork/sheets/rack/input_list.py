"""The input list: each destination in the order of its own inputs. Read in the hand at the desk, in the truck."""

from paperwork.document import Blank, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Console, Show
from paperwork.plan.patch import DeskInput, jack_of, list_inputs
from paperwork.plan.rules import letters_of
from paperwork.sheets import forms
from paperwork.sheets.frame import JOIN, frame_sheet, headed, phrase, subjects_in_rack, title_line

NAME = "input-list"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, each destination on a page of its own, so that it hangs where it is read. Needs outputs."""
    inputs = list_inputs(show)
    if not inputs:
        return ()
    named = dict.fromkeys(one.console for one in inputs)
    order = sorted(named, key=list({**show.consoles, **named}).index)
    columns = headed(
        show,
        Column("input head input", 17_000, align="right"),
        Column("input head jack", 32_000),
        Column("input head name", 32_000),
        Column("head channel", 20_000),
        Column("head role only", share=1),
        Column("input head from", 42_000),
    )
    groups = tuple(
        _group(show, id, [one for one in inputs if one.console == id], index) for index, id in enumerate(order)
    )
    body = Table(columns, groups, row_um=5_200)
    return (frame_sheet(show, NAME, "input list", (body,), order="input list order", cautions=("patch caution",)),)


def _group(show: Show, id: str, inputs: list[DeskInput], index: int) -> RowGroup:
    console = show.consoles.get(id, Console(id))
    wants = (
        phrase(show, console.level) if console.level else "",
        phrase(show, "pad in") if console.pad == "in" else "",
        phrase(show, "phantom on") if console.phantom == "on" else "",
    )
    note = "  ·  ".join(filter(None, (console.name, *wants, console.rate)))
    rows = tuple(_row_of(show, console, one) for one in inputs)
    facts = (id, console.name, console.level, console.pad, console.phantom, console.rate)
    return RowGroup(rows, id, note, new_page=index > 0, facts=facts)


def _row_of(show: Show, console: Console, one: DeskInput) -> TableRow:
    """What one input carries. Of two channels that claim its slot neither is certain: the number is a blank."""
    claims = show.claimants_of(show.racks[one.rack]).get(one.slot, ())
    number, name, who = cell(words("–", HAND)), cell(words("–", HAND)), cell(words(phrase(show, "empty"), HAND))
    if len(claims) > 1:
        number = cell(Blank("00", HAND_STRONG))
        who = cell(fact(JOIN.join(f"{channel.id}?" for channel in claims), HAND))
    elif claims:
        channel = claims[0]
        number = cell(fact(channel.id, HAND_STRONG))
        name = cell(forms.desk_line(show, channel, letters_of(console), HAND_STRONG))
        who = cell(title_line(show, channel, HAND))
    jack = f"{console.box} {jack_of(console, one.number)}" if console.box else ""
    plug = [f"{one.connector} {phrase(show, one.side)}"] if one.connector and one.side else [one.connector]
    parts = (f"{one.rack}.{one.slot}", phrase(show, f"input {one.kind}", copy=one.copy), *plug)
    source = f"{one.rack}.{one.slot} {one.kind} {one.copy} {one.connector} {one.side}"
    return row(
        cell(fact(str(one.number), HAND_STRONG)),
        cell(fact(jack, HAND) if jack else words("–", HAND)),
        name,
        number,
        who,
        cell(fact(", ".join(filter(None, parts)), HAND, of=source)),
        subjects=(
            Subject("consoles", one.console),
            Subject("racks", one.rack),
            *(s for channel in claims for s in subjects_in_rack(show, channel)),
        ),
        where=show.racks[one.rack].where.record,
    )
