"""Outputs and the inputs they land on."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Output, Rack, Show
from paperwork.plan.patch import clashing_names, clip_name, jack_of, list_inputs, name_on_desk
from paperwork.plan.rules import letters_of
from paperwork.text.names import fold, join_words, shorten_ids


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


def check_jacks(show: Show) -> Iterator[Finding]:
    """One cable a jack: two inputs that land on one jack of one box, once for each two destinations.

    The halves of a pair share a cable, so do two destinations of one connector, and a network has none.
    """
    holders: dict[tuple[str, str, str], tuple[Rack, Output]] = {}
    doubled: dict[tuple[str, str], list[tuple[str, Output, Output]]] = {}
    for rack in show.racks.values():
        for output in rack.outputs:
            console = show.consoles.get(output.console)
            if output.kind == "network" or console is None or not console.box:
                continue
            jack = jack_of(console, output.input)
            first_rack, first = holders.setdefault((output.kind, fold(console.box), fold(jack)), (rack, output))
            is_one = _is_one_cable(first_rack, first, rack, output)
            if not is_one and not _may_share(_occupant(show, first_rack, first), _occupant(show, rack, output)):
                doubled.setdefault((first.console, output.console), []).append((jack, first, output))
    for (first_id, second_id), several in doubled.items():
        yield _word_jacks(show, first_id, second_id, several)


def _is_one_cable(first_rack: Rack, first: Output, rack: Rack, output: Output) -> bool:
    """Whether two signals arrive in one plug, or are two on one input: a fault of its own."""
    if first_rack is rack and first.copy == output.copy and first.connector == output.connector:
        return bool(output.connector) or first.slot == output.slot
    return first.console == output.console and first.input == output.input


def _word_jacks(show: Show, first_id: str, second_id: str, several: list[tuple[str, Output, Output]]) -> Finding:
    jacks = list(dict.fromkeys(jack for jack, _, _ in several))
    _, first, second = several[0]
    one = f"inputs {first.input} and {second.input} of {first_id}" if first_id == second_id else ""
    return find(
        "jack-doubled",
        second.place,
        about=tuple(Subject("consoles", id) for id in dict.fromkeys((first_id, second_id))),
        others=(first.place, show.consoles[second_id].where["jacks"]),
        box=show.consoles[second_id].box,
        jacks=f"jack{'s' if len(jacks) > 1 else ''} {shorten_ids(jacks)}",
        both=one or f"{first_id} and {second_id}",
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
    """A desk can tell its channels apart by the letters that it shows. Once, for the desk that shows fewest."""
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
        all_="both" if len(group) == 2 else "all",
        names=join_words(names),
        shown=clip_name(show, group[0], letters),
    )


CHECKS = (check_destinations, check_inputs, check_jacks, check_spares, check_names)
