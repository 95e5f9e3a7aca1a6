"""SpectrumWindow: one window from its lower to its upper edge, with what is in it."""

from typing import Literal, TypeAlias

from paperwork.document.styles import SPECTRUM_BAND, Style
from paperwork.finding import Subject
from paperwork.frozen import frozen

BandKind: TypeAlias = Literal["free", "weak", "taken", "kept", "loud"]


@frozen
class Band:
    """A named stretch: a TV channel `free`, `weak` or `taken`, a range that is `kept` from us, or one that is `loud`
    in a sweep. In the lane under a plot what is taken or kept is black, what is weak is hatched."""

    low_hz: int
    high_hz: int
    text: str
    kind: BandKind = "free"


@frozen
class Mark:
    """A carrier: a line at its frequency with its number over it, and a bar as wide as its bandwidth at the top.

    A spare's number stands in a frame, its line is dotted.
    """

    hz: int
    text: str
    bandwidth_hz: int = 0
    spare: bool = False


@frozen
class Ribbon:
    """A stretch of spectrum as one bar in a cell, as wide as the cell: what is taken or kept from us is black, what is
    weak hatched at its foot; what is loud is black in its lower half; what is white is free. `marks` are carriers, as
    ticks above the bar."""

    low_hz: int
    high_hz: int
    bands: tuple[Band, ...] = ()
    marks: tuple[int, ...] = ()
    text: str = ""
    fact: str = ""
    style: Style = SPECTRUM_BAND


@frozen
class SpectrumWindow:
    """One window under a black bar, never split over pages.

    `levels` are lower edge, upper edge and level of a sweep, in Hz and hundredths of a dBm; without any, no scale is
    drawn. `limit_cdbm` is the dotted line above which a level does not count as free. `lowest` and `highest` are the
    ends of the scale in the same unit.
    """

    title: str
    note: str
    low_hz: int
    high_hz: int
    bands: tuple[Band, ...] = ()
    marks: tuple[Mark, ...] = ()
    levels: tuple[tuple[int, int, int], ...] = ()
    limit_cdbm: int = 0
    lowest_cdbm: int = -11_000
    highest_cdbm: int = -4_000
    subjects: tuple[Subject, ...] = ()
    facts: tuple[str, ...] = ()
