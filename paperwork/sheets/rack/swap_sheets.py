"""Swap sheets: every pack that changes bodies, by show time, one sheet a side of the stage.

Folded in a pocket and read at 0.4 m in near dark, with tape in the teeth: one glance a card. A sheet has the work of
its own side alone, and where the pack goes from there.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import TypeAlias

from paperwork.document import Card, Cards, Item, Line, Sheet, fact, words
from paperwork.document.styles import CARD_BAND, CARD_KEY, CARD_ORDINAL, CARD_TEXT, CARD_TIME, SWAP_NAME
from paperwork.finding import Subject
from paperwork.model import Scene, Show
from paperwork.plan.bodies.events import QUICK_S, Event, list_events
from paperwork.plan.day.clockface import say_time
from paperwork.plan.evening import PackChange
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import LookChange, looks_of
from paperwork.sheets.forms import is_handheld
from paperwork.sheets.frame import frame_sheet, phrase, short_scene, subjects_of_channel
from paperwork.sheets.times import clock_fact, clock_word, time_words
from paperwork.text.names import fold

NAME = "swap-sheets"

CARD_UM = 36_000
"""The least height of a card: a swap with all its steps takes more, so that four stand on a page of A4."""

SCENES = replace(CARD_BAND, lines=5)
"""A scene that has no number goes by its name."""

LONG_S = 600
"""From ten minutes on, seconds do not matter."""

Swap: TypeAlias = Handover | PackChange


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for each side of the stage on which something is swapped, and one for swaps whose side is not given."""
    swaps = [(event, event.change) for event in list_events(show) if not isinstance(event.change, LookChange)]
    if not swaps:
        return ()
    sides: dict[str, str] = {}
    for _, swap in swaps:
        for side in filter(None, (swap.exit, swap.enter)):
            sides.setdefault(fold(side), side)
    made = []
    for key, side in sorted(sides.items()):
        own = [one for one in swaps if key in (fold(one[1].exit), fold(one[1].enter))]
        sheet = _sheet(show, f"swaps-{_file_name(key)}", "swap sheet", own, key)
        made.append(replace(sheet, title=phrase(show, "swaps side", side=side), facts=(*sheet.facts, side)))
    lost = [one for one in swaps if not (one[1].exit or one[1].enter)]
    if lost:
        made.append(_sheet(show, "swaps", "swaps anywhere" if sides else "swap sheet", lost, ""))
    return tuple(made)


def _file_name(side: str) -> str:
    plain = "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in side)
    return "-".join(part for part in plain.split("-") if part) or "side"


