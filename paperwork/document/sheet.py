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
    proof: str = "Proof on plain paper: hold it behind a label sheet against the light"
    part: str = "scenes {first} to {last} of {count}"
    piece: str = "{title}, piece {n} of {m}"


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
