"""Pouch cards: pinned or clipped to a pouch, since tape does not hold on cloth. No frequency: wardrobe needs none."""

from collections.abc import Iterator

from paperwork.document import Card, Cards, Item, Sheet, fact
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel, title_of
from paperwork.styles import CARD_KEY, CARD_STRONG, CARD_TEXT
from paperwork.words import words_of

WIDTH_UM, HEIGHT_UM = 90_000, 55_000
"""A card of the common size for badge holders (common practice, no source)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """A card for every body on every pack, in channel order. Spares and handhelds have no pouch."""
    cards = tuple(card for channel in show.channels.values() for card in _cards_of(show, channel))
    if not cards:
        return ()
    w = words_of(show.production.language)
    block = Cards(cards, 2, HEIGHT_UM, WIDTH_UM, signed=True)
    cautions = (w["pouch caution"], w["privacy caution"])
    return (frame_sheet(show, "pouch-cards", w["pouch cards"], (block,), cautions=cautions),)


def _cards_of(show: Show, channel: Channel) -> Iterator[Card]:
    radio = show.radio_of(channel)
    if channel.spare or (radio and radio.kind == "handheld"):
        return
    for name in show.performers_of(channel) or ("",):
        roles = tuple(role for role in channel.roles if show.roles[role].by == name)
        yield Card(
            fact(channel.id, CARD_KEY), tuple(_items(show, channel, name, roles)), foot=tuple(_foot(show, channel, name)),
            subjects=(*subjects_of_channel(show, channel), *((Subject("people", name),) if name else ())),
            where=channel.where.record,
        )


def _items(show: Show, channel: Channel, name: str, roles: tuple[str, ...]) -> Iterator[Item]:
    """The performer as they are called, else the role; the role under it, and whose second pack it is."""
    w = words_of(show.production.language)
    played = ", ".join(roles) or title_of(show, channel)
    hidden = not name
    yield fact(played if hidden else name, CARD_STRONG)
    if not hidden and played != name:
        yield fact(played, CARD_TEXT)
    if channel.doubles:
        yield fact(w["second pack"].format(channel=channel.doubles), CARD_TEXT, of=channel.doubles)


def _foot(show: Show, channel: Channel, name: str) -> Iterator[Item]:
    """Pouch and belt, and where the pack sits, look by look."""
    w = words_of(show.production.language)
    person = show.people.get(name)
    told = []
    if person and person.pouch and not channel.doubles:
        told.append(w["swap pouch"].format(pouch=person.pouch))
    if person and person.belt:
        told.append(w["swap belt"].format(belt=person.belt))
    if told:
        yield fact(", ".join(told), CARD_STRONG, of=f"{person.pouch} {person.belt}" if person else "")
    if channel.doubles:
        return
    scenes = {scene.id: short_scene(scene) for scene in show.scenes}
    for look in show.looks.values():
        if look.by == name and look.sits:
            since = w["from scene"].format(name=look.sits, scene=scenes[look.scene]) if look.scene in scenes else look.sits
            yield fact(since, CARD_TEXT, of=f"{look.sits} {look.scene}")
