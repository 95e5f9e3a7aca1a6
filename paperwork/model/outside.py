"""Who and what comes from outside: people to be called, hired gear, antennas, other houses. Attributes are explained in
`outside_fields`, those of venues in `company_fields`."""

from dataclasses import field
from typing import Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.model.where import Where, nowhere

AntennaKind: TypeAlias = Literal["antenna", "booster", "filter", "splitter"]
"""What a part between the air and the racks is."""


@frozen
class Contact:
    """Somebody to be called. `id` is the name as it is printed."""

    id: str
    department: str = ""
    job: str = ""
    phone: str = ""
    other: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class Hire:
    """Gear of a firm, which comes on one day and goes back on another, as ISO dates."""

    id: str
    firm: str = ""
    item: str = ""
    serial: str = ""
    count: int | None = None
    packs: tuple[str, ...] = ()
    from_day: str = ""
    until_day: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)


@frozen
class AntennaPart:
    """An antenna, or what its cable comes to before the racks. `cables` are the lengths of the cables to what it
    feeds, as they were written: one for each, or one for all."""

    id: str
    kind: AntennaKind = "antenna"
    side: str = ""
    place: str = ""
    gain: str = ""
    power: str = ""
    feeds: tuple[str, ...] = ()
    cables: tuple[str, ...] = ()
    where: Where = field(default_factory=nowhere, compare=False, repr=False)

    @property
    def cables_out(self) -> tuple[tuple[str, str], ...]:
        """What each of its cables goes to, with its length; "" where that is not stated."""
        lengths = self.cables * len(self.feeds) if len(self.cables) == 1 else self.cables
        return tuple(zip(self.feeds, (*lengths, *[""] * len(self.feeds)), strict=False))


@frozen
class VenueRow:
    """One value that is different in one venue: which record, which field, and what it says there."""

    id: str
    venue: str = ""
    section: str = ""
    record: str = ""
    name: str = ""
    value: str = ""
    where: Where = field(default_factory=nowhere, compare=False, repr=False)
