"""What a laid-out page is made of: boxes in whole micrometres from the top left corner, y downwards.

A painter draws the shapes in order, then the texts, and decides nothing. Each text carries the room it was given and
the height it must not fall below, so that a test can prove both. Between the boxes stands what they are to somebody who
has them read out: where a part begins (`Open`) and ends (`CLOSE`), in the order in which a person reads.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple, TypeAlias, assert_never

from paperwork.finding import Finding, Subject
from paperwork.frozen import frozen

HAIR_UM, LINE_UM, HEAVY_UM = 150, 350, 800
"""Every weight of a rule: what is cut, divided or hatched; what frames, and what is written on; what is found first.
On a laser of 600 dots to the inch they are 4, 8 and 19 dots."""


class Room(NamedTuple):
    """A rectangle."""

    x: int
    y: int
    width: int
    height: int

    @property
    def right(self) -> int:
        """Its right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> int:
        """Its lower edge."""
        return self.y + self.height


class TextBox(NamedTuple):
    """One line of one face. `y` is the baseline; `ink` is the rectangle that its letters can touch."""

    x: int
    y: int
    text: str
    face: str
    cap_um: int
    floor_um: int
    ink: Room
    room: Room
    white: bool = False
    turned: bool = False
    """Set upwards, a quarter turn against the clock: then x is the baseline and y where the text begins."""


class Fill(NamedTuple):
    """A black rectangle."""

    x: int
    y: int
    width: int
    height: int


class Frame(NamedTuple):
    """A rectangle drawn as a line, its corners rounded by `radius`; or dashed."""

    x: int
    y: int
    width: int
    height: int
    stroke: int
    radius: int = 0
    dashed: bool = False


class Rule(NamedTuple):
    """A straight line, plain or dotted."""

    x1: int
    y1: int
    x2: int
    y2: int
    stroke: int
    dotted: bool = False


class Hatch(NamedTuple):
    """A rectangle filled with lines at 45 degrees, `pitch` apart."""

    x: int
    y: int
    width: int
    height: int
    pitch: int
    stroke: int


class QrBox(NamedTuple):
    """A QR code: its dark modules as merged rectangles (row, column, width, height), and the white square around.

    A module is `dots` printer dots of a printer with `dpi` dots to the inch; `side` counts modules.
    """

    x: int
    y: int
    dots: int
    dpi: int
    side: int
    runs: tuple[tuple[int, int, int, int], ...]
    payload: str
    quiet: Room


Kind: TypeAlias = Literal[
    "Sect", "Div", "H1", "H2", "P", "Table", "TR", "TH", "TD", "L", "LI", "Lbl", "LBody", "Figure", "Link", "Artifact"
]
"""What a part is, by the names of ISO 32000-1:2008, 14.8.4. An artifact is furniture, which is not read out."""


class Open(NamedTuple):
    """The beginning of a part: all boxes up to its `CLOSE` are in it, and it is in the part that is open already.

    Two of one `key` in one part are one part that goes on, over pages too; what is shown again on each page (`once`)
    is furniture but for the first time. `alt` says what a figure shows, `scope` whose head a head of a table is,
    `columns` and `rows` how many a cell spans. `link` is what a link leads to, by a name in the layout's `targets`.
    """

    kind: Kind
    key: str = ""
    once: bool = False
    alt: str = ""
    scope: Literal["", "Row", "Column"] = ""
    columns: int = 1
    rows: int = 1
    link: str = ""


_TEXTS = frozenset(("H1", "H2", "P", "TH", "TD", "Lbl", "LBody"))
"""Parts that hold texts themselves."""


class Close(NamedTuple):
    """The end of the part that was opened last."""


CLOSE = Close()

Shape: TypeAlias = Fill | Frame | Rule | Hatch | QrBox
Box: TypeAlias = TextBox | Shape | Open | Close


@frozen
class Page:
    """One page of boxes, the code of what it says, the words of its stamp, the records that it shows, and the codes of
    strips that are cut out of it."""

    width: int
    height: int
    boxes: Sequence[Box]
    code: str = ""
    stamp: str = ""
    subjects: frozenset[Subject] = frozenset()
    cut: tuple[str, ...] = ()


@frozen
class Layout:
    """Pages ready to paint, and what had to be cut to make them. `scaling` False asks viewers to print at actual size.

    `language` is that of its words, `about` what is said before the title where the file is shown (show and revision),
    `numbers` are the printed numbers of its pages where they are not 1, 2, 3 ..., and `targets` the page, from 0, that
    each link leads to.
    """

    title: str
    subject: str
    pages: tuple[Page, ...]
    findings: tuple[Finding, ...]
    scaling: bool = True
    language: str = "en"
    about: str = ""
    numbers: tuple[int, ...] = ()
    targets: tuple[tuple[str, int], ...] = ()


def moved(box: Box, dx: int, dy: int) -> Box:
    """The box shifted by the given distances."""
    match box:
        case Open() | Close():
            return box
        case TextBox():  # taken apart and made anew, as most boxes are texts
            x, y, text, face, cap_um, floor_um, (left, top, wide, high), (start, over, width, height), *look = box
            ink, room = Room(left + dx, top + dy, wide, high), Room(start + dx, over + dy, width, height)
            return TextBox(x + dx, y + dy, text, face, cap_um, floor_um, ink, room, *look)
        case Rule(x1, y1, x2, y2, stroke, dotted):
            return Rule(x1 + dx, y1 + dy, x2 + dx, y2 + dy, stroke, dotted)
        case QrBox(x=x, y=y, quiet=quiet):
            return box._replace(x=x + dx, y=y + dy, quiet=quiet._replace(x=quiet.x + dx, y=quiet.y + dy))
        case Fill() | Frame() | Hatch():
            return box._replace(x=box.x + dx, y=box.y + dy)
        case _:
            assert_never(box)


def put_first(extra: Iterable[Box], boxes: tuple[Box, ...]) -> Iterable[Box]:
    """The boxes with more before the first texts: a row's sign is read out in its first cell."""
    added = tuple(extra)
    place = next((at for at, box in enumerate(boxes) if isinstance(box, Open) and box.kind in _TEXTS), -1)
    return (*boxes[: place + 1], *added, *boxes[place + 1 :]) if added else boxes


def wrap(opening: Open, boxes: Iterable[Box]) -> list[Box]:
    """The boxes as one part."""
    return [opening, *boxes, CLOSE]
