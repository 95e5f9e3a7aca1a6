"""Sheets to files: laid out, inked as PDF and pictured as SVG, each once for as long as it stays the same."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from paperwork.document import Sheet
from paperwork.frozen import frozen
from paperwork.render.book import Bookmark
from paperwork.render.boxes import Layout
from paperwork.render.composing import Kept
from paperwork.render.layout import lay_out
from paperwork.render.pdf.drawing import draw_pages, ink_pages
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.pdf.pdfa import Attachment
from paperwork.render.pdf.svg import paint_svg
from paperwork.render.text.measuring import Metrics


@frozen
class PrintedFile:
    """One printed file: the PDF, pictures of its pages by number from 1 (not always of all), and its layout with what was
    drawn of it."""

    pdf: bytes
    pictures: Mapping[int, bytes]
    layout: Layout


class Press:
    """Prints, and keeps the last print of each path. A run that follows a small change prints only what it changed.

    `report` is called before a path is inked, with the path and how many papers follow it (`left`, which whoever prints
    counts). Equal sheets give equal bytes, kept or not. One that will be used again (`lasting`) keeps blocks too, at the
    cost of holding every box twice; one that is `passing` keeps nothing, which is how a long show is printed.
    """

    def __init__(
        self, report: Callable[[str, int], None] = lambda *_: None, *, lasting: bool = False, passing: bool = False
    ) -> None:
        self.metrics = Metrics()
        self.report = report
        self.passing = passing
        self.left = 0
        self._blocks: dict[str, Kept] | None = {} if lasting else None
        self._laid: dict[str, tuple[Sheet, Layout]] = {}
        self._inked: dict[str, tuple[Layout, tuple[object, ...], PrintedFile]] = {}

    def lay_out(self, path: str, sheet: Sheet) -> Layout:
        """The sheet's layout. One with findings is made anew: they carry places, which are no part of a sheet's value."""
        kept = self._laid.get(path)
        if kept and kept[0] == sheet and not kept[1].findings:
            return kept[1]
        layout = lay_out(sheet, self.metrics, None if self._blocks is None else self._blocks.setdefault(path, {}))
        if not self.passing:
            self._laid[path] = sheet, layout
        return layout

    def ink(
        self,
        path: str,
        layout: Layout,
        made: str,
        outline: Sequence[Bookmark] = (),
        pictured: int | None = None,
        attached: Sequence[Attachment] = (),
        keywords: str = "",
    ) -> PrintedFile:
        """The layout as PDF, with what is attached to it, and as pictures of its first pages, of all unless fewer are asked for."""
        about = (made, outline, attached, keywords)
        kept = self._inked.get(path)
        if kept and kept[1] == about and kept[0] == replace(layout, findings=kept[0].findings):
            return kept[2]
        self.report(path, self.left)
        total = len(layout.pages)
        pictures = {
            number: paint_svg(page, f"{layout.title}, page {number} of {total}")
            for number, page in enumerate(layout.pages[:pictured], 1)
        }
        drawing = draw_pages(layout)
        pdf = paint_pdf(layout, made, outline=outline, attachments=attached, keywords=keywords, drawing=drawing)
        ink = PrintedFile(pdf, pictures, ink_pages(layout, drawing))
        if not self.passing:
            self._inked[path] = layout, about, ink
        return ink
