"""The two sides of a comparison, read for the screen, and what becomes of the papers in lines."""

import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork.terminal import Outcome
from paperwork.terminal.report import format_findings
from paperwork.text.names import shorten_ids

if TYPE_CHECKING:
    from paperwork.changes import LabelPrint, PaperPrint
    from paperwork.revisions import Comparison, Side


def read_side(name: str, venue: str) -> "Side | Outcome":
    """One revision, or what to say where it cannot be read. A venue is for a plain show file: an archive has its own."""
    from paperwork.revisions import Side, read_any

    reading = read_any(Path(name), name, venue=venue)
    if reading.show is None:
        aside = f"{format_findings(reading.findings, 'text')}{name} could not be used\n"
        return Outcome(aside=aside, code=1 if reading.readable else 2)
    return Side(reading.show, reading.findings, Path(name).name)


def format_reprint(compared: "Comparison") -> list[str]:
    """What to print again, to destroy and to keep, one line each."""
    reprint, was = compared.reprint, compared.old.label("en")
    again = [_name(paper) for paper, _ in reprint.sheets]
    again += (f"{name} {_numbers(labels)}" for name, labels in reprint.labels.items())
    gone = [_name(paper) for paper in reprint.bin]
    gone += (f"{name} {_numbers(labels)}" for name, labels in reprint.bin_labels.items())
    keep = [_name(paper) for paper in reprint.valid]
    keep += (f"{count} of {name}" for name, count in reprint.valid_labels.items())
    collect = "take down" if compared.is_move else "collect and destroy"
    return [
        _list("print again", again),
        _list(f"{collect}, of revision {was}", gone),
        _list(f"stay valid, of revision {was}", keep),
    ]


def _list(title: str, names: list[str]) -> str:
    """A title and what it holds, on as many lines as a window needs."""
    text = f"{title}: {', '.join(names) or 'nothing'}"
    return textwrap.fill(text, 110, subsequent_indent="  ", break_on_hyphens=False)


def _name(paper: "PaperPrint") -> str:
    return f"{paper.name} {paper.code}"


def _numbers(labels: "tuple[LabelPrint, ...]") -> str:
    return shorten_ids(tuple(label.number for label in labels))
