"""Papers beside drawing the same strings, lines and codes with a bare canvas; labels; an edit that is watched."""

import shutil
import statistics
import tempfile
import time
from collections.abc import Iterator, Sequence
from copy import copy
from io import BytesIO
from pathlib import Path
from weakref import WeakKeyDictionary

from paperwork.document import Sheet
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.boxes import Close, Layout, Open, QrBox, Rule, TextBox
from paperwork.render.layout import lay_out
from paperwork.render.pdf.operators import POINTS_PER_UM
from paperwork.render.pdf.painting import paint_pdf
from paperwork.render.text import fitting
from paperwork.render.text.faces import FACES, open_font
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS
from paperwork.watch import Follower, WatchLook
from tests.benchmarks.processes import EXAMPLE
from tests.benchmarks.table import Row, compare, milliseconds
from tests.render import samples

EDITS = 10


def draw_bare(layouts: Sequence[Layout]) -> None:
    """The same strings at the same places and sizes, and as many lines and rectangles, with nothing but a canvas."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfgen.canvas import Canvas

    for layout in layouts:
        for face in FACES:
            font = copy(open_font(face))
            font.state = WeakKeyDictionary()  # what a document does to a font
            pdfmetrics.registerFont(font)
        canvas = Canvas(BytesIO(), pageCompression=1, invariant=1)
        for page in layout.pages:
            for box in page.boxes:
                _draw_box(canvas, box, page.height)
            canvas.showPage()
        canvas.save()


def _draw_box(canvas, box, height: int) -> None:
    if isinstance(box, TextBox):
        canvas.setFont(box.face, box.cap_um * 1000 / FACES[box.face].cap * POINTS_PER_UM)
        canvas.drawString(box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM, box.text)
    elif isinstance(box, Rule):
        ends = (box.x1, height - box.y1, box.x2, height - box.y2)
        canvas.line(*(end * POINTS_PER_UM for end in ends))
    elif isinstance(box, QrBox):
        for row, column, width, high in box.runs:
            canvas.rect(column, row, width, high, stroke=0, fill=1)
    elif not isinstance(box, Open | Close):
        canvas.rect(box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM, 10, 10)


def _make(sheet: Sheet) -> bytes:
    """One sheet as PDF, with nothing remembered from the last round."""
    fitting._fit.cache_clear()
    return paint_pdf(lay_out(sheet, Metrics()))


def measure() -> Iterator[Row]:
    """All papers, long sheets, labels, and an edit."""
    reading = read_show(EXAMPLE, EXAMPLE.name)
    layouts = [lay_out(sheet, Metrics()) for paper in SHEETS for sheet in paper.make(reading.show)]

    def make_all() -> None:
        fitting._fit.cache_clear()
        make_papers(reading.show, reading.findings)

    def make_alone() -> None:
        fitting._fit.cache_clear()
        make_papers(reading.show, reading.findings, kinds=SHEETS, pictured=False)

    made, ratio = compare(make_alone, lambda: draw_bare(layouts))
    yield Row("all papers of the example in process", milliseconds(made), ratio, "bare drawing", "2 x")
    made, ratio = compare(make_all, lambda: draw_bare(layouts))
    yield Row("the same with book, index and pictures", milliseconds(made), ratio, "bare drawing of the papers alone")
    for what, sheet, aim in (
        ("channel chart of 40 rows", samples.chart(40), "2 x"),
        ("channel chart of 400 rows", samples.chart(400), "2 x"),
        ("1,000 labels with QR", samples.labels("letter-30-2.625x1", 500), "2.5 s"),
    ):
        layout = lay_out(sheet, Metrics())
        ours, ratio = compare(lambda sheet=sheet: _make(sheet), lambda layout=layout: draw_bare([layout]))
        yield Row(f"{what}, {len(layout.pages)} pages", milliseconds(ours), ratio, "bare drawing", aim)
    for what, name in (("who is on a few papers", "Tamsin O'Dell"), ("who is on most papers", "Noor Haddad")):
        papers_s, all_s, written = time_edits(name)
        yield Row(f"`watch`: a name altered, {what}: the papers, by the clock", milliseconds(papers_s), aim="1 s")
        yield Row(f"and book and index, {written} files", milliseconds(all_s))


def time_edits(name: str) -> tuple[float, float, int]:
    """Median seconds from a save to the last paper and to the last file written, of several edits of one name, and how many."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "show"
        shutil.copytree(EXAMPLE.parent, place)
        show = place / EXAMPLE.name
        text = show.read_text(encoding="utf-8")
        follower = Follower(show, show.name, place / "papers")
        follower.look()
        follower.look()  # a save is over when two looks find the same
        taken: list[tuple[float, float]] = []
        for edit in range(EDITS):
            show.write_text(text.replace(name, f"{name}{'abcdefghij'[edit]}"), encoding="utf-8")
            told: list[tuple[float, WatchLook]] = []
            began = time.perf_counter()
            follower.look()
            last = follower.look(lambda one, told=told: told.append((time.perf_counter(), one)))
            ended = time.perf_counter()
            papers, first = told[0] if told else (ended, last)
            taken.append((papers - began, ended - began))
    written = len({*first.report.written, *last.report.written})
    return statistics.median(one for one, _ in taken), statistics.median(one for _, one in taken), written
