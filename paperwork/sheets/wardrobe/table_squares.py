"""Mic-table squares: one big number for each place on the table, found from across the room."""

from collections.abc import Iterator

from paperwork.document import Card, Cards, Line, Sheet, fact
from paperwork.document.styles import SQUARE_ID, SQUARE_KEY, SQUARE_NAME, SQUARE_TEXT
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, phrase, subjects_of_channel, title_line, title_of
from paperwork.sheets.wardrobe.ears import Ears, list_ears

NAME = "mic-table-squares"

JOIN = "  ·  "

SIDE_UM = 65_000
"""How large they are both ways: the least in which the number is as tall as it can be. A place on the table is a
square of a foot (common practice, no source)."""

FIGURES = 3
"""A number of more signs is a word, and lower, as is one of so many with a letter in it."""

LONG_UM = 73_000
"""The same where a number has three figures, whose 28 mm are wider than the small square."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of squares, in channel order, spares among them, and then the in-ear packs."""
    if not show.channels:
        return ()
    is_long = any(len(id) == FIGURES and id.isdigit() for id in show.channels)
    side = LONG_UM if is_long else SIDE_UM
    cards = tuple(_square(show, one) for one in show.channels.values())
    ears = tuple(_ears_square(show, one) for one in list_ears(show))
    blocks = (Cards((*cards, *ears), 1, side, side, stacked=True, signed=True),)
    return (frame_sheet(show, NAME, "mic-table squares", blocks, cautions=("privacy caution",), turns=True),)


def _square(show: Show, channel: Channel) -> Card:
    """The number, the role, and on one line who wears it and what lies there where the number does not say it."""
    names = ", ".join(name for name in show.performers_of(channel) if name != title_of(show, channel))
    lines = (fact(names, SQUARE_TEXT), *_what_lies_there(show, channel))
    text = JOIN.join(filter(None, (line.text for line in lines)))
    facts = JOIN.join(filter(None, (line.fact for line in lines)))
    is_word = any(len(id) > FIGURES for id in show.channels)
    is_word = is_word or (len(channel.id) == FIGURES and not channel.id.isdigit())
    return Card(
        fact(channel.id, SQUARE_ID if is_word else SQUARE_KEY),
        (title_line(show, channel, SQUARE_NAME), *((fact(text, SQUARE_TEXT, of=facts),) if text else ())),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )


def _what_lies_there(show: Show, channel: Channel) -> Iterator[Line]:
    """A handheld, a pack that has another number, whose second pack it is."""
    key = "square handheld" if forms.is_handheld(show, channel) else "square pack"
    if channel.pack and (channel.pack != channel.id or key == "square handheld"):
        yield fact(phrase(show, key, pack=channel.pack), SQUARE_TEXT, of=f"{key} {channel.pack}")
    if channel.doubles:
        yield fact(phrase(show, "label second", channel=channel.doubles), SQUARE_TEXT, of=f"doubles {channel.doubles}")


def _ears_square(show: Show, ears: Ears) -> Card:
    return Card(
        fact(ears.number, SQUARE_ID),
        (
            fact(ears.listener or ears.other.id, SQUARE_NAME),
            fact(phrase(show, "in-ears"), SQUARE_TEXT, of=f"hears {ears.other.id}"),
        ),
        subjects=(Subject("others", ears.other.id),),
        where=ears.other.where.record,
    )
