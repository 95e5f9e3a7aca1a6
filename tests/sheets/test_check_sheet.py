"""The check sheet holds what the long forms hold, each thing once, and is short."""

from pathlib import Path

import pytest

from paperwork.document import Cell, Line, Sheet, Table
from paperwork.plan.bodies.events import list_events
from paperwork.plan.day.batteries import plan_batteries
from paperwork.plan.looks import LookChange
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.text.measuring import Metrics
from paperwork.sheets.rack.line_check import list_in_desk_order
from paperwork.sheets.rounds import check_sheet
from paperwork.text.units import format_clock
from tests.shows_text import show_of

EXAMPLE = Path(__file__).parents[2] / "example_show" / "show.yaml"

TWICE = """
show: {title: Kite}
day: {power-up: "12:30", checks: "13:00, 18:15", half: "13:55, 18:55", curtain: "14:30, 19:30", bows: "2:30", cells: between}
radios: {belt: {kind: pack, hours: 8}, hand: {kind: handheld, hours: 8}}
roles: {VERA: {by: Ann}, TOM: {by: Bo}, MC: {by: Cy}}
people: {Ann: {room: 1}, Bo: {room: 2}, Cy: {}}
channels: {01: {role: [VERA, TOM], radio: belt}, 02: {role: MC, radio: hand}, 03: {spare: belt}}
scenes: {1: {at: "0:00", live: TOM}, 2: {at: "0:20", live: VERA MC}}
"""


def lines_of(part: tuple[Cell, ...]) -> list[str]:
    return [item.text for one in part for item in one.items if isinstance(item, Line)]


def rows_of(sheet: Sheet, table: int) -> list[list[list[str]]]:
    """The texts of a table: by row and column."""
    block = [one for one in sheet.blocks if isinstance(one, Table)][table]
    return [[lines_of(part) for part in row.cells] for group in block.groups for row in group.rows]


def test_every_channel_is_a_row_in_the_order_of_the_line_check_and_every_swap_one():
    show = read_show(EXAMPLE, "show.yaml").show
    (sheet,) = check_sheet.make_sheets(show)
    wanted = [channel.id for _, _, listed in list_in_desk_order(show) for channel, _ in listed]
    assert [row[1][0] for row in rows_of(sheet, 0)] == wanted and sorted(wanted) == sorted(show.channels)
    swaps = [one for one in list_events(show) if not isinstance(one.change, LookChange)]
    assert [row[0][0] for row in rows_of(sheet, 1)] == [str(one.number) for one in swaps]


@pytest.mark.parametrize("hours", (7, 8, 24))
def test_of_a_day_of_two_shows_the_sheets_together_have_every_change_of_cells_once(hours, tmp_path):
    show = show_of(TWICE.replace("hours: 8", f"hours: {hours}"), tmp_path)
    one, two = check_sheet.make_sheets(show)
    assert (one.name, two.name) == ("check-sheet-1", "check-sheet-2")
    planned = {plan.channel: [format_clock(run.change.at_s) for run in plan.runs] for plan in plan_batteries(show)}
    first, second = ({row[1][0]: row[5] for row in rows_of(sheet, 0)} for sheet in (one, two))
    for channel, times in planned.items():
        said = [text for text in (*first[channel], *second[channel]) if text.strip()]
        assert said == times
    assert all(time < "17:00" for times in first.values() for time in times if time.strip() and time != "–")


def test_a_shared_pack_is_fitted_to_who_is_on_first_and_a_spare_to_nobody(tmp_path):
    one, _ = check_sheet.make_sheets(show_of(TWICE, tmp_path))
    shared, held, spare = rows_of(one, 0)
    assert shared[3:5] == [["Ann from 2", "Bo, room\u202f2"], ["14:30"]]
    assert held[8] == spare[8] == ["–"] and shared[8] == []


def test_a_musical_with_its_swaps_takes_no_more_than_four_pages():
    """By hand it takes about four: line check, fitting, cells and swaps on a sheet each."""
    show = read_show(EXAMPLE, "show.yaml").show
    pages = [page for sheet in check_sheet.make_sheets(show) for page in lay_out(sheet, Metrics()).pages]
    assert len(show.channels) > 20 and len(pages) <= 4
