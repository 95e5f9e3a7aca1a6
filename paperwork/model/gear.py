"""Gear, and what else is on the air. What each attribute means is in `house_fields`."""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from paperwork.model.where import NO_PLACE, Where, nowhere
from paperwork.place import Place
from paperwork.text.units import Range

RadioKind: TypeAlias = Literal["pack", "handheld"]
OutputKind: TypeAlias = Literal["analogue", "digital", "network"]
GroupKind: TypeAlias = Literal["zone", "bill", "exclusive", "carrier", "team", "antenna"]
Side: TypeAlias = Literal["", "left", "right"]


@dataclass(frozen=True, slots=True)
class RadioType:
    """What one kind of radio needs. A guard of None is not stated: the rules' own default holds."""

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
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

    def can_tune(self, hz: int) -> bool:
        """Whether it can be set to a frequency with its whole bandwidth inside its range; one that states no range can."""
        half_hz = -(-(self.bandwidth_hz or 0) // 2)
        return not self.tunes or any(one.low_hz <= hz - half_hz and hz + half_hz <= one.high_hz for one in self.tunes)


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
    side: Side = ""
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
    network: str = ""
    clock: str = ""
    rate: str = ""
    outputs: tuple[Output, ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

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
    letters: int | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Other:
    """A carrier of somebody else, or of ours that is no microphone: in-ears, intercom, a neighbour."""

    id: str
    kind: str = ""
    hz: int | None = None
    bandwidth_hz: int | None = None
    apart_hz: int | None = None
    listeners: tuple[str, ...] = ()
    packs: tuple[str, ...] = ()
    makes_intermodulation: bool = True
    zone: str = ""
    bill: tuple[str, ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Group:
    """A name that records share, declared: a zone, a part of the bill and its times from curtain up, a team and so on."""

    id: str
    kind: GroupKind = "zone"
    name: str = ""
    from_s: int | None = None
    until_s: int | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Transmitter:
    """One thing worn or held: what its display and its owner call it, how it is set, what feeds it."""

    id: str
    radio: str = ""
    serial: str = ""
    display: str = ""
    cells: str = ""
    set: str = ""
    hours_s: int | None = None
    power: str = ""
    gain: str = ""
    lock: bool | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Capsule:
    """A microphone element, or a kind of it."""

    id: str
    type: str = ""
    pattern: str = ""
    colour: str = ""
    fit: str = ""
    serial: str = ""
    cap: str = ""
    owned: int | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)
