"""The change-over sheet of a bill: act by act what goes off, what comes on and what stays. At the stage's side."""

from collections.abc import Iterable, Iterator
from itertools import groupby

from paperwork.document import Cell, Column, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.plan.day.acts import BilledAct, ChangeOver, list_change_overs
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.sheets.times import clock_fact, clock_word, span_line
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_mhz

NAME = "change-overs"

PORTION = 5
"""Channels that come on, go off or stay, in one row; others follow in rows below (a choice of this project)."""

LONG_S = 3 * 3600
"""Nobody counts the minutes of a longer change-over (a choice of this project)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: zone by zone, and in each act by act. Needs two acts with channels."""
    changes = list_change_overs(show)
    if not changes:
        return ()
    columns = headed(
        show,
        Column("bill head when", 34_000),
        Column("bill head act", share=3),
        Column("bill head off", share=4),
        Column("bill head on", share=6),
        Column("bill head stays", share=2),
        forms.tick_column("bill head packs"),
        forms.tick_column("bill head heard"),
    )
    groups = tuple(
        RowGroup(
            tuple(line for one in own for line in _rows_of(show, one)),
            name_zone(show, zone),
            facts=(_full_name(show, zone) or zone,),
        )
        for zone, own in groupby(changes, key=lambda one: one.zone)
    )
    return (
        frame_sheet(
            show,
            NAME,
            NAME,
            (Table(columns, groups, row_um=11_000),),
            order="change-overs order",
            subtitle=(clock_word(show),),
            cautions=("change-over caution", "licence caution"),
            facts=(clock_fact(show),),
            landscape=True,
        ),
    )


def name_zone(show: Show, zone: str) -> str:
    """A zone by its full name where the show gives one, else as a stage or zone of that name; "" for everywhere."""
    return _full_name(show, zone) or (phrase(show, "bill zone", zone=zone) if zone else "")


def _full_name(show: Show, zone: str) -> str:
    return next((group.name for group in show.groups.values() if group.kind == "zone" and group.id == zone), "")


def _rows_of(show: Show, one: ChangeOver) -> Iterator[TableRow]:
    """One row; of an act with many channels as many rows as they need, since a row is never parted between pages."""
    subjects = tuple(_subjects(show, (*one.off, *one.on, *one.stays)))
    where = one.next.scenes[0].where.record if one.next.scenes else one.next.channels[0].where.record
    for first in range(0, max(len(one.off), len(one.on), len(one.stays)), PORTION):
        off, on, stays = (several[first : first + PORTION] for several in (one.off, one.on, one.stays))
        yield row(
            cell(*(_when_lines(show, one) if not first else ())),
            cell(fact(one.next.title, HAND_STRONG), *(_ears_lines(one.next) if not first else ())),
            cell(*(_off_line(show, one, channel) for channel in off)) if off else _nobody(first),
            cell(*(line for channel in on for line in _on_lines(show, one, channel))) if on else _nobody(first),
            cell(fact(shorten_ids([one.id for one in stays]), HAND_STRONG)) if stays else _nobody(first),
            forms.tick_cell(),
            forms.tick_cell(),
            subjects=subjects,
            where=where,
        )


def _nobody(first: int) -> Cell:
    return cell() if first else cell(words("–", HAND))


def _when_lines(show: Show, one: ChangeOver) -> Iterable[Line]:
    """When the act is on, and how long the change-over may take."""
    for stretch in one.next.stretches:
        yield span_line(show, stretch)
    if one.seconds is not None and one.seconds < LONG_S:
        minutes = one.seconds // 60
        yield fact(phrase(show, "minutes", minutes=minutes), HAND, of=f"{one.seconds}")


def _ears_lines(act: BilledAct) -> Iterable[Line]:
    for other in act.others:
        mhz = f" {format_mhz(other.hz)}" if other.hz is not None else ""
        yield fact(f"{other.id}{mhz}", HAND)


def _name(show: Show, one: ChangeOver, channel: Channel) -> tuple[str, str]:
    """Number and who has it in this act, and the same without a language."""
    roles = forms.join_roles(one.roles_on(channel))
    return f"{channel.id} {roles or title_of(show, channel)}", f"{channel.id} {roles or title_fact_of(show, channel)}"


def _off_line(show: Show, one: ChangeOver, channel: Channel) -> Line:
    text, of = _name(show, one, channel)
    return fact(text, HAND, of=f"off {of}")


def _on_lines(show: Show, one: ChangeOver, channel: Channel) -> Iterable[Line]:
    """Number, who and frequency; with whom it is shared is said under it."""
    mhz = format_mhz(channel.hz) if channel.hz is not None else "______.______"
    text, of = _name(show, one, channel)
    yield fact(f"{text}  {mhz}", HAND_STRONG, of=f"on {of} {mhz}")
    if who := ", ".join(filter(None, dict.fromkeys(show.roles[role].by for role in one.roles_on(channel)))):
        yield fact(who, HAND)
    yield from forms.shared_lines(show, channel, HAND)


def _subjects(show: Show, channels: Iterable[Channel]) -> Iterable[Subject]:
    for channel in channels:
        yield from subjects_of_channel(show, channel)
