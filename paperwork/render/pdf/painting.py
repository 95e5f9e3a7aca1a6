"""Ink: the boxes of a layout as PDF bytes. Nothing is measured or decided here."""

from collections.abc import Mapping, Sequence
from hashlib import md5
from io import BytesIO
from typing import TYPE_CHECKING, Any

from paperwork.render.boxes import Layout
from paperwork.render.pdf.drawing import Drawing, draw_pages
from paperwork.render.pdf.lettering import embed_faces
from paperwork.render.pdf.operators import POINTS_PER_UM
from paperwork.render.pdf.packing import add_object, write_document
from paperwork.render.pdf.pdfa import add_metadata, archive_canvas, digits_of
from paperwork.render.pdf.tagging import tag_document
from paperwork.render.text.faces import register_face
from paperwork.text.words import say

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
    drawing: Drawing | None = None,
) -> bytes:
    """The layout as one PDF: fonts embedded as subsets, vectors only, no clock.

    `made` is ISO 8601 text (`2027-03-02` or `2027-03-02T17:40:00`), taken as UTC: the revision's date, not today's.
    With attachments it is a PDF/A-3b that carries them; `outline` is shown beside the pages; `drawing` is what was drawn
    of the layout before. Equal layouts give equal bytes with one set of libraries.
    """
    from reportlab.pdfgen.canvas import Canvas

    drawing = drawing or draw_pages(layout)
    buffer = BytesIO()
    canvas = Canvas(buffer, invariant=1, initialFontName=register_face())
    _describe(canvas, layout, made, producer)
    canvas.setKeywords(keywords)
    if attachments:
        archive_canvas(canvas, attachments, made, keywords=keywords)
    else:
        add_metadata(canvas._doc, made)
    _add_pages(canvas, layout, drawing, outline)
    _label(canvas, layout)
    tag_document(canvas, layout, drawing.structure)
    canvas.save()
    return buffer.getvalue()


def _add_pages(canvas: "Canvas", layout: Layout, drawing: Drawing, outline: "Sequence[Bookmark]") -> None:
    """All pages, and the faces that their texts are in."""
    document = canvas._doc
    fonts = document.idToObjectNumberAndVersion["BasicFonts"][0]
    resources = add_object(document, "resources", f"<</Font {fonts} 0 R/ProcSet[/PDF/Text]>>")
    letters: dict[str, set[str]] = {}
    for number, (page, layers) in enumerate(zip(layout.pages, drawing.pages, strict=True)):
        canvas.setPageSize((page.width * POINTS_PER_UM, page.height * POINTS_PER_UM))
        _mark(canvas, [mark for mark in outline if mark.page == number])
        canvas.showPage()
        streams = []
        for layer in layers:
            streams.append(f"{add_object(document, f'layer {document.objectcounter}', layer.stream)} 0 R")
            for face, signs in layer.letters.items():
                letters.setdefault(face, set()).update(signs)
        made = document.Pages.pages[-1]
        made.Resources, made.Contents = (
            f"{resources} 0 R",
            streams[0] if len(streams) == 1 else f"[{' '.join(streams)}]",
        )
    _embed_scripts(document, drawing.scripts)
    embed_faces(document, letters)


def _embed_scripts(document: Any, scripts: "Mapping[str, Embedded]") -> None:
    """The faces of other scripts; none for almost every show."""
    if scripts:
        from paperwork.render.pdf.embedding import embed_script

        for chosen in scripts.values():
            embed_script(document, chosen)


def _describe(canvas: "Canvas", layout: Layout, made: str, producer: str) -> None:
    document = canvas._doc
    document.signature = md5(usedforsecurity=False)  # the library starts it from the clock or the environment
    document._pdfVersion = 1, 7
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
