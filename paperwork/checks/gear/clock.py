"""Digital clocks and rates: one leader in each domain, and no two rates that meet without a converter."""

from collections.abc import Iterator, Mapping

from paperwork.finding import Finding, Subject, find
from paperwork.model import Console, Rack, Show
from paperwork.plan.clocks import OWN, Device, devices_of, find_leaders, list_loops
from paperwork.text.names import Hints, fold, join_words
from paperwork.text.units import Doubt, parse_width


def check_rates(show: Show) -> Iterator[Finding]:
    """A digital signal arrives at the rate of its destination, or is converted there.

    One finding for the same racks and the same other rate: one rack that is set wrongly is one fault, however many
    destinations it feeds.
    """
    faults: dict[tuple[tuple[str, ...], int | str], list[Console]] = {}
    for console, racks in _feeds(show):
        wrong = tuple(rack.id for rack in racks if _rates_differ(rack, console))
        if wrong:
            faults.setdefault((wrong, _rate(console.rate)), []).append(console)
    for (ids, _), consoles in faults.items():
        racks = [show.racks[id] for id in ids]
        devices: tuple[Device, ...] = (*racks, *consoles) if len(consoles) > len(racks) else (*consoles, *racks)
        places = [device.where["rate"] for device in devices]
        yield find(
            "rates-meet",
            places[0],
            about=_about(*racks, *consoles),
            others=tuple(places[1:]),
            racks=_name(racks),
            rate=join_words(dict.fromkeys(rack.rate for rack in racks)),
            console=join_words(one.id for one in consoles),
            other=consoles[0].rate,
        )


def _feeds(show: Show) -> Iterator[tuple[Console, list[Rack]]]:
    """The destinations that take digital or network outputs and convert nothing, with the racks that feed each."""
    fed: dict[str, dict[str, Rack]] = {}
    for rack in show.racks.values():
        for output in rack.outputs:
            if output.kind != "analogue":
                fed.setdefault(output.console, {})[rack.id] = rack
    for console in show.consoles.values():
        if not console.converts:
            yield console, [*fed.get(console.id, {}).values()]


def _rates_differ(rack: Rack, console: Console) -> bool:
    return bool(rack.rate and console.rate) and _rate(rack.rate) != _rate(console.rate)


def _rate(text: str) -> int | str:
    """A rate in hertz; any other text is compared as it is written."""
    try:
        return parse_width(text)
    except Doubt:
        return fold(text)


def _name(racks: list[Rack]) -> str:
    return ("racks " if len(racks) > 1 else "rack ") + join_words(rack.id for rack in racks)


def _about(*devices: Device) -> tuple[Subject, ...]:
    return tuple(Subject("racks" if isinstance(device, Rack) else "consoles", device.id) for device in devices)


def check_leaders(show: Show) -> Iterator[Finding]:
    """Every clock leads back to one device that exists, and what is wired together leads back to the same one."""
    devices = devices_of(show)
    if show.consoles:
        yield from _check_names(devices)
    yield from _check_loops(devices)
    leads = find_leaders(devices)
    seen: set[tuple[str, ...]] = set()
    for console, racks in _feeds(show):
        mine = leads[fold(console.id)]
        others = {
            rack.id: leader for rack in racks if (leader := leads[fold(rack.id)]) and not _rates_differ(rack, console)
        }
        strange = [rack for rack in racks if mine and others.get(rack.id, mine) != mine]
        if strange or (not mine and len(set(others.values())) > 1):
            apart = strange or [rack for rack in racks if rack.id in others]
            leaders = dict.fromkeys([*((mine,) if mine else ()), *(others[rack.id] for rack in apart)])
            fault = (*(rack.id for rack in apart), *leaders)
            if fault in seen:
                continue
            seen.add(fault)
            yield find(
                "clock-leaders",
                console.where["clock"],
                about=_about(*apart, console),
                others=tuple(rack.where["clock"] for rack in apart),
                console=console.id,
                racks=_name(apart),
                leaders=join_words(leaders),
            )


def _check_names(devices: Mapping[str, Device]) -> Iterator[Finding]:
    """One finding for each leader that does not exist, however many follow it."""
    lost: dict[str, list[Device]] = {}
    for device in devices.values():
        name = fold(device.clock)
        if name and name not in OWN and name not in devices:
            lost.setdefault(name, []).append(device)
    hints, known = Hints(), [device.id for device in devices.values()]
    for followers in lost.values():
        yield find(
            "clock-leaderless",
            followers[0].where["clock"],
            about=_about(*followers),
            others=tuple(device.where["clock"] for device in followers[1:]),
            leader=followers[0].clock,
            followers=join_words(device.id for device in followers),
            follow="follow" if len(followers) > 1 else "follows",
            at=_about(followers[0])[0] if len(followers) == 1 else None,
            near=hints.nearest(followers[0].clock, known),
        )


def _check_loops(devices: Mapping[str, Device]) -> Iterator[Finding]:
    for loop in list_loops(devices):
        first = devices[loop[0]]
        yield find(
            "clock-loop",
            first.where["clock"],
            about=_about(*(devices[one] for one in loop)),
            others=tuple(devices[one].where["clock"] for one in loop[1:]),
            chain=join_words(devices[one].id for one in loop),
            at=_about(first)[0],
        )


CHECKS = (check_rates, check_leaders)
