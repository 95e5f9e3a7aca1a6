"""Digital pairs: two slots of one unit on one AES3 connector, from point to point.

AES3 carries two channels on one connector (AES3-2003, abstract), the odd slot left and the even one right.
"""

from collections.abc import Iterator, Mapping

from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Output, Rack, Show
from paperwork.text.names import join_words


def check_pairs(show: Show) -> Iterator[Finding]:
    """Both halves of a pair go to one destination, and a pair goes to one only. Reported once for a copy of a rack."""
    for rack in show.racks.values():
        wrong: dict[tuple[bool, int], list[tuple[str, list[Output]]]] = {}
        for (copy, connector), outputs in _connectors(rack).items():
            left, right = _ends(outputs, "left"), _ends(outputs, "right")
            if left and right and not left & right:
                wrong.setdefault((True, copy), []).append((connector, outputs))
            elif len(left | right) > 1:
                wrong.setdefault((False, copy), []).append((connector, outputs))
        occupants = show.occupants_of(rack) if wrong else {}
        for (is_split, copy), pairs in wrong.items():
            first = pairs[0][1]
            on = [output for _, outputs in pairs for output in outputs]
            yield find(
                "pair-split" if is_split else "pair-to-many",
                first[0].place,
                about=(Subject("racks", rack.id), *_channels_on(occupants, on)),
                rack=rack.id,
                copy=copy,
                connector=join_words(connector for connector, _ in pairs),
                left=_words(_ends(first, "left")),
                right=_words(_ends(first, "right")),
                consoles=_words({output.console for output in first}),
            )


def _ends(outputs: list[Output], side: str) -> set[str]:
    """The destinations of one half of a pair."""
    return {output.console for output in outputs if output.side == side}


def _words(names: set[str]) -> str:
    return join_words(sorted(names))


def _connectors(rack: Rack) -> dict[tuple[int, str], list[Output]]:
    found: dict[tuple[int, str], list[Output]] = {}
    for output in rack.outputs:
        if output.kind == "digital":
            found.setdefault((output.copy, output.connector), []).append(output)
    return found


def _channels_on(occupants: Mapping[int, Channel], outputs: list[Output]) -> tuple[Subject, ...]:
    slots = dict.fromkeys(output.slot for output in outputs)
    return tuple(Subject("channels", occupants[slot].id) for slot in slots if slot in occupants)


def check_units(show: Show) -> Iterator[Finding]:
    """No pair of inputs is fed by neighbouring slots of two units: their connectors are two cables."""
    for rack in show.racks.values():
        unit_of = _units(rack)
        by_slot = {(o.copy, o.slot, o.console): o for o in rack.outputs if o.kind == "digital"}
        seen: set[tuple[int, str]] = set()
        for (copy, slot, console), one in by_slot.items():
            two = by_slot.get((copy, slot + 1, console))
            straight = two is not None and one.input % 2 == 1 and two.input == one.input + 1
            if two is None or not straight or unit_of[slot] == unit_of[slot + 1] or (copy, console) in seen:
                continue
            seen.add((copy, console))
            yield find(
                "pair-from-two-units",
                one.place,
                about=(Subject("racks", rack.id), *_channels_on(show.occupants_of(rack), [one, two])),
                others=(rack.where["units"],),
                console=console,
                first=one.input,
                second=two.input,
                rack=rack.id,
                one=slot,
                two=slot + 1,
                copy=copy,
            )


def _units(rack: Rack) -> dict[int, int]:
    """The unit of each slot."""
    return dict(enumerate((unit for unit, size in enumerate(rack.units) for _ in range(size)), start=1))


def check_flips(old: Show, new: Show) -> Iterator[Finding]:
    """Channels whose side of a digital pair is not what it was: the far end hears left for right.

    A move that keeps the side makes no finding, and neither does one to another destination.
    """
    before = _sides(old)
    for (channel, copy, console), (side, output) in _sides(new).items():
        was = before.get((channel, copy, console))
        if was and was[0] != side:
            yield find(
                "pair-flipped",
                output.place,
                about=(Subject("channels", channel), Subject("consoles", console)),
                channel=channel,
                copy=copy,
                console=console,
                was=was[0],
                side=side,
                input=output.input,
            )


def _sides(show: Show) -> dict[tuple[str, int, str], tuple[str, Output]]:
    found: dict[tuple[str, int, str], tuple[str, Output]] = {}
    for rack in show.racks.values():
        occupants = show.occupants_of(rack)
        for output in rack.outputs:
            if output.kind == "digital" and output.slot in occupants:
                found.setdefault((occupants[output.slot].id, output.copy, output.console), (output.side, output))
    return found


CHECKS = (check_pairs, check_units)
