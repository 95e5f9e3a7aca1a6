"""Foreign sheets from a few lines of a test, and what came of them in plain Python."""

import io
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.worksheet.worksheet import Worksheet

from paperwork.intake.source import read_book
from paperwork.intake.understand import Understanding, understand
from paperwork.raw import List, Map, Node
from paperwork.reading import Reading, read_show

Rows = Sequence[Sequence[Any]]


def workbook(sheets: Mapping[str, Rows], change: Callable[[openpyxl.Workbook], object] | None = None) -> bytes:
    """The bytes of a workbook made of rows; `change` may do to it what people do."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(list(row))
    if change:
        change(book)
    buffer = io.BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def read(
    rows: Rows,
    change: Callable[[Worksheet], object] | None = None,
    answers: Mapping[tuple[str, str], str] | None = None,
) -> Understanding:
    """The understanding of a workbook with one sheet."""
    data = workbook({"Mics": rows}, (lambda book: change(book["Mics"])) if change else None)
    return read_data(data, answers)


def read_data(
    data: bytes, answers: Mapping[tuple[str, str], str] | None = None, name: str = "list.xlsx"
) -> Understanding:
    """The understanding of a foreign file; the account must add up, whatever it holds."""
    book = read_book(data, name, "csv" if name.endswith(".csv") else "xlsx")
    assert book is not None
    got = understand(book, answers)
    assert sum(got.account.values()) == got.cells and "lost" not in got.account, got.account
    return got


def read_text(text: str | bytes, answers: Mapping[tuple[str, str], str] | None = None) -> Understanding:
    """The understanding of separated values."""
    return read_data(text.encode("utf-8") if isinstance(text, str) else text, answers, "list.csv")


def show(tmp_path: Path, rows: Rows, change: Callable[[Worksheet], object] | None = None) -> Reading:
    """The whole reading of a foreign sheet, through a file, as `check` does it."""
    data = workbook({"Mics": rows}, (lambda book: change(book["Mics"])) if change else None)
    (tmp_path / "list.xlsx").write_bytes(data)
    return read_show(tmp_path / "list.xlsx", "list.xlsx")


def plain(node: Node | None) -> Any:
    """A node as dictionaries, lists and texts."""
    if isinstance(node, Map):
        return {key.text: plain(value) for key, value in node.items}
    if isinstance(node, List):
        return [plain(item) for item in node.items]
    return node.text if node else None


def section(got: Understanding, name: str = "channels") -> dict[str, dict[str, Any]]:
    """One section in plain Python."""
    return plain(got.raw.get(name)) or {}


def mhz(got: Understanding) -> list[str | None]:
    """The frequency of each channel, in order."""
    return [fields.get("mhz") or None for fields in section(got).values()]


def codes(got: Understanding | Reading) -> list[str]:
    """The codes of all findings."""
    return sorted(finding.code for finding in got.findings)


def asked(got: Understanding) -> list[tuple[str, str]]:
    """Kind and content of each open question that has no default."""
    return [(question.kind, question.about) for question in got.questions if not question.default]
