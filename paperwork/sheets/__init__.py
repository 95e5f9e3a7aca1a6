"""The papers: one file each, one function from the show to its sheets, and the one list of them all.

A paper is printed when the show holds its facts. Its function returns no sheet where they are missing, and `why` says
in plain words what is.
"""

from collections.abc import Callable
from dataclasses import dataclass

from paperwork.document import Sheet
from paperwork.model import Show
from paperwork.sheets import (
    channel_chart,
    in_ear_labels,
    mic_plot,
    pack_labels,
    patch_sheet,
    pouch_cards,
    receiver_strips,
    spare_cards,
    swap_sheets,
    table_squares,
)


@dataclass(frozen=True, slots=True)
class Paper:
    """One kind of paper: its folder, its name, how to make its sheets, and what the show must hold for it."""

    folder: str
    name: str
    make: Callable[[Show], tuple[Sheet, ...]]
    needs: str


SHEETS: tuple[Paper, ...] = (
    Paper("rack", "channel-chart", channel_chart.make_sheets, "channels"),
    Paper("rack", "patch-sheet", patch_sheet.make_sheets, "racks with outputs"),
    Paper("rack", "receiver-strips", receiver_strips.make_sheets, "racks with channels"),
    Paper("rack", "swap-sheets", swap_sheets.make_sheets, "packs that change bodies between scenes"),
    Paper("rack", "spare-cards", spare_cards.make_sheets, "spare channels"),
    Paper("wardrobe", "pack-labels", pack_labels.make_sheets, "channels with packs"),
    Paper("wardrobe", "in-ear-labels", in_ear_labels.make_sheets, "others of the kind in-ear"),
    Paper("wardrobe", "pouch-cards", pouch_cards.make_sheets, "channels that somebody wears"),
    Paper("wardrobe", "mic-table-squares", table_squares.make_sheets, "channels"),
    Paper("wardrobe", "mic-plot", mic_plot.make_sheets, "scenes with live roles"),
)
