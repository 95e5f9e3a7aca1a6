"""An act's advance form: what we know of it, what it has to tell us, and what the house gives. Sent to each act alone."""

from collections.abc import Iterable

from paperwork.document import Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Show
from paperwork.plan.day.acts import BilledAct, list_acts
from paperwork.sheets import forms
from paperwork.sheets.frame import (
    frame_sheet,
    headed,
    phrase,
    split_sheets,
    subjects_of_channel,
    title_fact_of,
    title_of,
)
from paperwork.sheets.times import clock_fact, clock_word, span_words
from paperwork.text.units import format_edge

NAME = "advance-form"
BLANK_ROWS = 3
"""Rows for what is not known yet."""

ASKED = ("contact", "mixes", "arrives", "own", "cells", "licence")
"""What an act is asked besides its list of radios (common practice, no source)."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet for each act, in the order of the bill. Needs a part of the bill with channels or others of its own."""
    acts = [act for act in list_acts(show) if act.scenes or act.brought or act.others]
    if not any(act.brought or act.others for act in acts):
        return ()
    return split_sheets([_sheet_of(show, act) for act in acts])


def _sheet_of(show: Show, act: BilledAct) -> Sheet:
    head = (Column("", 62_000), Column(""))
    columns = headed(
        show,
        Column("list head who", 26_000),
        Column("advance head role", share=4),
        Column("head frequency", 34_000, align="point"),
        Column("advance head tunes", 34_000),
        Column("head capsule", share=3),
    )
    groups = (
        RowGroup(tuple(_radio_rows(show, act)), phrase(show, "advance radios"), facts=("brought",)),
        *_lent_group(show, act),
    )
    return frame_sheet(
        show,
        NAME,
        NAME,
        (Table(head, (RowGroup(tuple(_questions(show, act))),), row_um=10_000), Table(columns, groups, row_um=9_600)),
        order="advance order",
        subtitle=(clock_word(show),),
        cautions=("advance caution", "licence caution"),
        facts=(clock_fact(show), act.name),
    )


def _questions(show: Show, act: BilledAct) -> Iterable[TableRow]:
    """What is known, then what is asked: the words first, and a line for the answer."""
    texts = [span_words(show, stretch) for stretch in act.stretches]
    when = ", ".join(text for text, _ in texts)
    known = {
        "act": fact(act.title, HAND_STRONG),
        "when": fact(when, HAND_STRONG, of=", ".join(of for _, of in texts)),
        "zone": fact(", ".join(act.zones), HAND_STRONG),
        "desk": fact(show.production.contact, HAND_STRONG),
    }
    for key, line in known.items():
        answer = cell(line) if line.text else forms.write_cell()
        yield row(cell(words(phrase(show, f"advance {key}"), HAND)), answer)
    for key in ASKED:
        yield row(cell(words(phrase(show, f"advance {key}"), HAND)), forms.write_cell())


def _radio_rows(show: Show, act: BilledAct) -> Iterable[TableRow]:
    """The radios and in-ears that the act brings as far as we know them, and rows for more."""
    for channel in act.brought:
        yield _channel_row(show, act, channel)
    for other in act.others:
        frequency = forms.known_frequency(other.hz, HAND_FREQUENCY)
        kind = phrase(show, f"other {other.kind}") if other.kind else ""
        yield row(
            cell(fact(other.id, HAND_STRONG)),
            cell(fact(kind, HAND, of=other.kind), *(fact(name, HAND) for name in other.listeners)),
            cell(frequency),
            forms.write_cell(),
            cell(words("–", HAND)),
            subjects=(Subject("others", other.id),),
            where=other.where.record,
        )
    for _ in range(BLANK_ROWS):
        yield row(*(forms.write_cell() for _ in range(5)))


def _lent_group(show: Show, act: BilledAct) -> Iterable[RowGroup]:
    if act.lent:
        rows = tuple(_channel_row(show, act, channel) for channel in act.lent)
        yield RowGroup(rows, phrase(show, "advance lent"), facts=("lent",))


def _channel_row(show: Show, act: BilledAct, channel: Channel) -> TableRow:
    radio = show.radio_of(channel)
    spans = [f"{format_edge(span.low_hz)}–{format_edge(span.high_hz)}" for span in (radio.tunes if radio else ())]
    roles = act.worn.get(channel.id, ())
    who = ", ".join(filter(None, dict.fromkeys(show.roles[role].by for role in roles)))
    named = forms.join_roles(roles)
    return row(
        cell(fact(channel.id, HAND_STRONG)),
        cell(
            fact(named or title_of(show, channel), HAND_STRONG, of=named or title_fact_of(show, channel)),
            fact(who, HAND),
        ),
        cell(forms.known_frequency(channel.hz, HAND_FREQUENCY)),
        forms.known_cell(", ".join(spans)),
        forms.known_cell(channel.capsule),
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )
