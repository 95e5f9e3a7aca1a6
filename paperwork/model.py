"""The show as facts: frozen records with typed values, every reference resolved to an id that exists.

Frequencies are whole hertz, times whole seconds, dates ISO text. Each record knows where it was written (`where`),
which is no part of its value: a show read from YAML equals its twin read from a workbook.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from paperwork.place import Place
from paperwork.units import Range

RadioKind: TypeAlias = Literal["pack", "handheld"]
OutputKind: TypeAlias = Literal["analogue", "digital", "network"]

NO_PLACE = Place("")


@dataclass(frozen=True, slots=True)
class Where:
    """Places of a record and of its fields. `where["mhz"]` is the field's place, else the record's."""

    record: Place = NO_PLACE
    fields: Mapping[str, Place] = field(default_factory=dict)

    def __getitem__(self, name: str) -> Place:
        return self.fields.get(name, self.record)

    def __contains__(self, name: str) -> bool:
        return name in self.fields


def _nowhere() -> Where:
    return Where()


@dataclass(frozen=True, slots=True)
class Production:
    """The section `show`. `first_day` and `last_day` are ISO dates or ""."""

    title: str = ""
    company: str = ""
    venue: str = ""
    first_day: str = ""
    last_day: str = ""
    revision: str = ""
    revised: str = ""
    reason: str = ""
    revisions: tuple[str, ...] = ()
    licence: str = ""
    contact: str = ""
    returns: str = ""
    paper: str = "A4"
    language: str = "en"
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)

    @property
    def replaces(self) -> str:
        """The revision that this one replaces, or ""."""
        earlier = [revision for revision in self.revisions if revision != self.revision]
        return earlier[-1] if earlier else ""


@dataclass(frozen=True, slots=True)
class Spectrum:
    """What is on the air besides us. `tv` holds the TV channels in use, as the region counts them."""

    region: str = ""
    tv: tuple[str, ...] = ()
    keep_clear: tuple[Range, ...] = ()
    sweeps: tuple[str, ...] = ()
    own_on: bool | None = None
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class RadioType:
    """What one kind of radio needs. A guard of None is not stated: the rules' own default holds.

    `fit` is the capsule connector: "" is not told, `fixed` is a head that cannot be changed.
    """

    id: str
    kind: RadioKind = "pack"
    tunes: tuple[Range, ...] = ()
    step_hz: int | None = None
    bandwidth_hz: int | None = None
    apart_hz: int | None = None
    guard_two_hz: int | None = None
    guard_three_hz: int | None = None
    guard_fifth_hz: int | None = None
    makes_intermodulation: bool = True
    hours_s: int | None = None
    power: str = ""
    fit: str = ""
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Slot:
    """A place in a receiver rack, printed `R1.3`. `place` is where the channel was put into it."""

    rack: str
    number: int
    place: Place = field(default=NO_PLACE, compare=False, repr=False)

    def __str__(self) -> str:
        return f"{self.rack}.{self.number}"


@dataclass(frozen=True, slots=True)
class Output:
    """One signal of one slot on one copy of an output, to one input of one destination.

    A digital connector carries a pair: two outputs with the same connector, `side` left and right.
    """

    kind: OutputKind
    copy: int
    slot: int
    console: str
    input: int
    connector: str = ""
    side: Literal["", "left", "right"] = ""
    place: Place = field(default=NO_PLACE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Rack:
    """Receiver units in one frame. `units` are the slots of each unit, front to back of the numbering."""

    id: str
    units: tuple[int, ...] = ()
    window: Range | None = None
    antenna: str = ""
    place: str = ""
    address: str = ""
    clock: str = ""
    rate: str = ""
    outputs: tuple[Output, ...] = ()
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)

    @property
    def slots(self) -> int:
        """How many slots the rack has."""
        return sum(self.units)


@dataclass(frozen=True, slots=True)
class Console:
    """A destination of outputs: a desk, a recorder, a truck. `jacks[n - 1]` is the jack of input n."""

    id: str
    name: str = ""
    inputs: int | None = None
    box: str = ""
    jacks: tuple[str, ...] = ()
    level: str = ""
    pad: str = ""
    phantom: str = ""
    isolated: bool = False
    clock: str = ""
    rate: str = ""
    converts: bool = False
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Other:
    """A carrier of somebody else, or of ours that is no microphone: in-ears, intercom, a neighbour."""

    id: str
    kind: str = ""
    hz: int | None = None
    bandwidth_hz: int | None = None
    apart_hz: int | None = None
    listeners: tuple[str, ...] = ()
    makes_intermodulation: bool = True
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Transmitter:
    """One thing worn or held, with what its display and its owner call it."""

    id: str
    radio: str = ""
    serial: str = ""
    display: str = ""
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Capsule:
    """A microphone element. `fit` is the connector it needs, `owned` how many there are."""

    id: str
    type: str = ""
    pattern: str = ""
    colour: str = ""
    fit: str = ""
    serial: str = ""
    owned: int | None = None
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody in the company. `id` is the name as it is printed."""

    id: str
    short: str = ""
    room: str = ""
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Role:
    """Who is played, and by whom. `unmiked` roles may be live without a channel."""

    id: str
    by: str = ""
    short: str = ""
    unmiked: bool = False
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Channel:
    """One radio path. `by` is set only where no role is told; a role knows its own performer.

    `spare` channels back others (`backs`; none named: all of their kind). `doubles` names the channel whose wearer
    has this one as a second pack; `alternate` the channel with which it may share a desk input; `exclusive` a
    group of channels of which only one is ever powered. `slots` holds every claim to a slot; a sound show has one.
    """

    id: str
    roles: tuple[str, ...] = ()
    by: str = ""
    radio: str = ""
    spare: bool = False
    backs: tuple[str, ...] = ()
    hz: int | None = None
    pack: str = ""
    capsule: str = ""
    slots: tuple[Slot, ...] = ()
    doubles: str = ""
    alternate: str = ""
    exclusive: str = ""
    notes: str = ""
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)

    @property
    def slot(self) -> Slot | None:
        """The first slot that the channel was put into, or None."""
        return self.slots[0] if self.slots else None


