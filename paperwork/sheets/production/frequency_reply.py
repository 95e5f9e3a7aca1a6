"""The coordinator's reply: asked, granted and programmed side by side where they differ, and what each difference asks for."""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeAlias

from paperwork.coordinate.grants import asked_hz
from paperwork.document import (
    Blank,
    Cell,
    Column,
    Line,
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
from paperwork.document.styles import HAND, HAND_FREQUENCY, HAND_NUMBER, HAND_STRONG, NOTE
from paperwork.finding import Subject
from paperwork.model import Channel, Other, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.text.units import format_khz, format_mhz

NAME = "frequency-reply"
ROW_UM, SHORT_ROW_UM = 11_000, 9_000
LEAST_UM = 84_000
"""In which a channel with its role and one frequency can be read: two of them stand side by side on A4."""

RowOf: TypeAlias = Callable[[Show, Channel | Other, str], TableRow]

ORDER = ("refused", "retune", "waiting", "moved", "same")
"""What the reply means for a channel, the most urgent first."""

BUSY = frozenset({"refused", "retune", "waiting"})
"""States after which somebody has something to do."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet with a row for every channel once one is granted or refused; of others those that were asked for."""
    answered = [
        one for one in show.others.values() if one.refused or one.granted_hz is not None or one.asked_hz is not None
    ]
    records: list[Channel | Other] = [*show.channels.values(), *answered]
    if not any(one.refused or one.granted_hz is not None for one in records):
        return ()
    columns = headed(
        show,
        Column("head channel", 22_000, spares=True),
        Column("head role only"),
        *(Column(f"reply head {what}", 25_000, align="point") for what in ("asked", "granted", "set")),
        Column("reply head do"),
        Column("head done", forms.SHORT_UM),
    )
    by_state: dict[str, list[Channel | Other]] = {}
    for record in records:
        by_state.setdefault(state_of(record), []).append(record)
    groups = tuple(_group_of(show, state, by_state[state], _row_of) for state in ORDER[:-1] if state in by_state)
    blocks = [Table(columns, groups, row_um=ROW_UM)] if groups else []
    if "same" in by_state:
        short = (columns[0], columns[1], replace(columns[4], width_um=29_000))
        same = _group_of(show, "same", by_state["same"], _short_row_of)
        blocks.append(Table(short, (same,), row_um=SHORT_ROW_UM, least_um=LEAST_UM))
    return (frame_sheet(show, NAME, "reply", tuple(blocks), order="reply order", cautions=("licence caution",)),)


def _group_of(show: Show, state: str, records: list[Channel | Other], row_of: RowOf) -> RowGroup:
    rows = tuple(row_of(show, record, state) for record in records)
    return RowGroup(rows, phrase(show, f"reply {state}"), str(len(rows)), facts=(state, str(len(rows))))


def state_of(record: Channel | Other) -> str:
    """What the reply asks for: another frequency, retuning, asking again, or nothing (as asked, or set already)."""
    if record.refused:
        return "refused"
    if record.granted_hz is None:
        return "waiting"
    if record.granted_hz != record.hz:
        return "retune"
    return "same" if record.granted_hz == asked_hz(record) else "moved"


def _row_of(show: Show, record: Channel | Other, state: str) -> TableRow:
    refused = cell(fact(phrase(show, "reply no"), HAND_STRONG, of="refused"))
    busy, is_ours = state in BUSY, isinstance(record, Channel)
    return row(
        *_name_cells(show, record),
        _mhz_cell(asked_hz(record)),
        refused if record.refused else _mhz_cell(record.granted_hz),
        _mhz_cell(record.hz),
        _what_to_do(show, record, f"{state} other" if not is_ours and state in ("refused", "retune") else state),
        cell(WriteIn()) if busy else cell(words("–", HAND)),
        mark=phrase(show, "reply mark") if busy else "",
        subjects=_subjects_of(show, record),
        where=record.where.record,
    )


def _short_row_of(show: Show, record: Channel | Other, _state: str) -> TableRow:
    """What was granted as asked and is programmed: one frequency says all three."""
    return row(
        *_name_cells(show, record), _mhz_cell(record.hz), subjects=_subjects_of(show, record), where=record.where.record
    )


def _subjects_of(show: Show, record: Channel | Other) -> tuple[Subject, ...]:
    return subjects_of_channel(show, record) if isinstance(record, Channel) else (Subject("others", record.id),)


def _name_cells(show: Show, record: Channel | Other) -> tuple[Cell, Cell]:
    """What it is called, and what it is."""
    if isinstance(record, Channel):
        role = fact(title_of(show, record), HAND_STRONG, of=title_fact_of(show, record))
        return forms.number_cell(record, HAND_NUMBER), cell(role, _pack_line(show, record))
    kind = phrase(show, f"other {record.kind}") if record.kind else ""
    return cell(words("–", HAND)), cell(fact(record.id, HAND_STRONG), fact(kind, HAND, of=record.kind))


def _pack_line(show: Show, channel: Channel) -> Line:
    text = phrase(show, "label pack", pack=channel.pack) if channel.pack != channel.id else ""
    return fact(text, HAND, of=channel.pack)


def _what_to_do(show: Show, record: Channel | Other, state: str) -> Cell:
    """How far the grant is from what was asked, and what that asks of whoever reads it."""
    asked = asked_hz(record)
    shift = 0 if record.granted_hz is None or asked is None else record.granted_hz - asked
    by = phrase(show, "reply by", khz=f"{'+' if shift > 0 else '−'}{format_khz(abs(shift))}") if shift else ""
    return cell(fact(by, NOTE, of=str(shift)), words(phrase(show, f"reply do {state}"), NOTE))


def _mhz_cell(hz: int | None) -> Cell:
    return cell(Blank(style=HAND_FREQUENCY) if hz is None else fact(format_mhz(hz), HAND_FREQUENCY))
