"""The frequency request: what the show asks of a coordinator, row by row, with room for the answer beside each row."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from paperwork.coordinate import gather_on_air
from paperwork.coordinate.grants import asked_hz
from paperwork.document import Blank, Cell, Column, Line, RowGroup, Sheet, Table, TableRow, cell, fact, row, words
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_STRONG
from paperwork.finding import Subject
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.plan.day.clockface import say_day_time
from paperwork.plan.day.powered import powered_stretches
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, people_lines, phrase
from paperwork.sheets.margins import list_margin_tables
from paperwork.sheets.times import day_time_words
from paperwork.text.units import format_edge, format_khz, format_mhz
from paperwork.text.words import join_times

NAME = "frequency-request"
ROW_UM = 9_000


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet: who asks, for where and when, how many of which kind, then each carrier, and what each
    would have to spare. Needs radio types."""
    if not show.channels or not show.radios:
        return ()
    columns = headed(
        show,
        Column("request head row", 22_000),
        Column("request head use", share=7),
        Column("request head tunes", share=4),
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
    margins = list_margin_tables(gather_on_air(_as_asked(show)))
    blocks = (_letter(show), _summary(show), Table(columns, groups, row_um=ROW_UM), *margins)
    return (frame_sheet(show, NAME, "request", blocks, order="request order", cautions=("licence caution",)),)


def _as_asked(show: Show) -> Show:
    """The show with every channel on the frequency that is asked for."""
    return replace(show, channels={id: replace(one, hz=asked_hz(one)) for id, one in show.channels.items()})


def _letter(show: Show) -> Table:
    """Everything about the show that a coordinator asks for; what is not known has a line for a pen."""
    production = show.production
    days = forms.format_days(show, production.first_day, production.last_day)
    on_air, on_air_fact = (
        ", ".join(join_times(say(show, one.from_s), say(show, one.to_s)) for one in powered_stretches(show))
        for say in (day_time_words, say_day_time)
    )
    known = {
        "for": cell(fact(production.company, HAND)),
        "contact": cell(fact(production.contact, HAND)),
        "at": cell(fact(production.venue, HAND)),
        "licence": cell(fact(production.licence, HAND), fact(production.licensed_for, HAND)),
        "days": cell(fact(days, HAND, of=f"{production.first_day} {production.last_day}")),
        "antennas": cell(),
        "on air": cell(fact(on_air, HAND, of=on_air_fact)),
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
    needed.update(one.radio_type for one in show.others.values() if one.radio_type and one.kind != "neighbour")
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
            cell(_name_type(show, radio)),
            cell(fact(str(needed[radio.id]), HAND_STRONG)),
            cell(fact(str(spare[radio.id]), HAND_STRONG)),
            _tunes_cell(show, radio),
            _step_cell(show, radio),
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


def _name_type(show: Show, radio: RadioType) -> Line:
    """A radio type with what it is: worn or held, or what those of the others are that are of it."""
    others = {one.kind for one in show.others.values() if one.radio_type == radio.id and one.kind}
    is_ours = any(one.radio == radio.id for one in show.channels.values())
    kind = radio.kind if is_ours or len(others) != 1 else others.pop()
    word = phrase(show, kind if kind == radio.kind else f"other {kind}")
    return fact(f"{radio.id}, {word}", HAND_STRONG, of=f"{radio.id} {kind}")


def _step(radio: RadioType) -> str:
    """The raster of the type, and how far apart two of its carriers are wanted: `25, 400 kHz`."""
    known = [format_khz(hz) if hz else "–" for hz in (radio.step_hz, radio.apart_hz)]
    return f"{', '.join(known)} kHz" if radio.step_hz or radio.apart_hz else ""


def _khz(hz: int | None) -> str:
    return f"{format_khz(hz)} kHz" if hz else ""


def _step_cell(show: Show, radio: RadioType) -> Cell:
    """The steps with where they are counted from, and the spacing."""
    if not radio.step_from_hz:
        return forms.known_cell(_step(radio))
    start = format_mhz(radio.step_from_hz)
    return cell(fact(_step(radio), HAND), fact(phrase(show, "request step from", mhz=start), HAND, of=start))


def _tunes_cell(show: Show, radio: RadioType | None) -> Cell:
    """The ranges of a type; of spots how many there are and between which edges, for a list of them has no room."""
    spots = sorted(radio.spots_hz) if radio else []
    if len(spots) < 2:
        return forms.known_cell(list_tunes(radio))
    low, high = format_edge(spots[0]), format_edge(spots[-1])
    text = phrase(show, "request spots", count=len(spots), low=low, high=high)
    return cell(fact(text, HAND, of=list_tunes(radio)))


def list_tunes(radio: RadioType | None) -> str:
    """The ranges that a radio type tunes to, `470–534, 606–630`, or its spot frequencies."""
    if radio is None:
        return ""
    ranges = (f"{format_edge(span.low_hz)}–{format_edge(span.high_hz)}" for span in radio.tunes)
    return ", ".join(map(format_mhz, sorted(radio.spots_hz)) if radio.spots_hz else ranges)


def _groups(show: Show) -> Iterator[tuple[str, list[TableRow]]]:
    needed = [one for one in show.channels.values() if not one.spare]
    yield "request needed", [_channel_row(show, one) for one in needed]
    yield "spares", [_channel_row(show, one) for one in show.channels.values() if one.spare]
    backups = [one for one in show.channels.values() if one.backup_hz is not None or one.wants_backup]
    yield "backup heading", [_channel_row(show, one, is_backup=True) for one in backups]
    yield "request others", [_other_row(show, one) for one in show.others.values()]


def _channel_row(show: Show, channel: Channel, *, is_backup: bool = False) -> TableRow:
    radio, hz = show.radio_of(channel), channel.backup_hz if is_backup else asked_hz(channel)
    name = phrase(show, "backup of", channel=channel.id) if is_backup else channel.id
    more = list(people_lines(show, channel, HAND)) if channel.spare else []
    if channel.carrier:
        text = phrase(show, "request carrier", carrier=channel.carrier)
        more.append(fact(text, HAND, of=f"carrier {channel.carrier}"))
    return row(
        cell(fact(name, HAND_STRONG, of=f"{channel.id} backup" if is_backup else channel.id)),
        cell(
            fact(phrase(show, radio.kind) if radio else "", HAND, of=radio.kind if radio else ""),
            *more,
            *forms.where_and_when(show, channel, HAND),
        ),
        _tunes_cell(show, radio),
        forms.known_cell(_khz(radio.bandwidth_hz if radio else None)),
        forms.known_cell(forms.power_of(show, channel)),
        cell(fact(format_mhz(hz), HAND_FREQUENCY) if hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=forms.backup_subjects(channel) if is_backup else (Subject("channels", channel.id),),
        where=channel.where.record,
    )


def _other_row(show: Show, other: Other) -> TableRow:
    hz, radio = asked_hz(other), show.type_of(other)
    return row(
        cell(fact(other.id, HAND_STRONG)),
        cell(
            fact(phrase(show, f"other {other.kind}") if other.kind else "", HAND, of=other.kind),
            *forms.where_and_when(show, other, HAND),
        ),
        _tunes_cell(show, radio) if radio.reach else cell(words("–", HAND)),
        forms.known_cell(_khz(radio.bandwidth_hz)),
        forms.known_cell(radio.power),
        cell(fact(format_mhz(hz), HAND_FREQUENCY) if hz is not None else Blank(style=HAND_FREQUENCY)),
        forms.write_cell(),
        subjects=(Subject("others", other.id),),
        where=other.where.record,
    )
