"""The sheet: blocks, and what stands around them on every page."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from paperwork.document.boards import Board
from paperwork.document.cards import Cards, Strips
from paperwork.document.labels import Labels
from paperwork.document.plots import Plot
from paperwork.document.spectra import Spectrum
from paperwork.document.tables import Note, Panels, Table
from paperwork.finding import Subject
from paperwork.model import PaperSize

Orientation: TypeAlias = Literal["portrait", "landscape"]

Block: TypeAlias = Table | Board | Plot | Spectrum | Cards | Strips | Panels | Note | Labels


@dataclass(frozen=True, slots=True)
class Sheet:
    """One paper as a value. `name` is the stem of its file; `dated` is the date as printed.

    `stamp` is the text of the heavy frame at the top of every page, "" where nothing is unresolved.
    `language` is that of its page furniture (`words.LANGUAGES`). `subjects` are records that the sheet shows beside those of its rows and labels.
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
    language: str = "en"
    subjects: tuple[Subject, ...] = ()
