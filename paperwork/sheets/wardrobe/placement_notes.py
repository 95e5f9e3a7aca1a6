"""Placement notes: for each body and look where each pack sits and where its capsule goes. At the mic station."""

from paperwork.document import Cell, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import LIST, LIST_NUMBER, LIST_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Cover, Look, Show
from paperwork.plan.covers import channel_for
from paperwork.plan.looks import looks_of, seen_from
from paperwork.sheets import forms
from paperwork.sheets.casting import list_days, list_roles, list_worn_in_run
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel

NAME = "placement-notes"
ROW_UM = 9_600


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet by number; a row for each look, and one to fill in for whoever has none. No frequency is on it."""
    worn = list_worn_in_run(show)
    if not worn or not (show.looks or show.capsules or show.people):
        return ()
    columns = headed(
        show,
        Column("head numbers", 17_000),
        Column("", 18_000),
        Column("placement head who", share=6),
        Column("placement head look", share=6),
        Column("placement head sits", share=5),
        Column("placement head capsule goes", share=5),
        Column("placement head capsule", 32_000),
        Column("placement head fix", 25_000),
        Column("placement head notes", 32_000),
    )
    rows = tuple(
        _row_of(show, by, tuple(one.channel for one in packs), look, first=index == 0)
        for by, packs in worn.items()
        for index, look in enumerate(looks_of(show, by) or (Look(""),))
    )
    covers = tuple(_cover_row(show, cover) for cover in show.covers if cover.by)
    groups = (
        RowGroup(rows),
        *((RowGroup(covers, phrase(show, "placement covers"), facts=("covers",)),) if covers else ()),
    )
    return (
        frame_sheet(
            show,
            NAME,
            "placement",
            (Table(columns, groups, row_um=ROW_UM),),
            order="placement order",
            cautions=("body caution", "shared caution"),
            landscape=True,
            turns=True,
        ),
    )


def _row_of(show: Show, by: str, channels: tuple[Channel, ...], look: Look, *, first: bool) -> TableRow:
    """One look of one body, with a part for each pack; of an alternate with the days."""
    is_usual = any(by in show.performers_of(one) for one in channels)
    roles = forms.join_roles(tuple(role for one in channels for role in list_roles(show, one, by)))
    notes = tuple(dict.fromkeys(filter(None, (one.notes_to("wardrobe") for one in channels)))) if first else ()
    return row(
        tuple(cell(fact(one.pack, LIST_NUMBER)) for one in channels),
        tuple(_second_cell(show, one) for one in channels),
        cell(
            fact(by, LIST_STRONG),
            fact(roles if roles != by else "", LIST),
            *(list_days(show, by, LIST) if first and not is_usual else ()),
        ),
        _look_cell(show, look),
        tuple(forms.known_cell(look.second_sits if one.doubles else look.sits, LIST_STRONG) for one in channels),
        tuple(forms.known_cell("" if one.doubles else look.capsule, LIST_STRONG) for one in channels),
        tuple(_capsule_cell(show, one.capsule) for one in channels),
        tuple(forms.write_cell() for _ in channels),
        forms.write_cell(*(fact(note, LIST) for note in notes)),
        subjects=(
            Subject("people", by),
            *((Subject("looks", look.id),) if look.id else ()),
            *(s for one in channels for s in subjects_of_channel(show, one)),
        ),
        where=look.where.record,
    )


def _cover_row(show: Show, cover: Cover) -> TableRow:
    """Somebody who may go on: the number that then is theirs, and which capsule is put on it."""
    channel = channel_for(show, cover, cover.role)
    return row(
        cell(fact(channel.pack, LIST_NUMBER)) if channel else forms.write_cell(),
        cell(),
        cell(fact(cover.by, LIST_STRONG), fact(cover.role, LIST)),
        cell(words("–", LIST)),
        forms.write_cell(),
        forms.write_cell(),
        _capsule_cell(show, cover.capsule or (channel.capsule if channel else "")),
        forms.write_cell(),
        forms.write_cell(),
        subjects=(Subject("covers", cover.id), Subject("people", cover.by)),
        where=cover.where.record,
    )


def _look_cell(show: Show, look: Look) -> Cell:
    """What is worn, and from which scene on."""
    scene = seen_from(show, look)
    since = (
        [fact(phrase(show, "placement from", scene=short_scene(scene)), LIST, of=short_scene(scene))] if scene else []
    )
    return cell(fact(look.wears, LIST_STRONG), *since) if look.wears or since else cell(words("–", LIST))


def _second_cell(show: Show, channel: Channel) -> Cell:
    """That a pack is a second one."""
    second = phrase(show, "second") if channel.doubles else ""
    return cell(fact(second, LIST, of=f"doubles {channel.doubles}"))


def _capsule_cell(show: Show, id: str) -> Cell:
    """The capsule with its pattern, colour and cap: a colour is a code, never a word for a person."""
    capsule = show.capsules.get(id)
    if capsule is None:
        return forms.known_cell(id, LIST_STRONG)
    colour = "" if capsule.colour in id else capsule.colour
    texts = (id, capsule.pattern, colour, capsule.cap, capsule.serial)
    return forms.known_cell(", ".join(filter(None, texts)), LIST_STRONG)
