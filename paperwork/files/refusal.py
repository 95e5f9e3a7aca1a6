"""The one exception of this room, and how an edit is refused by it."""

from paperwork.finding import Finding, find
from paperwork.place import Place


class Refused(Exception):
    """A file, or a part of it, cannot be read or written. Carries the finding that says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(f"{finding.place}: {finding.text}")
        self.finding = finding

    def __reduce__(self) -> "tuple[type[Refused], tuple[Finding]]":
        return Refused, (self.finding,)


def refuse_edit(name: str, reason: str, place: Place | None = None) -> Refused:
    """The refusal to edit a file."""
    return Refused(find("edit-refused", place or Place(name), name=name, reason=reason))
