"""What papers to be filled in by hand have in common: squares to tick, lines to write on, numbers, times."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import NamedTuple

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
    Tick,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import HAND, HAND_STRONG, RACK_FREQUENCY, RACK_NUMBER, RACK_ROLE, RACK_SMALL, TICK, Style
from paperwork.model import Channel, Other, Rack, Scene, Show
from paperwork.plan.patch import name_on_desk
from paperwork.sheets.frame import JOIN, people_lines, phrase, title_fact_of, title_of
from paperwork.text.names import natural_key
from paperwork.text.units import format_clock, format_edge, format_mhz
from paperwork.text.words import format_date, list_words

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

DAY_S = 24 * 3600


def tick_column(heading: str) -> Column:
    """A narrow column to tick."""
    return Column(heading, TICK_UM)


def tick_cell() -> Cell:
    """A square to tick."""
    return cell(Tick("", TICK), key=True)


def write_cell(*before: Item) -> Cell:
    """A line to write on, under what is known."""
    return cell(*before, WriteIn())


def known_cell(text: str, style: Style = HAND) -> Cell:
    """What is known, else a line for a pen."""
    return cell(fact(text, style)) if text else write_cell()


def number_cell(channel: Channel, style: Style = RACK_NUMBER) -> Cell:
    """The channel's number, as tall as the row allows; a spare is hatched."""
    return cell(fact(channel.id, style), key=True, hatch=channel.spare)


def role_cell(show: Show, channel: Channel, *, big: Style = RACK_ROLE, small: Style = RACK_SMALL) -> Cell:
    """The role, and under it who plays it."""
    title = fact(title_of(show, channel), big, of=title_fact_of(channel))
    return cell(title, *people_lines(show, channel, small))


def frequency_line(channel: Channel, style: Style = RACK_FREQUENCY) -> Item:
    """The frequency, or a ruled blank where none is known or trusted."""
    return Blank(style=style) if channel.hz is None else fact(format_mhz(channel.hz), style)


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
    """A row for every channel, under the bar of each rack that has it; at last those that no rack takes, under a bar that
    says so where `is_racked`. A rack that only a slot names counts too: no channel is ever left out."""
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
    days = (format_date(day, show.production.language) for day in (first, last) if day)
    return " – ".join(dict.fromkeys(days))


def power_of(show: Show, channel: Channel) -> str:
    """The power that a pack is set to: its own, else that of its radio type."""
    transmitter, radio = show.transmitters.get(channel.pack), show.radio_of(channel)
    return (transmitter.power if transmitter else "") or (radio.power if radio else "")


def time_of_day(seconds: int) -> str:
    """A time of day as a clock on the wall shows it: `00:15` after midnight."""
    return format_clock(seconds % DAY_S).rjust(5, "0")


def scene_time(show: Show, scene: Scene) -> str:
    """When a scene starts: the time of day on a day of one show, else from curtain up; "" where it is unknown."""
    if scene.at_s is None:
        return ""
    if len(show.day.curtain_s) == 1:
        return time_of_day((show.day.curtain_s[0] + scene.at_s) // 60 * 60)
    return format_clock(scene.at_s)


def where_and_when(show: Show, one: Channel | Other, style: Style) -> Iterator[Line]:
    """The zone and the parts of the bill of a carrier that is not on the air everywhere and always."""
    if one.zone:
        yield fact(one.zone, style)
    if one.bill:
        yield fact(list_words(one.bill, show.production.language), style, of=" ".join(one.bill))


def show_time(scene: Scene) -> str:
    """When a scene starts, from curtain up; "" where it is unknown."""
    return format_clock(scene.at_s) if scene.at_s is not None else ""


class Worn(NamedTuple):
    """A channel's pack on one body: for which roles, and in which scene, by index, first (None: not given)."""

    channel: Channel
    roles: tuple[str, ...]
    first: int | None


def list_worn(show: Show) -> dict[str, tuple[Worn, ...]]:
    """What each performer wears on a usual evening, packs and not handhelds, in the order in which it is wanted.

    A role for which nobody is found yet stands for its performer: the pack is fitted all the same. A second pack that
    says no more than that is worn by whoever has the first.
    """
    found: dict[str, list[Worn]] = {}
    for channel in show.channels.values():
        if channel.spare or is_handheld(show, channel):
            continue
        worn = channel if channel.by or channel.roles else show.channels.get(channel.doubles, channel)
        bodies: dict[str, list[str]] = {worn.by: []} if worn.by else {}
        for role in worn.roles:
            bodies.setdefault(show.roles[role].by or role, []).append(role)
        for by, roles in bodies.items():
            live = (index for index, scene in enumerate(show.scenes) if not set(roles).isdisjoint(scene.live))
            found.setdefault(by, []).append(Worn(channel, tuple(roles), next(live, None)))
    return {by: tuple(sorted(packs, key=lambda one: last_if_none(one.first))) for by, packs in found.items()}


def last_if_none(number: int | None) -> tuple[bool, int]:
    """A key that sorts what is not given last."""
    return number is None, number or 0


def join_roles(roles: tuple[str, ...]) -> str:
    """Roles that share a body or a pack, each once."""
    return JOIN.join(dict.fromkeys(roles))


def desk_name(show: Show, channel: Channel) -> str:
    """What the desk calls the channel, "" where that is its role."""
    name = name_on_desk(show, channel)
    return "" if name in channel.roles else name
