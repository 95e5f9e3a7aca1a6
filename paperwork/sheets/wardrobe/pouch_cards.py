"""Pouch cards: pinned or clipped to a pouch, since tape does not hold on cloth. No frequency: wardrobe needs none."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.document import Card, Cards, Item, Line, Sheet, WriteIn, fact
from paperwork.document.styles import CARD_ID, CARD_STRONG, CARD_TEXT, POUCH_KEY
from paperwork.finding import Subject
from paperwork.model import Channel, Cover, Show
from paperwork.plan.covers import channel_for
from paperwork.plan.looks import looks_of, seen_from
from paperwork.sheets import forms
from paperwork.sheets.casting import list_days, list_performers, list_roles, list_worn_in_run
from paperwork.sheets.frame import frame_sheet, phrase, short_scene, subjects_of_channel, title_of
from paperwork.sheets.wardrobe.ears import Ears, list_ears

NAME = "pouch-cards"

SIZES_MM = ((90, 55), (60, 40))
"""A card of the common size for badge holders, and one for a small pouch (common practice, no source)."""

WIDTH_UM, HEIGHT_UM = (length * 1_000 for length in SIZES_MM[0])


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """A card for every body on every pack, in channel order; then covers who wear none otherwise, then in-ear packs.

    Spares and handhelds have no pouch.
    """
    packs = [card for channel in show.channels.values() for card in _cards_of(show, channel)]
    if not packs:
        return ()
    cards = Cards((*packs, *_cover_cards(show)), 2, HEIGHT_UM, WIDTH_UM, signed=True)
    ears = tuple(_ears_card(show, one) for one in list_ears(show) if one.listener in show.people)
    blocks = (cards, *((replace(cards, cards=ears),) if ears else ()))
    cautions = ("pouch caution", "privacy caution")
    return (frame_sheet(show, NAME, "pouch cards", blocks, cautions=cautions, turns=True),)


def _cards_of(show: Show, channel: Channel) -> Iterator[Card]:
    if channel.spare or forms.is_handheld(show, channel):
        return
    for name in list_performers(show, channel) or ("",):
        roles = list_roles(show, channel, name)
        played = ", ".join(roles) or title_of(show, channel)
        items = [fact(name or played, CARD_STRONG)]
        if name and played != name:
            items.append(fact(played, CARD_TEXT))
        if channel.doubles:
            items.append(fact(phrase(show, "second pack", channel=channel.doubles), CARD_TEXT, of=channel.doubles))
        items += list_days(show, name, CARD_TEXT) if name else ()
        yield Card(
            fact(channel.id, POUCH_KEY),
            tuple(items),
            foot=tuple(_foot(show, channel, name)),
            subjects=(*subjects_of_channel(show, channel), *((Subject("people", name),) if name else ())),
            where=channel.where.record,
        )


def _foot(show: Show, channel: Channel, name: str) -> Iterator[Item]:
    """Pouch and belt, and where the pack sits, look by look; a line to write on for the pouch of a second pack."""
    person = show.people.get(name)
    pouch = "" if person is None else person.second_pouch if channel.doubles else person.pouch
    yield from _pouch_and_belt(show, pouch, person.belt if person else "")
    if channel.doubles and not pouch:
        yield WriteIn(phrase(show, "pouch none"), CARD_TEXT)
    before = ""
    for look in looks_of(show, name):
        sits = look.second_sits if channel.doubles else look.sits
        if sits and sits != before:
            scene = seen_from(show, look)
            text = phrase(show, "from scene", name=sits, scene=short_scene(scene)) if scene else sits
            yield fact(text, CARD_TEXT, of=f"{sits} {short_scene(scene)}" if scene else sits)
            before = sits


def _pouch_and_belt(show: Show, pouch: str, belt: str) -> Iterator[Line]:
    texts = [phrase(show, f"swap {key}", **{key: value}) for key, value in (("pouch", pouch), ("belt", belt)) if value]
    if texts:
        yield fact(", ".join(texts), CARD_STRONG, of=f"{pouch} {belt}")


def _cover_cards(show: Show) -> Iterator[Card]:
    """Cards for those who usually wear nothing unless they go on for somebody; not for what a performance has them wear."""
    worn = forms.list_worn(show)
    done = {(by, one.channel.id) for by, listed in list_worn_in_run(show).items() for one in listed}
    for cover in show.covers:
        channel = channel_for(show, cover, cover.role)
        if channel and cover.by and cover.by not in worn and (cover.by, channel.id) not in done:
            done.add((cover.by, channel.id))
            yield _cover_card(show, cover, channel)


def _cover_card(show: Show, cover: Cover, channel: Channel) -> Card:
    person = show.people.get(cover.by)
    own = (one.role for one in show.covers if one.by == cover.by and channel_for(show, one, one.role) == channel)
    roles = ", ".join(dict.fromkeys(own))
    pouch, belt = cover.pouch or (person.pouch if person else ""), person.belt if person else ""
    foot = tuple(_pouch_and_belt(show, pouch, belt))
    return Card(
        fact(channel.id, POUCH_KEY),
        (fact(cover.by, CARD_STRONG), fact(phrase(show, "pouch cover", roles=roles), CARD_TEXT, of=f"cover {roles}")),
        foot=foot or (WriteIn(phrase(show, "pouch none"), CARD_TEXT),),
        subjects=(Subject("covers", cover.id), Subject("people", cover.by)),
        where=cover.where.record,
    )


def _ears_card(show: Show, ears: Ears) -> Card:
    belt = show.people[ears.listener].belt
    text = phrase(show, "swap belt", belt=belt)
    return Card(
        fact(ears.number, CARD_ID),
        (fact(ears.listener, CARD_STRONG), fact(phrase(show, "in-ears"), CARD_TEXT, of=f"hears {ears.other.id}")),
        foot=((fact(text, CARD_STRONG, of=belt),) if belt else ()) + (WriteIn(phrase(show, "pouch none"), CARD_TEXT),),
        subjects=(Subject("others", ears.other.id), Subject("people", ears.listener)),
        where=ears.other.where.record,
    )
