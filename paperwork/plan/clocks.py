"""Digital clocks: who leads, who follows, and which devices are one domain."""

from collections.abc import Mapping
from typing import TypeAlias

from paperwork.frozen import frozen
from paperwork.model import Console, Rack, Show
from paperwork.text.names import fold

Device: TypeAlias = Rack | Console

OWN = frozenset({"own", "itself", "internal", "leads"})
"""Words for a device that follows nobody."""


@frozen
class Domain:
    """The devices that one clock rules, the leader first; `leader` is "" for those that state no clock at all."""

    leader: str
    devices: tuple[Device, ...]


def devices_of(show: Show) -> Mapping[str, Device]:
    """Everything that has a clock, racks before destinations, by folded id."""
    devices: tuple[Device, ...] = (*show.racks.values(), *show.consoles.values())
    return {fold(device.id): device for device in devices}


def find_followed(device: Device) -> str:
    """Whom a device follows, by folded id; "" if it leads or does not say."""
    name = fold(device.clock)
    return "" if name in OWN or name == fold(device.id) else name


def find_leaders(devices: Mapping[str, Device]) -> Mapping[str, str]:
    """The id at the end of each device's chain, by folded id of the device: "" where that is not known, because the
    last one says nothing, and nobody follows it, or because there is no last one."""
    follows = {key: find_followed(device) for key, device in devices.items()}
    followed = {fold(device.clock) for device in devices.values()}
    leaders: dict[str, str] = {}
    for key in devices:
        chain: dict[str, None] = {}
        while key in devices and key not in leaders and key not in chain:
            chain[key] = None
            key = follows[key] or key
        if key in chain and not follows[key]:
            leads = bool(devices[key].clock) or key in followed
            leader = devices[key].id if leads else ""
        else:
            leader = leaders.get(key, "")
        leaders |= dict.fromkeys(chain, leader)
    return leaders


def list_loops(devices: Mapping[str, Device]) -> tuple[tuple[str, ...], ...]:
    """Devices that follow each other in a circle, by folded id, each circle once."""
    loops: list[tuple[str, ...]] = []
    seen: set[str] = set()
    for key in devices:
        chain: dict[str, None] = {}
        while key in devices and key not in seen:
            seen.add(key)
            chain[key] = None
            key = find_followed(devices[key])
        if key in chain:
            held = list(chain)
            loops.append(tuple(held[held.index(key) :]))
    return tuple(loops)


def list_domains(show: Show) -> tuple[Domain, ...]:
    """Every clock domain, its leader first and then as the show lists them; at last what states no clock."""
    devices = devices_of(show)
    leaders = find_leaders(devices)
    found: dict[str, list[Device]] = {}
    for key, device in devices.items():
        found.setdefault(leaders[key], []).append(device)
    return tuple(
        Domain(leader, tuple(sorted(found[leader], key=lambda device: device.id != leader)))
        for leader in sorted(found, key=lambda leader: not leader)
    )
