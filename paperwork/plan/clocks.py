"""Digital clocks: who leads, who follows, and which devices are one domain."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

from paperwork.model import Console, Rack, Show
from paperwork.text.names import fold

Device: TypeAlias = Rack | Console

OWN = frozenset({"own", "itself", "internal", "leads"})
"""Words for a device that follows nobody."""


@dataclass(frozen=True, slots=True)
class Domain:
    """The devices that one clock rules, the leader first; `leader` is "" for those that state no clock at all."""

    leader: str
    devices: tuple[Device, ...]


def devices_of(show: Show) -> Mapping[str, Device]:
    """Everything that has a clock, racks before destinations, by folded id."""
    devices: tuple[Device, ...] = (*show.racks.values(), *show.consoles.values())
    return {fold(device.id): device for device in devices}


def find_followed(key: str, devices: Mapping[str, Device]) -> str:
    """Whom a device follows, by folded id; "" if it leads or does not say."""
    name = fold(devices[key].clock)
    return "" if name in OWN or name == key else name


def find_leader(device: Device, devices: Mapping[str, Device]) -> str:
    """The id at the end of a device's chain, "" if that is not known: it says nothing, and nobody follows it."""
    key = fold(device.id)
    seen: set[str] = set()
    while key in devices and key not in seen:
        seen.add(key)
        following = find_followed(key, devices)
        if not following:
            leads = bool(devices[key].clock) or any(fold(other.clock) == key for other in devices.values())
            return devices[key].id if leads else ""
        key = following
    return ""


def list_domains(show: Show) -> tuple[Domain, ...]:
    """Every clock domain, its leader first and then as the show lists them; at last what states no clock."""
    devices = devices_of(show)
    found: dict[str, list[Device]] = {}
    for device in devices.values():
        found.setdefault(find_leader(device, devices), []).append(device)
    return tuple(
        Domain(leader, tuple(sorted(found[leader], key=lambda device: device.id != leader)))
        for leader in sorted(found, key=lambda leader: not leader)
    )
