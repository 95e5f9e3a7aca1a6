"""One paper as it was printed: its file, its pages with their codes and stamps, and what is cut out of it."""

from paperwork.changes import LabelPrint
from paperwork.finding import Finding, Subject
from paperwork.frozen import frozen

PICTURES = "pictures"
"""The folder of the pages' pictures."""


@frozen
class Picture:
    """The picture of one page: where it lies in the output folder, and its size in millimetres."""

    path: str
    width: int
    height: int


@frozen
class Printed:
    """One paper in the output: where it went, and what the index says of it.

    `pages` are the numbers of those that are printed, `codes` and `stamps` of each its code and the words of its
    stamp. `subjects` are the records that it shows, `found` what its own layout found, `tags` the number and the QR
    text of each of its labels, `labels` its labels or cut-out cards.
    """

    path: str
    title: str
    folder: str
    pages: tuple[int, ...]
    codes: tuple[str, ...]
    stamps: tuple[str, ...] = ()
    pictures: tuple[Picture, ...] = ()
    subjects: frozenset[Subject] = frozenset()
    found: tuple[Finding, ...] = ()
    tags: tuple[tuple[str, str], ...] = ()
    labels: tuple[LabelPrint, ...] = ()
    cut: tuple[tuple[str, ...], ...] = ()
    """Of each page the codes of the strips that are cut out of it."""

    @property
    def coded(self) -> list[tuple[int, str]]:
        """The number and the code of each of its pages; of the book that of its cover."""
        return [(number, code) for number, code in zip(self.pages, self.codes, strict=True) if code]

    @property
    def held(self) -> list[tuple[str, str]]:
        """Every code on it, with what carries it: a page (not of the book), a label or a card, a strip."""
        found = [(f"page {number}", code) for number, code in self.coded]
        found += [(f"{label.number} {label.role}".strip(), label.code) for label in self.labels]
        return found + [
            (f"page {number}", code) for number, codes in zip(self.pages, self.cut, strict=False) for code in codes
        ]

    @property
    def stamped(self) -> tuple[int, ...]:
        """The numbers of its pages that carry a stamp."""
        return tuple(number for number, stamp in zip(self.pages, self.stamps, strict=False) if stamp)
