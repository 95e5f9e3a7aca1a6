"""Placement notes: for each body and look where the pack sits and where the capsule goes. At the mic station."""

from collections.abc import Iterator

from paperwork.document import Column, Group, Row, Sheet, Table, WriteIn, cell, fact, row, words
from paperwork.finding import Subject
from paperwork.model import Look, Show
from paperwork.plan.looks import looks_of
from paperwork.sheets import forms
from paperwork.sheets.forms import Worn
from paperwork.sheets.frame import frame_sheet, short_scene, subjects_of_channel
from paperwork.styles import HAND, HAND_NUMBER, HAND_STRONG
from paperwork.words import words_of

NAME = "placement-notes"
ROW_UM = 15_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet by number; a row for each look, and one to fill in for whoever has none. No frequency is on it."""
    worn = forms.list_worn(show)
    if not worn or not (show.looks or show.capsules or show.people):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["head numbers"], 28_000), Column(w["placement head who"], share=6), Column(w["placement head look"], share=5),
        Column(w["placement head sits"], share=4), Column(w["placement head capsule goes"], share=4),
        Column(w["placement head capsule"], 29_000), Column(w["placement head fix"], 44_000),
    )
    rows = tuple(r for by, packs in worn.items() for r in _rows_of(show, by, packs))
    return (
        frame_sheet(
            show, NAME, w["placement"], (Table(columns, (Group(rows),), row_um=ROW_UM),), subtitle=(w["placement order"],),
            cautions=(w["body caution"], w["shared caution"]), landscape=True,
        ),
    )


def _rows_of(show: Show, by: str, worn: tuple[Worn, ...]) -> Iterator[Row]:
    looks = looks_of(show, by) or (Look(""),)
    for index, look in enumerate(looks):
        yield _row_of(show, by, worn, look, first=index == 0)


def _row_of(show: Show, by: str, worn: tuple[Worn, ...], look: Look, *, first: bool) -> Row:
    w = words_of(show.production.language)
    scene = next((scene for scene in show.scenes if scene.id == look.scene), None)
    since = w["placement from"].format(scene=short_scene(scene)) if scene else ""
    notes = tuple(dict.fromkeys(one.channel.notes for one in worn if one.channel.notes))
    return row(
        cell(fact("  ".join(dict.fromkeys(one.channel.pack for one in worn)), HAND_NUMBER), key=True),
        cell(fact(by, HAND_STRONG), fact(forms.roles_told(tuple(role for one in worn for role in one.roles)), HAND)),
        cell(fact(look.wears, HAND_STRONG), fact(since, HAND, of=look.scene)) if look.wears or since else cell(words("–", HAND)),
        cell(fact(look.sits, HAND_STRONG) if look.sits else WriteIn()),
        cell(fact(look.capsule, HAND_STRONG) if look.capsule else WriteIn()),
        cell(*_capsule_lines(show, worn)),
        cell(*(fact(note, HAND) for note in notes if first), WriteIn(w["placement tape"]), WriteIn(w["placement note"])),
        subjects=(
            Subject("people", by), *((Subject("looks", look.id),) if look.id else ()),
            *(s for one in worn for s in subjects_of_channel(show, one.channel)),
        ),
        where=look.where.record,
    )


def _capsule_lines(show: Show, worn: tuple[Worn, ...]) -> Iterator:
    """Each capsule with its type, pattern and cap: a colour is a code, never a word for a person."""
    for id in dict.fromkeys(one.channel.capsule for one in worn if one.channel.capsule):
        yield fact(id, HAND_STRONG)
        capsule = show.capsules.get(id)
        if capsule:
            colour = "" if capsule.colour in id else capsule.colour
            yield fact(", ".join(filter(None, (capsule.pattern, colour, capsule.cap, capsule.serial))), HAND)
