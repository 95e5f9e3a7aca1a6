"""Papers put into their folder, and the lines that say so."""

import textwrap
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork.reading import has_errors
from paperwork.terminal import Outcome
from paperwork.terminal.report import conclude, format_findings
from paperwork.text.names import shorten_ids

if TYPE_CHECKING:
    from paperwork.document.printed import Printed
    from paperwork.model import Show
    from paperwork.pipeline import Papers

CUT_OFF = {
    "finished": "an earlier run was cut off: its papers were finished first",
    "undone": "an earlier run was cut off: its papers were taken back first",
}


def publish_papers(folder: Path, papers: "Papers", show: "Show", closing: Sequence[str] = ()) -> Outcome:
    """Put the papers of a show into a folder, and say what was printed and what was not. `closing` is said in place of
    the word that all is well."""
    from paperwork.output import OutputError, publish

    aside = format_findings(papers.findings, "text", show=show) if papers.findings else ""
    if any(finding.row.stops for finding in papers.findings):
        return Outcome(aside=f"{aside}no papers were printed\n", code=2)
    try:
        report = publish(folder, papers.files, title=show.production.title, venue=show.edition)
    except OutputError as error:
        return Outcome(aside=f"{aside}{error}\n", code=2)
    lines = [CUT_OFF[report.earlier]] if report.earlier else []
    lines += [_line_of(folder, paper) for paper in papers.printed]
    gone = sum(path.endswith(".pdf") for path in report.removed)
    lines += [f"{gone} paper{'s' if gone > 1 else ''} of an earlier run removed from {folder}"] if gone else []
    lines += _list_missing(papers.missing)
    lines.append(f"open {folder / 'index.html'}" + (f"  (the papers for {show.edition})" if show.edition else ""))
    lines += [] if papers.findings else closing or [conclude((), show)]
    return Outcome("\n".join(lines) + "\n", aside, int(has_errors(papers.findings)))


def _list_missing(missing: Sequence[tuple[str, str]]) -> Iterable[str]:
    """A line for each thing that several papers lack, and one for all the papers that lack one of their own."""
    by_need: dict[str, list[str]] = {}
    for name, needs in missing:
        by_need.setdefault(needs, []).append(name)
    alone = [f"{names[0]} (no {needs})" for needs, names in by_need.items() if len(names) == 1]
    lines = [
        f"not printed, no {needs}: {', '.join(names)}"
        for needs, names in sorted(by_need.items(), key=lambda pair: -len(pair[1]))
        if len(names) > 1 or len(alone) == 1
    ]
    for text in [*lines, f"not printed: {', '.join(alone)}"] if len(alone) > 1 else lines:
        yield textwrap.fill(text, 110, subsequent_indent="  ", break_on_hyphens=False)


def _line_of(folder: Path, paper: "Printed") -> str:
    pages, stamped = len(paper.pages), paper.stamped
    said = (
        ""
        if not stamped
        else ", stamped"
        if len(stamped) == pages
        else f", stamped: {shorten_ids([*map(str, stamped)])}"
    )
    return f"{folder / paper.path}  ({pages} page{'s' if pages != 1 else ''}{said})"
