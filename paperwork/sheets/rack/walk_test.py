"""The walk test: where on the stage each antenna loses each pack. Two people, one walking, one at the receivers."""

from paperwork.document import Column, Panel, Panels, Sheet, Table, TableRow, cell, row
from paperwork.document.styles import RACK_PLUG, RACK_SMALL
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel

NAME = "walk-test"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, rack by rack, since packs of one rack share antennas. Spares are walked too."""
    if not any(channel.slots for channel in show.channels.values()):
        return ()
    columns = headed(
        show,
        Column("head channel", 22_000, spares=True),
        Column("walk head pack", share=1),
        Column("walk head a", forms.SHORT_UM),
        Column("walk head b", forms.SHORT_UM),
        Column("walk head where", 32_000),
        forms.tick_column("walk head clean"),
    )
    steps = tuple(phrase(show, f"walk step {number}") for number in range(1, 5))
    blocks = (
        Panels((Panel(phrase(show, "walk steps"), steps),), across=1),
        Table(columns, tuple(forms.rack_groups(show, _row_of, is_racked=True)), row_um=forms.FORM_ROW_UM),
    )
    sheet = frame_sheet(
        show, NAME, "walk test", blocks, order="chart order", cautions=("antenna caution", "privacy caution")
    )
    return (sheet,)


def _row_of(show: Show, channel: Channel) -> TableRow:
    role = forms.role_cell(show, channel, big=RACK_PLUG).items[:1]  # a channel may have no role, and nobody
    return row(
        forms.number_cell(channel),
        cell(*role, forms.known_frequency(channel.hz, RACK_SMALL), *forms.shared_lines(show, channel, RACK_SMALL)),
        *(forms.write_cell() for _ in range(3)),
        forms.tick_cell(),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )
