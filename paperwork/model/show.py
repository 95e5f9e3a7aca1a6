"""The whole show, and the few questions that every room asks of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from paperwork.model.company import (
    Channel,
    Cover,
    Day,
    Look,
    Move,
    Performance,
    Person,
    Production,
    Role,
    Scene,
    Spectrum,
    VenueRow,
)
from paperwork.model.gear import Capsule, Console, Group, Other, Rack, RadioType, Transmitter


@dataclass(frozen=True, slots=True)
class Show:
    """The whole show. Order counts in scenes and covers; elsewhere ids are sorted as people count.

    `at_venue` is the venue of the section `venues` whose rows are in place, "" in the home house.
    `at_performance` is the performance that it is staged for, "" for the run as a whole.
    """

    production: Production = field(default_factory=Production)
    day: Day = field(default_factory=Day)
    spectrum: Spectrum = field(default_factory=Spectrum)
    radios: Mapping[str, RadioType] = field(default_factory=dict)
    racks: Mapping[str, Rack] = field(default_factory=dict)
    consoles: Mapping[str, Console] = field(default_factory=dict)
    others: Mapping[str, Other] = field(default_factory=dict)
    groups: Mapping[str, Group] = field(default_factory=dict)
    transmitters: Mapping[str, Transmitter] = field(default_factory=dict)
    capsules: Mapping[str, Capsule] = field(default_factory=dict)
    people: Mapping[str, Person] = field(default_factory=dict)
    roles: Mapping[str, Role] = field(default_factory=dict)
    channels: Mapping[str, Channel] = field(default_factory=dict)
    scenes: tuple[Scene, ...] = ()
    moves: Mapping[str, Move] = field(default_factory=dict)
    looks: Mapping[str, Look] = field(default_factory=dict)
    covers: tuple[Cover, ...] = ()
    venues: Mapping[str, VenueRow] = field(default_factory=dict)
    performances: Mapping[str, Performance] = field(default_factory=dict)
    at_venue: str = field(default="", compare=False)
    at_performance: str = field(default="", compare=False)

    @property
    def edition(self) -> str:
        """What its papers are for, where not for the home house and the whole run: the venue, the performance, or both."""
        return ", ".join(filter(None, (self.at_venue, self.at_performance)))

    def radio_of(self, channel: Channel) -> RadioType | None:
        """The radio type of a channel, or None where it has none."""
        return self.radios.get(channel.radio)

    def performers_of(self, channel: Channel) -> tuple[str, ...]:
        """Who wears the channel's pack, in order of first mention, each once."""
        by = (self.roles[role].by for role in channel.roles)
        return tuple(dict.fromkeys(name for name in (*by, channel.by) if name))

    def claimants_of(self, rack: Rack) -> dict[int, tuple[Channel, ...]]:
        """The channels of a rack by slot number, by id: more than one where a slot is disputed."""
        found: dict[int, tuple[Channel, ...]] = {}
        for channel in self.channels.values():
            for slot in dict.fromkeys(slot.number for slot in channel.slots if slot.rack == rack.id):
                found[slot] = (*found.get(slot, ()), channel)
        return dict(sorted(found.items()))

    def occupants_of(self, rack: Rack) -> dict[int, Channel]:
        """The channels of a rack by slot number; of two that claim one slot, the first by id."""
        return {number: claimants[0] for number, claimants in self.claimants_of(rack).items()}

    def channels_in(self, rack: Rack) -> tuple[Channel, ...]:
        """Every channel that claims a slot of a rack, in slot order, each once."""
        claimants = self.claimants_of(rack).values()
        return tuple({channel.id: channel for several in claimants for channel in several}.values())
