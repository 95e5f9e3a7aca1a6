"""The channel chart: which number is whom, on which frequency. Hangs at the rack, read from 1 m in the dim."""

from paperwork.coordinate import find_region
from paperwork.document import (
    Blank,
    Cell,
    Column,
    Group,
    Row,
    Sheet,
    Table,
    Tag,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.model import Channel, Show
from paperwork.plan.handovers import list_handovers
from paperwork.sheets.forms import rack_facts, rack_note, where_and_when
from paperwork.sheets.frame import frame_sheet, people_lines, subjects_in_rack, title_fact_of, title_of
from paperwork.styles import RACK_FREQUENCY, RACK_NOTE, RACK_NUMBER, RACK_ROLE, RACK_SLOT, RACK_SMALL, RACK_STRONG
from paperwork.units import format_mhz
from paperwork.words import words_of

ROW_UM = 14_000
"""Tall enough for a 10 mm figure with air around it; 16 channels stand on a page of A4."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, in rack order where there are racks, else in channel order; the head says which."""
    if not show.channels:
        return ()
    w = words_of(show.production.language)
    in_racks = any(channel.slots for channel in show.channels.values())
    columns = (
        Column(w["head channel"], 25_000, spares=True),
        Column(w["head role"], share=3, most_um=95_000),
        Column(w["head frequency"], 37_000, align="point", grow=1),
        Column(w["head pack"], 18_000, grow=1),
        Column(w["head capsule"], 22_000, grow=1),
        Column(w["head desk"], 25_000, grow=4),
    )
    groups = tuple(_rack_groups(show)) if in_racks else (Group(_rows(show, tuple(show.channels.values()))),)
    licence = show.production.licence
    caution = w["licence caution told"].format(licence=licence) if licence else w["licence caution"]
    return (
        frame_sheet(
            show,
            "channel-chart",
            w["channel chart"],
            (Table(columns, groups, row_um=ROW_UM),),
            subtitle=(w["chart order"] if in_racks else w["chart order plain"],),
            cautions=(caution, w["privacy caution"]),
        ),
    )


def _rack_groups(show: Show):
    w = words_of(show.production.language)
    for rack in show.racks.values():
        rows = _rows(show, show.channels_in(rack))
        if rows:
            yield Group(rows, w["rack"].format(rack=rack.id), rack_note(show, rack), facts=rack_facts(rack))
    loose = tuple(channel for channel in show.channels.values() if not channel.slots)
    if loose:
        yield Group(_rows(show, loose), w["no rack"])


def _rows(show: Show, channels: tuple[Channel, ...]) -> tuple[Row, ...]:
    return tuple(_row_of(show, channel) for channel in channels)


def _row_of(show: Show, channel: Channel) -> Row:
    slot = str(channel.slot) if channel.slot else ""
    return row(
        cell(fact(channel.id, RACK_NUMBER), key=True, hatch=channel.spare),
        cell(
            fact(title_of(show, channel), RACK_ROLE, of=title_fact_of(channel)),
            *people_lines(show, channel, RACK_SMALL),
            fact(channel.notes_to("deck"), RACK_NOTE),
        ),
        _frequency_cell(show, channel),
        cell(fact(channel.pack, RACK_SLOT), fact(slot, RACK_SMALL)),
        cell(fact(channel.capsule, RACK_STRONG), *_swap_tags(show, channel)),
        _desk_cell(show, channel),
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )


def _frequency_cell(show: Show, channel: Channel) -> Cell:
    """The frequency, and under it the TV channel that it is in, where the region is known."""
    if channel.hz is None:
        return cell(Blank())
    region = find_region(show.spectrum.region) if show.spectrum.region else None
    tv = region.tv_under(channel.hz) if region else None
    told = words_of(show.production.language)["tv"].format(channel=tv.name) if tv else ""
    where = where_and_when(show, channel, RACK_SMALL)
    return cell(fact(format_mhz(channel.hz), RACK_FREQUENCY), words(told, RACK_SMALL), *where)


def _swap_tags(show: Show, channel: Channel) -> tuple[Tag, ...]:
    count = len(list_handovers(show, channel))
    told = words_of(show.production.language)["swaps"].format(count=count)
    return (Tag(told, fact=f"swaps {count}"),) if count else ()


def _desk_cell(show: Show, channel: Channel) -> Cell:
    """The first analogue destination, as the desk counts it, and a line to write on.

    What the show notes of a channel stands under its people, where there is more room.
    """
    slot = channel.slot
    rack = show.racks.get(slot.rack) if slot else None
    for output in rack.outputs if rack else ():
        if slot and output.slot == slot.number:
            return cell(fact(f"{output.console} {output.input}", RACK_STRONG), WriteIn())
    return cell(words(" ", RACK_STRONG), WriteIn())
