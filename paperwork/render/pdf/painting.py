"""Ink: the boxes of a layout as PDF bytes. Nothing is measured or decided here."""

from collections.abc import Iterator, Mapping, Sequence
from hashlib import md5
from io import BytesIO
from typing import TYPE_CHECKING

from paperwork.render.boxes import Layout, Page, TextBox
from paperwork.render.pdf.operators import POINTS_PER_UM, SCALE, draw_shape
from paperwork.render.text.faces import FACES, take_fresh_fonts
from paperwork.text.glyphs import is_scripted

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

    from paperwork.render.book import Bookmark
    from paperwork.render.pdf.embedding import Embedded
    from paperwork.render.pdf.pdfa import Attachment

NO_DATE = "2000-01-01T00:00:00"


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
    faces = sorted({box.face for page in layout.pages for box in page.boxes if isinstance(box, TextBox)})
    take_fresh_fonts(faces)
    buffer = BytesIO()
    canvas = Canvas(buffer, pageCompression=1, invariant=1, initialFontName=faces[0] if faces else None)
    _describe(canvas, layout, made, producer)
    canvas.setKeywords(keywords)
    if attachments:
        from paperwork.render.pdf.pdfa import archive_canvas

        archive_canvas(canvas, attachments, made, keywords=keywords)
    fonts = _embed_scripts(canvas, layout)
    for number, page in enumerate(layout.pages):
        canvas.setPageSize((page.width * POINTS_PER_UM, page.height * POINTS_PER_UM))
        canvas.addPageLabel(number, style="ARABIC", start=number + 1)
        _mark(canvas, [mark for mark in outline if mark.page == number])
        _paint_page(canvas, page, fonts)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def _embed_scripts(canvas: "Canvas", layout: Layout) -> "Mapping[str, Embedded]":
    """The faces of other scripts that the layout needs, put into the document; none for almost every show."""
    scripted = [
        box for page in layout.pages for box in page.boxes if isinstance(box, TextBox) and is_scripted(box.text)
    ]
    if not scripted:
        return {}
    from paperwork.render.pdf.embedding import embed_scripts

    return embed_scripts(canvas._doc, scripted)


def _describe(canvas: "Canvas", layout: Layout, made: str, producer: str) -> None:
    digits = "".join(sign for sign in made if sign.isdigit()).ljust(14, "0")[:14]
    canvas._doc.signature = md5(usedforsecurity=False)  # the library starts it from the clock or the environment
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


def _paint_page(canvas: "Canvas", page: Page, fonts: "Mapping[str, Embedded]") -> None:
    """Shapes first, then all texts in one text object: no shape covers a text, and a page of text stays small.

    Texts of other scripts come last, each by itself.
    """
    shapes = [draw_shape(box, page.height) for box in page.boxes if not isinstance(box, TextBox)]
    texts = [box for box in page.boxes if isinstance(box, TextBox) and box.text]
    scripted: list[str] = []
    if fonts:
        from paperwork.render.pdf.embedding import draw_scripted

        scripted = [draw_scripted(canvas._doc, box, page.height, fonts) for box in texts if is_scripted(box.text)]
        texts = [box for box in texts if not is_scripted(box.text)]
    canvas.addLiteral(
        "\n".join(("q", SCALE, *shapes, "BT", *_set_texts(canvas, texts, page.height), "ET", *scripted, "Q"))
    )


def _set_texts(canvas: "Canvas", boxes: list[TextBox], height: int) -> Iterator[str]:
    """The operators of texts (ISO 32000-1, 9.4), in the codes that the document gives to each letter of a face."""
    from reportlab.pdfbase.pdfmetrics import getFont

    document = canvas._doc
    last, white = ("", 0, 0), False
    for box in boxes:
        if box.white != white:
            white = box.white
            yield "1 g" if white else "0 g"
        yield f"{'0 1 -1 0' if box.turned else '1 0 0 1'} {box.x} {height - box.y} Tm"
        font = getFont(box.face)
        for subset, codes in font.splitString(box.text, document):
            if (box.face, box.cap_um, subset) != last:
                last = box.face, box.cap_um, subset
                yield f"{font.getSubsetInternalName(subset, document)} {box.cap_um * 1000 / FACES[box.face].cap:.2f} Tf"
            yield f"<{codes.hex()}> Tj"
