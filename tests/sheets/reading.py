"""Papers of the example and of small shows, printed and read back by a reader that is not ours."""

from dataclasses import replace
from functools import cache
from io import BytesIO

import pypdfium2

from paperwork.document import Sheet, Table
from paperwork.model import Show
from paperwork.reading import read_show
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.sheets import SHEETS
from tests.metrics import load_metrics
from tests.shows_text import EXAMPLES


@cache
def example() -> Show:
    """The example show."""
    return read_show(EXAMPLES / "show.yaml", "show.yaml").show


def speaking(show: Show, language: str) -> Show:
    """The show with its papers in another language."""
    return replace(show, production=replace(show.production, language=language))


def make(name: str, show: Show | None = None) -> tuple[Sheet, ...]:
    """The sheets of a paper, of the example unless told."""
    return next(paper for paper in SHEETS if paper.name == name).make(show or example())


def printed(name: str, show: Show | None = None) -> str:
    """What a PDF reader finds on a paper, of the example unless told, white space as single spaces."""
    return read_back(make(name, show)) if show else _printed(name)


@cache
def _printed(name: str) -> str:
    return read_back(make(name))


def read_back(sheets: tuple[Sheet, ...]) -> str:
    """What a PDF reader finds on some sheets, white space as single spaces."""
    texts = []
    for sheet in sheets:
        document = pypdfium2.PdfDocument(BytesIO(paint_pdf(lay_out(sheet, load_metrics()))))
        texts += [page.get_textpage().get_text_range() for page in document]
    return " ".join(" ".join(texts).split())


def rows_of(sheet: Sheet) -> list[list[list[str]]]:
    """Every row of the sheet's tables as its cells' texts; items without a text (lines, squares) left out."""
    return [
        [[item.text for part in parts for item in part.items if item.text] for parts in row.cells]
        for block in sheet.blocks
        if isinstance(block, Table)
        for group in block.groups
        for row in group.rows
    ]


def titles_of(sheet: Sheet) -> list[str]:
    """The bars of the sheet's tables."""
    return [group.title for block in sheet.blocks if isinstance(block, Table) for group in block.groups]
