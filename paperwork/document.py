"""What a paper says and how it is ordered, before any font, measure or ink: the vocabulary of every sheet.

A paper is one pure function that returns a `Sheet`. `render` measures and draws it and knows nothing of the show.
Whatever is printed is here as text: page words come in with the sheet (`PageWords`), so a language changes nothing
below. Text marked as a fact makes the sheet's code (`paperwork.sheetfacts`); mere words (titles, headings) do not.

    row(cell(fact("01", RACK_NUMBER), key=True),
        cell(fact("VERA", RACK_ROLE), fact("Mara Lind", RACK_SMALL)),
        cell(fact("486.200", RACK_FREQUENCY), words("TV 23", RACK_SMALL)))
"""

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from paperwork.finding import Subject
from paperwork.place import Place
from paperwork.styles import HAND, HAND_STRONG, RACK_FREQUENCY, RACK_SMALL, SMALL_PRINT, TAG, Style

Align: TypeAlias = Literal["left", "centre", "right", "point"]
PaperSize: TypeAlias = Literal["A4", "A3", "Letter", "Tabloid"]
Orientation: TypeAlias = Literal["portrait", "landscape"]

NOWHERE = Place("")


# What stands in a cell, from the top down.


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text (more, if it has to be broken). `fact` is what it adds to the sheet's code, "" for mere words."""

    text: str
    style: Style
    fact: str = ""


@dataclass(frozen=True, slots=True)
class Blank:
    """A ruled blank where a number belongs and none is known or trusted: for a pen, never a zero.

    `text` shows the form of the number: each `0` becomes a ruled place, the rest is printed (`000.000`).
    """

    text: str = "000.000"
    style: Style = RACK_FREQUENCY


@dataclass(frozen=True, slots=True)
class Tag:
    """A short boxed word (`swap ×2`)."""

    text: str
    fact: str = ""
    style: Style = TAG


@dataclass(frozen=True, slots=True)
class Tick:
    """A square to tick, with words beside it."""

    text: str = ""
    style: Style = RACK_SMALL


@dataclass(frozen=True, slots=True)
class WriteIn:
    """A line to write on, as wide as the cell, with small words before it."""

    text: str = ""
    style: Style = SMALL_PRINT


Item: TypeAlias = Line | Blank | Tag | Tick | WriteIn


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its items stacked. The first lines of all cells of a row share a baseline, so do the second.

    `key`: the one line is set as tall as the stack beside it, in the middle of the row. `hatch`: a hatched band at
    the left edge of a `spares` column, the sign of a spare. `frame`: a rounded box around the cell. `beside`: small
    lines down the right edge, spread evenly, one for each row that the cell stands beside (left and right of a pair).
    """

    items: tuple[Item, ...] = ()
    key: bool = False
    hatch: bool = False
    frame: bool = False
    beside: tuple[Line, ...] = ()


def fact(text: str, style: Style = HAND, of: str = "") -> Line:
    """A line that counts in the code: as `of` where the printed text holds words of a language, else as it stands."""
    return Line(text, style, of or text)


def words(text: str, style: Style = HAND) -> Line:
    """A line that does not count in the code."""
    return Line(text, style)


def cell(
    *items: Item, key: bool = False, hatch: bool = False, frame: bool = False, beside: tuple[Line, ...] = ()
) -> Cell:
    """A cell of these items, empty lines left out."""
    kept = tuple(item for item in items if not isinstance(item, Line | Tag) or item.text)
    return Cell(kept, key, hatch, frame, beside)


# Blocks: what stands on a page, from the top down.


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table. `width_um` is fixed; where it is 0 the column takes its `share` of what is left.

    `point` aligns numbers on their decimal point. Widths never depend on what a show says, so that two revisions
    can be laid over each other. A `spares` column keeps a band at its left for the hatching of a spare, used or not.
    """

    heading: str
    width_um: int = 0
    share: int = 1
    align: Align = "left"
    spares: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """One row, never split over pages. For each column the cells that divide its height: usually one.

    A pair on one connector is a row of `((slot 1, slot 2), (channel 1, channel 2), (pair,))`. `mark` is a short
    sign ("new", "chg") printed with a bar in the margin. `subjects` and `where` locate a finding about its text.
    """

    cells: tuple[tuple[Cell, ...], ...]
    mark: str = ""
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


