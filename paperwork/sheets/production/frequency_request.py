"""The frequency request: what the show asks of a coordinator, row by row, with room for the answer beside each row."""

from collections import Counter
from collections.abc import Iterator

from paperwork.document import Blank, Column, Group, Note, Row, Sheet, Table, cell, fact, row, words
from paperwork.finding import Subject
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.plan.timeline import powered_stretches
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import HAND, HAND_FREQUENCY, HAND_STRONG, NOTE
from paperwork.units import format_edge, format_khz, format_mhz
from paperwork.words import format_date, words_of

NAME = "frequency-request"
ROW_UM = 10_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: who asks, for where and when, how many of which kind, then each carrier. Needs radio types."""
    if not show.channels or not show.radios:
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["request head row"], 25_000), Column(w["request head use"], share=4), Column(w["request head tunes"], share=5),
        Column(w["request head power"], 22_000), Column(w["request head asked"], 32_000, align="point"),
        Column(w["request head granted"], 46_000),
    )
    groups = tuple(Group(tuple(rows), title) for title, rows in _groups(show) if rows)
    blocks = (*_letter(show), _summary(show), Table(columns, groups, row_um=ROW_UM))
    return (
        frame_sheet(
            show, NAME, w["request"], blocks, subtitle=(w["request order"],), cautions=(w["licence caution"],),
        ),
    )


def asked_hz(channel: Channel) -> int | None:
    """What a coordinator is asked for: as told, else what is set now."""
    return channel.hz if channel.asked_hz is None else channel.asked_hz


def _letter(show: Show) -> Iterator[Note]:
    """Everything about the show that a coordinator asks for; what is not told is left out, and asked for on the phone."""
    w, production = words_of(show.production.language), show.production
    days = [format_date(day, production.language) for day in (production.first_day, production.last_day) if day]
    on_air = [f"{forms.time_of_day(one.from_s)}–{forms.time_of_day(one.to_s)}" for one in powered_stretches(show)]
    told = (
        ("request for", production.company), ("request at", production.venue), ("request days", " – ".join(dict.fromkeys(days))),
        ("request on air", ", ".join(on_air)), ("request contact", production.contact), ("request licence", production.licence),
    )
    text = "   ".join(w[key].format(told=value) for key, value in told if value)
    if text:
        yield Note(text, NOTE, facts=(*(value for key, value in told[:2]), *on_air, production.contact, production.licence))


def _summary(show: Show) -> Table:
    """How many of each radio type: needed, and on top of that as spares."""
    w = words_of(show.production.language)
    needed = Counter(one.radio for one in show.channels.values() if not one.spare)
    spare = Counter(one.radio for one in show.channels.values() if one.spare)
    columns = (
        Column(w["request head type"], share=3), Column(w["request head needed"], 24_000), Column(w["request head spares"], 24_000),
        Column(w["request head range"], share=3), Column(w["request head step"], 30_000), Column(w["request head width"], 30_000),
    )
    rows = tuple(
        row(
            cell(fact(radio.id, HAND_STRONG), words(w[radio.kind], HAND)),
            cell(fact(str(needed[radio.id]), HAND_STRONG)),
            cell(fact(str(spare[radio.id]), HAND_STRONG)),
            cell(fact(_tunes(radio), HAND)),
            cell(fact(f"{format_khz(radio.step_hz)} kHz" if radio.step_hz else "", HAND)),
            cell(fact(f"{format_khz(radio.bandwidth_hz)} kHz" if radio.bandwidth_hz else "", HAND)),
            subjects=(Subject("radios", radio.id),),
            where=radio.where.record,
        )
        for radio in show.radios.values() if needed[radio.id] or spare[radio.id]
    )
    return Table(columns, (Group(rows),), row_um=ROW_UM)


def _tunes(radio: RadioType | None) -> str:
    return ", ".join(f"{format_edge(span.low_hz)}–{format_edge(span.high_hz)} MHz" for span in radio.tunes) if radio else ""


def _groups(show: Show) -> Iterator[tuple[str, list[Row]]]:
    w = words_of(show.production.language)
    needed = [one for one in show.channels.values() if not one.spare]
    yield w["request needed"], [_channel_row(show, one) for one in needed]
    yield w["spares"], [_channel_row(show, one) for one in show.channels.values() if one.spare]
    yield w["request others"], [_other_row(show, one) for one in show.others.values()]


def _channel_row(show: Show, channel: Channel) -> Row:
    w = words_of(show.production.language)
    radio, transmitter = show.radio_of(channel), show.transmitters.get(channel.pack)
    hz = asked_hz(channel)
    kind = w[radio.kind] if radio else ""
    power = (transmitter.power if transmitter else "") or (radio.power if radio else "")
    return row(
        cell(fact(channel.id, HAND_STRONG)),
        cell(fact(kind, HAND, of=radio.kind if radio else "")),
        cell(fact(_tunes(radio), HAND)),
        cell(fact(power, HAND)),
        cell(fact(format_mhz(hz), HAND_FREQUENCY) if hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=(Subject("channels", channel.id),),
        where=channel.where.record,
    )


def _other_row(show: Show, other: Other) -> Row:
    width = f"{format_khz(other.bandwidth_hz)} kHz" if other.bandwidth_hz else ""
    return row(
        cell(fact(other.id, HAND_STRONG)),
        cell(fact(other.kind, HAND)),
        cell(fact(width, HAND)),
        cell(),
        cell(fact(format_mhz(other.hz), HAND_FREQUENCY) if other.hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=(Subject("others", other.id),),
        where=other.where.record,
    )
