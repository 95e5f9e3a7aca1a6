"""The fitting call: who is fitted when, with which pack, and where it sits. Carried from room to room."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TypeAlias

from paperwork.document import Cell, Column, Line, RowGroup, Sheet, Table, TableRow, WriteIn, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Look, Show
from paperwork.plan.bodies.events import Event, list_events
from paperwork.plan.handovers import Handover
from paperwork.plan.looks import looks_of
from paperwork.sheets import forms
from paperwork.sheets.casting import list_days, list_worn_in_run
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import frame_sheet, headed, is_staged, phrase, short_scene, subjects_of_channel
from paperwork.sheets.times import clock_word, day_time_words, says_time_of_day, scene_line

NAME = "fitting-call"
ROW_UM = 13_000

Swaps: TypeAlias = Mapping[tuple[str, str], Event]
"""By performer and channel the swap that first brings the pack: before it there is nothing to fit."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: room by room, and in each room whoever is on first."""
    worn = list_worn_in_run(show)
    if not worn or not (show.people or show.scenes or show.looks):
        return ()
    columns = headed(
        show,
        Column("fitting head first", 23_000),
        Column("fitting head who", share=4),
        Column("head numbers", 26_000),
        Column("fitting head pouch", 18_000),
        Column("head capsule", 20_000),
        Column("fitting head place", share=3),
        forms.tick_column("fitting head fitted"),
        forms.tick_column("fitting head checked" if is_staged(show) else "fitting head checked parts"),
    )
    half = [phrase(show, "line half at", time=day_time_words(show, time)) for time in show.day.half_s]
    return (
        frame_sheet(
            show,
            NAME,
            "fitting",
            (Table(columns, tuple(_groups(show, worn)), row_um=ROW_UM),),
            order="fitting order",
            subtitle=(*half, phrase(show, "time of day") if says_time_of_day(show) else clock_word(show)),
            cautions=("body caution", "shared caution"),
            facts=tuple(map(str, show.day.half_s)),
        ),
    )


def _groups(show: Show, worn: dict[str, tuple[Worn, ...]]) -> Iterator[RowGroup]:
    swaps = _first_swaps(show)
    rooms = forms.list_rooms(show, worn)
    for room, people in rooms:
        names = sorted(people, key=lambda by: (forms.last_if_none(worn[by][0].first), by))
        title = phrase(show, "room", room=room) if room else phrase(show, "no room") if len(rooms) > 1 else ""
        yield RowGroup(
            tuple(_row_of(show, by, worn[by], swaps) for by in names), title, facts=(room, title and "titled")
        )


def _first_swaps(show: Show) -> Swaps:
    """Of each channel the first body has the pack from the start; whoever gets it later gets it in a swap."""
    found: dict[tuple[str, str], Event] = {}
    started: dict[str, str] = {}
    for event in list_events(show):
        if isinstance(event.change, Handover):
            change = event.change
            if change.to_by != started.setdefault(change.channel, change.from_by):
                found.setdefault((change.to_by, change.channel), event)
    return found


def _row_of(show: Show, by: str, worn: tuple[Worn, ...], swaps: Swaps) -> TableRow:
    person, look = show.people.get(by), next(iter(looks_of(show, by)), None)
    scene = show.scenes[worn[0].first] if worn[0].first is not None else None
    roles = forms.join_roles(tuple(role for one in worn for role in one.roles))
    pouch = look.pouch if look and look.pouch else person.pouch if person else ""
    brought = [(one, swaps[by, one.channel.id]) for one in worn if (by, one.channel.id) in swaps]
    later = tuple(_swap_line(show, one, event) for one, event in brought)
    tick = forms.tick_cell() if len(brought) < len(worn) else cell(words("–", HAND_STRONG))
    return row(
        cell(scene_line(show, scene, HAND_STRONG), fact(short_scene(scene), HAND)) if scene else cell(),
        cell(fact(by, HAND_STRONG), fact(roles if roles != by else "", HAND), *list_days(show, by, HAND)),
        cell(fact("  ".join(dict.fromkeys(one.channel.pack for one in worn)), HAND_NUMBER), key=True),
        cell(fact(pouch, HAND_STRONG), fact(person.belt if person else "", HAND)),
        _capsule_cell(worn),
        _place_cell(look, later),
        tick,
        tick,
        subjects=(Subject("people", by), *(s for one in worn for s in subjects_of_channel(show, one.channel))),
    )


def _capsule_cell(worn: tuple[Worn, ...]) -> Cell:
    capsules = dict.fromkeys(one.channel.capsule for one in worn if one.channel.capsule)
    return cell(*(fact(capsule, HAND_STRONG) for capsule in capsules)) if capsules else cell(WriteIn())


def _place_cell(look: Look | None, later: tuple[Line, ...]) -> Cell:
    """Which packs come later in a swap, and where the others sit; a line to write on where neither is known."""
    if look:
        return cell(*later, fact(look.sits, HAND_STRONG), fact(look.capsule, HAND))
    return cell(*later) if later else forms.write_cell(words(" ", HAND))


def _swap_line(show: Show, one: Worn, event: Event) -> Line:
    scene = short_scene(event.change.before)
    text = phrase(show, "fitting swap", pack=one.channel.pack, number=event.number, scene=scene)
    return fact(text, replace(HAND_STRONG, lines=3), of=f"{one.channel.pack} swap {event.number} {scene}")
