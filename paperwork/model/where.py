"""Where a record was written: no part of its value, so two shows that say the same are equal."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from paperwork.place import Place

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


def nowhere() -> Where:
    """The place of a record that nobody wrote."""
    return Where()
