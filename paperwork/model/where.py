"""Where a record was written: no part of its value, so two shows that say the same are equal."""

from collections.abc import Collection, Mapping
from dataclasses import field

from paperwork.frozen import frozen
from paperwork.place import Place

NO_PLACE = Place("")


@frozen
class Where:
    """Places of a record and of its fields. `where["mhz"]` is the field's place, else the record's.

    `known` are the fields that the section has. Asking for another one raises KeyError: a slip in our own code. Where
    they are not stated, because nobody wrote the record, every name is let through.
    """

    record: Place = NO_PLACE
    fields: Mapping[str, Place] = field(default_factory=dict)
    known: Collection[str] = ()

    def __getitem__(self, name: str) -> Place:
        place = self.fields.get(name)
        return self._find_none(name) if place is None else place

    def __contains__(self, name: str) -> bool:
        return name in self.fields or self._find_none(name) is None

    def _find_none(self, name: str) -> Place:
        """The record's place for a field that was not written."""
        if self.known and name not in self.known:
            raise KeyError(name)
        return self.record


def nowhere() -> Where:
    """The place of a record that nobody wrote."""
    return Where()
