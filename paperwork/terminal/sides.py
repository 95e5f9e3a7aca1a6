"""The two sides of a comparison, read for the screen, and what becomes of the papers in lines."""

import textwrap
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from paperwork.terminal import Outcome
from paperwork.terminal.options import SEVERAL
from paperwork.terminal.report import format_findings
from paperwork.text.names import shorten_ids

if TYPE_CHECKING:
    from paperwork.changes import LabelPrint, PagePrint, PaperFate
    from paperwork.revisions import Comparison, Side


def read_side(name: str, venue: str, on: str) -> "Side | Outcome":
    """One revision, or what to say where it cannot be read. A venue is for a plain show file: an archive has its own.
    `on` is the performance that it is staged for."""
    from paperwork.revisions import Side, read_any

    reading = read_any(Path(name), name, venue=venue, on=on)
    if reading.show is None:
        return Outcome(
            aside=f"{format_findings(reading.findings, 'text')}{name} could not be used\n",
            code=1 if reading.readable else 2,
        )
    if reading.show.is_of_days:
        return Outcome(aside=f"{SEVERAL.format(on=on)}\n", code=2)
    return Side(reading.show, reading.findings, Path(name).name, reading.recorded)


def format_reprint(compared: "Comparison") -> list[str]:
    """What to print again, to destroy and to keep, one line each."""
    reprint, was = compared.reprint, compared.old.label("en")
    again = [name_pages(fate, fate.printed) for fate in reprint.papers if fate.printed]
    again += (f"{name} {_numbers(labels)}" for name, labels in reprint.labels.items())
    gone = [name_pages(fate, fate.destroyed, coded=True) for fate in reprint.papers if fate.destroyed]
    gone += (f"{name} {_numbers(labels)}" for name, labels in reprint.bin_labels.items())
    keep = [name_pages(fate, fate.valid) for fate in reprint.papers if fate.valid]
    keep += (f"{count} of {name}" for name, count in reprint.valid_labels.items())
    collect = "take down" if compared.is_move else "collect and destroy"
    return [
        _list("print again", again),
        _list(f"{collect}, of revision {was}", gone),
        _list(f"still valid, of revision {was}", keep),
    ]


def _list(title: str, names: list[str]) -> str:
    """A title and what it holds, on as many lines as a window needs."""
    return textwrap.fill(
        f"{title}: {'; '.join(names) or 'nothing'}", 110, subsequent_indent="  ", break_on_hyphens=False
    )


def name_pages(fate: "PaperFate", pages: "Sequence[PagePrint]", *, coded: bool = False) -> str:
    """Some pages of a sheet: `channel-chart pages 1, 3`, each with its code where asked; of a single page the name."""
    if coded:
        listed = ", ".join(page.code if fate.count == 1 else f"{page.number} {page.code}" for page in pages)
    else:
        listed = "" if fate.count == 1 else shorten_ids([str(page.number) for page in pages])
    word = "" if fate.count == 1 else "page" if len(pages) == 1 else "pages"
    return " ".join(filter(None, (fate.paper.name, word, listed)))


def _numbers(labels: "tuple[LabelPrint, ...]") -> str:
    return shorten_ids(tuple(label.number for label in labels))
