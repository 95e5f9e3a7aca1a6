"""A coordinator's reply held against a show: what it answers, what that changes, and what nobody can set."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from paperwork.finding import Edit
from paperwork.intake.reply import ReplyRow
from paperwork.model import Channel, Show
from paperwork.text.names import hint, id_key
from paperwork.text.units import format_khz, format_mhz


@dataclass(frozen=True, slots=True)
class Answer:
    """What the reply says of one channel. `nearest_hz` is set where what was granted is between the steps of its radio."""

    channel: Channel
    row: ReplyRow
    granted_hz: int | None
    refused: bool
    nearest_hz: int | None = None

    @property
    def is_new(self) -> bool:
        """Whether the show does not say so already."""
        return (self.granted_hz, self.refused) != (self.channel.granted_hz, self.channel.refused)


@dataclass(frozen=True, slots=True)
class ComparedReply:
    """Every channel that was answered, those that were not, and what in the table cannot be used."""

    answers: tuple[Answer, ...]
    silent: tuple[str, ...]
    lines: tuple[str, ...]
    faults: tuple[str, ...]


def asked_hz(channel: Channel) -> int | None:
    """What a coordinator is asked for: as stated, else what is set now."""
    return channel.hz if channel.asked_hz is None else channel.asked_hz


def compare_reply(show: Show, rows: Iterable[ReplyRow], *, nearest: bool = False) -> ComparedReply:
    """Each row by its name beside its channel. With `nearest`, a grant between steps counts as the nearest one."""
    by_key = {id_key(id): channel for id, channel in show.channels.items()}
    others = {id_key(id) for id in show.others}
    answers: dict[str, Answer] = {}
    lines: list[str] = []
    faults: list[str] = []
    for row in rows:
        channel = by_key.get(id_key(row.name))
        if channel is None:
            near = "" if id_key(row.name) in others else hint(row.name, show.channels)
            lines.append(f"{row.place}: {row.name} is not a channel of the show{near}; left out")
            continue
        asked = asked_hz(channel)
        if row.asked_hz not in (None, asked):
            is_on = f"{format_mhz(asked)} MHz" if asked is not None else "no frequency"
            text = f"{row.name} was asked as {format_mhz(row.asked_hz or 0)} MHz, and the show now asks for {is_on}"
            lines.append(f"{row.place}: {text}: is this the reply to an older request?")
        if row.says_yes and asked is None:
            faults.append(f"{row.place}: {row.name} is granted as asked, but no frequency was asked for")
            continue
        answer = _answer(show, channel, row, nearest=nearest)
        if answer.granted_hz is None and not answer.refused:
            continue
        first = answers.setdefault(channel.id, answer)
        if (first.granted_hz, first.refused) != (answer.granted_hz, answer.refused):
            faults.append(f"{row.place}: {row.name} has another answer at {first.row.place}: keep the right one")
    silent = tuple(id for id in show.channels if id not in answers)
    return ComparedReply(tuple(answers.values()), silent, tuple(lines), tuple(faults))


def _answer(show: Show, channel: Channel, row: ReplyRow, *, nearest: bool) -> Answer:
    granted = asked_hz(channel) if row.says_yes else row.granted_hz
    radio = show.radio_of(channel)
    step = radio.step_hz if radio else None
    if granted is None or not step or not granted % step:
        return Answer(channel, row, granted, row.refused)
    settable = (granted + step // 2) // step * step
    return Answer(channel, row, settable if nearest else granted, row.refused, settable)


def list_edits(answers: Iterable[Answer]) -> Iterator[Edit]:
    """What the new answers change in the show file. What was asked is kept beside an answer that differs from it."""
    for answer in answers:
        channel = answer.channel
        if not answer.is_new:
            continue
        asked = asked_hz(channel)
        if channel.asked_hz is None and asked is not None and asked != answer.granted_hz:
            yield Edit("channels", channel.id, "asked", format_mhz(asked))
        yield Edit("channels", channel.id, "granted", "no" if answer.refused else format_mhz(answer.granted_hz or 0))


def describe_step(answer: Answer) -> str:
    """The decision that a grant between two steps asks for; "" where there is none."""
    if answer.nearest_hz is None or answer.row.granted_hz is None:
        return ""
    away = format_khz(abs(answer.nearest_hz - answer.row.granted_hz))
    granted, settable = format_mhz(answer.row.granted_hz), format_mhz(answer.nearest_hz)
    return f"{answer.channel.id} cannot be set to {granted} MHz; the nearest it can be set to is {settable}, {away} kHz away"
