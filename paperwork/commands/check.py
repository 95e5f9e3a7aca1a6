"""`paperwork check SHOW`: all findings, located. Exit 0 clean or warnings only, 1 errors, 2 nothing could be read."""

from collections.abc import Sequence
from pathlib import Path

import click

from paperwork.checks import check_since
from paperwork.finding import Finding, order_findings
from paperwork.model import Show
from paperwork.reading import has_errors, read_show
from paperwork.terminal import Outcome
from paperwork.terminal.options import ON, VENUE, choose_new
from paperwork.terminal.report import FORMATS, format_findings, summarise


@click.command(epilog="Examples:  paperwork check show.yaml  |  paperwork check show.xlsx --format json")
@click.argument("show", type=click.Path())
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="text",
    show_default=True,
    help="Text, or JSON or SARIF for programs.",
)
@VENUE
@ON
@click.option("--since", type=click.Path(), help="The last revision, to see which digital pairs changed sides.")
@click.option(
    "--mark", "copy", type=click.Path(), help="Write a copy of the workbook SHOW with each finding at its cell."
)
@click.option("--margins", is_flag=True, help="How much room each carrier has left, the tightest first.")
@click.option("--strict", is_flag=True, help="Count warnings as errors.")
@click.option("--fix", is_flag=True, help="Make every fix that needs no decision, in a new file.")
@click.option("-o", "--output", "new", type=click.Path(), help="With --fix: the new file; it must not be there yet.")
def command(
    show: str,
    form: str,
    venue: str,
    on: str,
    since: str | None,
    copy: str | None,
    margins: bool,
    strict: bool,
    fix: bool,
    new: str | None,
) -> Outcome:
    """Find what is wrong with SHOW, and where.

    SHOW is a show file or a list from somebody else. It is not changed. Each performance is checked with its own cast.
    """
    if wrong := _find_misfit(form, fix, new, margins, bool(venue or on or since or copy)):
        return Outcome(aside=wrong, code=2)
    if new:
        return write_fixed(show, new, form, strict)
    reading = read_show(Path(show), show, venue=venue, on=on)
    findings = reading.findings
    if since and reading.show:
        old = read_show(Path(since), since, venue=venue)
        if old.show is None:
            return Outcome(
                aside=f"{format_findings(old.findings, 'text')}the last revision could not be used\n", code=2
            )
        findings = order_findings((*findings, *check_since(old.show, reading.show)))
    text = format_findings(findings, form, _load(show) if form == "sarif" else b"", show=reading.show)
    if margins:
        text = add_margins(text, form, reading.show)
    aside = "".join(f"{line}\n" for line in reading.lines)
    if copy:
        marked, is_written = write_marked(Path(show), show, Path(copy), findings)
        aside += marked
        if not is_written:
            return Outcome(text, aside, 2)
    code = int(has_errors(findings) or (strict and bool(findings))) if reading.readable else 2
    return Outcome(text, aside, code)


def _find_misfit(form: str, fix: bool, new: str | None, margins: bool, is_compared: bool) -> str:
    """Which options do not go together, as a line; "" where all do."""
    if (fix or new) and (not (fix and new) or is_compared or margins):
        return "--fix needs -o NEW, and goes without --venue, --on, --since, --mark and --margins\n"
    return "--margins are printed as text or JSON: leave out --format sarif\n" if margins and form == "sarif" else ""


def add_margins(text: str, form: str, show: Show | None) -> str:
    """The findings with the margins behind them; in JSON both as one object. A show that was not built has none."""
    import json

    from paperwork.coordinate import gather_on_air
    from paperwork.coordinate.margins import list_margins
    from paperwork.terminal.margins import format_margins, plain_margins

    found = list_margins(gather_on_air(show)) if show else ()
    if form == "json":
        both = {"findings": json.loads(text), "margins": plain_margins(found)}
        return json.dumps(both, ensure_ascii=False, indent=2) + "\n"
    return f"{text}\n{format_margins(found)}" if show else text


def write_fixed(show: str, new: str, form: str, strict: bool) -> Outcome:
    """The show with its fixes in a new file, what they did, and what is left."""
    from paperwork.editing.edited import open_show
    from paperwork.editing.mending import Mending
    from paperwork.files.refusal import Refused
    from paperwork.output import OutputError, write_new

    if wrong := choose_new(show, new):
        return Outcome(aside=wrong, code=2)
    try:
        mending = Mending(open_show(Path(show), show))
        mending.run()
        made = mending.show
        if mending.made:
            write_new(Path(new), made.data)
    except Refused as refused:
        return Outcome(aside=format_findings([refused.finding], "text") + "nothing was written\n", code=2)
    except OutputError as error:
        return Outcome(aside=f"{error}\n", code=2)
    left = read_show(Path(new), new).findings if mending.made else made.reading.findings
    decide = [f"left to decide: {edit}" for one in left if one.row.decides for edit in one.edits]
    spoil = [
        f"left, as it would not help: {edit}" for one in left if one.edits in mending.refused for edit in one.edits
    ]
    end = (
        f"{new} written; {summarise(left)}"
        if mending.made
        else f"{new} was not written: there is nothing to fix without a decision"
    )
    aside = "".join(f"{line}\n" for line in (*made.lines, *dict.fromkeys((*decide, *spoil)), end))
    return Outcome(format_findings(left, form, data=made.data), aside, int(has_errors(left) or (strict and bool(left))))


def _load(show: str) -> bytes:
    """The bytes of a show in YAML; nothing of any other file."""
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import load_file, sniff

    try:
        data = load_file(Path(show), show)
        return data if sniff(data, show)[0] == "yaml" else b""
    except Refused:
        return b""


def write_marked(path: Path, name: str, copy: Path, findings: Sequence[Finding]) -> tuple[str, bool]:
    """What to say of the marked copy, and whether it was written. The workbook itself is only read."""
    from paperwork.files.refusal import Refused
    from paperwork.files.sniff import load_file, sniff
    from paperwork.files.xlsx.mark import mark_workbook
    from paperwork.output import OutputError, write_new

    try:
        data = load_file(path, name)
        if sniff(data, name)[0] != "xlsx":
            return f"{name} is not a workbook, so there are no cells to mark\n", False
        if copy.suffix.lower() != ".xlsx":
            return f"{copy}: name the copy to end in .xlsx\n", False
        marked, lost = mark_workbook(data, name, findings)
        write_new(copy, marked)
    except Refused as refused:
        return format_findings((refused.finding,), "text"), False
    except OutputError as error:
        return f"{error}\n", False
    missing = f"; it does not keep {', '.join(lost)}" if lost else ""
    return f"{copy} is a copy of {name} with each finding at its cell, for reading only{missing}\n", True
