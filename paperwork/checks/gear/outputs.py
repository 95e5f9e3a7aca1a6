"""Outputs and the inputs they land on."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Output, Rack, Show
from paperwork.plan.patch import clashing_names, clip_name, list_inputs, name_on_desk
from paperwork.plan.rules import letters_of
from paperwork.text.names import join_words


def check_inputs(show: Show) -> Iterator[Finding]:
    """One signal a desk input, unless the channels are declared alternates or are never powered together."""
    holders: dict[tuple[str, int], tuple[Rack, Output]] = {}
    seen: set[tuple[str, str, str]] = set()
    for rack in show.racks.values():
        for output in rack.outputs:
            first_rack, first = holders.setdefault((output.console, output.input), (rack, output))
            if first is output or _may_share(_occupant(show, first_rack, first), _occupant(show, rack, output)):
                continue
            names = (_name(first_rack, first), _name(rack, output))
            if (output.console, *names) in seen:
                continue
            seen.add((output.console, *names))
            yield find(
                "input-doubled",
                output.place,
                about=(Subject("racks", first_rack.id), Subject("racks", rack.id)),
                others=(first.place,),
                console=output.console,
                input=output.input,
                first=names[0],
                second=names[1],
            )


def _occupant(show: Show, rack: Rack, output: Output) -> Channel | None:
    return show.occupants_of(rack).get(output.slot)


def _may_share(one: Channel | None, two: Channel | None) -> bool:
    if one is None or two is None:
        return False
    alternates = one.alternate == two.id or two.alternate == one.id
    return alternates or bool(one.exclusive and one.exclusive == two.exclusive)


def _name(rack: Rack, output: Output) -> str:
    return f"{output.kind} {output.copy} of {rack.id}.{output.slot}"


def check_destinations(show: Show) -> Iterator[Finding]:
    """Each input that is patched to exists. Reported once for a rack and a destination."""
    for rack in show.racks.values():
        beyond: dict[str, list[Output]] = {}
        for output in rack.outputs:
            console = show.consoles.get(output.console)
            if console and console.inputs is not None and not 1 <= output.input <= console.inputs:
                beyond.setdefault(console.id, []).append(output)
        for id, outputs in beyond.items():
            yield find(
                "input-beyond-console",
                outputs[0].place,
                about=(Subject("racks", rack.id), Subject("consoles", id)),
                others=(show.consoles[id].where["inputs"],),
                console=id,
                inputs=show.consoles[id].inputs,
                rack=rack.id,
                beyond=join_words(str(output.input) for output in outputs),
            )


def check_spares(show: Show) -> Iterator[Finding]:
    """The receiver of a spare lands somewhere, where its rack lands at all."""
    for channel in show.channels.values():
        rack = show.racks.get(channel.slot.rack) if channel.slot else None
        if not channel.spare or rack is None or not channel.slot or not rack.outputs:
            continue
        if not any(output.slot == channel.slot.number for output in rack.outputs):
            yield find(
                "spare-goes-nowhere",
                channel.slot.place,
                about=(Subject("channels", channel.id), Subject("racks", rack.id)),
                others=(rack.outputs[0].place,),
                channel=channel.id,
                slot=channel.slot,
            )


def check_names(show: Show) -> Iterator[Finding]:
    """A desk can tell its channels apart by the letters that it shows. Reported once, for the desk that shows fewest."""
    fed: dict[str, set[str]] = {}
    for one in list_inputs(show):
        if one.channel:
            fed.setdefault(one.console, set()).add(one.channel)
    seen: set[tuple[str, ...]] = set()
    for id in sorted(fed, key=lambda id: letters_of(show.consoles.get(id))):
        letters = letters_of(show.consoles.get(id))
        channels = (channel for channel in show.channels.values() if channel.id in fed[id])
        for group in clashing_names(show, channels, letters):
            ids = tuple(channel.id for channel in group)
            if ids not in seen:
                seen.add(ids)
                yield _word_names(show, id, group, letters)


def _word_names(show: Show, console: str, group: tuple[Channel, ...], letters: int) -> Finding:
    names = dict.fromkeys(name_on_desk(show, channel) for channel in group)
    return find(
        "desk-name-doubled",
        group[-1].where["role"],
        about=tuple(Subject("channels", channel.id) for channel in group),
        others=tuple(channel.where["role"] for channel in group[:-1]),
        console=console,
        letters=letters,
        channels=join_words(channel.id for channel in group),
        names=join_words(names),
        shown=clip_name(show, group[0], letters),
    )


CHECKS = (check_destinations, check_inputs, check_spares, check_names)
