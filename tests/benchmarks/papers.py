"""Papers beside drawing the same strings, lines and codes with a bare canvas; labels; an edit that is watched."""

import shutil
import statistics
import tempfile
import time
from collections.abc import Iterator, Sequence
from io import BytesIO
from pathlib import Path

from paperwork.document import Sheet
from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render import fit
from paperwork.render.boxes import Code, Layout, Rule, Text
from paperwork.render.fonts import FACES, Metrics, take_fresh_fonts
from paperwork.render.layout import lay_out
from paperwork.render.operators import POINTS_PER_UM
from paperwork.render.pdf import paint_pdf
from paperwork.sheets import SHEETS
from paperwork.watch import Follower
from tests.benchmarks.processes import EXAMPLE
from tests.benchmarks.table import Row, median_s, milliseconds
from tests.render import samples

EDITS = 10


def draw_bare(layouts: Sequence[Layout]) -> None:
    """The same strings at the same places and sizes, and as many lines and rectangles, with nothing but a canvas."""
    from reportlab.pdfgen.canvas import Canvas

    for layout in layouts:
        take_fresh_fonts(sorted({box.face for page in layout.pages for box in page.boxes if isinstance(box, Text)}))
        canvas = Canvas(BytesIO(), pageCompression=1, invariant=1)
        for page in layout.pages:
            for box in page.boxes:
                _draw_box(canvas, box, page.height)
            canvas.showPage()
        canvas.save()


def _draw_box(canvas, box, height: int) -> None:
    if isinstance(box, Text):
        canvas.setFont(box.face, box.cap_um * 1000 / FACES[box.face].cap * POINTS_PER_UM)
        canvas.drawString(box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM, box.text)
    elif isinstance(box, Rule):
        ends = (box.x1, height - box.y1, box.x2, height - box.y2)
        canvas.line(*(end * POINTS_PER_UM for end in ends))
    elif isinstance(box, Code):
        for row, column, width, high in box.runs:
            canvas.rect(column, row, width, high, stroke=0, fill=1)
    else:
        canvas.rect(box.x * POINTS_PER_UM, (height - box.y) * POINTS_PER_UM, 10, 10)


def _make(sheet: Sheet) -> bytes:
    """One sheet as PDF, with nothing remembered from the last round."""
    fit._fit.cache_clear()
    return paint_pdf(lay_out(sheet, Metrics()))


def measure() -> Iterator[Row]:
    """All papers, long sheets, labels, and an edit."""
    reading = read_show(EXAMPLE, EXAMPLE.name)
    layouts = [lay_out(sheet, Metrics()) for paper in SHEETS for sheet in paper.make(reading.show)]
    bare = median_s(lambda: draw_bare(layouts))

    def make_all() -> None:
        fit._fit.cache_clear()
        make_papers(reading.show, reading.findings)

    made = median_s(make_all)
    yield Row(
        "all papers of the example in process, book, index and pictures too",
        milliseconds(made),
        made / bare,
        "bare drawing of the papers",
        "2 x",
    )
    for what, sheet, aim in (
        ("channel chart of 40 rows", samples.chart(40), "2 x"),
        ("channel chart of 400 rows", samples.chart(400), "2 x"),
        ("1,000 labels with QR", samples.labels("letter-30-2.625x1", 500), "2.5 s"),
    ):
        layout = lay_out(sheet, Metrics())
        ours, drawn = median_s(lambda sheet=sheet: _make(sheet)), median_s(lambda layout=layout: draw_bare([layout]))
        yield Row(f"{what}, {len(layout.pages)} pages", milliseconds(ours), ours / drawn, "bare drawing", aim)
    for what, name in (("who is on one paper", "Pia Lund"), ("who is on most papers", "Noor Haddad")):
        clock_s, written = time_edits(name)
        yield Row(
            f"`watch`: a name altered, {what}; {written} files written, by the clock", milliseconds(clock_s), aim="1 s"
        )


def time_edits(name: str) -> tuple[float, int]:
    """Median seconds from a save to the last file written, of several edits of one name, and how many files that were."""
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "show"
        shutil.copytree(EXAMPLE.parent, place)
        show = place / EXAMPLE.name
        text = show.read_text(encoding="utf-8")
        follower = Follower(show, show.name, place / "papers")
        follower.look()
        taken = []
        for edit in range(EDITS):
            show.write_text(text.replace(name, f"{name}{'abcdefghij'[edit]}"), encoding="utf-8")
            began = time.perf_counter()
            told = follower.look()
            taken.append(time.perf_counter() - began)
            assert told is not None and told.report is not None and told.report.written
    return statistics.median(taken), len(told.report.written)
