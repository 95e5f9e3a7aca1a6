"""What was read, before it means anything: located text, maps and lists, the same from every kind of file.

Nothing here is parsed: `010`, `1:05`, `NO` and `518.200` are the text that was written. A number of a workbook
arrives as the text of its shortest exact decimal, with kind `number`.
"""

import unicodedata
from dataclasses import field
from typing import Literal, TypeAlias

from paperwork.frozen import frozen
from paperwork.place import Place, Span

Kind: TypeAlias = Literal["text", "number"]


@frozen
class Text:
    """One scalar as written, its letters composed (NFC): two spellings of one sign are no difference. Equal to another
    by its text alone, wherever it stands."""

    text: str
    place: Place = field(compare=False)
    kind: Kind = field(default="text", compare=False)
    span: Span | None = field(default=None, compare=False, repr=False)

    def __post_init__(self) -> None:
        if not self.text.isascii():
            object.__setattr__(self, "text", unicodedata.normalize("NFC", self.text))


@frozen
class Map:
    """Keys and values in the order of the source. Keys are unique; the reader made sure of it."""

    items: tuple[tuple[Text, "Node"], ...]
    place: Place = field(compare=False)

    def get(self, key: str) -> "Node | None":
        """The value under a key, or None."""
        return next((value for name, value in self.items if name.text == key), None)


@frozen
class List:
    """Values in the order of the source."""

    items: tuple["Node", ...]
    place: Place = field(compare=False)


Node: TypeAlias = Text | Map | List
