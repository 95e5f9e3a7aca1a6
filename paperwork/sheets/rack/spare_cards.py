"""Spare cards: one lies with each spare pack or hangs at its receiver. What it backs, and how it goes on the air."""

from dataclasses import replace

from paperwork.document import Blank, Card, Cards, Item, Line, Sheet, fact, words
from paperwork.model import Channel, Show
from paperwork.plan.spares import name_backed
from paperwork.sheets.frame import frame_sheet, spare_for, subjects_in_rack
from paperwork.styles import CARD_KEY, CARD_STRONG, CARD_TEXT, HAND_STRONG, RACK_FREQUENCY
from paperwork.units import format_mhz
from paperwork.words import words_of

CARD_UM = 50_000
BACKS = replace(CARD_STRONG, wanted_um=RACK_FREQUENCY.wanted_um)
"""As tall as the frequency under it, so that both are one block."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet with a card for every spare channel."""
    spares = [channel for channel in show.channels.values() if channel.spare]
    if not spares:
        return ()
    w = words_of(show.production.language)
    block = Cards(tuple(_card(show, channel) for channel in spares), 1, CARD_UM, signed=True)
    cautions = (w["cell caution"], w["privacy caution"])
    return (frame_sheet(show, "spare-cards", w["spare cards"], (block,), cautions=cautions),)


def _card(show: Show, channel: Channel) -> Card:
    w = words_of(show.production.language)
    return Card(
        fact(channel.pack, replace(CARD_KEY, wanted_um=17_000)),
        (
            fact(f"{w['spare']} {spare_for(show, channel)}".strip(), BACKS, of=" ".join(name_backed(show, channel))),
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
    w = words_of(show.production.language)
    parts, facts = (
        [w["spare channel"].format(channel=channel.id)],
        [channel.id, str(channel.slot or ""), channel.capsule],
    )
    if channel.slot:
        parts.append(w["spare slot"].format(slot=channel.slot))
        rack = show.racks.get(channel.slot.rack)
        outputs = rack.outputs if rack else ()
        inputs = dict.fromkeys(
            f"{o.console} {o.input}" for o in outputs if o.slot == channel.slot.number and o.kind == "analogue"
        )
        parts, facts = [*parts, *inputs], [*facts, *inputs]
    if channel.capsule:
        parts.append(w["swap capsule"].format(capsule=channel.capsule))
    return fact(",  ".join(parts), CARD_TEXT, of=" ".join(facts))


def _steps(show: Show, channel: Channel) -> tuple[Item, ...]:
    """The two emergencies, in one line each."""
    w = words_of(show.production.language)
    bad = w["spare bad" if channel.slot or not show.racks else "spare unracked"].format(channel=channel.id)
    return (
        words(w["dead pack"], HAND_STRONG),
        words(w["spare dead"], CARD_TEXT),
        words(w["bad frequency"], HAND_STRONG),
        words(bad, CARD_TEXT),
    )
