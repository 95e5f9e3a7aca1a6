"""The sheet: blocks, and what stands around them on every page."""

from typing import Literal, TypeAlias

from paperwork.document.boards import Board
from paperwork.document.cards import Cards, Strips
from paperwork.document.labels import Labels
from paperwork.document.plots import Plot, Tree
from paperwork.document.spectra import SpectrumWindow
from paperwork.document.tables import Note, Panels, Table
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.model import PaperSize

PAPERS: dict[str, tuple[int, int]] = {
    "A4": (210_000, 297_000),
    "A3": (297_000, 420_000),
    "Letter": (215_900, 279_400),
    "Tabloid": (279_400, 431_800),
}
"""Width and height upright, in micrometres. ISO 216:2007; ANSI/ASME Y14.1 sizes A and B."""

WALL_PAPERS: frozenset[PaperSize] = frozenset({"A3", "Tabloid"})
"""Paper for a wall: what stands on it is a step taller at the least, and lists of a rack stand side by side."""

Orientation: TypeAlias = Literal["portrait", "landscape"]

Block: TypeAlias = Table | Board | Plot | SpectrumWindow | Cards | Strips | Panels | Note | Tree | Labels


@frozen
class SheetDoubt:
    """What an error says of a sheet: its code, what is wrong in short, and each record with its name on paper."""

    code: str
    text: str
    about: tuple[tuple[Subject, str], ...]


@frozen
class Sheet:
    """One paper as a value. `name` is the stem of its file; `dated` is the date as printed.

    `doubts` are what is unresolved: each page that shows one of their records is stamped, and says whom to ask
    (`contact`). `facts` are what title, subtitle and cautions say of the show, without a language. `at_venue` is the
    venue whose rows are in place, "" for the home venue. `language` is that of its page furniture (`words.LANGUAGES`).
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
    facts: tuple[str, ...] = ()
    doubts: tuple[SheetDoubt, ...] = ()
    contact: str = ""
    at_venue: str = ""
    paper: PaperSize = "A4"
    orientation: Orientation = "portrait"
    turns: bool = False
    """Whether it may stand the other way where that saves a page, or a text that is shortened."""
    language: str = "en"
