"""Labels on a stock, and the printer that they go to."""

from dataclasses import field

from paperwork.document.items import NOWHERE
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.place import Place


@frozen
class Label:
    """One label as values; the layout chooses sizes and places from the stock.

    `frequency` None: the label has none (a pouch); "" : one belongs there and is not known: a ruled blank. `brief` is
    the role by its short names, where it has any and is too long, `brief_performers` the same of who plays.
    `short_role` goes into the QR code (upper-case ASCII is made of it); `qr` False leaves the code off. `doubt` says
    whom to ask where an error stands against the label: it replaces the mark and counts in the code. `facts` makes the
    label's code where the shown texts hold words of a language ("SPARE", "pack 05"); when it is empty, every shown
    text counts. `identical` copies stand next to each other.
    """

    number: str
    role: str
    brief: str = ""
    performers: tuple[str, ...] = ()
    brief_performers: tuple[str, ...] = ()
    frequency: str | None = None
    pack: str = ""
    capsule: str = ""
    mark: str = ""
    doubt: str = ""
    short_role: str = ""
    qr: bool = True
    copies: int = 1
    facts: tuple[str, ...] = ()
    subjects: tuple[Subject, ...] = ()
    where: Place = field(default=NOWHERE, compare=False, repr=False)


@frozen
class Printer:
    """How one printer sets its ink: what moves it back, and what its 100 mm ruler measured.

    Ink is moved by `right_um` and `down_um`, and places are stretched so that a length that came out as `across_um`
    (or `along_um`, down the page) in place of 100 mm comes out right. A QR module is a whole number of `dpi` dots.
    """

    dpi: int = 300
    right_um: int = 0
    down_um: int = 0
    across_um: int = 100_000
    along_um: int = 100_000


@frozen
class Labels:
    """Labels on a stock, across and then down. Stands alone on its sheet, whose paper is the stock's.

    `start` is the first cell to use and `blocked` are cells already peeled off, both from 1 and on the first page
    only. `proof` outlines and counts every cell: for plain paper, to be held against a label sheet.
    """

    stock: str
    labels: tuple[Label, ...]
    start: int = 1
    blocked: tuple[int, ...] = ()
    printer: Printer = Printer()
    proof: bool = False
