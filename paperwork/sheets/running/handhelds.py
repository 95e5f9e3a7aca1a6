"""Handhelds issued and returned: by name and time, who has which, and a signature for each. At the mic table."""

from collections.abc import Iterator
from typing import NamedTuple

from paperwork.document import Cell, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row
from paperwork.document.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.plan.bodies.spells import Spell, list_spells
from paperwork.plan.timeline import scene_times
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel
from paperwork.sheets.times import clock_fact, clock_word, time_line

NAME = "handhelds"
ROW_UM = 13_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in the order in which they go out. Needs handhelds that are held in scenes."""
    issues = list_issues(show)
    if not issues:
        return ()
    columns = headed(
        show,
        Column("handhelds head out", 32_000),
        Column("handhelds", 26_000),
        Column("handhelds head who", share=3),
        Column("handhelds head back", 36_000),
        forms.tick_column("handhelds head issued"),
        forms.tick_column("handhelds head returned"),
        Column("handhelds head signed", forms.WRITE_UM),
    )
    table = Table(columns, (RowGroup(tuple(_row_of(show, one) for one in issues)),), row_um=ROW_UM)
    return (
        frame_sheet(
            show,
            NAME,
            "handhelds issued",
            (table,),
            order="handhelds order",
            subtitle=(clock_word(show),),
            cautions=("shared caution", "privacy caution"),
            facts=(clock_fact(show),),
        ),
    )


class Issue(NamedTuple):
    """A handheld in somebody's hand for scenes that follow each other: first and last, by index, and from when to when.

    `on_to` is who takes it from them for the `next` scene, at once, "" where it comes back; `is_taken`: it came so
    itself.
    """

    spell: Spell
    first: int
    last: int
    from_s: int | None
    to_s: int | None
    on_to: str = ""
    next: int = 0
    is_taken: bool = False


def list_issues(show: Show) -> list[Issue]:
    """Every issue of a handheld, by when it goes out: nobody keeps one through a scene in which it is not held."""
    held = [one for one in list_spells(show) if forms.is_handheld(show, one.channel) and not one.channel.spare]
    issues: list[Issue] = []
    for spell in held:
        issues += _split(show, spell)
    taken = {(one.spell.channel.id, one.on_to, one.next) for one in issues if one.on_to}
    issues = [one._replace(is_taken=(one.spell.channel.id, one.spell.by, one.first) in taken) for one in issues]
    return sorted(issues, key=lambda one: (one.first, one.from_s or 0))


def _split(show: Show, spell: Spell) -> Iterator[Issue]:
    times = scene_times(show)
    ends = [number for number, index in enumerate(spell.scenes) if index + 1 not in spell.scenes]
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    begin = 0
    for end in ends:
        first, last = spell.scenes[begin], spell.scenes[end]
        from_s = spell.from_s if begin == 0 else times[first][0]
        to_s = spell.to_s if last == spell.scenes[-1] else times[last][1]
        gives = spell.gives if last == spell.scenes[-1] else None
        if gives and place[gives.before.id] - last <= 1 and gives.seconds in (0, None):
            yield Issue(spell, first, last, from_s, to_s, gives.to_by or gives.to_role, place[gives.before.id])
        else:
            yield Issue(spell, first, last, from_s, to_s)
        begin = end + 1


def _row_of(show: Show, one: Issue) -> TableRow:
    spell, first = one.spell, show.scenes[one.first]
    roles = forms.join_roles(spell.roles)
    return row(
        cell(time_line(show, one.from_s, HAND_STRONG), fact(short_scene(first), HAND)),
        cell(fact(spell.channel.pack, HAND_NUMBER), key=True),
        cell(fact(spell.by, HAND_STRONG), fact(roles if roles != spell.by else "", HAND)),
        _back_cell(show, one),
        forms.tick_cell(),
        forms.tick_cell(),
        forms.write_cell(),
        subjects=(Subject("people", spell.by), *subjects_of_channel(show, spell.channel)),
        where=spell.channel.where.record,
    )


def _back_cell(show: Show, one: Issue) -> Cell:
    """After which scene it comes back, and when; to whom it goes on where it does not come back."""
    last = short_scene(show.scenes[one.last])
    lines = [time_line(show, one.to_s, HAND_STRONG)]
    lines.append(fact(phrase(show, "handhelds after", scene=last), HAND, of=f"after {last}"))
    if one.on_to:
        lines.append(fact(phrase(show, "handhelds on to", name=one.on_to), HAND_STRONG, of=f"on to {one.on_to}"))
    return cell(*lines)
