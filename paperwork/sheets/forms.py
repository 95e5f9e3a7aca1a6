"""What papers to be filled in by hand have in common: squares to tick, lines to write on, numbers, times."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from paperwork.coordinate import BACKUPS
from paperwork.document import (
    Blank,
    Cell,
    Column,
    Item,
    Line,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    Tag,
    Tick,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import HAND, HAND_STRONG, RACK_NUMBER, RACK_ROLE, RACK_SMALL, RACK_STRONG, TICK, Style
from paperwork.finding import Subject
from paperwork.model import Channel, Other, Rack, Show
from paperwork.plan.bodies.carried import list_carried
from paperwork.plan.day.bill import join_stretches, list_stretches
from paperwork.plan.day.clockface import is_by_clock
from paperwork.plan.day.sharing import list_sharers
from paperwork.plan.patch import clip_name, name_on_desk
from paperwork.plan.tapes import name_tape
from paperwork.sheets.frame import JOIN, people_lines, phrase, title_line
from paperwork.sheets.times import span_words
from paperwork.text.names import natural_key
from paperwork.text.units import format_edge, format_mhz
from paperwork.text.words import join_days, list_words

TICK_UM = 14_400
"""A column for a square of 6 mm to tick."""

WRITE_UM = 28_000
"""A column for 25 mm of handwriting: initials and a time, or a word (common practice, no source)."""

SHORT_UM = 23_800
"""A column for a figure with its unit, printed or written: 20 mm of handwriting (common practice, no source)."""

NUMBER_UM = 24_400
"""A column for a channel's number at rack size, of three figures where there are so many channels."""

FORM_ROW_UM = 13_000
"""A row with a role and a small line; a pen needs 8 mm (common practice, no source)."""

_SHARERS = 3
"""Sharers of a frequency that are printed by number on papers of the rack (a choice of this project)."""


def tick_column(heading: str) -> Column:
    """A narrow column to tick."""
    return Column(heading, TICK_UM)


def tick_cell() -> Cell:
    """A square to tick."""
    return cell(Tick("", TICK), key=True)


def write_cell(*before: Item) -> Cell:
    """A line to write on, under what is known."""
    return cell(*before, WriteIn())


def labelled(show: Show, name: str, text: str, style: Style) -> Line:
    """What something has or who is somewhere, behind a colon as the language sets it; as a fact without it."""
    return fact(phrase(show, "labelled", name=name, text=text), style, of=f"{name}: {text}")


def known_cell(text: str, style: Style = HAND) -> Cell:
    """What is known, else a line for a pen."""
    return cell(fact(text, style)) if text else write_cell()


def number_cell(channel: Channel, style: Style = RACK_NUMBER) -> Cell:
    """The channel's number, as tall as the row allows; a spare is hatched."""
    return cell(fact(channel.id, style), key=True, hatch=channel.spare)


def role_cell(show: Show, channel: Channel, *, big: Style = RACK_ROLE, small: Style = RACK_SMALL) -> Cell:
    """The role, and under it who plays it."""
    title = title_line(show, channel, big)
    return cell(title, *people_lines(show, channel, small), joined=True)


def known_frequency(hz: int | None, style: Style) -> Item:
    """A frequency in MHz, or a ruled blank."""
    return Blank(style=style) if hz is None else fact(format_mhz(hz), style)


def tape_tags(show: Show, channel: Channel) -> tuple[Tag, ...]:
    """The colour of the channel's tape, as its mark and its word."""
    tape = name_tape(show, channel)
    return (Tag(tape, fact=f"tape {tape}"),) if tape else ()


def backup_subjects(channel: Channel) -> tuple[Subject, ...]:
    """The channel's backup as a record that a sheet shows."""
    return (Subject(BACKUPS, channel.id),) if channel.backup_hz is not None or channel.wants_backup else ()


def backup_line(show: Show, channel: Channel) -> Iterator[Item]:
    """What the channel goes to when its frequency is lost, with a place for a pen while one is only wanted."""
    if channel.backup_hz is not None:
        mhz = format_mhz(channel.backup_hz)
        yield fact(phrase(show, "backup", mhz=mhz), RACK_STRONG, of=f"backup {mhz}")
    elif channel.wants_backup:
        yield fact(phrase(show, "backup", mhz="____.____"), RACK_STRONG, of="backup wanted")


