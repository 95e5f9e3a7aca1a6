"""A tree: boxes from left to right, joined by cables."""

from dataclasses import field

from paperwork.document.items import NOWHERE, Line
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place


@frozen
class TreeNode:
    """One box: what it is called, and lines under that. A `heavy` one is an end, as a rack is."""

    title: Line
    lines: tuple[Line, ...] = ()
    heavy: bool = False
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class TreeLink:
    """A cable from one box to another, by their places in the tree, with what stands over it."""

    start: int
    end: int
    text: Line | None = None


@frozen
class Tree:
    """Boxes and cables without a loop, never split over pages."""

    nodes: tuple[TreeNode, ...]
    links: tuple[TreeLink, ...]
