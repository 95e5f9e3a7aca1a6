"""Outputs and the inputs they land on."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Output, Rack, Show


def check_inputs(show: Show) -> Iterator[Finding]:
    """One signal a desk input, unless the channels are declared alternates or are never powered together."""
    holders: dict[tuple[str, int], tuple[Rack, Output]] = {}
    told: set[tuple[str, str, str]] = set()
    for rack in show.racks.values():
        for output in rack.outputs:
            first_rack, first = holders.setdefault((output.console, output.input), (rack, output))
            if first is output or _may_share(_occupant(show, first_rack, first), _occupant(show, rack, output)):
                continue
            names = (_name(first_rack, first), _name(rack, output))
            if (output.console, *names) in told:
                continue
            told.add((output.console, *names))
            yield find(
                "input-doubled", output.place, about=(Subject("racks", first_rack.id), Subject("racks", rack.id)),
                others=(first.place,), console=output.console, input=output.input, first=names[0], second=names[1],
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


CHECKS = (check_inputs,)