def rack_note(show: Show, rack: Rack) -> str:
    """What a rack's bar says: its window and its antenna."""
    parts = []
    if rack.window:
        parts.append(phrase(show, "window", low=format_edge(rack.window.low_hz), high=format_edge(rack.window.high_hz)))
    if rack.antenna:
        key = "antenna place" if rack.place else "antenna"
        parts.append(phrase(show, key, antenna=rack.antenna, place=rack.place))
    return "  ·  ".join(parts)


def rack_groups(show: Show, row_of: Callable[[Show, Channel], TableRow], *, is_racked: bool) -> Iterator[RowGroup]:
    """A row for every channel, under the bar of each rack that has it; at last those that no rack takes, under a bar
    that says so where `is_racked`. A rack that only a slot names counts too: no channel is ever left out."""
    slots = (slot.rack for channel in show.channels.values() for slot in channel.slots)
    named = {id: Rack(id) for id in sorted(set(slots) - set(show.racks), key=natural_key)}
    left = dict(show.channels)
    for rack in (*show.racks.values(), *named.values()):
        channels = show.channels_in(rack)
        if channels:
            rows = tuple(row_of(show, channel) for channel in channels)
            yield RowGroup(rows, phrase(show, "rack", rack=rack.id), rack_note(show, rack), facts=rack_facts(rack))
        left = {id: channel for id, channel in left.items() if channel not in channels}
    if left:
        rows = tuple(row_of(show, channel) for channel in left.values())
        yield RowGroup(rows, phrase(show, "no rack") if is_racked else "", facts=("in no rack",) if is_racked else ())


def list_rooms(show: Show, names: Iterable[str]) -> list[tuple[str, list[str]]]:
    """Who dresses in which room, the rooms in the order of their numbers; those without a room last."""
    rooms: dict[str, list[str]] = {}
    for name in names:
        person = show.people.get(name)
        rooms.setdefault(person.room if person else "", []).append(name)
    return sorted(rooms.items(), key=lambda pair: (not pair[0], natural_key(pair[0])))


def rack_facts(rack: Rack) -> tuple[str, ...]:
    """The facts of that note, without the words of a language."""
    window = f"{rack.window.low_hz} {rack.window.high_hz}" if rack.window else ""
    return (rack.id, window, rack.antenna, rack.place)


def signature(said: str, *headings: str) -> Table:
    """A line at the end of a form: what is signed, and places for who and when."""
    columns = (Column(""), *(Column(heading, WRITE_UM) for heading in headings))
    line = row(cell(words(said, HAND_STRONG)), *(write_cell() for _ in headings))
    return Table(columns, (RowGroup((line,)),), row_um=FORM_ROW_UM)


def keep(sheet: Sheet) -> Sheet:
    """A sheet of records, which a later revision does not replace: what is written on it must not be destroyed."""
    return replace(sheet, replaces="")


def is_handheld(show: Show, channel: Channel) -> bool:
    """Whether the channel's transmitter is held in a hand."""
    radio = show.radio_of(channel)
    return radio is not None and radio.kind == "handheld"


def format_days(show: Show, first: str, last: str) -> str:
    """From which day to which, in the language of the papers; one of them, or "", where no more is known."""
    return join_days(first, last, show.production.language)


def power_of(show: Show, channel: Channel) -> str:
    """The power that a pack is set to: its own, else that of its radio type."""
    transmitter, radio = show.transmitters.get(channel.pack), show.radio_of(channel)
    return (transmitter.power if transmitter else "") or (radio.power if radio else "")


def shared_lines(show: Show, one: Channel | Other, style: Style) -> Iterator[Line]:
    """With whom a carrier shares its frequency, out of reach or at another time."""
    if ids := list_sharers(show, one):
        yield fact(say_shared(show, ids), style, of=f"shared {' '.join(ids)}")


