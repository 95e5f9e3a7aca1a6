"""The one entry for show files of every kind: ours as they are written, foreign sheets understood."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from paperwork.files import read_bytes
from paperwork.files.refusal import Refused
from paperwork.files.sniff import TABLES, Load, load_file, sniff
from paperwork.finding import Finding
from paperwork.frozen import frozen
from paperwork.raw import Map

if TYPE_CHECKING:
    from paperwork.files.grid import Book
    from paperwork.intake.questions import Answers
    from paperwork.intake.understand import Understanding

Recall: TypeAlias = "Callable[[], tuple[Answers, tuple[Finding, ...]]]"
"""Gives the answers to a foreign sheet by kind and content, and what is wrong with them; called where there is one."""


@frozen
class Source:
    """A file that was read. `understanding` is set for foreign sheets only; `raw` is None if nothing could be read."""

    raw: Map | None
    findings: tuple[Finding, ...]
    understanding: "Understanding | None" = None

    @property
    def lines(self) -> tuple[str, ...]:
        """What a foreign sheet was read as, in plain lines."""
        return self.understanding.lines if self.understanding else ()


def read_source(path: Path, name: str, load: Load = load_file) -> Source:
    """A show file of any kind, with the answers that are kept beside it."""

    def recall() -> "tuple[Answers, tuple[Finding, ...]]":
        from paperwork.intake.answers import name_answers, read_answers

        return read_answers(path.with_name(name_answers(path.name)), name_answers(name), load)

    try:
        data = load(path, name)
    except Refused as refused:
        return Source(None, (refused.finding,))
    return read_source_bytes(data, name, recall)


def read_source_bytes(data: bytes, name: str, recall: Recall) -> Source:
    """The same for a file whose bytes are at hand."""
    try:
        kind, findings = sniff(data, name)
        if kind not in TABLES:
            return Source(*read_bytes(data, name))
        book = _open_book(data, name, kind)
        if is_ours(book):
            return _read_own(book, findings, is_text=kind == "csv")
    except Refused as refused:
        return Source(None, (refused.finding,))
    return _read_foreign(book, recall, findings)


def _read_foreign(book: "Book", recall: Recall, findings: tuple[Finding, ...]) -> Source:
    from paperwork.intake.tables.ragged import find_ragged
    from paperwork.intake.understand import understand

    answers, wrong = recall()
    understanding = understand(book, answers)
    findings = (*findings, *wrong, *find_ragged(book), *understanding.findings)
    return Source(understanding.raw if understanding.raw.items else None, findings, understanding)


def _read_own(book: "Book", findings: tuple[Finding, ...], *, is_text: bool) -> Source:
    from paperwork.files.xlsx.show import read_tables
    from paperwork.intake.listing import is_listing

    raw, more = read_tables(book, "channels" if is_listing(book) else "")
    decoded = (one for one in book.findings if is_text and one not in more)
    return Source(raw, (*findings, *decoded, *more))


def read_book(data: bytes, name: str, kind: str) -> "Book | None":
    """The sheets of a foreign file; None for a workbook or a list of our own. Raises Refused."""
    book = _open_book(data, name, kind)
    return None if is_ours(book) else book


def read_answered(data: bytes, name: str, kind: str) -> "Book | None":
    """The sheets of a coordinator's answer, which may be headed like our own list; None for a workbook of our own."""
    from paperwork.intake.listing import has_own_sheets

    book = _open_book(data, name, kind)
    return None if has_own_sheets(book) else book


def _open_book(data: bytes, name: str, kind: str) -> "Book":
    if kind == "csv":
        from paperwork.files.csv.read import read_csv

        return read_csv(data, name)
    from paperwork.files.xlsx.sheet import read_workbook

    return read_workbook(data, name)


def is_ours(book: "Book") -> bool:
    """Whether the sheets are named like sections, or the only one is our own list of channels."""
    from paperwork.intake.listing import has_own_sheets, is_listing

    return has_own_sheets(book) or is_listing(book)