@dataclass(frozen=True, slots=True)
class Scene:
    """A stretch of the show, in row order. `at_s` counts from curtain up; `live` holds role ids."""

    id: str
    name: str = ""
    act: str = ""
    at_s: int | None = None
    live: tuple[str, ...] = ()
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Cover:
    """Somebody who can go on for a role, in all scenes or in some. Order is the order of asking."""

    id: str
    role: str = ""
    by: str = ""
    scenes: tuple[str, ...] = ()
    channel: str = ""
    capsule: str = ""
    where: Where = field(default_factory=_nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Show:
    """The whole show. Order counts in scenes and covers; elsewhere ids are sorted as people count."""

    production: Production = field(default_factory=Production)
    spectrum: Spectrum = field(default_factory=Spectrum)
    radios: Mapping[str, RadioType] = field(default_factory=dict)
    racks: Mapping[str, Rack] = field(default_factory=dict)
    consoles: Mapping[str, Console] = field(default_factory=dict)
    others: Mapping[str, Other] = field(default_factory=dict)
    transmitters: Mapping[str, Transmitter] = field(default_factory=dict)
    capsules: Mapping[str, Capsule] = field(default_factory=dict)
    people: Mapping[str, Person] = field(default_factory=dict)
    roles: Mapping[str, Role] = field(default_factory=dict)
    channels: Mapping[str, Channel] = field(default_factory=dict)
    scenes: tuple[Scene, ...] = ()
    covers: tuple[Cover, ...] = ()

    def radio_of(self, channel: Channel) -> RadioType | None:
        """The radio type of a channel, or None where the show tells of none."""
        return self.radios.get(channel.radio)

    def performers_of(self, channel: Channel) -> tuple[str, ...]:
        """Who wears the channel's pack, in order of first mention, each once."""
        by = (self.roles[role].by for role in channel.roles)
        return tuple(dict.fromkeys(name for name in (*by, channel.by) if name))

    def occupants_of(self, rack: Rack) -> dict[int, Channel]:
        """The channels of a rack by slot number; of two that claim one slot, the first by id."""
        found: dict[int, Channel] = {}
        for channel in self.channels.values():
            for slot in channel.slots:
                if slot.rack == rack.id:
                    found.setdefault(slot.number, channel)
        return dict(sorted(found.items()))
