"""The fitting call: who is fitted when, with which pack, and where it sits. Carried from room to room."""

from collections.abc import Iterator

from paperwork.document import Column, Group, Row, Sheet, Table, WriteIn, cell, fact, row, words
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.names import natural_key
from paperwork.plan.looks import looks_of
from paperwork.sheets import forms
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel
from paperwork.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.words import words_of

NAME = "fitting-call"
ROW_UM = 13_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: room by room, and in each room whoever is on first."""
    worn = forms.list_worn(show)
    if not worn or not (show.people or show.scenes or show.looks):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["fitting head first"], 20_000), Column(w["fitting head who"], share=4),
        Column(w["head numbers"], 26_000), Column(w["fitting head pouch"], 18_000),
        Column(w["head capsule"], 20_000), Column(w["fitting head place"], share=3),
        forms.tick_column(w["fitting head fitted"]), forms.tick_column(w["fitting head checked"]),
    )
    half = [w["line half at"].format(time=forms.time_of_day(time)) for time in show.day.half_s]
    return (
        frame_sheet(
            show, NAME, w["fitting"], (Table(columns, tuple(_groups(show, worn)), row_um=ROW_UM),),
            subtitle=(w["fitting order"], *half, w["time of day"]), cautions=(w["body caution"], w["shared caution"]),
        ),
    )


def _groups(show: Show, worn: dict[str, tuple[Worn, ...]]) -> Iterator[Group]:
    w = words_of(show.production.language)
    rooms: dict[str, list[str]] = {}
    for by in worn:
        person = show.people.get(by)
        rooms.setdefault(person.room if person else "", []).append(by)
    for room in sorted(rooms, key=lambda room: (not room, natural_key(room))):
        names = sorted(rooms[room], key=lambda by: (forms.last_if_none(worn[by][0].first), by))
        title = w["room"].format(room=room) if room else w["no room"] if len(rooms) > 1 else ""
        yield Group(tuple(_row_of(show, by, worn[by]) for by in names), title, facts=(room,))


def _row_of(show: Show, by: str, worn: tuple[Worn, ...]) -> Row:
    person, look = show.people.get(by), next(iter(looks_of(show, by)), None)
    scene = show.scenes[worn[0].first] if worn[0].first is not None else None
    capsules = tuple(dict.fromkeys(one.channel.capsule for one in worn if one.channel.capsule))
    pouch = look.pouch if look and look.pouch else person.pouch if person else ""
    place = cell(fact(look.sits, HAND_STRONG), fact(look.capsule, HAND)) if look else forms.write_cell(words(" ", HAND))
    return row(
        cell(fact(forms.scene_time(show, scene) if scene else "", HAND_STRONG), fact(short_scene(scene) if scene else "", HAND)),
        cell(fact(by, HAND_STRONG), fact(forms.roles_told(tuple(role for one in worn for role in one.roles)), HAND)),
        cell(fact("  ".join(dict.fromkeys(one.channel.pack for one in worn)), HAND_NUMBER), key=True),
        cell(fact(pouch, HAND_STRONG), fact(person.belt if person else "", HAND)),
        cell(*(fact(capsule, HAND_STRONG) for capsule in capsules)) if capsules else cell(WriteIn()),
        place,
        forms.tick_cell(),
        forms.tick_cell(),
        subjects=(Subject("people", by), *(s for one in worn for s in subjects_of_channel(show, one.channel))),
    )
