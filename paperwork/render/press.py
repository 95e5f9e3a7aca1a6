"""Sheets to files: laid out, inked as PDF and pictured as SVG, each once for as long as it stays the same."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from paperwork.document import Sheet
from paperwork.render.book import Bookmark
from paperwork.render.boxes import Layout
from paperwork.render.fonts import Metrics
from paperwork.render.layout import lay_out
from paperwork.render.pdf import paint_pdf
from paperwork.render.svg import paint_svg


@dataclass(frozen=True, slots=True)
class Ink:
    """One printed file: the PDF, and pictures of its pages by number from 1 (not always of all)."""

    pdf: bytes
    pictures: Mapping[int, bytes]


class Press:
    """Prints, and keeps the last print of each path. A run that follows a small change prints only what it changed.

    `tell` is called with a path before it is inked. Equal sheets give equal bytes, kept or not.
    """

    def __init__(self, tell: Callable[[str], None] = lambda path: None) -> None:
        self.metrics = Metrics()
        self.tell = tell
        self._laid: dict[str, tuple[Sheet, Layout]] = {}
        self._inked: dict[str, tuple[Layout, str, Sequence[Bookmark], Ink]] = {}

    def lay_out(self, path: str, sheet: Sheet) -> Layout:
        """The sheet's layout. One with findings is made anew: they carry places, which are no part of a sheet's value."""
        kept = self._laid.get(path)
        if kept and kept[0] == sheet and not kept[1].findings:
            return kept[1]
        layout = lay_out(sheet, self.metrics)
        self._laid[path] = sheet, layout
        return layout

    def ink(self, path: str, layout: Layout, made: str, outline: Sequence[Bookmark] = (), pictured: int | None = None) -> Ink:
        """The layout as PDF and as pictures of its first pages, of all unless told."""
        kept = self._inked.get(path)
        if kept and kept[1:3] == (made, outline) and kept[0].pages == layout.pages and kept[0].title == layout.title:
            return kept[3]
        self.tell(path)
        total = len(layout.pages)
        pictures = {
            number: paint_svg(page, f"{layout.title}, page {number} of {total}")
            for number, page in enumerate(layout.pages[:pictured], 1)
        }
        ink = Ink(paint_pdf(layout, made, outline=outline), pictures)
        self._inked[path] = layout, made, outline, ink
        return ink
