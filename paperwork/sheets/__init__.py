"""The papers: one file each, one function from the show to its sheets, and the one list of them all.

A paper is printed when the show holds its facts. Its function returns no sheet where they are missing, and `why` says
in plain words what is.
"""

from types import ModuleType

from paperwork.codes import Topic
from paperwork.sheets.paper import Paper
from paperwork.sheets.production import (
    contact_strip,
    frequency_reply,
    frequency_request,
    incident_log,
    inventory,
    performance_list,
)
from paperwork.sheets.rack import (
    battery_plan,
    channel_chart,
    clocks,
    fitting_call,
    frequency_list,
    input_list,
    line_check,
    patch_sheet,
    programming,
    receiver_strips,
    spare_cards,
    spectrum,
    swap_sheets,
    walk_test,
    who_is_live,
)
from paperwork.sheets.rig import antenna_plan, desk_strips
from paperwork.sheets.rounds import check_sheet, week_grids
from paperwork.sheets.running import advance_form, change_overs, handhelds, running_sheet, timetable
from paperwork.sheets.wardrobe import (
    cover_chart,
    dressing_list,
    mic_plot,
    pack_labels,
    placement_notes,
    pouch_cards,
    quick_changes,
    table_squares,
)

__all__ = ["OF_RUN", "SHEETS", "Paper"]


def _paper(
    folder: str, sheet: ModuleType, needs: str, shows: tuple[Topic, ...], *, section: str = "", by_hand: bool = False
) -> Paper:
    return Paper(folder, sheet.NAME, sheet.make_sheets, needs, section, by_hand, shows)


SHEETS: tuple[Paper, ...] = (
    _paper("rack", channel_chart, "channels", ("frequency", "slot", "output", "pack", "capsule")),
    _paper("rack", patch_sheet, "racks with outputs", ("slot", "output", "pack"), section="racks"),
    _paper("rack", input_list, "racks with outputs", ("output", "slot"), section="racks"),
    _paper("rack", desk_strips, "outputs to a desk with a width of its strip", ("slot", "output"), section="consoles"),
    _paper("rack", receiver_strips, "racks with channels", ("frequency", "slot", "output"), section="racks"),
    _paper(
        "rack", swap_sheets, "packs that change bodies between scenes", ("body", "capsule", "pack"), section="scenes"
    ),
    _paper("rack", spare_cards, "spare channels", ("frequency", "slot", "output", "pack", "capsule")),
    _paper("rack", clocks, "clock, rate or address of any rack or desk", ("clock", "slot"), section="racks"),
    _paper(
        "rack",
        programming,
        "radio types, transmitters or racks",
        ("frequency", "slot", "pack"),
        section="radios",
        by_hand=True,
    ),
    _paper(
        "rack", line_check, "racks, scenes or time of the checks", ("output", "slot"), section="racks", by_hand=True
    ),
    _paper(
        "rack",
        check_sheet,
        "scenes, time of the checks or of curtain up",
        ("output", "slot", "pack", "body", "cells"),
        by_hand=True,
    ),
    _paper(
        "rack",
        fitting_call,
        "packs on people with rooms, looks or scenes",
        ("pack", "capsule", "body"),
        section="people",
        by_hand=True,
    ),
    _paper(
        "rack",
        battery_plan,
        "cells, or hours of radio types and times of the day",
        ("cells", "pack"),
        section="radios",
        by_hand=True,
    ),
    _paper("rack", week_grids, "performances", ("pack", "cells", "capsule", "body"), section="performances"),
    _paper("rack", walk_test, "channels in racks", ("frequency", "slot"), section="racks", by_hand=True),
    _paper("rack", spectrum, "windows, TV channels in use or sweeps", ("frequency",), section="racks"),
    _paper("rack", antenna_plan, "antennas", ("slot",), section="antennas", by_hand=True),
    _paper("rack", frequency_list, "two frequencies", ("frequency",)),
    _paper("rack", timetable, "parts of the bill with frequencies", ("frequency",)),
    _paper("rack", who_is_live, "scenes with roles that have channels", ("body",), section="scenes"),
    _paper("rack", running_sheet, "changes on bodies, or handhelds in scenes", ("body", "pack"), section="scenes"),
    _paper("rack", handhelds, "handhelds in scenes", ("body", "pack"), section="scenes", by_hand=True),
    _paper("rack", change_overs, "two acts with channels", ("frequency", "pack", "body")),
    _paper("wardrobe", pack_labels, "channels or in-ears with frequencies", ("frequency", "pack", "capsule")),
    _paper("wardrobe", pouch_cards, "channels that somebody wears", ("body",)),
    _paper("wardrobe", table_squares, "channels", ()),
    _paper("wardrobe", mic_plot, "scenes with live roles", ("body", "pack"), section="scenes"),
    _paper(
        "wardrobe",
        dressing_list,
        "packs on people with rooms",
        ("pack", "capsule", "body"),
        section="people",
        by_hand=True,
    ),
    _paper("wardrobe", cover_chart, "covers or alternates", ("pack", "capsule", "body"), section="covers"),
    _paper(
        "wardrobe",
        quick_changes,
        "looks with scenes, or packs that change bodies",
        ("pack", "body"),
        section="looks",
        by_hand=True,
    ),
    _paper(
        "wardrobe",
        placement_notes,
        "packs on people with looks or capsules",
        ("pack", "capsule"),
        section="looks",
        by_hand=True,
    ),
    _paper("production", frequency_request, "radio types", ("frequency",), section="radios", by_hand=True),
    _paper("production", frequency_reply, "granted frequencies", ("frequency",)),
    _paper(
        "production",
        inventory,
        "transmitters, capsules, racks or hires",
        ("pack", "capsule", "slot"),
        section="transmitters",
        by_hand=True,
    ),
    _paper("production", advance_form, "acts with radios of their own", ("frequency", "capsule")),
    _paper("production", incident_log, "channels", (), by_hand=True),
    _paper("production", performance_list, "performances", ("body",), section="performances"),
    _paper("production", contact_strip, "contact, contacts or licence", (), by_hand=True),
)

OF_RUN = frozenset({week_grids.NAME, performance_list.NAME})
"""The papers that are of several performances, and of none alone."""
