"""The coordinator's reply: asked, granted and programmed side by side, and what each difference asks for."""

from paperwork.coordinate.reply import asked_hz
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
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, headed, phrase, subjects_of_channel, title_fact_of, title_of
from paperwork.text.units import format_khz, format_mhz

NAME = "frequency-reply"
ROW_UM = 11_000
ORDER = ("refused", "retune", "waiting", "moved", "same")
"""What the reply means for a channel, the most urgent first."""

BUSY = frozenset({"refused", "retune", "waiting"})
"""States after which somebody has something to do."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet with a row for every channel, as soon as one of them is granted or refused."""
    if not any(one.refused or one.granted_hz is not None for one in show.channels.values()):
        return ()
    columns = headed(
        show,
        Column("head channel", 22_000, spares=True),
        Column("head role only"),
        *(Column(f"reply head {what}", 25_000, align="point") for what in ("asked", "granted", "set")),
        Column("reply head do"),
        Column("head done", forms.SHORT_UM),
    )
    by_state: dict[str, list[Channel]] = {}
    for channel in show.channels.values():
        by_state.setdefault(state_of(channel), []).append(channel)
    groups = tuple(
        RowGroup(
            tuple(_row_of(show, channel, state) for channel in by_state[state]),
            phrase(show, f"reply {state}"),
            str(len(by_state[state])),
            facts=(state, str(len(by_state[state]))),
        )
        for state in ORDER
        if state in by_state
    )
    body = Table(columns, groups, row_um=ROW_UM)
    return (frame_sheet(show, NAME, "reply", (body,), order="reply order", cautions=("licence caution",)),)


def state_of(channel: Channel) -> str:
    """What the reply asks for: another frequency, retuning, asking again, or nothing (as asked, or elsewhere and set)."""
    if channel.refused:
        return "refused"
    if channel.granted_hz is None:
        return "waiting"
    if channel.granted_hz != channel.hz:
        return "retune"
    return "same" if channel.granted_hz == asked_hz(channel) else "moved"


def _row_of(show: Show, channel: Channel, state: str) -> TableRow:
    refused = cell(fact(phrase(show, "reply no"), HAND_STRONG, of="refused"))
    busy = state in BUSY
    return row(
        forms.number_cell(channel, HAND_NUMBER),
        cell(fact(title_of(show, channel), HAND_STRONG, of=title_fact_of(channel)), _pack_line(show, channel)),
        _mhz_cell(asked_hz(channel)),
        refused if channel.refused else _mhz_cell(channel.granted_hz),
        _mhz_cell(channel.hz),
        _what_to_do(show, channel, state),
        cell(WriteIn()) if busy else cell(words("–", HAND)),
        mark=phrase(show, "reply mark") if busy else "",
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )


def _pack_line(show: Show, channel: Channel) -> Line:
    text = phrase(show, "label pack", pack=channel.pack) if channel.pack != channel.id else ""
    return fact(text, HAND, of=channel.pack)


def _what_to_do(show: Show, channel: Channel, state: str) -> Cell:
    """How far the grant is from what was asked, and what that asks of whoever reads it."""
    asked = asked_hz(channel)
    shift = 0 if channel.granted_hz is None or asked is None else channel.granted_hz - asked
    by = phrase(show, "reply by", khz=f"{'+' if shift > 0 else '−'}{format_khz(abs(shift))}") if shift else ""
    return cell(fact(by, NOTE, of=str(shift)), words(phrase(show, f"reply do {state}"), NOTE))


def _mhz_cell(hz: int | None) -> Cell:
    return cell(Blank(style=HAND_FREQUENCY) if hz is None else fact(format_mhz(hz), HAND_FREQUENCY))
