"""The dressing list: room by room who wears which pack in which pouch, and where it sits. One bar a door."""

from collections.abc import Iterator

from paperwork.document import Column, Group, Row, Sheet, Table, cell, fact, row
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.names import natural_key
from paperwork.plan.handovers import Handover, list_all_handovers
from paperwork.sheets import forms
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel
from paperwork.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.words import words_of

NAME = "dressing-list"
ROW_UM = 12_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet, by room and then by name. Needs rooms; no frequency is on it."""
    worn = forms.list_worn(show)
    if not worn or not any(person.room for person in show.people.values()):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["dressing head who"], share=5), Column(w["head numbers"], 28_000), Column(w["head pouch"], 22_000),
        Column(w["head belt"], 18_000), Column(w["head colour"], 18_000), Column(w["dressing head passes"], share=4),
        forms.tick_column(w["dressing head hung"]),
    )
    groups = tuple(_groups(show, worn))
    return (
        frame_sheet(
            show, NAME, w["dressing"], (Table(columns, groups, row_um=ROW_UM),), subtitle=(w["dressing order"],),
            cautions=(w["shared caution"], w["privacy caution"]),
        ),
    )


def _groups(show: Show, worn: dict[str, tuple[Worn, ...]]) -> Iterator[Group]:
    w = words_of(show.production.language)
    rooms: dict[str, list[str]] = {}
    for by in worn:
        person = show.people.get(by)
        rooms.setdefault(person.room if person else "", []).append(by)
    passed = list_all_handovers(show)
    for room in sorted(rooms, key=lambda room: (not room, natural_key(room))):
        rows = tuple(_row_of(show, by, worn[by], passed) for by in sorted(rooms[room]))
        title = w["room"].format(room=room) if room else w["no room"]
        count = sum(len(worn[by]) for by in rooms[room])
        yield Group(rows, title, w["dressing count"].format(count=count), facts=(room,))


def _row_of(show: Show, by: str, worn: tuple[Worn, ...], passed: tuple[Handover, ...]) -> Row:
    w = words_of(show.production.language)
    person = show.people.get(by)
    colours = (show.capsules[one.channel.capsule].colour or one.channel.capsule if one.channel.capsule in show.capsules
               else one.channel.capsule for one in worn)
    passes = []
    for one in passed:
        if by in (one.from_by, one.to_by):
            key, body = ("dressing gives", one.to_by) if by == one.from_by else ("dressing gets", one.from_by)
            other = body
            told = w[key].format(pack=show.channels[one.channel].pack, name=other, scene=short_scene(one.before))
            passes.append(fact(told, HAND, of=f"{key} {one.channel} {other} {one.before.id}"))
    name, roles = by, forms.roles_told(tuple(role for one in worn for role in one.roles))
    return row(
        cell(fact(name, HAND_STRONG), fact(roles if name != roles else "", HAND)),
        cell(fact("  ".join(dict.fromkeys(one.channel.pack for one in worn)), HAND_NUMBER), key=True),
        cell(fact(person.pouch if person else "", HAND_STRONG)),
        cell(fact(person.belt if person else "", HAND_STRONG)),
        cell(fact(", ".join(dict.fromkeys(filter(None, colours))), HAND_STRONG)),
        cell(*passes),
        forms.tick_cell(),
        subjects=(Subject("people", by), *(s for one in worn for s in subjects_of_channel(show, one.channel))),
    )
