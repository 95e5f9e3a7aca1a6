"""`paperwork check SHOW`: all findings, located. Exit 0 clean or warnings only, 1 errors, 2 nothing could be read."""

from pathlib import Path

import click

from paperwork.commands import Outcome
from paperwork.commands.report import FORMATS, format_findings
from paperwork.pipeline import has_errors, read_show


@click.command(
    epilog="Examples:  paperwork check show.yaml  |  paperwork check show.xlsx --format json",
)
@click.argument("show", type=click.Path())
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="How to print it.")
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
def command(show: str, form: str, strict: bool) -> Outcome:
    """Find everything that is wrong with SHOW, and where.

    SHOW is a show file, YAML or a workbook. It is only read.
    """
    reading = read_show(Path(show), show)
    text = format_findings(reading.findings, form)
    if not reading.readable:
        return Outcome(text, code=2)
    return Outcome(text, code=int(has_errors(reading.findings) or (strict and bool(reading.findings))))
