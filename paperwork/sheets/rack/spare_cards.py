"""Spare cards: one lies with each spare pack or hangs at its receiver. What it backs, and how it goes on the air."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.document import Blank, Card, Cards, Item, Line, Sheet, fact, words
from paperwork.document.styles import CARD_KEY, CARD_STRONG, CARD_TEXT, HAND_STRONG, RACK_FREQUENCY
from paperwork.model import Channel, Show
from paperwork.plan.patch import outputs_of
from paperwork.plan.spares import list_backed, name_backed
from paperwork.sheets.frame import frame_sheet, phrase, spare_for, subjects_in_rack
from paperwork.text.units import format_mhz

NAME = "spare-cards"

CARD_UM = 50_000
BACKUPS = replace(CARD_TEXT, lines=12, paragraph=True)
"""Running text, as long as it has to be: a frequency is never cut off."""

BACKS = replace(CARD_STRONG, wanted_um=RACK_FREQUENCY.wanted_um)
"""As tall as the frequency under it, so that both are one block."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet with a card for every spare channel."""
    spares = [channel for channel in show.channels.values() if channel.spare]
    if not spares:
        return ()
    block = Cards(tuple(_card(show, channel) for channel in spares), 1, CARD_UM, signed=True)
    cautions = ("cell caution", "privacy caution")
    return (frame_sheet(show, NAME, "spare cards", (block,), cautions=cautions),)


def _card(show: Show, channel: Channel) -> Card:
    backs = f"{phrase(show, 'spare')} {spare_for(show, channel)}".strip()
    return Card(
        fact(channel.pack, replace(CARD_KEY, wanted_um=14_000)),
        (
            fact(backs, BACKS, of=" ".join(name_backed(show, channel))),
            Blank() if channel.hz is None else fact(f"{format_mhz(channel.hz)} MHz", RACK_FREQUENCY),
            _way(show, channel),
        ),
        foot=_steps(show, channel),
        hatch=True,
        subjects=subjects_in_rack(show, channel),
        where=channel.where.record,
    )


def _way(show: Show, channel: Channel) -> Line:
    """Channel, slot and desk inputs: where the spare arrives."""
    parts = [phrase(show, "spare channel", channel=channel.id)]
    facts = [channel.id, str(channel.slot or ""), channel.capsule]
    if channel.slot:
        parts.append(phrase(show, "spare slot", slot=channel.slot))
        own = [output for output in outputs_of(show, channel) if output.kind == "analogue"]
        inputs = dict.fromkeys(f"{output.console} {output.input}" for output in own)
        parts, facts = [*parts, *inputs], [*facts, *inputs]
    if channel.capsule:
        parts.append(phrase(show, "swap capsule", capsule=channel.capsule))
    return fact(",  ".join(parts), CARD_TEXT, of=" ".join(facts))


def _backups(show: Show, spare: Channel) -> Iterator[Item]:
    """The backups of what a spare stands behind: they go before it."""
    pairs = [
        f"{one.id}\N{NARROW NO-BREAK SPACE}{format_mhz(one.backup_hz)}"
        for one in list_backed(show, spare)
        if one.backup_hz is not None
    ]
    if pairs:
        yield fact(phrase(show, "spare backups", backups=",  ".join(pairs)), BACKUPS, of=" ".join(("backups", *pairs)))


def _steps(show: Show, channel: Channel) -> tuple[Item, ...]:
    """The two emergencies, in one line each."""
    bad = "spare bad" if channel.slot or not show.racks else "spare unracked"
    return (
        words(phrase(show, "dead pack"), HAND_STRONG),
        words(phrase(show, "spare dead"), CARD_TEXT),
        words(phrase(show, "bad frequency"), HAND_STRONG),
        *_backups(show, channel),
        fact(phrase(show, bad, channel=channel.id), CARD_TEXT, of=bad),
    )
