"""What may be changed in a show file: a value set or removed, a name changed. All are plain strings."""

from dataclasses import dataclass
from typing import TypeAlias

from paperwork.files.refusal import Refused
from paperwork.finding import find
from paperwork.place import Place


@dataclass(frozen=True, slots=True)
class Edit:
    """A field gets a value, or goes where the value is "". What is not there yet is added: field, record, section.

    `record` is "" in a section that describes one thing. `before` names fields that a new one comes before.
    """

    section: str
    record: str
    field: str
    value: str
    before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rename:
    """Another name for a field, for a record (`field` is ""), or for a section (`record` and `field` are "").

    A field without a record is renamed in every record of its section.
    """

    section: str
    record: str
    field: str
    name: str


AnyEdit: TypeAlias = Edit | Rename


def refuse_edit(name: str, reason: str, place: Place | None = None) -> Refused:
    """The refusal to edit a file."""
    return Refused(find("edit-refused", place or Place(name), name=name, reason=reason))