def row(
    *cells: Cell | tuple[Cell, ...],
    mark: str = "",
    subjects: tuple[Subject, ...] = (),
    where: Place = NOWHERE,
) -> Row:
    """A row; a lone cell fills the height of its column."""
    return Row(tuple((c,) if isinstance(c, Cell) else c for c in cells), mark, subjects, where)


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under a black bar with a title and a note; no title, no bar. `facts` counts what only the bar says."""

    rows: tuple[Row, ...]
    title: str = ""
    note: str = ""
    new_page: bool = False
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Table:
    """Columns and groups of rows. Heads are repeated on each page, and a bar that goes on says so.

    `row_um` is the least height of a row (of each part, where cells divide it): what makes rows alike.
    """

    columns: tuple[Column, ...]
    groups: tuple[Group, ...]
    row_um: int = 0


@dataclass(frozen=True, slots=True)
class Panel:
    """A framed box: a title and lines, numbered or not. `facts` counts what its words say of the show."""

    title: str
    lines: tuple[str, ...]
    numbered: bool = True
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Panels:
    """Panels side by side, as many across as given, all of a row of them equally tall."""

    panels: tuple[Panel, ...]
    across: int = 2


@dataclass(frozen=True, slots=True)
class Note:
    """A paragraph across the page."""

    text: str
    style: Style = HAND_STRONG
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Label:
    """One label as values; the layout chooses sizes and places from the stock.

    `frequency` None: the label has none (a pouch); "" : one belongs there and is not known: a ruled blank.
    `short_role` goes into the QR code (upper-case ASCII is made of it); `qr` False leaves the code off.
    `facts` makes the label's code where the shown texts hold words of a language ("SPARE", "pack 05"); when it is
    empty, every shown text counts. `identical` copies stand next to each other.
    """

    number: str
    role: str
    performers: tuple[str, ...] = ()
    frequency: str | None = None
    pack: str = ""
    capsule: str = ""
    mark: str = ""
    short_role: str = ""
    qr: bool = True
    copies: int = 1
    facts: tuple[str, ...] = ()
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class Labels:
    """Labels on a stock, across and then down. Stands alone on its sheet, whose paper is the stock's.

    `start` is the first cell to use and `blocked` are cells already peeled off, both from 1 and on the first page
    only. `dpi` is the printer's: a QR module is a whole number of its dots.
    """

    stock: str
    labels: tuple[Label, ...]
    start: int = 1
    blocked: tuple[int, ...] = ()
    dpi: int = 300


Block: TypeAlias = Table | Panels | Note | Labels


# The sheet.


@dataclass(frozen=True, slots=True)
class PageWords:
    """The words of every page, as templates. English unless the show's language gives others."""

    page: str = "{n} of {m}"
    continued: str = "{title}, continued"
    replaces: str = "Replaces revision {revision}. Destroy it."
    returns: str = "Pen changes go back to {returns}"
    signed: str = "by"
    ruler: str = "100 mm: print at actual size"
    label_foot: str = "{show}  ·  {title}  ·  revision {revision} {code}  ·  {page}"
    label_pack: str = "pack {pack}"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One paper as a value. `name` is the stem of its file; `dated` is the date as printed.

    `stamp` is the text of the heavy frame at the top of every page, "" where nothing is unresolved.
    `subjects` are records that the sheet shows beside those of its rows and labels.
    """

    name: str
    title: str
    show: str
    blocks: tuple[Block, ...]
    subtitle: tuple[str, ...] = ()
    venue: str = ""
    revision: str = ""
    replaces: str = ""
    dated: str = ""
    returns: str = ""
    cautions: tuple[str, ...] = ()
    stamp: str = ""
    paper: PaperSize = "A4"
    orientation: Orientation = "portrait"
    words: PageWords = PageWords()
    subjects: tuple[Subject, ...] = ()
