"""A board: every number in its own place, row after row, so that what is up is found without reading."""

from dataclasses import field

from paperwork.document.items import NOWHERE, Line
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place


@frozen
class BoardRow:
    """One row: its head, the numbers that are up, those of them that are new, and those that have just gone.

    What is up stands large in its place, what is new white on black; what has just gone stands small, the place of
    anything else is marked with a dot. `notes` stand at the right, or under the numbers where there are many.
    """

    title: Line
    under: Line | None = None
    up: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    notes: tuple[Line, ...] = ()
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class BoardGroup:
    """Rows under a black bar; no title, no bar."""

    rows: tuple[BoardRow, ...]
    title: str = ""


@frozen
class Board:
    """Rows of the same numbers, in as few lines as the page is wide enough for, all of one height.

    A line of a row in which nothing is up and nothing has gone is left out; columns stay. One of `changes` shows all
    that is up in the first row of a group, and in the others what is new and what has just gone, without places.
    """

    ids: tuple[str, ...]
    groups: tuple[BoardGroup, ...]
    changes: bool = False
