"""Drawings as values: a plot, rows over columns of time with bars for who has what when; a tree of parts and cables."""

from dataclasses import field
from typing import Literal, TypeAlias

from paperwork.document.items import NOWHERE, Line
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place

BarKind: TypeAlias = Literal["worn", "held"]


@frozen
class PlotScene:
    """One column: number, name and a small note (a time), any of them "". `of` is the note without a language."""

    number: str
    name: str = ""
    note: str = ""
    of: str = ""


@frozen
class Act:
    """Columns under one black bar. An act is not divided unless it alone is wider than a page."""

    title: str
    scenes: tuple[PlotScene, ...]


@frozen
class Bar:
    """One bar over columns `first` to `last`, both included, counted over all acts from 0.

    `text` stands at its start: a number that is repeated wherever the bar goes on in another act. `put_on`: at its
    start somebody puts the pack on, a black tab; `taken_off`: at its end it comes off, a black cap. A `held` bar (a
    handheld) is dashed. `note` is small print at the bar about its end: to whom the pack goes. `second` is the number
    of a second pack that is on whenever this one is.
    """

    first: int
    last: int
    text: str = ""
    kind: BarKind = "worn"
    put_on: bool = False
    taken_off: bool = False
    note: str = ""
    fact: str = ""
    second: str = ""


@frozen
class Keep:
    """A line between two bars: off stage, the pack stays on. Columns as in a bar."""

    first: int
    last: int


@frozen
class Lane:
    """Bars that stand beside each other in one row: what one body has of one kind at a time."""

    bars: tuple[Bar, ...]
    keeps: tuple[Keep, ...] = ()


@frozen
class PlotRow:
    """One body or one channel, never split over pages: its head, and one lane for each thing it has at a time."""

    title: Line
    under: Line | None = None
    key: Line | None = None
    lanes: tuple[Lane, ...] = ()
    hatch: bool = False
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


Sign: TypeAlias = Literal["put on", "keeps", "taken off", "held", "second"]
"""What a legend explains: it is drawn as it stands in the plot."""


@frozen
class Plot:
    """Rows over acts. Heads of rows and columns are repeated on every page.

    What is too wide for a page is divided by act, then within one; each part says which scenes it shows.
    """

    acts: tuple[Act, ...]
    rows: tuple[PlotRow, ...]
    legend: tuple[tuple[Sign, str], ...] = ()


@frozen
class TreeNode:
    """One box: what it is called, lines under that, its column from the left. A `heavy` one is an end, as a rack is."""

    title: Line
    lines: tuple[Line, ...] = ()
    column: int = 0
    heavy: bool = False
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class TreeLink:
    """A cable from one box to another in a column to its right, by their places in the tree, with what stands over it."""

    start: int
    end: int
    text: Line | None = None


@frozen
class Tree:
    """Boxes and cables without a loop, never split over pages."""

    nodes: tuple[TreeNode, ...]
    links: tuple[TreeLink, ...]