def say_shared(show: Show, ids: Sequence[str]) -> str:
    """With whom a frequency is shared: the first few and how many more; the frequency list has all in a row."""
    if len(ids) <= _SHARERS + 1:
        return phrase(show, "list shared", ids=", ".join(ids))
    return phrase(show, "list shared more", ids=", ".join(ids[:_SHARERS]), count=len(ids) - _SHARERS)


def where_and_when(show: Show, one: Channel | Other, style: Style, *, alone: bool = False) -> Iterator[Line]:
    """The zone and the parts of the bill of a carrier that is not on the air everywhere and always, by the clock with
    their times; and with whom it shares its frequency, unless `alone`."""
    if one.zone:
        yield fact(one.zone, style)
    if one.bill:
        spans = join_stretches(list_stretches(show, one.bill)) if is_by_clock(show) else []
        times = [span_words(show, span) for span in spans]
        text = " ".join((list_words(one.bill, show.production.language), ", ".join(text for text, _ in times)))
        yield fact(text.strip(), style, of=" ".join((*one.bill, *(of for _, of in times))))
    if not alone:
        yield from shared_lines(show, one, style)


def marked_frequency(show: Show, one: Channel | Other, hz: int) -> str:
    """The frequency in MHz, with the frequency list's sign where others are on it too: there is no room for who."""
    return f"{format_mhz(hz)} {phrase(show, 'list mark')}" if list_sharers(show, one) else format_mhz(hz)


class Worn(NamedTuple):
    """A channel's pack on one body: for which roles, and in which scene, by index, first (None: not given)."""

    channel: Channel
    roles: tuple[str, ...]
    first: int | None


def _first_on(show: Show, channel: Channel, roles: Iterable[str]) -> int | None:
    """The first scene in which one of some roles carries a channel, or, if it says none itself, its lead."""
    carried = list_carried(show, roles)
    ids = {channel.id} if show.roles_on(channel) else {channel.id, channel.doubles}
    return min((index for (_, index), now in carried.items() if not ids.isdisjoint(now)), default=None)


def list_worn(show: Show) -> dict[str, tuple[Worn, ...]]:
    """What each performer wears on a usual evening, packs and not handhelds, in the order in which it is wanted.

    A role for which nobody is found yet stands for its performer: the pack is fitted all the same. A second pack that
    says no more than that is worn by whoever has the first.
    """
    found: dict[str, list[Worn]] = {}
    for channel in show.channels.values():
        if channel.spare or is_handheld(show, channel):
            continue
        worn = channel if channel.by or show.roles_on(channel) else show.channels.get(channel.doubles, channel)
        bodies: dict[str, list[str]] = {worn.by: []} if worn.by else {}
        for role in show.roles_on(worn):
            bodies.setdefault(show.roles[role].by or role, []).append(role)
        for by, roles in bodies.items():
            found.setdefault(by, []).append(Worn(channel, tuple(roles), _first_on(show, channel, roles)))
    return {by: tuple(sorted(packs, key=lambda one: last_if_none(one.first))) for by, packs in found.items()}


def last_if_none(number: int | None) -> tuple[bool, int]:
    """A key that sorts what is not given last."""
    return number is None, number or 0


def join_roles(roles: tuple[str, ...]) -> str:
    """Roles that share a body or a pack, each once."""
    return JOIN.join(dict.fromkeys(roles))


def desk_name(show: Show, channel: Channel) -> str:
    """What the desk calls the channel, "" where that is its role."""
    name = _spare_on_desk(show, channel) if channel.spare else name_on_desk(show, channel)
    return "" if name in show.roles_on(channel) else name


def desk_line(show: Show, channel: Channel, letters: int, style: Style) -> Line:
    """The name as a desk of so many letters shows it; that of a spare in the language of the papers."""
    shown = clip_name(show, channel, letters)
    said = _spare_on_desk(show, channel)[:letters].rstrip() if channel.spare else shown
    return fact(said, style, of=shown)


def _spare_on_desk(show: Show, channel: Channel) -> str:
    """In the language of the papers; the number alone where that is a name already, as SP1."""
    return phrase(show, "spare on desk", id=channel.id) if channel.id[:1].isdigit() else channel.id
