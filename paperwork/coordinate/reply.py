"""A coordinator's reply held against a show: what it answers, what that changes, and what nobody can set."""

from collections.abc import Iterable, Iterator

from paperwork.coordinate.grants import Backup, asked_hz, describe_step, list_backups, settle_grant
from paperwork.finding import Edit
from paperwork.frozen import frozen
from paperwork.intake.reply import ReplyRow
from paperwork.model import Channel, Other, Show
from paperwork.text.names import hint, id_key
from paperwork.text.units import format_mhz


@frozen
class Answer:
    """What the reply says of a channel, of one of the others or of a backup. `step` is the decision that a grant asks
    for which its radio cannot be set to, "" where it can."""

    record: Channel | Other | Backup
    row: ReplyRow
    granted_hz: int | None
    refused: bool
    step: str = ""

    @property
    def is_new(self) -> bool:
        """Whether the show does not say so already."""
        if isinstance(self.record, Backup):
            return self.refused or self.granted_hz != self.record.hz
        return (self.granted_hz, self.refused) != (self.record.granted_hz, self.record.refused)

    @property
    def section(self) -> str:
        """The section of the record."""
        return {Channel: "channels", Other: "others", Backup: "backups"}[type(self.record)]


@frozen
class ComparedReply:
    """Every record that was answered, those that were not, and what in the table cannot be used."""

    answers: tuple[Answer, ...]
    silent: tuple[str, ...]
    lines: tuple[str, ...]
    faults: tuple[str, ...]


def compare_reply(show: Show, rows: Iterable[ReplyRow], *, nearest: bool = False) -> ComparedReply:
    """Each row by its name beside its record; of one name a channel goes before others. With `nearest`, a grant
    between steps counts as the nearest one."""
    records: dict[str, Channel | Other | Backup] = {id_key(one.id): one for one in list_backups(show)}
    records |= {id_key(id): one for id, one in show.others.items()}
    records |= {id_key(id): one for id, one in show.channels.items()}
    answers: dict[str, Answer] = {}
    lines: list[str] = []
    faults: list[str] = []
    for row in rows:
        record = records.get(id_key(row.name))
        if record is None:
            near = hint(row.name, (*show.channels, *show.others))
            lines.append(
                f"{row.place}: {row.name} is neither a channel nor another carrier of the show{near}; left out"
            )
            continue
        asked = asked_hz(record)
        if row.asked_hz not in (None, asked):
            is_on = f"{format_mhz(asked)} MHz" if asked is not None else "no frequency"
            text = f"{row.name} was asked as {format_mhz(row.asked_hz or 0)} MHz, and the show now asks for {is_on}"
            lines.append(f"{row.place}: {text}: is this the reply to an older request?")
        if row.says_yes and asked is None:
            faults.append(f"{row.place}: {row.name} is granted as asked, but no frequency was asked for")
            continue
        answer = _answer(show, record, row, nearest=nearest)
        if answer.granted_hz is None and not answer.refused:
            continue
        first = answers.setdefault(id_key(row.name), answer)
        if (first.granted_hz, first.refused) != (answer.granted_hz, answer.refused):
            faults.append(f"{row.place}: {row.name} has another answer at {first.row.place}: keep the right one")
    is_asked = (key for key, one in records.items() if isinstance(one, Channel) or asked_hz(one) is not None)
    silent = tuple(records[key].id for key in is_asked if key not in answers)
    return ComparedReply(tuple(answers.values()), silent, tuple(lines), tuple(faults))


def _answer(show: Show, record: Channel | Other | Backup, row: ReplyRow, *, nearest: bool) -> Answer:
    granted = asked_hz(record) if row.says_yes else row.granted_hz
    if granted is None:
        return Answer(record, row, None, row.refused)
    own = record.channel if isinstance(record, Backup) else record
    settable = settle_grant(show.radio_of(own) if isinstance(own, Channel) else show.type_of(own), granted)
    step = describe_step(record.id, granted, settable)
    return Answer(record, row, granted if settable is None or not nearest else settable, row.refused, step)


def list_edits(answers: Iterable[Answer]) -> Iterator[Edit]:
    """What the new answers change in the show file. What was asked is kept beside an answer that differs from it; a
    backup is what was granted for it, and one that was refused is still to be found."""
    for answer in answers:
        record = answer.record
        if not answer.is_new:
            continue
        if isinstance(record, Backup):
            yield Edit(
                "channels", record.channel.id, "backup", "yes" if answer.refused else format_mhz(answer.granted_hz or 0)
            )
            continue
        asked = asked_hz(record)
        if record.asked_hz is None and asked is not None and asked != answer.granted_hz:
            yield Edit(answer.section, record.id, "asked", format_mhz(asked))
        yield Edit(answer.section, record.id, "granted", "no" if answer.refused else format_mhz(answer.granted_hz or 0))
