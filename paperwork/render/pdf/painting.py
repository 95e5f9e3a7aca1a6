"""Ink: the boxes of a layout as PDF bytes. Nothing is measured or decided here."""

from collections.abc import Iterable, Mapping, Sequence
from hashlib import md5
from io import BytesIO
from typing import TYPE_CHECKING, Any

from paperwork.render.boxes import Box, Fill, Frame, Hatch, Layout, QrBox, Rule, TextBox
from paperwork.render.folded import list_telling
from paperwork.render.pdf.operators import POINTS_PER_UM, SCALE, draw_shape
from paperwork.render.pdf.packing import write_document
from paperwork.render.pdf.pdfa import add_metadata, archive_canvas, digits_of, end_streams_on_a_line
from paperwork.render.pdf.structure import ARTIFACT, Run, Structure
from paperwork.render.pdf.tagging import tag_document
from paperwork.render.text.faces import FACES, take_fresh_fonts
from paperwork.text.glyphs import is_scripted
from paperwork.text.words import say

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

    from paperwork.render.book import Bookmark
    from paperwork.render.pdf.embedding import Embedded
    from paperwork.render.pdf.pdfa import Attachment

NO_DATE = "2000-01-01T00:00:00"

_SHAPES = (Fill, Frame, Rule, Hatch)


def paint_pdf(
    layout: Layout,
    made: str = NO_DATE,
    producer: str = "paperwork",
    *,
    attachments: "Sequence[Attachment]" = (),
    keywords: str = "",
    outline: "Sequence[Bookmark]" = (),
) -> bytes:
    """The layout as one PDF: fonts embedded as subsets, vectors only, no clock.

    `made` is ISO 8601 text (`2027-03-02` or `2027-03-02T17:40:00`), taken as UTC: the revision's date, not today's.
    With attachments it is a PDF/A-3b that carries them; `outline` is shown beside the pages. Equal layouts give equal bytes with one set of libraries.
    """
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    faces, scripted = _list_faces(layout)
    take_fresh_fonts(faces)
    buffer = BytesIO()
    canvas = Canvas(buffer, pageCompression=1, invariant=1, initialFontName=faces[0] if faces else None)
    _describe(canvas, layout, made, producer)
    canvas.setKeywords(keywords)
    if attachments:
        archive_canvas(canvas, attachments, made, keywords=keywords)
    else:
        add_metadata(canvas._doc, made)
    pen, structure = _Pen(canvas._doc, _embed_scripts(canvas, scripted)), Structure(layout.targets)
    for number, page in enumerate(layout.pages):
        canvas.setPageSize((page.width * POINTS_PER_UM, page.height * POINTS_PER_UM))
        _mark(canvas, [mark for mark in outline if mark.page == number])
        boxes = tuple(page.boxes)
        canvas.addLiteral(pen.draw(page.height, boxes, structure.mark(boxes)))
        canvas.showPage()
    _label(canvas, layout)
    tag_document(canvas, layout, structure)
    canvas.save()
    return buffer.getvalue()


def _list_faces(layout: Layout) -> tuple[list[str], list[TextBox]]:
    """The faces of a layout, and its texts in other scripts."""
    texts = [text for page in layout.pages for text in list_telling(page.boxes)]
    return sorted({text.face for text in texts}), [text for text in texts if is_scripted(text.text)]


def _embed_scripts(canvas: "Canvas", scripted: Sequence[TextBox]) -> "Mapping[str, Embedded]":
    """The faces of other scripts, put into the document; none for almost every show."""
    if not scripted:
        return {}
    from paperwork.render.pdf.embedding import embed_scripts

    return embed_scripts(canvas._doc, scripted)


def _describe(canvas: "Canvas", layout: Layout, made: str, producer: str) -> None:
    document = canvas._doc
    document.signature = md5(usedforsecurity=False)  # the library starts it from the clock or the environment
    document.encrypt, document._pdfVersion = end_streams_on_a_line(), (1, 7)
    document.format = lambda: write_document(document)
    titled = say(layout.language, "labelled", name=layout.about, text=layout.title)
    canvas.setTitle(titled if layout.about and layout.title else layout.about or layout.title)
    canvas.setSubject(layout.subject)
    canvas.setAuthor("")
    canvas.setCreator(producer)
    canvas.setProducer(producer)
    canvas.setDateFormatter(lambda *_: f"D:{digits_of(made)}Z")
    if not layout.scaling:
        canvas.setViewerPreference("PrintScaling", "None")


