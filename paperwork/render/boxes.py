"""What a laid-out page is made of: boxes in whole micrometres from the top left corner, y downwards.

A painter draws the shapes in order, then the texts, and decides nothing. Each text carries the room it was given and
the height it must not fall below, so that a test can prove both.
"""

from dataclasses import dataclass
from typing import NamedTuple, TypeAlias, assert_never

from paperwork.finding import Finding, Subject

HAIR_UM, LINE_UM, HEAVY_UM = 150, 350, 800
"""Every weight of a rule: what is cut, divided or hatched; what frames, and what is written on; what is found first. On a
laser of 600 dots to the inch they are 4, 8 and 19 dots."""


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


Shape: TypeAlias = Fill | Frame | Rule | Hatch | QrBox
Box: TypeAlias = TextBox | Shape


@dataclass(frozen=True, slots=True)
class Page:
    """One page of boxes, the code of what it says, the words of its stamp, the records that it shows, and the codes of strips
    that are cut out of it."""

    width: int
    height: int
    boxes: tuple[Box, ...]
    code: str = ""
    stamp: str = ""
    subjects: frozenset[Subject] = frozenset()
    cut: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Layout:
    """Pages ready to paint, and what had to be cut to make them. `scaling` False asks viewers to print at actual size."""

    title: str
    subject: str
    pages: tuple[Page, ...]
    findings: tuple[Finding, ...]
    scaling: bool = True


def moved(box: Box, dx: int, dy: int) -> Box:
    """The box shifted by the given distances."""
    match box:
        case TextBox(x=x, y=y, ink=ink, room=room):
            return box._replace(x=x + dx, y=y + dy, ink=_shift(ink, dx, dy), room=_shift(room, dx, dy))
        case Rule(x1, y1, x2, y2, stroke, dotted):
            return Rule(x1 + dx, y1 + dy, x2 + dx, y2 + dy, stroke, dotted)
        case QrBox(x=x, y=y, quiet=quiet):
            return box._replace(x=x + dx, y=y + dy, quiet=_shift(quiet, dx, dy))
        case Fill() | Frame() | Hatch():
            return box._replace(x=box.x + dx, y=box.y + dy)
        case _:
            assert_never(box)


def _shift(room: Room, dx: int, dy: int) -> Room:
    x, y, width, height = room
    return Room(x + dx, y + dy, width, height)
