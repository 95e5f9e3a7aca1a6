"""The coordinator's reply: asked, granted and programmed side by side, sorted by who has to do something."""

from collections.abc import Iterator

from paperwork.document import Blank, Cell, Column, Group, Note, Row, Sheet, Table, cell, fact, row, words
from paperwork.model import Channel, Show
from paperwork.names import shorten_ids
from paperwork.sheets import forms
from paperwork.sheets.frame import frame_sheet, subjects_of_channel, title_fact_of, title_of
from paperwork.sheets.production.frequency_request import asked_hz
from paperwork.styles import HAND, HAND_FREQUENCY, HAND_NUMBER, HAND_STRONG
from paperwork.units import format_khz, format_mhz
from paperwork.words import words_of

NAME = "frequency-reply"
ROW_UM = 11_000
ORDER = ("refused", "retune", "moved", "waiting", "same")
"""What the reply means for a channel, the most urgent first."""


def make_sheets(show: Show) -> tuple[Sheet, ...]:
    """One sheet of the channels that tell what was asked or granted; the others are counted under it."""
    told = [one for one in show.channels.values() if one.refused or (one.asked_hz, one.granted_hz) != (None, None)]
    if not any(one.refused or one.granted_hz is not None for one in told):
        return ()
    w = words_of(show.production.language)
    columns = (
        Column(w["head channel"], 22_000, spares=True), Column(w["head role only"], share=1),
        *(Column(w[f"reply head {what}"], 34_000, align="point") for what in ("asked", "granted", "set")),
        forms.tick_column(w["reply head done"]), Column(w["head initials"], forms.WRITE_UM),
    )
    by_state: dict[str, list[Channel]] = {}
    for channel in told:
        by_state.setdefault(state_of(channel), []).append(channel)
    groups = tuple(
        Group(
            tuple(_row_of(show, channel, state) for channel in by_state[state]), w[f"reply {state}"],
            w["reply count"].format(count=len(by_state[state])), facts=(state,),
        )
        for state in ORDER if state in by_state
    )
    licence = show.production.licence
    caution = w["licence caution told"].format(licence=licence) if licence else w["licence caution"]
    return (
        frame_sheet(
            show, NAME, w["reply"], (Table(columns, groups, row_um=ROW_UM), *_untold(show, told)), subtitle=(w["reply order"],), cautions=(caution,),
        ),
    )


def _untold(show: Show, told: list[Channel]) -> Iterator[Note]:
    rest = tuple(one.id for one in show.channels.values() if one not in told)
    if rest:
        w = words_of(show.production.language)
        yield Note(w["reply untold"].format(channels=shorten_ids(rest)), facts=rest)


def state_of(channel: Channel) -> str:
    """What the reply asks for: cells out, retune, nothing though it moved, wait, or nothing at all."""
    if channel.refused:
        return "refused"
    if channel.granted_hz is None:
        return "waiting"
    if channel.granted_hz != channel.hz:
        return "retune"
    return "same" if channel.granted_hz == asked_hz(channel) else "moved"


def _row_of(show: Show, channel: Channel, state: str) -> Row:
    w = words_of(show.production.language)
    asked = asked_hz(channel)
    shift = (channel.granted_hz or 0) - (asked or 0)
    moved = channel.granted_hz is not None and asked is not None and shift
    told = w["reply by"].format(khz=f"{'+' if shift > 0 else '−'}{format_khz(abs(shift))}") if moved else ""
    granted = cell(fact(w["reply no"], HAND_STRONG, of="refused")) if channel.refused else _mhz_cell(channel.granted_hz, told)
    busy = state in ("refused", "retune")
    return row(
        forms.number_cell(channel, HAND_NUMBER),
        cell(fact(title_of(show, channel), HAND_STRONG, of=title_fact_of(channel)), words(channel.pack, HAND)),
        _mhz_cell(asked),
        granted,
        _mhz_cell(channel.hz),
        forms.tick_cell() if busy else cell(words("–", HAND)),
        forms.write_cell() if busy else cell(),
        mark=w["reply mark"] if busy else "",
        subjects=subjects_of_channel(show, channel),
        where=channel.where.record,
    )


def _mhz_cell(hz: int | None, under: str = "") -> Cell:
    number = Blank(style=HAND_FREQUENCY) if hz is None else fact(format_mhz(hz), HAND_FREQUENCY)
    return cell(number, words(under, HAND))
