"""Where something stands in a source file."""

from typing import NamedTuple


class Span(NamedTuple):
    """Half-open range of code points in a decoded text source: what an edit would replace."""

    start: int
    end: int


class Place(NamedTuple):
    """A place in a text file (line and column from 1) or in a workbook (sheet, row and column from 1).

    Sorts in reading order. Line 0 means the file as a whole.
    """

    file: str
    line: int = 0
    column: int = 0
    sheet: str = ""

    def __str__(self) -> str:
        if self.sheet and self.line:
            return f"{self.file} {self.sheet}!{self.cell}"
        if self.sheet:
            return f"{self.file} {self.sheet}"
        if self.line:
            return f"{self.file}:{self.line}:{self.column}"
        return self.file

    @property
    def cell(self) -> str:
        """The cell address in a workbook (`C7`), or "" in a text file."""
        return f"{format_column(self.column)}{self.line}" if self.sheet and self.line else ""


def format_column(number: int) -> str:
    """The letters of a workbook column: 1 is `A`, 27 is `AA`."""
    letters = ""
    while number > 0:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
