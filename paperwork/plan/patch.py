"""The desk from its own side: which input carries what, under which name."""

from collections.abc import Iterator

from paperwork.frozen import frozen
from paperwork.model import Channel, Console, Output, OutputKind, Show
from paperwork.text.names import fold, natural_key

SECOND = " B"
"""What sets a second pack apart on a desk: both carry one role."""


@frozen
class DeskInput:
    """One input of one destination, the output that feeds it, and the channel on it ("" for an empty slot)."""

    console: str
    number: int
    kind: OutputKind
    copy: int
    rack: str
    slot: int
    channel: str
    name: str
    connector: str = ""
    side: str = ""


def outputs_of(show: Show, channel: Channel) -> tuple[Output, ...]:
    """The outputs of a channel's slot, kind by kind as its rack lists them: analogue first."""
    slot = channel.slot
    rack = show.racks.get(slot.rack) if slot else None
    return tuple(output for output in rack.outputs if output.slot == slot.number) if rack and slot else ()


def list_inputs(show: Show) -> tuple[DeskInput, ...]:
    """Every input that something is patched to, by destination and number."""
    found = []
    for rack in show.racks.values():
        occupants = show.occupants_of(rack)
        for output in rack.outputs:
            channel = occupants.get(output.slot)
            id, name = (channel.id, name_on_desk(show, channel)) if channel else ("", "")
            at = (output.console, output.input, output.kind, output.copy)
            found.append(DeskInput(*at, rack.id, output.slot, id, name, output.connector, output.side))
    return tuple(sorted(found, key=lambda one: (natural_key(one.console), one.number, one.kind, one.copy)))


def jack_of(console: Console, number: int) -> str:
    """The jack of the destination's box where one of its inputs lands."""
    return console.jacks[number - 1] if 0 < number <= len(console.jacks) else str(number)


def name_on_desk(show: Show, channel: Channel) -> str:
    """What a desk calls a channel: its role's short name, else the role, else the performer; `SP 12` for a spare, `SP1` for one
    whose number is a name already."""
    if channel.spare:
        return f"SP {channel.id}" if channel.id[:1].isdigit() else channel.id
    roles = show.roles_on(channel)
    if not roles:
        person = show.people.get(channel.by)
        return person.short if person and person.short else channel.by
    role = show.roles[roles[0]]
    return role.short or role.id


def clip_name(show: Show, channel: Channel, letters: int) -> str:
    """The name as a desk of so many letters shows it. A second pack keeps its `B` at the end."""
    name = name_on_desk(show, channel)
    if channel.doubles:
        return name[: max(1, letters - len(SECOND))].rstrip() + SECOND
    return name[:letters].rstrip()


def clashing_names(show: Show, channels: Iterator[Channel], letters: int) -> tuple[tuple[Channel, ...], ...]:
    """Channels that a desk of so many letters cannot tell apart, in groups."""
    groups: dict[str, list[Channel]] = {}
    for channel in channels:
        if not channel.spare and (shown := clip_name(show, channel, letters)):
            groups.setdefault(fold(shown), []).append(channel)
    return tuple(tuple(group) for group in groups.values() if len(group) > 1)
