"""The cover chart: who goes on for whom, role by role first choice first, and what they then wear."""

from paperwork.document import (
    Block,
    Cell,
    Column,
    Note,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import LIST, LIST_NUMBER, LIST_STRONG, NOTE
from paperwork.finding import Subject
from paperwork.model import Channel, Cover, Role, Show
from paperwork.plan.covers import channel_for, channels_of, covers_of
from paperwork.sheets import forms
from paperwork.sheets.casting import list_days_of
from paperwork.sheets.frame import frame_sheet, headed, phrase, short_scene, subjects_of_channel
from paperwork.text.words import list_words

NAME = "cover-chart"
ROW_UM = 9_600


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs covers or alternates; no frequency is on it."""
    covered = {role.id: covers_of(show, role.id) for role in show.roles.values() if not role.group}
    rows = tuple(_row_of(show, show.roles[role], covers) for role, covers in covered.items() if covers)
    if not rows:
        return ()
    columns = headed(
        show,
        Column("head role only", share=8),
        Column("cover head by", share=8),
        Column("cover head scenes", 22_000),
        Column("head channel", 20_000),
        Column("head numbers", 20_000),
        Column("head pouch", 18_000),
        Column("head capsule", 25_000),
    )
    blocks: list[Block] = [Table(columns, (RowGroup(rows),), row_um=ROW_UM)]
    if bare := [id for one in show.channels.values() for id in one.roles if not covered.get(id)]:
        bare = list(dict.fromkeys(bare))
        blocks.append(Note(phrase(show, "cover none", roles=", ".join(bare)), NOTE, facts=tuple(bare)))
    cautions = ("shared caution", "privacy caution")
    return (frame_sheet(show, NAME, "cover chart", tuple(blocks), order="cover order", cautions=cautions),)


def _row_of(show: Show, role: Role, covers: tuple[Cover, ...]) -> TableRow:
    """A part of the row for each cover, so that all of a role stand together."""
    usual = phrase(show, "cover usual", name=role.by) if role.by else ""
    parts = [_part(show, role, cover, number) for number, cover in enumerate(covers, start=1)]
    worn = [channel for cover in covers for channel in _channels(show, role, cover)]
    return row(
        cell(fact(role.id, LIST_STRONG), fact(usual, LIST, of=role.by)),
        *zip(*parts, strict=True),
        subjects=(
            Subject("roles", role.id),
            *(Subject("covers", cover.id) for cover in covers if cover.id),
            *(Subject("people", cover.by) for cover in covers),
            *(s for channel in worn for s in subjects_of_channel(show, channel)),
        ),
        where=role.where.record,
    )


def _part(show: Show, role: Role, cover: Cover, number: int) -> tuple[Cell, ...]:
    """Who, in which scenes, and with what. Own roles are named: they have to be left."""
    person, channels = show.people.get(cover.by), _channels(show, role, cover)
    own = [one.id for one in show.roles.values() if one.by == cover.by and one.id != role.id]
    leaves = phrase(show, "cover plays", roles=list_words(own, show.production.language)) if own else ""
    days = () if cover.id else list_days_of(show, cover.by, role.id, LIST)
    scenes = ", ".join(short_scene(scene) for scene in show.scenes if scene.id in cover.scenes)
    pouches = (cover.pouch or (person.pouch if person else ""), person.second_pouch if person else "")
    return (
        cell(fact(f"{number}  {cover.by}", LIST_STRONG), fact(leaves, LIST, of=" ".join(own)), *days),
        cell(fact(scenes, LIST) if scenes else words(phrase(show, "cover all"), LIST)),
        forms.known_cell(" + ".join(one.id for one in channels), LIST_NUMBER),
        forms.known_cell(" + ".join(one.pack for one in channels), LIST_NUMBER),
        forms.known_cell(" + ".join(filter(None, pouches[: len(channels) or 1])), LIST_STRONG),
        _capsule_cell(show, cover, channels),
    )


def _channels(show: Show, role: Role, cover: Cover) -> tuple[Channel, ...]:
    """The channel on which a cover plays, and a second pack that goes with it."""
    first = channel_for(show, cover, role.id)
    if first is None:
        return ()
    second = (one for one in channels_of(show, role.id) if one.doubles == first.id)
    return (first, *second)


def _capsule_cell(show: Show, cover: Cover, channels: tuple[Channel, ...]) -> Cell:
    """The capsules on it, and the colour that suits the cover where the section people says it: a code of the house."""
    person = show.people.get(cover.by)
    ids = list(dict.fromkeys(filter(None, (cover.capsule, *(one.capsule for one in channels[bool(cover.capsule) :])))))
    capsules = [show.capsules.get(id) for id in ids]
    colours = [one.colour if one and one.colour not in id else "" for id, one in zip(ids, capsules, strict=True)]
    named = [", ".join(filter(None, pair)) for pair in zip(ids, colours, strict=True)]
    wanted = person.colour if person else ""
    suits = phrase(show, "cover suits", colour=wanted) if wanted else ""
    return cell(fact(" + ".join(named), LIST_STRONG) if named else WriteIn(), fact(suits, LIST, of=wanted))
