"""The frequency timetable of a bill: for each frequency who is on it, when and where. At the rack and with the coordinator."""

from collections.abc import Iterable

from paperwork.document import Cell, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Other, Show
from paperwork.plan.day.bill import list_stretches
from paperwork.plan.day.powered import Powered
from paperwork.plan.timeline import Stretch
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.sheets.times import clock_fact, clock_word, span_line
from paperwork.text.units import format_mhz
from paperwork.text.words import list_words

NAME = "frequency-timetable"


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet in MHz order. Needs carriers with a frequency and a part of the bill."""
    carriers: list[Channel | Other] = [*show.channels.values(), *show.others.values()]
    if not any(one.bill and one.hz is not None for one in carriers):
        return ()
    users: dict[int, list[Channel | Other]] = {}
    for one in carriers:
        if one.hz is not None:
            users.setdefault(one.hz, []).append(one)
    columns = headed(
        show,
        Column("head frequency", 34_000, align="point"),
        Column("bill head when", 46_000),
        Column("list head who", 26_000),
        Column("timetable head name", share=4),
        Column("timetable head part", share=3),
    )
    rows = tuple(_row_of(show, hz, users[hz]) for hz in sorted(users))
    return (
        frame_sheet(
            show,
            NAME,
            NAME,
            (Table(columns, (RowGroup(rows),), row_um=7_200),),
            order="timetable order",
            subtitle=(clock_word(show),),
            cautions=("licence caution",),
            facts=(clock_fact(show),),
        ),
    )


def _row_of(show: Show, hz: int, users: list[Channel | Other]) -> TableRow:
    """One frequency, with a part of the row for each who is on it, in order of time."""
    ordered = sorted(users, key=lambda one: (_when(show, one)[:1], one.id))
    parts = [_part(show, one) for one in ordered]
    whens, numbers, names, places = zip(*parts, strict=True)
    return row(
        cell(fact(format_mhz(hz), HAND_FREQUENCY)),
        whens,
        numbers,
        names,
        places,
        mark=phrase(show, "list mark") if len(users) > 1 else "",
        subjects=tuple(_subjects(show, users)),
        where=users[0].where.record,
    )


def _when(show: Show, one: Channel | Other) -> tuple[Stretch, ...]:
    return tuple(Powered(show).list_parts(one)) if isinstance(one, Channel) else list_stretches(show, one.bill)


def _part(show: Show, one: Channel | Other) -> tuple[Cell, Cell, Cell, Cell]:
    when = _when(show, one)
    spare = isinstance(one, Channel) and one.spare
    always = words(phrase(show, "timetable spare" if spare else "timetable always"), HAND)
    if isinstance(one, Channel):
        who = fact(title_of(show, one), HAND_STRONG, of=title_fact_of(show, one))
    else:
        who = fact(phrase(show, f"other {one.kind}") if one.kind else "", HAND, of=one.kind)
    place = fact(
        ", ".join(filter(None, (list_words(one.bill, show.production.language) if one.bill else "", one.zone))), HAND
    )
    return (
        cell(*(span_line(show, stretch) for stretch in when)) if when else cell(always),
        cell(fact(one.id, HAND_STRONG)),
        cell(who),
        cell(fact(place.text, HAND, of=f"{' '.join(one.bill)} {one.zone}".strip()))
        if place.text
        else cell(words("–", HAND)),
    )


def _subjects(show: Show, users: Iterable[Channel | Other]) -> Iterable[Subject]:
    for one in users:
        yield from subjects_of_channel(show, one) if isinstance(one, Channel) else (Subject("others", one.id),)
