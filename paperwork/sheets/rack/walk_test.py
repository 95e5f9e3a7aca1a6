"""The walk test: where on the stage each antenna loses each pack. Two people, one walking, one at the receivers."""

from collections.abc import Iterator

from paperwork.document import Column, Group, Panel, Panels, Row, Sheet, Table, cell, row
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, subjects_of_channel
from paperwork.styles import RACK_SMALL
from paperwork.words import words_of

NAME = "walk-test"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, rack by rack, since packs of one rack share antennas. Spares are walked too."""
    if not any(channel.slots for channel in show.channels.values()):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["head channel"], forms.NUMBER_UM, spares=True),
        Column(w["walk head pack"], share=1),
        Column(w["walk head a"], forms.WRITE_UM),
        Column(w["walk head b"], forms.WRITE_UM),
        Column(w["walk head where"], 38_000),
        forms.tick_column(w["walk head clean"]),
    )
    steps = tuple(w[f"walk step {number}"] for number in range(1, 5))
    blocks = (
        Panels((Panel(w["walk steps"], steps),), across=1),
        Table(columns, tuple(_groups(show)), row_um=forms.FORM_ROW_UM),
    )
    return (
        frame_sheet(
            show,
            NAME,
            w["walk test"],
            blocks,
            subtitle=(w["chart order"],),
            cautions=(w["antenna caution"], w["privacy caution"]),
        ),
    )


def _groups(show: Show) -> Iterator[Group]:
    w = words_of(show.production.language)
    for rack in show.racks.values():
        rows = tuple(_row_of(show, channel) for channel in show.channels_in(rack))
        if rows:
            yield Group(rows, w["rack"].format(rack=rack.id), forms.rack_note(show, rack), facts=forms.rack_facts(rack))


def _row_of(show: Show, channel: Channel) -> Row:
    role = forms.role_cell(show, channel).items[:1]  # a channel may have no role, and nobody
    return row(
        forms.number_cell(channel),
        cell(*role, forms.frequency_line(channel, RACK_SMALL)),
        *(forms.write_cell() for _ in range(3)),
        forms.tick_cell(),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )
