"""The company and its evening. What each attribute means is in `company_fields` and `house_fields`."""

from dataclasses import field, replace
from typing import Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.model.gear import Slot
from paperwork.model.where import Where, nowhere
from paperwork.text.rasters import TvRaster
from paperwork.text.units import Range

PaperSize: TypeAlias = Literal["A4", "A3", "Letter", "Tabloid"]
"""What papers are laid out for."""

Audience: TypeAlias = Literal["all", "deck", "wardrobe"]
"""For whom the notes of a channel are."""

Times: TypeAlias = Literal["curtain", "clock"]
"""What the times of scenes, moves and parts of the bill count from: curtain up, or they are times of day."""

SceneKind: TypeAlias = Literal["scene", "segment", "set"]
"""What the stretches of the evening are called: of a play, of a broadcast or match, of a festival."""

Follows: TypeAlias = Literal["role", "person"]
"""Whose pack a cover wears: the one of the role, or the cover's own."""


@frozen
class Production:
    """The section `show`. Days are ISO dates or "": of the run, and of the licence, which also names its place."""

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
    licensed_from: str = ""
    licensed_to: str = ""
    licensed_for: str = ""
    contact: str = ""
    returns: str = ""
    paper: PaperSize = "A4"
    language: str = "en"
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

    @property
    def replaces(self) -> str:
        """The revision that this one replaces, or ""."""
        earlier = [revision for revision in self.revisions if revision != self.revision]
        return earlier[-1] if earlier else ""


Measured: TypeAlias = tuple[tuple[int, int, int], ...]
"""One sweep: lower edge and upper edge in Hz, level in hundredths of a dBm. A point without a width has equal edges."""


@frozen
class Spectrum:
    """What is on the air besides us, and how strictly the house counts.

    `refused_hz` were refused there, to whoever asked. `own_on` is None where it is not stated. `sweep_limit_cdb` up to
    0 is in hundredths of a dBm, above 0 of a dB above the noise floor. `measured` is what sweep files say: no fact of
    the show.
    """

    region: str = ""
    raster: tuple[TvRaster, ...] = ()
    tv: tuple[str, ...] = ()
    weak_tv: tuple[str, ...] = ()
    keep_clear: tuple[Range, ...] = ()
    refused_hz: tuple[int, ...] = ()
    sweeps: tuple[str, ...] = ()
    own_on: bool | None = None
    sweep_limit_cdb: int | None = None
    sweep_unit: str = ""
    sweep_impedance: str = "50 ohm"
    zones_apart_cdb: int | None = None
    close_quarters: bool = False
    fifth_three_signal: bool = False
    measured: tuple[Measured, ...] = field(default=(), compare=False, repr=False)
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


ChangePoint: TypeAlias = Literal["power-up", "half", "interval", "between"]
"""When cells may be changed: at power-up, at the half, in an interval, between two shows of one day."""


@frozen
class Day:
    """The section `day`. `power_up_s`, `checks_s`, `half_s` and `curtain_s` are times of day, one for each show or day.

    One power-up on a day of two shows: packs stay on between them. `interval_s` and `bows_s` count as the scenes do:
    from curtain up, or, where `times` is `clock`, from midnight before the first day; one for
    each show, or the same for all. `cells` is when the house changes cells; empty, the plan may choose. The rest are
    the house's own figures in place of `plan.rules`; None is not stated.
    """

    power_up_s: tuple[int, ...] = ()
    checks_s: tuple[int, ...] = ()
    half_s: tuple[int, ...] = ()
    curtain_s: tuple[int, ...] = ()
    interval_s: tuple[int, ...] = ()
    bows_s: tuple[int, ...] = ()
    cells: tuple[ChangePoint, ...] = ()
    team: str = ""
    margin_hundredths: int | None = None
    swap_s: int | None = None
    swap_handheld_s: int | None = None
    crossing_s: int | None = None
    chain: int | None = None
    times: Times = "curtain"
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Person:
    """Somebody in the company. `id` is the name as it is printed."""

    id: str
    short: str = ""
    room: str = ""
    belt: str = ""
    pouch: str = ""
    second_pouch: str = ""
    colour: str = ""
    team: str = ""
    child: bool = False
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Role:
    """Who is played, and by whom. `unmiked` roles may be live without a channel.

    `by` is who plays it on this day, `alternates` who plays it on others. A role with a `group` stands for the roles in
    it, and never itself on stage: `live` and channels name its members.
    """

    id: str
    by: str = ""
    short: str = ""
    unmiked: bool = False
    alternates: tuple[str, ...] = ()
    group: tuple[str, ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

    @property
    def casts(self) -> tuple[str, ...]:
        """Everybody who plays it, on this day or on others."""
        return tuple(name for name in (self.by, *self.alternates) if name)

    def played_by(self, name: str) -> "Role":
        """The role as somebody plays it; who else does are its alternates."""
        if name == self.by and name not in self.alternates and all(self.alternates):
            return self
        return replace(self, by=name, alternates=tuple(one for one in self.casts if one != name))


@frozen
class Channel:
    """One radio path. `by` is set only where it has no role; a role has its own performer.

    A spare without `backs` is for all of its kind. Carriers of two zones, or of parts of the bill that never meet, do
    not disturb each other. `slots` holds every claim to a slot; a sound show has one. `refused`: nothing was granted.
    `backup_hz` is what pack and receiver are set to when `hz` goes bad; `wants_backup`: one is to be found.
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
    tape: str = ""
    slots: tuple[Slot, ...] = ()
    doubles: str = ""
    alternate: str = ""
    exclusive: str = ""
    zone: str = ""
    bill: tuple[str, ...] = ()
    carrier: str = ""
    asked_hz: int | None = None
    granted_hz: int | None = None
    refused: bool = False
    backup_hz: int | None = None
    must: bool = False
    wants_backup: bool = False
    notes: str = ""
    notes_for: Audience = "all"
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

    @property
    def slot(self) -> Slot | None:
        """The first slot that the channel was put into, or None."""
        return self.slots[0] if self.slots else None

    def notes_to(self, reader: Audience) -> str:
        """The notes, where they are for this reader."""
        return self.notes if self.notes_for in ("all", reader) else ""


@frozen
class Scene:
    """A stretch of the show, in row order. Segments of a match and sets on a bill are in place of scenes."""

    id: str
    name: str = ""
    act: str = ""
    page: str = ""
    kind: SceneKind = "scene"
    at_s: int | None = None
    until_s: int | None = None
    live: tuple[str, ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Move:
    """An entrance and an exit of a role in a scene: sides, times where known, the channel that it has ("": its own)."""

    id: str
    role: str = ""
    scene: str = ""
    enter: str = ""
    exit: str = ""
    from_s: int | None = None
    to_s: int | None = None
    channel: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Look:
    """What a person wears from a scene on, and what it does to the pack: where it sits, where the capsule goes."""

    id: str
    by: str = ""
    scene: str = ""
    wears: str = ""
    pouch: str = ""
    sits: str = ""
    second_sits: str = ""
    capsule: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Cover:
    """Somebody who can go on for a role, in all scenes or in some. Order is the order of asking."""

    id: str
    role: str = ""
    by: str = ""
    scenes: tuple[str, ...] = ()
    follows: Follows = "role"
    channel: str = ""
    capsule: str = ""
    pouch: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


PerformanceKind: TypeAlias = Literal["show", "rehearsal"]
"""What a performance is: one before a house, or a rehearsal."""


@frozen
class Performance:
    """One of the run: its date, and what is not as in the section `day` and in the roles.

    Times are as in `Day`; empty or None is as there. `cast` says who plays each role that has alternates or that is
    stated: as stated, else as the team of the performance, or of the day, decides.
    """

    id: str
    date: str = ""
    kind: PerformanceKind = "show"
    power_up_s: tuple[int, ...] = ()
    checks_s: tuple[int, ...] = ()
    half_s: tuple[int, ...] = ()
    curtain_s: tuple[int, ...] = ()
    interval_s: tuple[int, ...] = ()
    bows_s: tuple[int, ...] = ()
    team: str = ""
    cast: tuple[tuple[str, str], ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)
