"""Boxes of a page folded up, in a tenth of the room, until they are drawn; and what was drawn, in their place.

A long paper has a million boxes. They are opened whenever they are looked at.
"""

import marshal
import zlib
from abc import abstractmethod
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain
from typing import Any, overload

from paperwork.frozen import frozen
from paperwork.render.boxes import CLOSE, Box, Close, Fill, Frame, Hatch, Open, QrBox, Room, Rule, TextBox
from paperwork.text.glyphs import is_scripted

_KINDS: tuple[type[Any], ...] = (TextBox, Fill, Frame, Rule, Hatch, QrBox, Open, Close)
_NUMBERS = {kind: number for number, kind in enumerate(_KINDS)}
_LEVEL = 1
"""Of zlib: the fastest, and most of what there is to win."""


class _Folding(Sequence[Box]):
    """Boxes that are made whenever they are looked at."""

    __slots__ = ()

    @abstractmethod
    def _open(self) -> Sequence[Box]:
        """The boxes themselves."""

    @property
    @abstractmethod
    def texts(self) -> Iterable[TextBox]:
        """All texts in other scripts: what a document must know before it is drawn."""

    def __iter__(self) -> Iterator[Box]:
        return iter(self._open())

    @overload
    def __getitem__(self, index: int) -> Box: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Box]: ...
    def __getitem__(self, index: int | slice) -> Box | Sequence[Box]:
        return self._open()[index]


@frozen
class Folded(_Folding):
    """The boxes of a page as bytes. They are of this process alone, and are never written."""

    data: bytes
    length: int
    texts: tuple[TextBox, ...]

    def __len__(self) -> int:
        return self.length

    def _open(self) -> Sequence[Box]:
        return [*map(_unfold, marshal.loads(zlib.decompress(self.data)))]


@frozen
class Framed(_Folding):
    """The boxes of a page with some before and behind them."""

    before: tuple[Box, ...]
    boxes: Sequence[Box]
    behind: tuple[Box, ...]

    def __len__(self) -> int:
        return len(self.before) + len(self.boxes) + len(self.behind)

    @property
    def texts(self) -> Iterable[TextBox]:
        """All texts in other scripts."""
        return chain(*map(list_scripted, (self.before, self.boxes, self.behind)))

    def _open(self) -> Sequence[Box]:
        return [*chain(self.before, self.boxes, self.behind)]


@frozen
class Drawn(_Folding):
    """What was drawn of a page, for any document: a stream of operators, and by face the signs that it shows. Of its boxes
    those that are left say what is marked in it, and what reaches into its head and foot."""

    stream: bytes
    letters: Mapping[str, str]
    left: tuple[Box, ...] = ()

    def __len__(self) -> int:
        return len(self.left)

    @property
    def texts(self) -> Iterable[TextBox]:
        """None: what is in other scripts is drawn for one document."""
        return ()

    def _open(self) -> Sequence[Box]:
        return self.left


def fold(boxes: Iterable[Box]) -> Folded:
    """The boxes folded up."""
    boxes = tuple(boxes)
    data = zlib.compress(marshal.dumps([*map(_fold, boxes)]), _LEVEL)
    return Folded(data, len(boxes), tuple(list_scripted(boxes)))


def list_scripted(boxes: Iterable[Box]) -> Iterable[TextBox]:
    """The texts of boxes that are in other scripts. A page that is folded up is not opened for it."""
    if isinstance(boxes, _Folding):
        return boxes.texts
    return [box for box in boxes if isinstance(box, TextBox) and is_scripted(box.text)]


def _fold(box: Box) -> tuple[Any, ...]:
    """Plain values, its number first: what keeps them knows no classes."""
    match box:
        case TextBox(x, y, text, face, cap_um, floor_um, ink, room, white, turned):
            return 0, x, y, text, face, cap_um, floor_um, *ink, *room, white, turned
        case QrBox(quiet=quiet):
            return _NUMBERS[QrBox], *box[:-1], tuple(quiet)
    return _NUMBERS[type(box)], *box


def _unfold(values: tuple[Any, ...]) -> Box:
    number = values[0]
    if not number:
        _, x, y, text, face, cap_um, floor_um, *rooms, white, turned = values
        return TextBox(x, y, text, face, cap_um, floor_um, Room(*rooms[:4]), Room(*rooms[4:]), white, turned)
    kind = _KINDS[number]
    if kind is Close:
        return CLOSE
    if kind is QrBox:
        values = (*values[:-1], Room(*values[-1]))
    made: Box = kind(*values[1:])
    return made
