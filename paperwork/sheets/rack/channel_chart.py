"""The channel chart: which number is whom, on which frequency. Hangs at the rack, read from 1 m in the dim."""

from paperwork.coordinate import region_of
from paperwork.document import Blank, Cell, Column, Sheet, Table, TableRow, Tag, WriteIn, cell, fact, row
from paperwork.document.sheet import WALL_PAPERS
from paperwork.document.styles import RACK_FREQUENCY, RACK_GEAR, RACK_NOTE, RACK_ROLE, RACK_SLOT, RACK_SMALL
from paperwork.model import Channel, Show
from paperwork.plan.handovers import list_handovers
from paperwork.plan.patch import outputs_of
from paperwork.sheets.forms import number_cell, rack_groups, tape_tags, where_and_when
from paperwork.sheets.frame import frame_sheet, headed, people_lines, phrase, subjects_in_rack, title_line
from paperwork.text.units import format_mhz

NAME = "channel-chart"

ROW_UM = 14_000
"""Tall enough for a 9 mm figure with air around it; set closer, 18 channels of three racks stand on a page of A4."""


LEAST_UM = 150_000
"""So wide is a rack where two stand side by side on paper for a wall: long roles break there."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, in rack order where there are racks, else in channel order; the head says which."""
    if not show.channels:
        return ()
    on_wall = show.production.paper in WALL_PAPERS
    in_racks = any(channel.slots for channel in show.channels.values())
    columns = headed(
        show,
        Column("head channel", 21_000, spares=True),
        Column("head role", share=3, most_um=95_000),
        Column("head frequency", 30_000, align="point", grow=1),
        Column("head pack", 16_500 if on_wall else 19_000, grow=1),
        Column("head capsule", 22_500, grow=1),
        Column("head desk", 24_500 if on_wall else 26_500, grow=4),
    )
    groups = tuple(rack_groups(show, _row_of, is_racked=in_racks))
    return (
        frame_sheet(
            show,
            NAME,
            "channel chart",
            (Table(columns, groups, row_um=ROW_UM, least_um=LEAST_UM if on_wall else 0),),
            subtitle=(phrase(show, "chart order") if in_racks else phrase(show, "chart order plain"),),
            cautions=("licence caution", "privacy caution"),
            facts=("racks" if in_racks else "",),
            landscape=on_wall,
            turns=on_wall,
        ),
    )


def _row_of(show: Show, channel: Channel) -> TableRow:
    slot = str(channel.slot) if channel.slot else ""
    return row(
        number_cell(channel),
        cell(
            title_line(show, channel, RACK_ROLE),
            *people_lines(show, channel, RACK_SMALL),
            fact(channel.notes_to("deck"), RACK_NOTE),
            joined=True,
        ),
        _frequency_cell(show, channel),
        cell(fact(channel.pack, RACK_SLOT), fact(slot, RACK_SMALL), *tape_tags(show, channel)),
        cell(fact(channel.capsule, RACK_GEAR), *_swap_tags(show, channel)),
        _desk_cell(show, channel),
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )


def _frequency_cell(show: Show, channel: Channel) -> Cell:
    """The frequency, and under it the TV channel that it is in, where the region is known."""
    if channel.hz is None:
        return cell(Blank())
    region = region_of(show.spectrum)
    tv = region.tv_under(channel.hz) if region else None
    text = phrase(show, "tv", channel=tv.name) if tv else ""
    where = where_and_when(show, channel, RACK_SMALL)
    return cell(
        fact(format_mhz(channel.hz), RACK_FREQUENCY), fact(text, RACK_SMALL, of=f"TV {tv.name}" if tv else ""), *where
    )


def _swap_tags(show: Show, channel: Channel) -> tuple[Tag, ...]:
    count = len(list_handovers(show, channel))
    text = phrase(show, "swaps", count=count)
    return (Tag(text, fact=f"swaps {count}"),) if count else ()


def _desk_cell(show: Show, channel: Channel) -> Cell:
    """The first destination, analogue before digital, as the desk counts it; a line to write on where there is none.

    What the show notes of a channel stands under its people, where there is more room.
    """
    for output in outputs_of(show, channel):
        return cell(fact(f"{output.console} {output.input}", RACK_GEAR))
    return cell(WriteIn())
