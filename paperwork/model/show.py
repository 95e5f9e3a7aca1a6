"""The whole show, and the few questions that every room asks of it."""

from collections.abc import Mapping
from dataclasses import field, replace

from paperwork.frozen import frozen
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
)
from paperwork.model.gear import Capsule, Console, Group, Other, Rack, RadioType, Transmitter
from paperwork.model.outside import AntennaPart, Contact, Hire, VenueRow


@frozen
class Show:
    """The whole show. Order counts in scenes, covers, contacts and racks; elsewhere ids are sorted as people count.

    `rack_order` is the order in which the racks are listed, () where that is the sorted one.

    `at_venue` is the venue of the section `venues` whose rows are in place, "" in the home venue.
    `at_performance` is the performance that it is staged for, or from which date to which its performances are; ""
    for the run as a whole. `cut_roles` are those that are live in a scene that is cut. While it `is_advised`,
    findings name clean frequencies, which have to be searched for.
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
    contacts: tuple[Contact, ...] = ()
    hires: Mapping[str, Hire] = field(default_factory=dict)
    antennas: Mapping[str, AntennaPart] = field(default_factory=dict)
    rack_order: tuple[str, ...] = ()
    at_venue: str = field(default="", compare=False)
    at_performance: str = field(default="", compare=False)
    cut_roles: frozenset[str] = field(default=frozenset(), compare=False)
    is_advised: bool = field(default=True, compare=False)

    @property
    def edition(self) -> str:
        """What its papers are for, if not the home venue and the whole run: the venue, the performance, or both."""
        return ", ".join(filter(None, (self.at_venue, self.at_performance)))

    @property
    def is_of_days(self) -> bool:
        """Whether it is cut down to the performances between two dates."""
        return bool(self.at_performance) and self.at_performance not in self.performances

    def type_of(self, other: Other) -> RadioType:
        """What one of the others needs: its radio type, with what it says itself in place of that."""
        radio = self.radios.get(other.radio_type, RadioType(id=""))
        return replace(
            radio,
            bandwidth_hz=radio.bandwidth_hz if other.bandwidth_hz is None else other.bandwidth_hz,
            apart_hz=radio.apart_hz if other.apart_hz is None else other.apart_hz,
            makes_intermodulation=radio.makes_intermodulation and other.makes_intermodulation,
        )

    def radio_of(self, channel: Channel) -> RadioType | None:
        """The radio type of a channel, or None where it has none."""
        return self.radios.get(channel.radio)

    def roles_on(self, channel: Channel) -> tuple[str, ...]:
        """Who is ever played on it, each once: its own roles, then those to which a move gives it or its lead."""
        lead = channel.doubles or channel.id
        given = [
            move.role for move in self.moves.values() if move.channel in (channel.id, lead) and move.role in self.roles
        ]
        members = (one for role in given for one in self.roles[role].group or (role,))
        return tuple(dict.fromkeys((*channel.roles, *members))) if given else channel.roles

    def performers_of(self, channel: Channel) -> tuple[str, ...]:
        """Who wears the channel's pack, in order of first mention, each once."""
        by = (self.roles[role].by for role in self.roles_on(channel))
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
