"""The mic plot for the cast: under each name the numbers, and from when to when. Nothing else."""

from paperwork.document import Cell, Column, RowGroup, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import CAST_NAME, CAST_NUMBER, CAST_SMALL, CAST_TIME
from paperwork.finding import Subject
from paperwork.model import Show
from paperwork.plan.bodies.spells import Spell
from paperwork.plan.day.clockface import say_time
from paperwork.plan.timeline import scene_times
from paperwork.sheets.casting import CastBody, list_bodies
from paperwork.sheets.forms import is_handheld
from paperwork.sheets.frame import headed, phrase, short_scene, subjects_of_channel
from paperwork.sheets.times import time_words
from paperwork.text.names import name_key

ROW_UM = 11_600
LEAST_UM = 122_000
"""Two columns of names stand side by side on a wide page of A4 or Letter."""


def list_times(show: Show) -> Table:
    """A row for each body, by name, and in it a line for each pack; a second pack stands beside the first."""
    columns = headed(
        show,
        Column("plot head name", share=7),
        Column("plot head mic", 31_000),
        Column("plot head from", share=4),
        Column("plot head until", share=4),
    )
    bodies = sorted(list_bodies(show, CAST_SMALL), key=lambda body: name_key(body.by))
    rows = tuple(_row_of(show, body) for body in bodies)
    return Table(columns, (RowGroup(rows),), row_um=ROW_UM, least_um=LEAST_UM)


def _row_of(show: Show, body: CastBody) -> TableRow:
    by, spells, days = body
    roles = ", ".join(dict.fromkeys(role for spell in spells for role in spell.roles))
    together: dict[object, list[Spell]] = {}
    for spell in sorted(spells, key=lambda spell: (spell.scenes[0], bool(spell.channel.doubles))):
        held = is_handheld(show, spell.channel) and not spell.channel.doubles
        key = spell.scenes, spell.gives is None, spell.channel.id if held else ""
        together.setdefault(key, []).append(spell)
    lines = list(together.values())
    subjects = dict.fromkeys(subject for spell in spells for subject in subjects_of_channel(show, spell.channel))
    return row(
        cell(fact(by, CAST_NAME), *([fact(roles, CAST_SMALL)] if by not in roles else []), *([days] if days else [])),
        tuple(cell(fact("  ".join(spell.channel.id for spell in line), CAST_NUMBER), key=True) for line in lines),
        tuple(_time_cell(show, line[0], first=True) for line in lines),
        tuple(_time_cell(show, line[0], first=False) for line in lines),
        subjects=(*subjects, Subject("people", by)),
        where=spells[0].channel.where.record,
    )


def _time_cell(show: Show, spell: Spell, *, first: bool) -> Cell:
    """The scene and the time at which the pack goes on or comes off; that it stays on where it goes on to the end."""
    if not first and spell.gives is None and not is_handheld(show, spell.channel):
        return cell(words(phrase(show, "plot end"), CAST_SMALL))
    index = spell.scenes[0] if first else spell.scenes[-1]
    known_s = spell.from_s if first else spell.to_s
    at_s = known_s if known_s is not None else scene_times(show)[index][0 if first else 1]
    scene, of = short_scene(show.scenes[index]), "" if at_s is None else say_time(show, at_s)
    text, said = ("   ".join(filter(None, (scene, at))) for at in (time_words(show, at_s), of))
    return cell(fact(text, CAST_TIME, of=said))
