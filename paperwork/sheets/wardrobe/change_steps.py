"""One change on a body, step by step: what comes off, what happens to the pack, what goes on."""

from collections.abc import Iterator
from typing import TypeAlias

from paperwork.model import Channel, Look, Show
from paperwork.plan.bodies.events import Event
from paperwork.plan.bodies.spells import Spell, list_spells
from paperwork.plan.evening import PackChange
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import LookChange, look_at
from paperwork.sheets import forms
from paperwork.sheets.frame import phrase

Step: TypeAlias = tuple[str, str]
"""What is printed, and the fact behind it without a word of a language."""


def bodies_of(change: Handover | PackChange | LookChange) -> tuple[str, ...]:
    """Whom a change touches, the one who gives first."""
    if isinstance(change, Handover):
        return tuple(dict.fromkeys((change.from_by or change.from_role, change.to_by or change.to_role)))
    return (change.by,)


def channels_of(show: Show, event: Event) -> tuple[str, ...]:
    """The channels whose packs are touched, second packs last."""
    change = event.change
    if isinstance(change, Handover):
        return tuple(filter(None, (change.channel, event.sheds)))
    if isinstance(change, PackChange):
        return (change.from_channel, change.to_channel)
    return tuple(spell.channel.id for spell in _worn_at(show, change))


def _worn_at(show: Show, change: LookChange) -> list[Spell]:
    """What the body has on between its exit and its entrance, packs and not handhelds."""
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    on, off = place[change.before.id], place[change.after.id] if change.after else 0
    worn = [
        spell
        for spell in list_spells(show)
        if spell.by == change.by
        and not forms.is_handheld(show, spell.channel)
        and spell.scenes[0] <= on
        and (spell.gives is None or spell.scenes[-1] >= off)
    ]
    return sorted(worn, key=lambda spell: bool(spell.channel.doubles))


def list_steps(show: Show, event: Event) -> tuple[Step, ...]:
    """The steps in the order in which they are done."""
    change = event.change
    if isinstance(change, LookChange):
        return tuple(_of_look(show, change))
    return tuple(_of_handover(show, event, change) if isinstance(change, Handover) else _of_pack_change(show, change))


def _step(show: Show, key: str, **facts: str) -> Step:
    return phrase(show, key, **facts), " ".join((key, *facts.values()))


def _of_look(show: Show, change: LookChange) -> Iterator[Step]:
    """Garment off, packs, garment on, capsule: hats and wigs come last, and the capsule with them."""
    old, new = change.old or Look(""), change.new
    if old.wears:
        yield _step(show, "quick off", wears=old.wears)
    yield from _moved(show, "pack", old.sits, new.sits)
    if any(spell.channel.doubles for spell in _worn_at(show, change)):
        yield from _moved(show, "second", old.second_sits, new.second_sits)
    if new.wears:
        yield _step(show, "quick on", wears=new.wears)
    yield from _moved(show, "capsule", old.capsule, new.capsule)


def _moved(show: Show, what: str, was: str, now: str) -> Iterator[Step]:
    """From where to where something goes, or that it stays; only where to, if nothing is known of before."""
    if now and was and was != now:
        yield _step(show, f"quick {what} moves", was=was, now=now)
    elif now:
        yield _step(show, f"quick {what} stays" if was else f"quick {what} goes", now=now)


def _of_handover(show: Show, event: Event, one: Handover) -> Iterator[Step]:
    """The pack off one body, the other's off too, the pack wiped, in its pouch and on; a handheld changes hands."""
    channel, body = show.channels[one.channel], one.to_by or one.to_role
    is_held = forms.is_handheld(show, channel)
    off = "quick take" if is_held else "quick comes off"
    yield _step(show, off, name=one.from_by or one.from_role, pack=channel.pack)
    if event.sheds:
        yield _step(show, "quick comes off", name=body, pack=show.channels[event.sheds].pack)
    if is_held:
        yield _step(show, "swap wipe")
        yield _step(show, "quick hand", name=body, pack=channel.pack)
        return
    person = show.people.get(body)
    pouch = person.pouch if person else ""
    yield _step(show, "quick wipe into", pouch=pouch) if pouch else _step(show, "quick wipe")
    yield from _goes_on(show, channel, body, one.before.id)


def _of_pack_change(show: Show, one: PackChange) -> Iterator[Step]:
    off, on = show.channels[one.from_channel], show.channels[one.to_channel]
    yield _step(show, "quick comes off", name=one.by, pack=off.pack)
    yield from _goes_on(show, on, one.by, one.before.id)


def _goes_on(show: Show, channel: Channel, by: str, scene: str) -> Iterator[Step]:
    """The pack on a body, and where it sits in what is worn then."""
    yield _step(show, "quick goes on", name=by, pack=channel.pack)
    index = next(index for index, one in enumerate(show.scenes) if one.id == scene)
    look = look_at(show, by, index)
    if look and (look.sits or look.capsule):
        yield _step(show, "quick sits", now=", ".join(filter(None, (look.sits, look.capsule))))
