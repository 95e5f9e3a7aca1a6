"""The frequency request: what the show asks of a coordinator, row by row, with room for the answer beside each row."""

from collections import Counter
from collections.abc import Iterator

from paperwork.coordinate.reply import asked_hz
from paperwork.document import Blank, Column, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.plan.timeline import powered_stretches
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, people_lines, phrase
from paperwork.text.units import format_edge, format_khz, format_mhz

NAME = "frequency-request"
ROW_UM = 9_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: who asks, for where and when, how many of which kind, then each carrier. Needs radio types."""
    if not show.channels or not show.radios:
        return ()
    columns = headed(
        show,
        Column("request head row", 22_000),
        Column("request head use", share=6),
        Column("request head tunes", share=5),
        Column("request head width", forms.SHORT_UM),
        Column("request head power", forms.SHORT_UM),
        Column("request head asked", 27_000, align="point"),
        Column("request head granted", 31_000),
    )
    groups = tuple(
        RowGroup(tuple(rows), phrase(show, kind), str(len(rows)), facts=(kind, str(len(rows))))
        for kind, rows in _groups(show)
        if rows
    )
    blocks = (_letter(show), _summary(show), Table(columns, groups, row_um=ROW_UM))
    return (frame_sheet(show, NAME, "request", blocks, order="request order", cautions=("licence caution",)),)


def _letter(show: Show) -> Table:
    """Everything about the show that a coordinator asks for; what is not known has a line for a pen."""
    production = show.production
    days = forms.format_days(show, production.first_day, production.last_day)
    on_air = ", ".join(
        f"{forms.time_of_day(one.from_s)}–{forms.time_of_day(one.to_s)}" for one in powered_stretches(show)
    )
    known = {
        "for": cell(fact(production.company, HAND)),
        "contact": cell(fact(production.contact, HAND)),
        "at": cell(fact(production.venue, HAND)),
        "licence": cell(fact(production.licence, HAND), fact(production.licensed_for, HAND)),
        "days": cell(fact(days, HAND, of=f"{production.first_day} {production.last_day}")),
        "antennas": cell(),
        "on air": cell(fact(on_air, HAND)),
        "answer": cell(),
    }
    cells = [
        (cell(words(phrase(show, f"request {key}"), HAND_STRONG)), value if value.items else forms.write_cell())
        for key, value in known.items()
    ]
    rows = tuple(row(*left, *right) for left, right in zip(cells[::2], cells[1::2], strict=True))
    label, value = Column("", 30_000), Column("")
    return Table((label, value, label, value), (RowGroup(rows),), row_um=ROW_UM)


def _summary(show: Show) -> Table:
    """How many of each radio type: needed, and on top of that as spares."""
    needed = Counter(one.radio for one in show.channels.values() if not one.spare)
    spare = Counter(one.radio for one in show.channels.values() if one.spare)
    columns = headed(
        show,
        Column("request head type", share=6),
        Column("request head needed", 16_800),
        Column("request head spares", 16_800),
        Column("request head tunes", share=5),
        Column("request head step", 28_000),
        Column("request head width", forms.SHORT_UM),
        Column("request head power", forms.SHORT_UM),
        Column("request head emission", forms.SHORT_UM),
    )
    rows = tuple(
        row(
            cell(fact(f"{radio.id}, {phrase(show, radio.kind)}", HAND_STRONG, of=f"{radio.id} {radio.kind}")),
            cell(fact(str(needed[radio.id]), HAND_STRONG)),
            cell(fact(str(spare[radio.id]), HAND_STRONG)),
            forms.known_cell(list_tunes(radio)),
            forms.known_cell(_step(radio)),
            forms.known_cell(_khz(radio.bandwidth_hz)),
            forms.known_cell(radio.power),
            forms.write_cell(),
            subjects=(Subject("radios", radio.id),),
            where=radio.where.record,
        )
        for radio in show.radios.values()
        if needed[radio.id] or spare[radio.id]
    )
    return Table(columns, (RowGroup(rows),), row_um=ROW_UM)


def _step(radio: RadioType) -> str:
    """The raster of the type, and how far apart two of its carriers are wanted: `25, 400 kHz`."""
    known = [format_khz(hz) if hz else "–" for hz in (radio.step_hz, radio.apart_hz)]
    return f"{', '.join(known)} kHz" if radio.step_hz or radio.apart_hz else ""


def _khz(hz: int | None) -> str:
    return f"{format_khz(hz)} kHz" if hz else ""


def list_tunes(radio: RadioType | None) -> str:
    """The ranges that a radio type tunes to: `470–534, 606–630`."""
    return ", ".join(f"{format_edge(span.low_hz)}–{format_edge(span.high_hz)}" for span in radio.tunes) if radio else ""


def _groups(show: Show) -> Iterator[tuple[str, list[TableRow]]]:
    needed = [one for one in show.channels.values() if not one.spare]
    yield "request needed", [_channel_row(show, one) for one in needed]
    yield "spares", [_channel_row(show, one) for one in show.channels.values() if one.spare]
    yield "request others", [_other_row(show, one) for one in show.others.values()]


def _channel_row(show: Show, channel: Channel) -> TableRow:
    radio, hz = show.radio_of(channel), asked_hz(channel)
    more = list(people_lines(show, channel, HAND)) if channel.spare else []
    if channel.carrier:
        text = phrase(show, "request carrier", carrier=channel.carrier)
        more.append(fact(text, HAND, of=f"carrier {channel.carrier}"))
    return row(
        cell(fact(channel.id, HAND_STRONG)),
        cell(
            fact(phrase(show, radio.kind) if radio else "", HAND, of=radio.kind if radio else ""),
            *more,
            *forms.where_and_when(show, channel, HAND),
        ),
        forms.known_cell(list_tunes(radio)),
        forms.known_cell(_khz(radio.bandwidth_hz if radio else None)),
        forms.known_cell(forms.power_of(show, channel)),
        cell(fact(format_mhz(hz), HAND_FREQUENCY) if hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=(Subject("channels", channel.id),),
        where=channel.where.record,
    )


def _other_row(show: Show, other: Other) -> TableRow:
    return row(
        cell(fact(other.id, HAND_STRONG)),
        cell(
            fact(phrase(show, f"other {other.kind}") if other.kind else "", HAND, of=other.kind),
            *forms.where_and_when(show, other, HAND),
        ),
        cell(words("–", HAND)),
        forms.known_cell(_khz(other.bandwidth_hz)),
        forms.write_cell(),
        cell(fact(format_mhz(other.hz), HAND_FREQUENCY) if other.hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=(Subject("others", other.id),),
        where=other.where.record,
    )
