"""`paperwork check SHOW`: all findings, located. Exit 0 clean or warnings only, 1 errors, 2 nothing could be read."""

from pathlib import Path

import click

from paperwork.checks import check_since
from paperwork.commands import Outcome
from paperwork.commands.report import FORMATS, format_findings
from paperwork.finding import order_findings
from paperwork.pipeline import has_errors, read_show


@click.command(
    epilog="Examples:  paperwork check show.yaml  |  paperwork check show.xlsx --format json",
)
@click.argument("show", type=click.Path())
@click.option("--format", "form", type=click.Choice(FORMATS), default="text", show_default=True, help="How to print it.")
@click.option("--venue", default="", help="The show as it is in this venue, by its name in the section venues.")
@click.option("--since", type=click.Path(), help="The last revision: says which digital pairs changed sides.")
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
def command(show: str, form: str, venue: str, since: str | None, strict: bool) -> Outcome:
    """Find everything that is wrong with SHOW, and where.

    SHOW is a show file, YAML or a workbook. It is only read.
    """
    reading = read_show(Path(show), show, venue=venue)
    findings = reading.findings
    if since and reading.show:
        old = read_show(Path(since), since, venue=venue)
        if old.show is None:
            return Outcome(aside=f"{format_findings(old.findings, 'text')}the last revision could not be used\n", code=2)
        findings = order_findings((*findings, *check_since(old.show, reading.show)))
    text = format_findings(findings, form)
    if not reading.readable:
        return Outcome(text, code=2)
    return Outcome(text, code=int(has_errors(findings) or (strict and bool(findings))))
