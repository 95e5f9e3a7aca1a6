"""How the printed papers of the example are set, read from their PDF by a reader that is not ours.

    python -m tests.tools.typography [A4 Letter A3 Tabloid]

For each size of paper: pages, the heights of capitals, the weights of rules, how much of the pages is blank, and the pages
of which more than half is. Blank is what no ink reaches, in either half of a page, over 12 mm of its height or more.
"""

import ctypes
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium

from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from tests.shows_text import EXAMPLES

CAPITALS = {
    "FiraSansCondensed-Regular": 0.688,
    "FiraSansCondensed-SemiBold": 0.692,
    "FiraSansCondensed-Bold": 0.693,
    "IBMPlexSansCond-Medium": 0.698,
    "IBMPlexSansCond-SemiBold": 0.698,
    "IBMPlexSansCond-Bold": 0.698,
}
"""A capital's height in the em: OS/2 sCapHeight of the faces. Signs of other scripts have no capitals: not counted."""

UM_PER_POINT = 25_400 / 72
MARGINS_MM = (11, 10, 13, 12)
"""What every page keeps free at its top, foot, left and right."""

LEAST_MM = 12
"""Less is air between two blocks."""


@dataclass(slots=True)
class Measured:
    """What was found on one page or many."""

    caps: Counter[int] = field(default_factory=Counter)
    """In hundredths of a millimetre: how many texts."""
    strokes: set[int] = field(default_factory=set)
    """In micrometres."""
    blank: list[float] = field(default_factory=list)
    """Of each page the share that is blank."""


def print_papers(size: str, name: str = "show.yaml") -> dict[str, bytes]:
    """Each paper of an example on one size of paper as its PDF."""
    show = read_show(EXAMPLES / name, name).show
    show = replace(show, production=replace(show.production, paper=size))
    metrics = Metrics()
    return {sheet.name: paint_pdf(lay_out(sheet, metrics)) for paper in SHEETS for sheet in paper.make(show)}


def measure_pdf(pdf: bytes) -> Measured:
    """Every text and every line of a document, and how blank its pages are."""
    found = Measured()
    document = pypdfium2.PdfDocument(pdf)
    for page in document:
        for kind, um in _list_ink(page):
            if kind == "cap":
                found.caps[um] += 1
            else:
                found.strokes.add(um)
        found.blank.append(_blank_share(page))
    return found


def _list_ink(page: pypdfium2.PdfPage) -> Iterator[tuple[str, int]]:
    for index in range(pdfium.FPDFPage_CountObjects(page)):
        one = pdfium.FPDFPage_GetObject(page, index)
        kind = pdfium.FPDFPageObj_GetType(one)
        matrix = pdfium.FS_MATRIX()
        pdfium.FPDFPageObj_GetMatrix(one, matrix)
        scale = (matrix.a**2 + matrix.b**2) ** 0.5 * UM_PER_POINT
        if kind == pdfium.FPDF_PAGEOBJ_TEXT:
            size = ctypes.c_float()
            pdfium.FPDFTextObj_GetFontSize(one, size)
            capital = CAPITALS.get(_font_name(one).rpartition("+")[2], 0)
            if capital:
                yield "cap", round(size.value * scale * capital / 10)
        elif kind == pdfium.FPDF_PAGEOBJ_PATH:
            mode, stroked = ctypes.c_int(), ctypes.c_int()
            pdfium.FPDFPath_GetDrawMode(one, mode, stroked)
            if stroked.value:
                width = ctypes.c_float()
                pdfium.FPDFPageObj_GetStrokeWidth(one, width)
                yield "stroke", round(width.value * scale)


def _font_name(text: object) -> str:
    font = pdfium.FPDFTextObj_GetFont(text)
    name = ctypes.create_string_buffer(200)
    pdfium.FPDFFont_GetBaseFontName(font, name, 200)
    return name.value.decode("ascii", "replace")


def _blank_share(page: pypdfium2.PdfPage) -> float:
    """The share of a page inside of its margins that is blank, a pixel a millimetre."""
    ink = page.render(scale=4 * 25.4 / 72, grayscale=True).to_numpy().squeeze() < 250
    high, wide = (side // 4 for side in ink.shape[:2])
    marks = ink[: high * 4, : wide * 4].reshape(high, 4, wide, 4).any(axis=(1, 3))
    top, foot, left, right = MARGINS_MM
    body = marks[top : high - foot, left : wide - right]
    middle = body.shape[1] // 2
    return sum(_blank_rows(half.any(axis=1)) for half in (body[:, :middle], body[:, middle:])) / 2 / body.shape[0]


def _blank_rows(inked: "np.ndarray") -> int:
    total = run = 0
    for row in (*inked, True):
        if row:
            total += run if run >= LEAST_MM else 0
            run = 0
        else:
            run += 1
    return total


def main(sizes: list[str]) -> None:
    """Prints a line for each size, and one for each page that is mostly blank."""
    for size in sizes or ["A4", "Letter", "A3", "Tabloid"]:
        papers = {name: measure_pdf(pdf) for name, pdf in print_papers(size).items()}
        blank = [share for one in papers.values() for share in one.blank]
        caps = sorted(set().union(*(one.caps for one in papers.values())))
        strokes = sorted(set().union(*(one.strokes for one in papers.values())))
        print(
            f"{size}: {len(blank)} pages, {len(caps)} sizes, {len(strokes)} weights, {sum(blank) / len(blank):.1%} blank"
        )
        print("  sizes (mm/100):", *caps)
        print("  weights (um):", *strokes)
        for name, one in papers.items():
            print(f"  {name}: {len(one.blank)} pages, blank", *(f"{share:.0%}" for share in one.blank))


if __name__ == "__main__":
    main(sys.argv[1:])
