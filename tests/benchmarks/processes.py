"""Whole commands beside bare Python and the bare imports of the libraries they need."""

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.table import Row, milliseconds, run_in_turns

EXAMPLE = Path(__file__).resolve().parents[2] / "example_show" / "show.yaml"
CHECKING = "import click, yaml"
PRINTING = CHECKING + ", jinja2, qrcode, reportlab.pdfgen.canvas, reportlab.pdfbase.ttfonts"


def measure() -> Iterator[Row]:
    """Start-up, `check` and `build` of the example, in processor time: what else runs counts little."""
    python, command = sys.executable, [sys.executable, "-m", "paperwork"]
    with tempfile.TemporaryDirectory() as folder:
        runs = run_in_turns(
            {
                "bare": [python, "-c", "pass"],
                "checking": [python, "-c", CHECKING],
                "printing": [python, "-c", PRINTING],
                "help": [*command, "--help"],
                "check": [*command, "check", str(EXAMPLE)],
                "sheet": [*command, "check", str(EXAMPLE.with_suffix(".xlsx"))],
                "paper": [*command, "build", str(EXAMPLE), "--only", "channel-chart", "-o", f"{folder}/paper"],
                "build": [*command, "build", str(EXAMPLE), "-o", f"{folder}/papers"],
            },
            f"{folder}/cache",
        )
    bare = runs["bare"].cpu_s

    def row(what: str, name: str, aim: str = "") -> Row:
        return Row(what, milliseconds(runs[name].cpu_s), runs[name].cpu_s / bare, "bare Python", aim)

    yield row("bare Python", "bare")
    yield row("imports of what `check` needs", "checking")
    yield row("imports of what `build` needs", "printing")
    yield row(f"`--help` ({milliseconds(runs['help'].cpu_s - bare)} above bare)", "help", "90 ms above bare")
    yield row("`check` of the example", "check", "14 x")
    yield row("`check` of its workbook", "sheet", "1.3 x its YAML")
    yield row("one paper of the example", "paper")
    yield row("`build` of the example: all papers, book, index, pictures", "build", "2 s")
    yield Row("peak memory of `build`", f"{runs['build'].peak_mb:.0f} MB", aim="200 MB")
