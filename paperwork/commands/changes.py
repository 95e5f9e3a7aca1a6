"""`paperwork changes OLD NEW`: what changed, who must act, what to print again and what to destroy; or a history."""

import json
import os
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from paperwork.editions import line_folder
from paperwork.finding import Finding
from paperwork.terminal import Outcome
from paperwork.terminal.options import FORMAT, ON
from paperwork.terminal.publishing import publish_papers
from paperwork.terminal.report import format_findings
from paperwork.terminal.sides import format_reprint, read_side

if TYPE_CHECKING:
    from collections.abc import Sequence

    from paperwork.archive import Revision
    from paperwork.changes import PagePrint, PaperFate
    from paperwork.revisions import Comparison, Side


@click.command(
    epilog=(
        "Examples:  paperwork changes old.yaml new.yaml  |  paperwork changes show-B.zip show.xlsx -o changes  |  "
        "paperwork changes archives"
    )
)
@click.argument("old", type=click.Path())
@click.argument("new", type=click.Path(), required=False)
@FORMAT
@click.option("--venue", default="", help="The venue of the show files. An archive or a show book knows its own.")
@click.option("--old-venue", default=None, help="The same for OLD alone; '' is the home venue.  [default: as --venue]")
@ON
@click.option("-o", "--output", type=click.Path(), help="Folder for the printed change list.")
@click.pass_context
def command(
    context: click.Context,
    old: str,
    new: str | None,
    form: str,
    venue: str,
    old_venue: str | None,
    on: str,
    output: str | None,
) -> Outcome:
    """List what changed from OLD to NEW, who has to know, and what to print again.

    Each is a show file, an archive or a show book. A folder of archives lists every revision in it. What to print
    again is among the papers of the whole run, or with --on of one performance.
    """
    if os.path.isdir(old):
        return (
            _format_history(*line_folder(Path(old), old), old, form)
            if new is None
            else Outcome(aside="name two files, or one folder alone\n", code=2)
        )
    if new is None:
        return Outcome(aside="name the new show too, or a folder of archives\n", code=2)
    compared = compare_files(old, new, venue, venue if old_venue is None else old_venue, on)
    if isinstance(compared, Outcome):
        return compared
    text = _format_json(compared) if form == "json" else format_changes(compared)
    aside = "".join(map(_count_errors, (compared.old, compared.new), (old, new)))
    if output is None:
        return Outcome(text, aside)
    from paperwork.revisions import compare_revisions, make_change_list

    own = compare_revisions(compared.old, compared.new)
    papers = make_change_list(own, made=(context.obj or {}).get("made", ""))
    printed = publish_papers(Path(output), papers, compared.new.show)
    return Outcome(text + printed.text, aside + printed.aside, printed.code)


def _count_errors(side: "Side", name: str) -> str:
    count = sum(finding.severity == "error" for finding in side.findings)
    errors = "1 error" if count == 1 else f"{count} errors"
    return f"{name} has {errors}; a frequency that is not certain counts as none here\n" if count else ""


def compare_files(old: str, new: str, venue: str, old_venue: str, on: str = "") -> "Comparison | Outcome":
    """The comparison of two files of any kind, its lines in English; or what to say where one cannot be read."""
    from paperwork.revisions import compare_revisions

    before = read_side(old, old_venue, on)
    if isinstance(before, Outcome):
        return before
    after = read_side(new, venue, on)
    return after if isinstance(after, Outcome) else compare_revisions(before, after, language="en")


def format_changes(compared: "Comparison") -> str:
    """The comparison as lines for the screen, by who must act; then what becomes of the papers."""
    from paperwork.changes import ACTS, list_shuffles
    from paperwork.text.words import words_of

    words = words_of("en")
    lines = [f"revision {compared.old.label('en')} to {compared.new.label('en')}"]
    if not compared.entries:
        lines += ["no fact of the show has changed"]
    lines += (
        words["change shuffled"].format(count=len(one.ids), field=one.field) for one in list_shuffles(compared.entries)
    )
    for act in ACTS:
        mine = [entry for entry in compared.entries if act in entry.acts]
        lines += (
            [
                "",
                words[f"act {act}"],
                *(
                    f"  {entry.what}{f', {entry.field}' if entry.field else ''}: {entry.old} -> {entry.new}"
                    for entry in mine
                ),
            ]
            if mine
            else []
        )
    return "\n".join([*lines, "", *format_reprint(compared)]) + "\n"


def _format_json(compared: "Comparison") -> str:
    from paperwork.changes import list_shuffles
    from paperwork.model.facts import fingerprint_show

    reprint = compared.reprint
    sides = {
        name: {"revision": side.show.production.revision, "fingerprint": fingerprint_show(side.show), "file": side.name}
        for name, side in (("old", compared.old), ("new", compared.new))
    }
    changes = [
        {
            "sign": entry.sign,
            "section": entry.section,
            "id": entry.id,
            "fact": entry.name,
            "what": entry.what,
            "old": entry.old,
            "new": entry.new,
            "acts": list(entry.acts),
        }
        for entry in compared.entries
    ]
    shuffled = [asdict(one) for one in list_shuffles(compared.entries)]
    papers = {
        "print": [_plain(fate, fate.printed) for fate in reprint.papers if fate.printed],
        "destroy": [_plain(fate, fate.destroyed) for fate in reprint.papers if fate.destroyed],
        "valid": [_plain(fate, fate.valid) for fate in reprint.papers if fate.valid],
        "print labels": {name: [label.number for label in labels] for name, labels in reprint.labels.items()},
        "destroy labels": {name: [label.number for label in labels] for name, labels in reprint.bin_labels.items()},
    }
    return (
        json.dumps({**sides, "changes": changes, "shuffled": shuffled, "papers": papers}, ensure_ascii=False, indent=2)
        + "\n"
    )


def _plain(fate: "PaperFate", pages: "Sequence[PagePrint]") -> dict[str, Any]:
    paper = fate.paper
    listed = [{"page": page.number, "code": page.code} for page in pages]
    return {"folder": paper.folder, "name": paper.name, "title": paper.title, "pages": listed}


def _format_history(lined: "Sequence[tuple[Revision, str]]", wrong: list[Finding], name: str, form: str) -> Outcome:
    aside = format_findings(wrong, "text") if wrong else ""
    if form == "json":
        listed = [
            {
                "title": one.title,
                "revision": one.revision,
                "revised": one.revised,
                "reason": one.reason,
                "file": one.file,
                "fingerprint": one.fingerprint,
                "sha256": one.digest,
                "public": one.is_public,
                "odd": odd,
            }
            for one, odd in lined
        ]
        return Outcome(json.dumps(listed, ensure_ascii=False, indent=2) + "\n", aside, int(bool(wrong)))
    lines: list[str] = []
    title = None
    for one, odd in lined:
        if one.title != title:
            title = one.title
            lines.append(title or "(no title)")
        public = "(public)" if one.is_public else ""
        parts = (one.revision or "-", one.revised, one.fingerprint, one.file, public, one.reason)
        lines.append("  " + "  ".join(filter(None, parts)))
        lines += [f"      {odd}"] if odd else []
    return Outcome("\n".join(lines or [f"{name} holds no archive of a show"]) + "\n", aside, int(bool(wrong)))
