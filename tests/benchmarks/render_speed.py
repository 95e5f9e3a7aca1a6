"""Print how long laying out and painting takes beside drawing the same strings with a bare canvas.

`python -m tests.benchmarks.render_speed`: ratios of medians, because the clock of a shared machine drifts.
"""

import statistics
import time
from collections.abc import Callable
from io import BytesIO

from paperwork.document import Sheet
from paperwork.render import fit
from paperwork.render.boxes import Code, Layout, Rule, Text
from paperwork.render.fonts import FACES, load_metrics, take_fresh_fonts
from paperwork.render.layout import lay_out
from paperwork.render.pdf import POINTS_PER_UM, paint_pdf
from tests.render import samples

ROUNDS = 15


def draw_bare(layout: Layout) -> bytes:
    """The same strings at the same sizes, and the same rules, with nothing but a canvas."""
    from reportlab.pdfgen.canvas import Canvas

    faces = sorted({box.face for page in layout.pages for box in page.boxes if isinstance(box, Text)})
    take_fresh_fonts(faces)
    buffer = BytesIO()
    canvas = Canvas(buffer, invariant=1)
    for page in layout.pages:
        for box in page.boxes:
            if isinstance(box, Text):
                canvas.setFont(box.face, box.cap_um * 1000 / FACES[box.face].cap * POINTS_PER_UM)
                canvas.drawString(box.x * POINTS_PER_UM, (page.height - box.y) * POINTS_PER_UM, box.text)
            elif isinstance(box, Rule):
                canvas.line(
                    box.x1 * POINTS_PER_UM, (page.height - box.y1) * POINTS_PER_UM,
                    box.x2 * POINTS_PER_UM, (page.height - box.y2) * POINTS_PER_UM,
                )  # fmt: skip
            elif isinstance(box, Code):
                for row, column, width, height in box.runs:
                    canvas.rect(column, row, width, height, stroke=0, fill=1)
        canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def median_ms(work: Callable[[], object]) -> float:
    """The median time of several rounds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1_000)
    return statistics.median(times)


def lay_out_afresh(sheet: Sheet) -> Layout:
    """The layout with nothing remembered from the last round."""
    fit._fit.cache_clear()
    return lay_out(sheet, load_metrics())


def report(name: str, sheet: Sheet) -> None:
    """One line: layout, paint, bare, and the ratio of the first two to the third."""
    layout = lay_out_afresh(sheet)
    laid = median_ms(lambda: lay_out_afresh(sheet))
    painted = median_ms(lambda: paint_pdf(layout))
    bare = median_ms(lambda: draw_bare(layout))
    ratio = (laid + painted) / bare
    print(
        f"{name:28} layout {laid:6.1f} ms   paint {painted:6.1f} ms   bare {bare:6.1f} ms   ratio {ratio:.2f}"
    )


if __name__ == "__main__":
    report("chart, 40 rows", samples.chart(40))
    report("chart, 400 rows", samples.chart(400))
    report("patch, 20 pairs", samples.patch(20))
    report("labels, 42 on 3x7", samples.labels(count=21))
    report("labels, 1000 on 3x10", samples.labels("letter-30-2.625x1", 500))
