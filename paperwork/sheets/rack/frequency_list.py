"""The frequency list: every carrier in the order of its frequency, ours and everybody else's. Read in the hand."""

from collections import defaultdict
from collections.abc import Mapping
from typing import NamedTuple

from paperwork.document import Column, Item, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Other, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.text.units import format_khz, format_mhz

NAME = "frequency-list"


class Tuned(NamedTuple):
    """Who is on a frequency; with `is_backup` only when its own is lost."""

    record: Channel | Other
    is_backup: bool = False


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet. Needs two carriers with a frequency. Whoever shares one is named in each of its rows, in a column
    that is left out where nobody does."""
    users: dict[int, list[Tuned]] = defaultdict(list)
    carriers: list[Channel | Other] = [*show.channels.values(), *show.others.values()]
    for one in carriers:
        if one.hz is not None:
            users[one.hz].append(Tuned(one))
        if isinstance(one, Channel) and one.backup_hz is not None:
            users[one.backup_hz].append(Tuned(one, is_backup=True))
    if sum(map(len, users.values())) < 2:
        return ()
    is_shared = any(len(several) > 1 for several in users.values())
    columns = headed(
        show,
        Column("head frequency", 34_000, align="point"),
        Column("list head who", 28_000),
        Column("head role only", share=5),
        Column("request head width", forms.SHORT_UM),
        *([Column("list head shared", share=4)] if is_shared else []),
    )
    rows = tuple(_row_of(show, one, hz, users, is_shared) for hz in sorted(users) for one in users[hz])
    body = Table(columns, (RowGroup(rows),), row_um=6_200)
    return (frame_sheet(show, NAME, NAME, (body,), order="frequency list order", cautions=("licence caution",)),)


def _row_of(show: Show, user: Tuned, hz: int, users: Mapping[int, list[Tuned]], is_shared: bool) -> TableRow:
    one = user.record
    others = [other.record.id for other in users[hz] if other is not user]
    shared = fact(forms.say_shared(show, others), HAND_STRONG, of=" ".join(others))
    number: Item
    who: Line
    notes: tuple[Line, ...] = ()
    if isinstance(one, Channel):
        number, who = fact(one.id, HAND_STRONG), fact(title_of(show, one), HAND_STRONG, of=title_fact_of(show, one))
        radio = show.radio_of(one)
        width, subjects = radio.bandwidth_hz if radio else None, subjects_of_channel(show, one)
        if user.is_backup:
            text = phrase(show, "backup of", channel=one.id)
            number, subjects = fact(text, HAND_STRONG, of=f"{one.id} backup"), forms.backup_subjects(one)
    else:
        kind = phrase(show, f"other {one.kind}") if one.kind else ""
        number, who = fact(one.id, HAND_STRONG), fact(kind, HAND, of=one.kind)
        notes = (fact(one.notes, HAND),) if one.notes else ()
        width, subjects = show.type_of(one).bandwidth_hz, (Subject("others", one.id),)
    return row(
        cell(fact(format_mhz(hz), HAND_FREQUENCY)),
        cell(number),
        cell(who, *notes, *forms.where_and_when(show, one, HAND, alone=True)),
        cell(fact(f"{format_khz(width)} kHz", HAND)) if width else cell(words("–", HAND)),
        *([cell(shared if others else words("–", HAND))] if is_shared else []),
        mark=phrase(show, "list mark") if others else "",
        subjects=subjects,
        where=one.where.record,
    )
