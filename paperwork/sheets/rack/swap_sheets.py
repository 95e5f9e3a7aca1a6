"""Swap sheets: every pack that changes bodies, by show time, one sheet a side of the stage.

Folded in a pocket and read at 0.4 m in near dark, with tape in the teeth: one glance a card.
"""

from dataclasses import replace

from paperwork.document import Card, Cards, Item, Line, Sheet, fact, words
from paperwork.finding import Subject
from paperwork.model import Scene, Show
from paperwork.names import fold
from paperwork.plan.covers import usual_evening
from paperwork.plan.evening import PackChange, list_pack_changes
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel
from paperwork.styles import CARD_BAND, CARD_KEY, CARD_ORDINAL, CARD_STRONG, CARD_TEXT, CARD_TIME
from paperwork.units import format_clock
from paperwork.words import words_of

CARD_UM = 36_000
"""Six cards on a page of A4, three on each half of a folded one."""

LONG_S = 600
"""From ten minutes on, seconds do not matter."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for each side of the stage on which something is swapped, and one for swaps whose side is not told."""
    swaps = _swaps(show)
    if not swaps:
        return ()
    w = words_of(show.production.language)
    sides: dict[str, str] = {}
    for swap in swaps:
        for side in (swap.exit, swap.enter):
            if side:
                sides.setdefault(fold(side), side)
    made = []
    for key, side in sorted(sides.items()):
        cards = tuple(_card(show, n, s) for n, s in enumerate(swaps, 1) if key in (fold(s.exit), fold(s.enter)))
        made.append(_sheet(show, f"swaps-{_file_name(key)}", w["swaps side"].format(side=side), cards))
    lost = tuple(_card(show, n, s) for n, s in enumerate(swaps, 1) if not s.exit and not s.enter)
    if lost:
        made.append(_sheet(show, "swaps", w["swaps anywhere"] if sides else w["swap sheet"], lost))
    return tuple(made)


def _swaps(show: Show) -> tuple[Handover | PackChange, ...]:
    """Packs that change bodies, and bodies that change packs, in show order."""
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    handed = list_all_handovers(show)
    received = {(one.channel, one.to_by, one.before.id) for one in handed}
    changed = [
        one for one in list_pack_changes(show, usual_evening(show))
        if (one.to_channel, one.by, one.before.id) not in received
    ]
    return tuple(sorted((*handed, *changed), key=lambda one: (order[one.before.id], order[one.after.id])))


def _file_name(side: str) -> str:
    plain = "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in side)
    return "-".join(part for part in plain.split("-") if part) or "side"


def _sheet(show: Show, name: str, title: str, cards: tuple[Card, ...]) -> Sheet:
    w = words_of(show.production.language)
    return frame_sheet(
        show, name, title, (Cards(cards, 1, CARD_UM),), subtitle=(w["swap order"],),
        cautions=(w["swap caution"], w["privacy caution"]),
    )


def _card(show: Show, number: int, swap: Handover | PackChange) -> Card:
    w = words_of(show.production.language)
    channel = swap.channel if isinstance(swap, Handover) else swap.to_channel
    ids = (swap.channel,) if isinstance(swap, Handover) else (swap.from_channel, swap.to_channel)
    scenes = w["swap scenes"].format(one=short_scene(swap.after), two=short_scene(swap.before))
    return Card(
        fact(channel, CARD_KEY), _bodies(show, swap), (words(str(number), CARD_ORDINAL), words(scenes, CARD_BAND), *_time(show, swap)),
        _foot(show, swap), w["swap done"],
        subjects=tuple(subject for id in ids for subject in subjects_of_channel(show, show.channels[id]))
        + tuple(Subject("people", name) for name in _names(swap)),
        where=show.channels[channel].where.record,
    )


def _names(swap: Handover | PackChange) -> tuple[str, ...]:
    both = (swap.from_by, swap.to_by) if isinstance(swap, Handover) else (swap.by,)
    return tuple(filter(None, both))


def _time(show: Show, swap: Handover | PackChange) -> tuple[Line, ...]:
    """What there is of time: minutes and seconds, whole minutes from ten on, or that nobody told."""
    w = words_of(show.production.language)
    if isinstance(swap, Handover) and swap.in_vision:
        return (fact(w["in vision"], CARD_BAND, of="in vision"),)
    if swap.seconds is None:
        return (words(w["not timed"], CARD_BAND),)
    more = (words(w["swap or more"], CARD_TEXT),) if swap.at_least else ()
    if swap.seconds >= LONG_S:
        told = w["minutes"].format(minutes=swap.seconds // 60)
        return (fact(told, replace(CARD_TIME, figures=False), of=f"{swap.seconds}"), *more)
    clock = f"{swap.seconds // 60}:{swap.seconds % 60:02d}"
    return (fact(clock, CARD_TIME), *(more or (words(w["swap unit"], CARD_TEXT),)))


def _bodies(show: Show, swap: Handover | PackChange) -> tuple[Item, ...]:
    w = words_of(show.production.language)
    if isinstance(swap, Handover):
        one, two = swap.from_by or swap.from_role, swap.to_by or swap.to_role
        first = fact(w["swap from"].format(name=one), CARD_STRONG, of=one)
        second = fact(w["swap to"].format(name=two), CARD_STRONG, of=two)
    else:
        first = fact(w["swap off"].format(name=swap.by, channel=swap.from_channel), CARD_STRONG, of=swap.by)
        second = fact(w["swap on"].format(channel=swap.to_channel), CARD_STRONG, of=swap.to_channel)
    off_s, on_s = (swap.off_s, swap.on_s) if isinstance(swap, Handover) else (None, None)
    return (
        first, _role_line(swap.from_role, w["exits"], swap.exit, swap.after, off_s),
        second, _role_line(swap.to_role, w["enters"], swap.enter, swap.before, on_s),
    )


def _role_line(role: str, template: str, side: str, scene: Scene, at_s: int | None) -> Line:
    """The role, its scene, on which side it leaves or enters, and when, where a move tells it."""
    moment = format_clock(at_s) if at_s is not None else ""
    where = " ".join(filter(None, (template.format(side=side).strip() if side or moment else "", moment)))
    told = ", ".join(filter(None, (role, scene.name or scene.id, where)))
    return fact(told, CARD_TEXT, of=f"{role} {scene.id} {side} {moment}".rstrip())


def _foot(show: Show, swap: Handover | PackChange) -> tuple[Item, ...]:
    """Across the stage or not, and what the second body wears it in."""
    w = words_of(show.production.language)
    items: list[Item] = []
    if swap.exit and swap.enter and fold(swap.exit) != fold(swap.enter):
        items.append(words(w["swap across"].format(one=swap.exit, two=swap.enter), CARD_STRONG))
    elif swap.exit or swap.enter:
        items.append(words(w["swap at"].format(side=swap.enter or swap.exit), CARD_STRONG))
    body = show.people.get(swap.to_by if isinstance(swap, Handover) else swap.by)
    channel = show.channels[swap.channel if isinstance(swap, Handover) else swap.to_channel]
    told = [w["swap capsule"].format(capsule=channel.capsule)] if channel.capsule else []
    if body and body.pouch:
        told.append(w["swap pouch"].format(pouch=body.pouch))
    if body and body.belt:
        told.append(w["swap belt"].format(belt=body.belt))
    if not told:
        return tuple(items)
    facts = (channel.capsule, *((body.pouch, body.belt) if body else ()))
    return (*items, fact(", ".join(told), CARD_TEXT, of=" ".join(facts)))
