"""`paperwork convert A B`: the same show as YAML, as a workbook, or its channels as .csv."""

from pathlib import Path

import click

from paperwork.editing.conversion import write_show
from paperwork.files.refusal import Refused
from paperwork.finding import order_findings
from paperwork.intake import Source, read_source
from paperwork.output import OutputError, write_new
from paperwork.terminal import Outcome
from paperwork.terminal.report import format_findings

KINDS = {".yaml": "YAML", ".yml": "YAML", ".xlsx": "a workbook", ".csv": "the channel list"}


@click.command(
    epilog="Examples:  paperwork convert show.yaml show.xlsx  |  paperwork convert list.xlsx show.yaml  |  paperwork convert show.yaml list.csv"
)
@click.argument("a", type=click.Path())
@click.argument("b", type=click.Path())
def command(a: str, b: str) -> Outcome:
    """Write the show in A as B: YAML (.yaml), a workbook (.xlsx), or its channels (.csv).

    A may be a list from somebody else, once its questions are answered. B must not be there yet. Facts, their order and
    the way numbers are written are kept; comments stay in A.
    """
    suffix = Path(b).suffix.lower()
    if suffix not in KINDS:
        return Outcome(aside=f"{b}: name it to end in .yaml, .xlsx or .csv\n", code=2)
    source = read_source(Path(a), a)
    aside = "".join(f"{line}\n" for line in source.lines)
    aside += format_findings(order_findings(source.findings), "text") if source.findings else ""
    if source.raw is None:
        return Outcome(aside=aside, code=2)
    if any(finding.severity == "error" for finding in source.findings):
        return Outcome(aside=f"{aside}nothing was written: settle the errors above first\n", code=1)
    try:
        data, left = write_show(source.raw, suffix)
        write_new(Path(b), data)
    except Refused as refused:
        return Outcome(aside=aside + format_findings((refused.finding,), "text"), code=1)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    return Outcome(f"{b} is {KINDS[suffix]} of {a}\n" + _list_left(a, left, source, suffix), aside)


def _list_left(a: str, left: tuple[str, ...], source: Source, suffix: str) -> str:
    lines = [f"left in {a}, because a channel list has no room for it: {', '.join(left)}"] if left else []
    if source.understanding is None and Path(a).suffix.lower() in (".yaml", ".yml") and suffix != ".yaml":
        lines.append(f"comments stay in {a}")
    return "".join(f"{line}\n" for line in lines)
