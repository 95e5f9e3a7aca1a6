"""Mic-table squares: one big number for each place on the table, found from across the room."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from paperwork.document import Card, Cards, Line, Sheet, fact
from paperwork.document.styles import CARD_STRONG, SQUARE_ID, SQUARE_KEY, SQUARE_NAME
from paperwork.finding import Subject
from paperwork.model import Channel, PaperSize, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.sheets.wardrobe.ears import Ears, list_ears

NAME = "mic-table-squares"

JOIN = "  ·  "

SQUARE_UM = 73_000
"""Six on a page of A4, upright, and of Letter, across; a place on the table is a square of a foot (common practice, no source)."""

EARS_UM = 50_000

ACROSS: Mapping[PaperSize, int] = {"A4": 2, "A3": 3, "Letter": 3, "Tabloid": 3}
"""How many stand side by side on a paper: as many as are as wide as on A4."""

LANDSCAPE = frozenset[PaperSize]({"Letter"})
"""Papers that take six only when they lie across."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of squares, in channel order, spares among them, and then the in-ear packs."""
    if not show.channels:
        return ()
    across = ACROSS[show.production.paper]
    cards = tuple(_square(show, one) for one in show.channels.values())
    squares = Cards(cards, across, SQUARE_UM, stacked=True, signed=True)
    ears = tuple(_ears_square(show, one) for one in list_ears(show))
    blocks = (squares, *((replace(squares, cards=ears, height_um=EARS_UM),) if ears else ()))
    sheet = frame_sheet(
        show,
        NAME,
        "mic-table squares",
        blocks,
        cautions=("privacy caution",),
        landscape=show.production.paper in LANDSCAPE,
    )
    return (sheet,)


def _square(show: Show, channel: Channel) -> Card:
    """The number, the role, and on one line who wears it and what lies there where the number does not say it."""
    names = ", ".join(name for name in show.performers_of(channel) if name != title_of(show, channel))
    lines = (fact(names, CARD_STRONG), *_what_lies_there(show, channel))
    text = JOIN.join(filter(None, (line.text for line in lines)))
    facts = JOIN.join(filter(None, (line.fact for line in lines)))
    return Card(
        fact(channel.id, SQUARE_KEY),
        (
            fact(title_of(show, channel), SQUARE_NAME, of=title_fact_of(channel)),
            *((fact(text, CARD_STRONG, of=facts),) if text else ()),
        ),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )


def _what_lies_there(show: Show, channel: Channel) -> Iterator[Line]:
    """A handheld, a pack that has another number, whose second pack it is."""
    key = "square handheld" if forms.is_handheld(show, channel) else "square pack"
    if channel.pack and (channel.pack != channel.id or key == "square handheld"):
        yield fact(phrase(show, key, pack=channel.pack), CARD_STRONG, of=f"{key} {channel.pack}")
    if channel.doubles:
        yield fact(phrase(show, "second pack", channel=channel.doubles), CARD_STRONG, of=f"doubles {channel.doubles}")


def _ears_square(show: Show, ears: Ears) -> Card:
    return Card(
        fact(ears.number, SQUARE_ID),
        (
            fact(ears.listener or ears.other.id, SQUARE_NAME),
            fact(phrase(show, "in-ears"), CARD_STRONG, of=f"hears {ears.other.id}"),
        ),
        subjects=(Subject("others", ears.other.id),),
        where=ears.other.where.record,
    )
