"""What stands in a cell, from the top down, and the cell."""

from typing import Literal, TypeAlias

from paperwork.document.spectra import Ribbon
from paperwork.document.styles import HAND, RACK_FREQUENCY, RACK_SMALL, SMALL_PRINT, TAG, Style
from paperwork.frozen import frozen
from paperwork.place import Place

Align: TypeAlias = Literal["left", "centre", "right", "point"]

NOWHERE = Place("")


@frozen
class Line:
    """One line of text (more, if it has to be broken). `fact` is what it adds to the sheet's code, "" for mere words;
    `short` is printed where the text would have to be broken or cut, and it would not."""

    text: str
    style: Style
    fact: str = ""
    short: str = ""


@frozen
class Blank:
    """A ruled blank where a number belongs and none is known or trusted: for a pen, never a zero.

    `text` shows the form of the number: each `0` becomes a ruled place, the rest is printed (`000.000`).
    """

    text: str = "000.000"
    style: Style = RACK_FREQUENCY


@frozen
class Tag:
    """A short boxed word (`swap ×2`)."""

    text: str
    fact: str = ""
    style: Style = TAG


@frozen
class Tick:
    """A square to tick, with words beside it."""

    text: str = ""
    style: Style = RACK_SMALL


@frozen
class WriteIn:
    """A line to write on, as wide as the cell, with small words before it."""

    text: str = ""
    style: Style = SMALL_PRINT


Item: TypeAlias = Line | Blank | Tag | Tick | WriteIn | Ribbon


@frozen
class Cell:
    """One cell: its items stacked. The first lines of all cells of a row share a baseline, so do the second.

    `key`: the one line is set as tall as a row allows, all keys of a column alike, in the middle of the stack beside
    it. `hatch`: a hatched band at the left edge of a `spares` column, the sign of a spare. `frame`: a rounded box
    around the cell. `beside`: small lines down the right edge, spread evenly, one for each row that the cell stands
    beside (left and right of a pair). `link`: where it leads to on a screen, a paper of the same book by its name or a
    record as `channels/05`. `joined`: lines of one style that follow each other share a line where they fit.
    """

    items: tuple[Item, ...] = ()
    key: bool = False
    hatch: bool = False
    frame: bool = False
    beside: tuple[Line, ...] = ()
    link: str = ""
    joined: bool = False


def fact(text: str, style: Style = HAND, of: str = "") -> Line:
    """A line that counts in the code: as `of` where the printed text holds words of a language, else as it stands."""
    return Line(text, style, of or text)


def words(text: str, style: Style = HAND) -> Line:
    """A line that does not count in the code."""
    return Line(text, style)


def cell(
    *items: Item,
    key: bool = False,
    hatch: bool = False,
    frame: bool = False,
    beside: tuple[Line, ...] = (),
    link: str = "",
    joined: bool = False,
) -> Cell:
    """A cell of these items, empty lines left out."""
    kept = tuple(item for item in items if not isinstance(item, Line | Tag) or item.text)
    return Cell(kept, key, hatch, frame, beside, link, joined)
