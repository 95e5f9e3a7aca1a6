"""What readers that are not ours find in a PDF: the lines of its pages, and its bookmarks."""

from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pypdf
import pypdfium2


def read_pages(pdf: bytes) -> list[str]:
    """The text of each page."""
    return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in pypdfium2.PdfDocument(pdf)]


def list_bookmarks(pdf: bytes) -> list[str]:
    """The titles of the bookmarks, those of all depths in their order."""
    return list(_titles(pypdf.PdfReader(BytesIO(pdf)).outline))


def _titles(marks: list[Any]) -> Iterator[str]:
    for mark in marks:
        yield from _titles(mark) if isinstance(mark, list) else [mark.title]
