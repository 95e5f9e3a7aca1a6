"""Swaps on the tonight sheet: those that are new, with a square to tick, and those that fall away."""

from collections.abc import Iterator

from paperwork.document import Column, Line, Note, RowGroup, Table, TableRow, Tick, cell, fact, row
from paperwork.document.styles import HAND, HAND_STRONG, NOTE
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.plan.bodies.events import list_events
from paperwork.plan.covers import Tonight, usual_evening
from paperwork.plan.evening import PackChange, list_handovers_tonight, list_pack_changes
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.plan.rules import crossing_s, swap_s
from paperwork.sheets.frame import headed, phrase, short_scene
from paperwork.sheets.times import time_line
from paperwork.text.names import fold

ROW_UM = 9_000


def list_swaps(show: Show, tonight: Tonight) -> Iterator[Table | Note]:
    """The swaps that are new, with a square to tick, and in one paragraph those that fall away."""
    usual = {_key(handover): handover for handover in list_all_handovers(show)}
    now = {_key(handover): handover for handover in list_handovers_tonight(show, tonight)}
    own = {change: change for change in list_pack_changes(show, usual_evening(show))}
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    new: list[Handover | PackChange] = [one for key, one in now.items() if key not in usual]
    new += [change for change in list_pack_changes(show, tonight) if change not in own]
    gone = [one for key, one in usual.items() if key not in now]
    columns = headed(
        show,
        Column("tonight head when", share=4),
        Column("tonight head pack", 24_000),
        Column("tonight head off", share=5),
        Column("tonight head goes", share=5),
        Column("tonight head time", 34_000),
    )
    if new:
        new.sort(key=lambda one: order[one.before.id])
        rows = tuple(_swap_row(show, one) for one in new)
        yield Table(columns, (RowGroup(rows, phrase(show, "tonight swaps")),), row_um=ROW_UM)
    if gone:
        swaps = [event for event in list_events(show) if isinstance(event.change, Handover)]
        numbers = {_key(event.change): event.number for event in swaps if isinstance(event.change, Handover)}
        texts = [_gone_words(show, one, numbers[_key(one)]) for one in gone]
        text = phrase(show, "tonight swaps gone", swaps="  ·  ".join(texts))
        yield Note(text, NOTE, tuple(" ".join(_key(one)) for one in gone))


def _gone_words(show: Show, one: Handover, number: int) -> str:
    """A swap that does not happen tonight: its number on the swap sheets, the scene, the channel, and between whom."""
    bodies = {"off": one.from_by, "on": one.to_by}
    return phrase(
        show, "tonight swap gone", number=number, scene=short_scene(one.before), channel=one.channel, **bodies
    )


def _key(handover: Handover) -> tuple[str, ...]:
    return (handover.channel, handover.from_by, handover.to_by, handover.before.id)


def _swap_row(show: Show, one: Handover | PackChange) -> TableRow:
    if isinstance(one, Handover):
        number, off, on = one.channel, one.from_by, one.to_by
        channels: tuple[str, ...] = (one.channel,)
    else:
        number, off, on = f"{one.from_channel} → {one.to_channel}", one.by, one.by
        channels = (one.from_channel, one.to_channel)
    return row(
        cell(fact(one.before.name or one.before.id, HAND_STRONG), time_line(show, one.before.at_s, HAND)),
        cell(fact(number, HAND_STRONG)),
        cell(fact(off, HAND_STRONG), _side(one.from_role, phrase(show, "exits"), one.exit)),
        cell(fact(on, HAND_STRONG), _side(one.to_role, phrase(show, "enters"), one.enter)),
        cell(Tick(_time_words(show, one))),
        subjects=tuple(Subject("channels", id) for id in channels) + (Subject("people", off), Subject("people", on)),
    )


def _side(role: str, template: str, side: str) -> Line:
    said = f"{role}, {template.format(side=side)}" if side else role
    return fact(said, HAND, of=f"{role} {side}")


def _time_words(show: Show, one: Handover | PackChange) -> str:
    """The time for a swap, or that it is not timed: `95 s`, `4 min or more`."""
    if isinstance(one, Handover) and one.in_vision:
        return phrase(show, "in vision")
    if one.seconds is None:
        return phrase(show, "not timed")
    minutes, is_long = one.seconds // 60, one.seconds >= 300
    time = phrase(show, "minutes", minutes=minutes) if is_long else phrase(show, "seconds", seconds=one.seconds)
    if one.at_least:
        return phrase(show, "at least", time=time)
    wanted_s = _wanted_s(show, one)
    if one.seconds >= wanted_s:
        return time
    return phrase(show, "too short", time=time, wanted=phrase(show, "seconds", seconds=wanted_s))


def _wanted_s(show: Show, one: Handover | PackChange) -> int:
    """What a swap takes, with the way round where it is known to cross the stage."""
    radio = show.radio_of(show.channels[one.channel if isinstance(one, Handover) else one.to_channel])
    crosses = bool(one.exit and one.enter and fold(one.exit) != fold(one.enter))
    return swap_s(show, radio.kind if radio else "pack") + (crossing_s(show) if crosses else 0)
