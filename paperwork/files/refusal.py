"""The one exception of this room."""

from paperwork.finding import Finding


class Refused(Exception):
    """A file, or a part of it, cannot be read or written. Carries the finding that says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(f"{finding.place}: {finding.text}")
        self.finding = finding
