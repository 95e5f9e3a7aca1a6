"""Ink: the boxes of a layout as PDF bytes. Nothing is measured or decided here."""

from collections.abc import Sequence
from hashlib import md5
from io import BytesIO
from typing import TYPE_CHECKING

from paperwork.render.boxes import Box, Code, Fill, Frame, Hatch, Layout, Page, Rule, Text
from paperwork.render.fonts import FACES, take_fresh_fonts

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

    from paperwork.render.book import Bookmark
    from paperwork.render.pdfa import Attachment

POINTS_PER_UM = 72 / 25_400

NO_DATE = "2000-01-01T00:00:00"


def paint_pdf(
    layout: Layout, made: str = NO_DATE, producer: str = "paperwork", *, attachments: "Sequence[Attachment]" = (), keywords: str = "",
    outline: "Sequence[Bookmark]" = (),
) -> bytes:
    """The layout as one PDF: fonts embedded as subsets, vectors only, no clock.

    `made` is ISO 8601 text (`2027-03-02` or `2027-03-02T17:40:00`), taken as UTC: the revision's date, not today's.
    With attachments it is a PDF/A-3b that carries them; `outline` is shown beside the pages. Equal layouts give equal bytes with one set of libraries.
    """
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    faces = sorted({box.face for page in layout.pages for box in page.boxes if isinstance(box, Text)})
    take_fresh_fonts(faces)
    buffer = BytesIO()
    canvas = Canvas(buffer, pageCompression=1, invariant=1, initialFontName=faces[0] if faces else None)
    _describe(canvas, layout, made, producer)
    canvas.setKeywords(keywords)
    if attachments:
        from paperwork.render.pdfa import archive_canvas

        archive_canvas(canvas, attachments, made, keywords=keywords)
    for number, page in enumerate(layout.pages):
        canvas.setPageSize((page.width * POINTS_PER_UM, page.height * POINTS_PER_UM))
        canvas.addPageLabel(number, style="ARABIC", start=number + 1)
        _mark(canvas, [mark for mark in outline if mark.page == number])
        _paint_page(canvas, page)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _describe(canvas: "Canvas", layout: Layout, made: str, producer: str) -> None:
    digits = "".join(sign for sign in made if sign.isdigit()).ljust(14, "0")[:14]
    canvas._doc.signature = md5(
        usedforsecurity=False
    )  # the library starts it from the clock or the environment
    canvas.setTitle(layout.title)
    canvas.setSubject(layout.subject)
    canvas.setAuthor("")
    canvas.setCreator(producer)
    canvas.setProducer(producer)
    canvas.setDateFormatter(lambda *_: f"D:{digits}Z")
    if not layout.scaling:
        canvas.setViewerPreference("PrintScaling", "None")


def _mark(canvas: "Canvas", marks: "Sequence[Bookmark]") -> None:
    """The outline's entries that lead to the current page."""
    for index, mark in enumerate(marks):
        key = f"p{mark.page}.{index}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(mark.title, key, mark.level)
        canvas.showOutline()


def _paint_page(canvas: "Canvas", page: Page) -> None:
    """Shapes first, then all texts in one text object: no shape covers a text, and a page of text stays small."""
    for box in page.boxes:
        match box:
            case Text():
                continue
            case Code():
                _paint_code(canvas, box, page.height)
            case Hatch():
                _paint_hatch(canvas, box, page.height)
            case _:
                _paint_shape(canvas, box, page.height)
    _paint_texts(canvas, [box for box in page.boxes if isinstance(box, Text) and box.text], page.height)


def _paint_texts(canvas: "Canvas", boxes: list[Text], height: int) -> None:
    text = canvas.beginText()
    face, cap, white = "", 0, False
    for box in boxes:
        if (box.face, box.cap_um) != (face, cap):
            face, cap = box.face, box.cap_um
            text.setFont(face, cap * 1000 / FACES[face].cap * POINTS_PER_UM)
        if box.white != white:
            white = box.white
            text.setFillGray(1 if white else 0)
        if box.turned:
            text.setTextTransform(0, 1, -1, 0, box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM)
        else:
            text.setTextOrigin(box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM)
        text.textOut(box.text)
    canvas.drawText(text)


def _paint_shape(canvas: "Canvas", box: Box, height: int) -> None:
    match box:
        case Fill(x=x, y=y, width=w, height=h):
            canvas.rect(*_corner(x, y + h, height), w * POINTS_PER_UM, h * POINTS_PER_UM, stroke=0, fill=1)
        case Frame(x=x, y=y, width=w, height=h, stroke=stroke, radius=radius, dashed=dashed):
            canvas.setLineWidth(stroke * POINTS_PER_UM)
            if dashed:
                canvas.setDash([4, 2])
            size = w * POINTS_PER_UM, h * POINTS_PER_UM
            if radius:
                canvas.roundRect(*_corner(x, y + h, height), *size, radius * POINTS_PER_UM, stroke=1, fill=0)
            else:
                canvas.rect(*_corner(x, y + h, height), *size, stroke=1, fill=0)
            if dashed:
                canvas.setDash([])
        case Rule(stroke=stroke, dotted=dotted):
            canvas.setLineWidth(stroke * POINTS_PER_UM)
            if dotted:
                canvas.setDash([0.6, 1.6])
            canvas.line(*_corner(box.x1, box.y1, height), *_corner(box.x2, box.y2, height))
            if dotted:
                canvas.setDash([])


def _paint_hatch(canvas: "Canvas", box: Hatch, height: int) -> None:
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(
        *_corner(box.x, box.y + box.height, height), box.width * POINTS_PER_UM, box.height * POINTS_PER_UM
    )
    canvas.clipPath(clip, stroke=0, fill=0)
    canvas.setLineWidth(box.stroke * POINTS_PER_UM)
    step = box.pitch * 1414 // 1000
    lines = canvas.beginPath()
    for offset in range(-box.height, box.width + box.height, step):
        lines.moveTo(*_corner(box.x + offset, box.y + box.height, height))
        lines.lineTo(*_corner(box.x + offset + box.height, box.y, height))
    canvas.drawPath(lines, stroke=1, fill=0)
    canvas.restoreState()


def _paint_code(canvas: "Canvas", box: Code, height: int) -> None:
    """One path of whole modules under one scale: no seams between modules, no resampling, a tiny stream."""
    module = box.dots * 72 / box.dpi
    x, y = _corner(box.x, box.y, height)
    canvas.saveState()
    canvas.transform(module, 0, 0, -module, x, y)
    path = " ".join(f"{column} {row} {width} {high} re" for row, column, width, high in box.runs)
    canvas.addLiteral(f"{path} f")
    canvas.restoreState()


def _corner(x: int, y: int, height: int) -> tuple[float, float]:
    return x * POINTS_PER_UM, (height - y) * POINTS_PER_UM