def _mark(canvas: "Canvas", marks: "Sequence[Bookmark]") -> None:
    """The outline's entries that lead to the current page."""
    for index, mark in enumerate(marks):
        key = f"p{mark.page}.{index}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(mark.title, key, mark.level)
        canvas.showOutline()


def _label(canvas: "Canvas", layout: Layout) -> None:
    """Viewers count as the paper does, where only some pages are printed too."""
    numbers = layout.numbers or range(1, len(layout.pages) + 1)
    for place, (before, number) in enumerate(zip((0, *numbers), numbers, strict=False)):
        if not place or number != before + 1:
            canvas.addPageLabel(place, style="ARABIC", start=number)


class _Pen:
    """Draws the pages of one document (ISO 32000-1, 9.4), in the codes that it gives to each letter of a face."""

    def __init__(self, document: Any, fonts: "Mapping[str, Embedded]") -> None:
        self._document, self._fonts = document, fonts
        self._codes: dict[tuple[str, str], list[tuple[int, str]]] = {}
        self._start(0)

    def _start(self, height: int) -> None:
        self._height = height
        self._last, self._white, self._inside = ("", 0, 0), False, False
        self._parts: list[str] = []

    def draw(self, height: int, boxes: Sequence[Box], runs: Iterable[Run]) -> str:
        """The operators of a page of a height: shapes first, so that none covers a text; then texts and codes in the order in which they
        are read."""
        self._start(height)
        shapes = [draw_shape(box, height) for box in boxes if isinstance(box, _SHAPES)]
        for run in runs:
            self._draw_run(run)
        self._turn(False)
        shown = (ARTIFACT, *shapes, "EMC") if shapes else ()
        return "\n".join(("q", SCALE, *shown, *self._parts, "Q"))

    def _draw_run(self, run: Run) -> None:
        """One of plain texts alone shares a text object with those before and behind it: what is marked may not begin in one
        and end in another (14.6.1). Texts of other scripts are each by themselves."""
        plain = all(map(self._is_plain, run.boxes))
        self._turn(plain)
        self._parts.append(run.operator)
        for box in run.boxes:
            if isinstance(box, QrBox):
                self._turn(False)
                self._draw_code(box)
            elif plain or self._is_plain(box):
                self._turn(True)
                self._set(box)
            else:
                self._turn(False)
                self._set_scripted(box)
        self._turn(plain)
        self._parts.append("EMC")

    def _is_plain(self, box: TextBox | QrBox) -> bool:
        return isinstance(box, TextBox) and not (self._fonts and is_scripted(box.text))

    def _turn(self, inside: bool) -> None:
        if inside != self._inside:
            self._inside = inside
            self._parts.append("BT" if inside else "ET")

    def _draw_code(self, box: QrBox) -> None:
        if self._white:
            self._white = False
            self._parts.append("0 g")
        self._parts.append(draw_shape(box, self._height))

    def _set_scripted(self, box: TextBox) -> None:
        from paperwork.render.pdf.embedding import draw_scripted

        self._last, self._white = ("", 0, 0), box.white
        self._parts.append(draw_scripted(self._document, box, self._height, self._fonts))

    def _set(self, box: TextBox) -> None:
        add = self._parts.append
        if box.white != self._white:
            self._white = box.white
            add("1 g" if box.white else "0 g")
        add(f"{'0 1 -1 0' if box.turned else '1 0 0 1'} {box.x} {self._height - box.y} Tm")
        for subset, codes in self._codes.get((box.face, box.text)) or self._encode(box.face, box.text):
            if (box.face, box.cap_um, subset) != self._last:
                self._last = box.face, box.cap_um, subset
                size = box.cap_um * 1000 / FACES[box.face].cap
                font = _get_font(box.face)
                add(f"{font.getSubsetInternalName(subset, self._document)} {size:.2f} Tf")
            add(codes)

    def _encode(self, face: str, text: str) -> list[tuple[int, str]]:
        """The text in codes, each with the subset that they are of. Kept, as many texts stand in a document more than once."""
        parts = _get_font(face).splitString(text, self._document)
        return self._codes.setdefault((face, text), [(subset, f"<{codes.hex()}> Tj") for subset, codes in parts])


def _get_font(face: str) -> Any:
    from reportlab.pdfbase.pdfmetrics import getFont

    return getFont(face)