def _sheet(show: Show, name: str, title: str, swaps: list[tuple[Event, Swap]], side: str) -> Sheet:
    under = [phrase(show, "swap order"), clock_word(show)]
    if any(event.is_quick for event, _ in swaps):
        under.append(phrase(show, "swap black", minutes=QUICK_S // 60))
    cards = tuple(_card(show, event, swap, side) for event, swap in swaps)
    blocks, cautions = (Cards(cards, 1, CARD_UM),), ("swap caution", "privacy caution")
    facts = (clock_fact(show), str(len(under)), title)
    return frame_sheet(show, name, title, blocks, subtitle=tuple(under), cautions=cautions, facts=facts)


def _card(show: Show, event: Event, swap: Swap, side: str) -> Card:
    channel = swap.channel if isinstance(swap, Handover) else swap.to_channel
    ids = (swap.channel, event.sheds) if isinstance(swap, Handover) else (swap.from_channel, swap.to_channel)
    names = (swap.from_by, swap.to_by) if isinstance(swap, Handover) else (swap.by,)
    return Card(
        fact(channel, CARD_KEY),
        tuple(_steps(show, event, swap, side)),
        tuple(_band(show, event, swap)),
        tick=phrase(show, "swap done"),
        loud=event.is_quick,
        subjects=(
            *(subject for id in ids if id for subject in subjects_of_channel(show, show.channels[id])),
            *(Subject("people", name) for name in names if name),
        ),
        where=show.channels[channel].where.record,
    )


def _band(show: Show, event: Event, swap: Swap) -> Iterator[Line]:
    """The number of the change, between which scenes, and what there is of time."""
    yield fact(str(event.number), CARD_ORDINAL)
    one, two = short_scene(swap.after), short_scene(swap.before)
    text = phrase(show, "swap within", one=one) if one == two else phrase(show, "swap scenes", one=one, two=two)
    yield fact(text, SCENES, of=f"{one} {two}")
    if swap.before.page:
        yield fact(phrase(show, "script page", page=swap.before.page), CARD_TEXT, of=f"page {swap.before.page}")
    if event.is_quick:
        yield fact(phrase(show, "swap quick"), CARD_BAND, of="quick")
    if isinstance(swap, Handover) and swap.in_vision:
        yield fact(phrase(show, "in vision"), CARD_BAND, of="in vision")
        return
    if swap.seconds is None:
        yield fact(phrase(show, "not timed"), CARD_BAND, of="not timed")
    elif swap.seconds >= LONG_S:
        text = phrase(show, "minutes", minutes=swap.seconds // 60)
        yield fact(text, replace(CARD_TIME, figures=False), of=f"{swap.seconds}")
    else:
        yield fact(f"{swap.seconds // 60}:{swap.seconds % 60:02d}", CARD_TIME)
    if swap.at_least:
        yield fact(phrase(show, "swap or more"), CARD_TEXT, of="or more")
    elif swap.seconds is not None and swap.seconds < LONG_S:
        yield words(phrase(show, "swap unit"), CARD_TEXT)
    if event.in_interval:
        yield fact(phrase(show, "in the interval"), CARD_TEXT, of="interval")


def _steps(show: Show, event: Event, swap: Swap, side: str) -> Iterator[Item]:
    """Off the first body, wiped, what is worn, on the second: what of it is done on this side; where the pack goes."""
    channel = swap.channel if isinstance(swap, Handover) else swap.to_channel
    here_off = not side or not swap.exit or fold(swap.exit) == side
    here_on = not side or not swap.enter or fold(swap.enter) == side
    one = two = swap.by if isinstance(swap, PackChange) else ""
    if isinstance(swap, Handover):
        one, two = swap.from_by or swap.from_role, swap.to_by or swap.to_role
    first, last = _ends(show, swap)
    if here_off:
        yield _take_off(show, swap, one)
        yield first
    else:
        yield fact(phrase(show, "swap comes", side=swap.exit), SWAP_NAME, of=f"from {swap.exit}")
        yield fact(f"{one}, {first.text}", CARD_TEXT, of=f"{one} {first.fact}")
    if here_on:
        yield from _wipe(show, swap, two)
        if event.sheds:
            yield fact(phrase(show, "swap off", name=two, channel=event.sheds), SWAP_NAME, of=f"off {event.sheds}")
        key = _key(show, swap, "swap put on", "swap hand") if isinstance(swap, Handover) else "swap on"
        yield fact(
            phrase(show, key, name=two, channel=channel), SWAP_NAME, of=f"hand {two}" if key == "swap hand" else two
        )
        yield last
    else:
        yield fact(phrase(show, "swap carry", side=swap.enter), SWAP_NAME, of=f"to {swap.enter}")
        yield fact(f"{two}, {last.text}", CARD_TEXT, of=f"{two} {last.fact}")


def _take_off(show: Show, swap: Swap, name: str) -> Line:
    if isinstance(swap, Handover):
        key = _key(show, swap, "swap take off", "swap take")
        return fact(phrase(show, key, name=name), SWAP_NAME, of=f"take {name}" if key == "swap take" else name)
    text = phrase(show, "swap off", name=name, channel=swap.from_channel)
    return fact(text, SWAP_NAME, of=f"{name} {swap.from_channel}")


def _key(show: Show, swap: Handover, worn: str, held: str) -> str:
    """A handheld is taken from a hand and given to one: nobody wears it."""
    return held if is_handheld(show, show.channels[swap.channel]) else worn


def _ends(show: Show, swap: Swap) -> tuple[Line, Line]:
    """The exit and the entrance: the role, its scene, on which side, and when, where a move gives it."""
    return (
        _role_line(show, swap.from_role, phrase(show, "exits"), swap.exit, swap.after, swap.off_s),
        _role_line(show, swap.to_role, phrase(show, "enters"), swap.enter, swap.before, swap.on_s),
    )


def _role_line(show: Show, role: str, template: str, side: str, scene: Scene, at_s: int | None) -> Line:
    moment, said = time_words(show, at_s), "" if at_s is None else say_time(show, at_s)
    where = " ".join(filter(None, (template.format(side=side).strip() if side or moment else "", moment)))
    text = ", ".join(filter(None, (role, scene.name or scene.id, where)))
    return fact(text, CARD_TEXT, of=f"{role} {scene.name or scene.id} {side} {said}".rstrip())


def _wipe(show: Show, swap: Swap, name: str) -> Iterator[Line]:
    """Between the bodies: the wipe, the garment that goes under the pack, the second's pouch and belt, the capsule."""
    if isinstance(swap, Handover) and swap.in_vision:
        return
    body = show.people.get(name)
    look = next((look for look in looks_of(show, name) if look.scene == swap.before.id), None)
    pouch = (look.pouch if look else "") or (body.pouch if body else "")
    belt = body.belt if body else ""
    wears = look.wears if look else ""
    channel = show.channels[swap.channel if isinstance(swap, Handover) else swap.to_channel]
    held = {"wears": wears, "capsule": channel.capsule}
    worn = (
        held
        if is_handheld(show, channel)
        else {"wears": wears, "pouch": pouch, "belt": belt, "capsule": channel.capsule}
    )
    texts = [phrase(show, "swap wipe")] if isinstance(swap, Handover) else []
    texts += [phrase(show, f"swap {key}", **{key: value}) for key, value in worn.items() if value]
    if texts:
        yield fact("  ·  ".join(texts), CARD_BAND, of=" ".join(worn.values()))
