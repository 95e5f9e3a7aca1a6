"""Gear, and what else is on the air. What each attribute means is in `house_fields`."""

from dataclasses import field
from typing import Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.model.where import NO_PLACE, Where, nowhere
from paperwork.place import Place
from paperwork.text.units import Range

RadioKind: TypeAlias = Literal["pack", "handheld"]
OutputKind: TypeAlias = Literal["analogue", "digital", "network"]
GroupKind: TypeAlias = Literal["zone", "bill", "exclusive", "carrier", "team", "antenna"]
Side: TypeAlias = Literal["", "left", "right"]


SPOT_HZ = 200_000
"""Bandwidth of a spot whose type states none. Source: 47 CFR 74.802(c) joins 25 kHz segments to 200 kHz at most."""


@frozen
class RadioType:
    """What one kind of radio needs. A guard of None is not stated: the rules' own default holds."""

    id: str
    kind: RadioKind = "pack"
    tunes: tuple[Range, ...] = ()
    step_hz: int | None = None
    step_from_hz: int | None = None
    spots_hz: tuple[int, ...] = ()
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
        """Whether a frequency is in its range with its whole bandwidth; one that states no range can be set to any."""
        half_hz = -(-(self.bandwidth_hz or 0) // 2)
        return not self.tunes or any(one.low_hz <= hz - half_hz and hz + half_hz <= one.high_hz for one in self.tunes)

    @property
    def reach(self) -> tuple[Range, ...]:
        """Where it can go: its tuning range, else its spots with a carrier's width; none where nothing says."""
        half_hz = -(-(self.bandwidth_hz or SPOT_HZ) // 2)
        return self.tunes or tuple(Range(hz - half_hz, hz + half_hz) for hz in sorted(self.spots_hz))

    def settings_around(self, hz: int) -> tuple[int, ...]:
        """What it can be set to next to a frequency: that alone, else what is below and above; none if nothing says."""
        if self.spots_hz:
            below = [spot for spot in self.spots_hz if spot <= hz]
            above = [spot for spot in self.spots_hz if spot >= hz]
            return tuple(dict.fromkeys([*([max(below)] if below else []), *([min(above)] if above else [])]))
        if not self.step_hz:
            return ()
        below_hz = hz - (hz - (self.step_from_hz or 0)) % self.step_hz
        return (hz,) if below_hz == hz else (below_hz, below_hz + self.step_hz)


@frozen
class Slot:
    """A place in a receiver rack, printed `R1.3`. `place` is where the channel was put into it."""

    rack: str
    number: int
    place: Place = field(default=NO_PLACE, compare=False, repr=False)

    def __str__(self) -> str:
        return f"{self.rack}.{self.number}"


@frozen
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


@frozen
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


@frozen
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
    strip: int | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Other:
    """A carrier of somebody else, or of ours that is not a microphone: in-ears, intercom, a neighbour."""

    id: str
    kind: str = ""
    radio_type: str = ""
    hz: int | None = None
    must: bool = False
    bandwidth_hz: int | None = None
    apart_hz: int | None = None
    listeners: tuple[str, ...] = ()
    packs: tuple[str, ...] = ()
    makes_intermodulation: bool = True
    zone: str = ""
    bill: tuple[str, ...] = ()
    asked_hz: int | None = None
    granted_hz: int | None = None
    refused: bool = False
    notes: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Group:
    """A name that records share, declared: a zone, a part of the bill and its times, a team and so on."""

    id: str
    kind: GroupKind = "zone"
    name: str = ""
    from_s: int | None = None
    until_s: int | None = None
    attenuation_cdb: int | None = None
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
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
    tape: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
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
