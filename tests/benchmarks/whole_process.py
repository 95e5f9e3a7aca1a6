"""How long `check` and `build` of the example take, beside bare Python, the bare libraries and bare drawing.

Run `python -m tests.benchmarks.whole_process`. Medians of interleaved runs; trust the ratios, not the milliseconds.
"""

import os
import subprocess
import sys
import tempfile
import time
from io import BytesIO
from pathlib import Path
from statistics import median

from paperwork.pipeline import make_papers
from paperwork.reading import read_show
from paperwork.render.boxes import Code, Layout, Text
from paperwork.render.fonts import FACES, Metrics, take_fresh_fonts
from paperwork.render.layout import lay_out
from paperwork.sheets import SHEETS

EXAMPLE = Path(__file__).resolve().parents[2] / "example_show" / "show.yaml"
RUNS = 11
LIBRARIES = "import click, yaml, jsonschema_rs"
PRINTING = LIBRARIES + ", jinja2, qrcode, reportlab.pdfgen.canvas, reportlab.pdfbase.ttfonts"


def time_processes(commands: dict[str, list[str]], cache: str) -> dict[str, float]:
    """Median seconds of each command, run in turns so that a drifting clock hits all alike.

    Byte code is cached in a folder of its own and warm, as it is on a user's machine from the second run on.
    """
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = cache
    taken: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(RUNS + 1):
        for name, command in commands.items():
            start = time.perf_counter()
            subprocess.run(command, check=True, capture_output=True, env=environment)
            if turn:
                taken[name].append(time.perf_counter() - start)
    return {name: median(times) for name, times in taken.items()}


def draw_bare(layouts: list[Layout]) -> None:
    """The same strings and as many rectangles, drawn straight on a canvas with the same faces."""
    from reportlab.pdfgen.canvas import Canvas

    for layout in layouts:
        faces = sorted({box.face for page in layout.pages for box in page.boxes if isinstance(box, Text)})
        take_fresh_fonts(faces)
        canvas = Canvas(BytesIO(), pageCompression=1, invariant=1)
        for page in layout.pages:
            for box in page.boxes:
                if isinstance(box, Text):
                    canvas.setFont(box.face, 10)
                    canvas.drawString(72, 72, box.text)
                elif isinstance(box, Code):
                    for row in range(21):
                        for column in range(0, 21, 2):
                            canvas.rect(column, row, 1, 1, stroke=0, fill=1)
                else:
                    canvas.rect(72, 72, 10, 10)
            canvas.showPage()
        canvas.save()


def time_in_process() -> tuple[float, float]:
    """Median seconds of making all papers of the example, and of drawing the same strings bare."""
    reading = read_show(EXAMPLE, "show.yaml")
    sheets = [sheet for paper in SHEETS for sheet in paper.make(reading.show)]
    layouts = [lay_out(sheet, Metrics()) for sheet in sheets]
    made, bare = [], []
    for _ in range(RUNS):
        start = time.perf_counter()
        make_papers(reading.show, reading.findings)
        made.append(time.perf_counter() - start)
        start = time.perf_counter()
        draw_bare(layouts)
        bare.append(time.perf_counter() - start)
    return median(made), median(bare)


def main() -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder:
        python = sys.executable
        times = time_processes({
            "bare Python": [python, "-c", "pass"],
            "import of check's libraries": [python, "-c", LIBRARIES],
            "paperwork --help": [python, "-m", "paperwork", "--help"],
            "paperwork check": [python, "-m", "paperwork", "check", str(EXAMPLE)],
            "import of build's libraries": [python, "-c", PRINTING],
            "paperwork build": [python, "-m", "paperwork", "build", str(EXAMPLE), "-o", f"{folder}/papers"],
        }, f"{folder}/cache")
    bare = times["bare Python"]
    print(f"{'whole process':<32}{'ms':>8}{'x bare Python':>16}")
    for name, seconds in times.items():
        print(f"{name:<32}{seconds * 1000:>8.0f}{seconds / bare:>16.1f}")
    made, drawn = time_in_process()
    print(f"\n{'in process':<32}{'ms':>8}{'x bare drawing':>16}")
    print(f"{'the same strings, bare canvas':<32}{drawn * 1000:>8.0f}{1:>16.1f}")
    print(f"{'all papers of the example':<32}{made * 1000:>8.0f}{made / drawn:>16.1f}")
    print(f"faces: {len(FACES)}, Python {sys.version.split()[0]}")


if __name__ == "__main__":
    main()
