"""The programming checklist: what the display of each pack must show. Filled in at the rack with the pack in one hand."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.document import Cell, Column, Group, Panel, Panels, Row, Sheet, Table, cell, fact, row
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, subjects_in_rack, title_fact_of, title_of
from paperwork.styles import RACK_FREQUENCY, RACK_SMALL, RACK_STRONG
from paperwork.words import words_of

NAME = "programming-checklist"

ROLES = replace(RACK_SMALL, lines=3)
"""Three roles of a shared pack stand under each other."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, rack by rack. A show with no radio types, racks or transmitters has nothing to program by."""
    if not show.channels or not (show.radios or show.transmitters or show.racks):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["head channel"], forms.NUMBER_UM, spares=True),
        Column(w["programming head display"], 43_000),
        Column(w["programming head set"]),
        *(forms.tick_column(w[f"programming head {step}"]) for step in ("alone", "sync", "read", "dark")),
    )
    steps = tuple(w[f"programming step {number}"] for number in range(1, 6))
    blocks = (
        Panels((Panel(w["programming steps"], steps),), across=1),
        Table(columns, tuple(_groups(show)), row_um=13_600),
        forms.signature(w["programming signed"], w["head initials"], w["head time"]),
    )
    licence = show.production.licence
    caution = w["licence caution told"].format(licence=licence) if licence else w["licence caution"]
    return (frame_sheet(show, NAME, w["programming"], blocks, subtitle=(w["programming note"],), cautions=(caution,)),)


def _groups(show: Show) -> Iterator[Group]:
    w = words_of(show.production.language)
    for rack in show.racks.values():
        rows = tuple(_row_of(show, channel) for channel in show.channels_in(rack))
        if rows:
            note = forms.rack_note(show, rack)
            yield Group(rows, w["rack"].format(rack=rack.id), note, facts=forms.rack_facts(rack))
    loose = tuple(_row_of(show, channel) for channel in show.channels.values() if not channel.slots)
    if loose:
        yield Group(loose, w["no rack"] if show.racks else "")


def _row_of(show: Show, channel: Channel) -> Row:
    transmitter = show.transmitters.get(channel.pack)
    display = transmitter.display if transmitter else ""
    return row(
        forms.number_cell(channel),
        cell(
            forms.frequency_line(channel, RACK_FREQUENCY),
            fact(display, RACK_STRONG) if display else fact(title_of(show, channel), ROLES, of=title_fact_of(channel)),
        ),
        _settings_cell(show, channel),
        *(forms.tick_cell() for _ in range(4)),
        subjects=(*subjects_in_rack(show, channel), *((Subject("transmitters", channel.pack),) if transmitter else ())),
        where=channel.where.record,
    )


def _settings_cell(show: Show, channel: Channel) -> Cell:
    """Pack and slot, then power, gain and lock as they must be."""
    w = words_of(show.production.language)
    transmitter, radio = show.transmitters.get(channel.pack), show.radio_of(channel)
    power = (transmitter.power if transmitter else "") or (radio.power if radio else "")
    gain = transmitter.gain if transmitter else ""
    lock = transmitter.lock if transmitter else None
    pack = f"{channel.pack} → {channel.slot}" if channel.slot else channel.pack
    locked = "" if lock is None else w["locked"] if lock else w["programming unlocked"]
    lines = (power, gain and w["gain"].format(gain=gain), locked)
    return cell(
        fact(pack, RACK_STRONG),
        fact(", ".join(filter(None, lines)), RACK_SMALL, of=f"{power} {gain} {lock}"),
        *forms.where_and_when(show, channel, RACK_SMALL),
    )
