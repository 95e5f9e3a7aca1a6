"""Mic-table squares: one big number for each place on the table, found from across the room."""

from paperwork.document import Card, Cards, Sheet, fact
from paperwork.model import Channel, Show
from paperwork.sheets.frame import frame_sheet, subjects_of_channel, title_fact_of, title_of
from paperwork.styles import CARD_STRONG, SQUARE_KEY, SQUARE_NAME
from paperwork.words import words_of

SQUARE_UM = 73_000
"""Six on a page of A4; a place on the table is a square of a foot (common practice, no source)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of squares, in channel order, spares among them."""
    if not show.channels:
        return ()
    w = words_of(show.production.language)
    cards = tuple(_square(show, channel) for channel in show.channels.values())
    block = Cards(cards, 2, SQUARE_UM, stacked=True, signed=True)
    return (frame_sheet(show, "mic-table-squares", w["mic-table squares"], (block,), cautions=(w["privacy caution"],)),)


def _square(show: Show, channel: Channel) -> Card:
    """The number, the role, and who wears it: never a child's name."""
    names = [name for name in show.performers_of(channel) if name != title_of(show, channel)]
    return Card(
        fact(channel.id, SQUARE_KEY),
        (
            fact(title_of(show, channel), SQUARE_NAME, of=title_fact_of(channel)),
            *([fact(", ".join(names), CARD_STRONG)] if names else []),
        ),
        subjects=subjects_of_channel(show, channel), where=channel.where.record,
    )
