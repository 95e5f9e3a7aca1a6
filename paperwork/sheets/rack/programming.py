"""The programming checklist: what the display of each pack must show. Filled in at the rack with the pack in one hand."""

from dataclasses import replace

from paperwork.document import Cell, Column, Panel, Panels, Sheet, Table, TableRow, cell, fact, row
from paperwork.document.styles import HAND_MHZ, RACK_SMALL, RACK_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_in_rack, title_line

NAME = "programming-checklist"

ROLES = replace(RACK_SMALL, lines=3)
"""Three roles of a shared pack stand under each other."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, rack by rack. A show with no radio types, racks or transmitters has nothing to program by."""
    if not show.channels or not (show.radios or show.transmitters or show.racks):
        return ()
    columns = headed(
        show,
        Column("head channel", forms.NUMBER_UM, spares=True),
        Column("programming head display", 43_000),
        Column("programming head set"),
        *(forms.tick_column(f"programming head {step}") for step in ("alone", "sync", "read", "dark")),
    )
    steps = tuple(phrase(show, f"programming step {number}") for number in range(1, 6))
    blocks = (
        Panels((Panel(phrase(show, "programming steps"), steps),), across=1),
        Table(columns, tuple(forms.rack_groups(show, _row_of, is_racked=bool(show.racks))), row_um=13_000),
        forms.signature(phrase(show, "programming signed"), phrase(show, "head initials"), phrase(show, "head time")),
    )
    return (frame_sheet(show, NAME, "programming", blocks, order="programming note", cautions=("licence caution",)),)


def _row_of(show: Show, channel: Channel) -> TableRow:
    transmitter = show.transmitters.get(channel.pack)
    display = transmitter.display if transmitter else ""
    return row(
        forms.number_cell(channel),
        cell(
            forms.known_frequency(channel.hz, HAND_MHZ),
            *forms.backup_line(show, channel),
            fact(display, RACK_STRONG) if display else title_line(show, channel, ROLES),
        ),
        _settings_cell(show, channel),
        *(forms.tick_cell() for _ in range(4)),
        subjects=(
            *subjects_in_rack(show, channel),
            *((Subject("transmitters", channel.pack),) if transmitter else ()),
            *forms.backup_subjects(channel),
        ),
        where=channel.where.record,
    )


def _settings_cell(show: Show, channel: Channel) -> Cell:
    """Pack and slot, then power, gain and lock as they must be."""
    transmitter, power = show.transmitters.get(channel.pack), forms.power_of(show, channel)
    gain = transmitter.gain if transmitter else ""
    lock = transmitter.lock if transmitter else None
    pack = f"{channel.pack} → {channel.slot}" if channel.slot else channel.pack
    locked = "" if lock is None else phrase(show, "locked") if lock else phrase(show, "programming unlocked")
    lines = (power, gain and phrase(show, "gain", gain=gain), locked)
    return cell(
        fact(pack, RACK_STRONG),
        fact(", ".join(filter(None, lines)), RACK_SMALL, of=f"{power} {gain} {lock}"),
        *forms.where_and_when(show, channel, RACK_SMALL),
    )
