"""The papers: one file each, one function from the show to its sheets, and the one list of them all.

A paper is printed when the show holds its facts. Its function returns no sheet where they are missing, and `why` says
in plain words what is.
"""

from paperwork.sheets import channel_chart, pack_labels, patch_sheet
from paperwork.sheets.paper import Paper
from paperwork.sheets.production import contact_strip, frequency_reply, frequency_request, incident_log, inventory
from paperwork.sheets.rack import (
    battery_plan,
    clocks,
    fitting_call,
    line_check,
    programming,
    receiver_strips,
    spare_cards,
    spectrum,
    swap_sheets,
    walk_test,
    who_is_live,
)
from paperwork.sheets.wardrobe import (
    dressing_list,
    in_ear_labels,
    mic_plot,
    placement_notes,
    pouch_cards,
    quick_changes,
    table_squares,
)

__all__ = ["SHEETS", "Paper"]

SHEETS: tuple[Paper, ...] = (
    Paper(
        "rack", "channel-chart", channel_chart.make_sheets, "channels",
        shows=("frequency", "slot", "output", "pack", "capsule"),
    ),
    Paper("rack", "patch-sheet", patch_sheet.make_sheets, "racks with outputs", section="racks", shows=("slot", "output", "pack")),
    Paper("rack", "receiver-strips", receiver_strips.make_sheets, "racks with channels", section="racks", shows=("frequency", "slot", "output")),
    Paper(
        "rack", "swap-sheets", swap_sheets.make_sheets, "packs that change bodies between scenes", section="scenes",
        shows=("body", "capsule", "pack"),
    ),
    Paper(
        "rack", "spare-cards", spare_cards.make_sheets, "spare channels",
        shows=("frequency", "slot", "output", "pack", "capsule"),
    ),
    Paper("rack", clocks.NAME, clocks.make_sheets, "clock, rate or address of any rack or desk", section="racks", shows=("clock", "slot")),
    Paper(
        "rack", programming.NAME, programming.make_sheets, "radio types, transmitters or racks", section="radios", by_hand=True,
        shows=("frequency", "slot", "pack"),
    ),
    Paper(
        "rack", line_check.NAME, line_check.make_sheets, "racks, scenes or time of the checks", section="racks", by_hand=True,
        shows=("output", "slot"),
    ),
    Paper(
        "rack", fitting_call.NAME, fitting_call.make_sheets, "packs on people with rooms, looks or scenes", section="people", by_hand=True,
        shows=("pack", "capsule", "body"),
    ),
    Paper(
        "rack", battery_plan.NAME, battery_plan.make_sheets, "cells, or hours of radio types and times of the day", section="radios", by_hand=True,
        shows=("cells", "pack"),
    ),
    Paper("rack", walk_test.NAME, walk_test.make_sheets, "channels in racks", section="racks", by_hand=True, shows=("frequency", "slot")),
    Paper("rack", spectrum.NAME, spectrum.make_sheets, "windows, TV channels in use or sweeps", section="racks", shows=("frequency",)),
    Paper("rack", who_is_live.NAME, who_is_live.make_sheets, "scenes with roles that have channels", section="scenes", shows=("body",)),
    Paper("wardrobe", "pack-labels", pack_labels.make_sheets, "channels with packs", shows=("frequency", "pack", "capsule")),
    Paper("wardrobe", "in-ear-labels", in_ear_labels.make_sheets, "others of the kind in-ear", section="others", shows=("frequency",)),
    Paper("wardrobe", "pouch-cards", pouch_cards.make_sheets, "channels that somebody wears", shows=("body",)),
    Paper("wardrobe", "mic-table-squares", table_squares.make_sheets, "channels", shows=()),
    Paper("wardrobe", "mic-plot", mic_plot.make_sheets, "scenes with live roles", section="scenes", shows=("body", "pack")),
    Paper(
        "wardrobe", dressing_list.NAME, dressing_list.make_sheets, "packs on people with rooms", section="people", by_hand=True,
        shows=("pack", "capsule", "body"),
    ),
    Paper(
        "wardrobe", quick_changes.NAME, quick_changes.make_sheets, "looks with scenes, or packs that change bodies", section="looks", by_hand=True,
        shows=("pack", "body"),
    ),
    Paper(
        "wardrobe", placement_notes.NAME, placement_notes.make_sheets, "packs on people with looks or capsules", section="looks", by_hand=True,
        shows=("pack", "capsule"),
    ),
    Paper(
        "production", frequency_request.NAME, frequency_request.make_sheets, "radio types", section="radios", by_hand=True,
        shows=("frequency",),
    ),
    Paper("production", frequency_reply.NAME, frequency_reply.make_sheets, "frequencies told as granted", shows=("frequency",)),
    Paper(
        "production", inventory.NAME, inventory.make_sheets, "transmitters, capsules or racks", section="transmitters", by_hand=True,
        shows=("pack", "capsule", "slot"),
    ),
    Paper("production", incident_log.NAME, incident_log.make_sheets, "channels", by_hand=True, shows=()),
    Paper("production", contact_strip.NAME, contact_strip.make_sheets, "contact or licence", by_hand=True, shows=()),
)
