"""What the page shows, as plain values for its templates."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from paperwork.archive.sums import ABOUT
from paperwork.changes import PagePrint, PaperFate
from paperwork.editions import name_archive
from paperwork.finding import Finding
from paperwork.index_page import count_findings, describe_show, list_people
from paperwork.intake.questions import KINDS, Question
from paperwork.intake.reading import describe_reading, sort_notes
from paperwork.intake.session import list_screens
from paperwork.model import Show
from paperwork.pipeline import Papers
from paperwork.place import Place
from paperwork.revisions import Comparison
from paperwork.serve.edit.saving import FORMER
from paperwork.serve.excerpts import Fragment, make_excerpts, read_rows
from paperwork.serve.guide import find_next
from paperwork.serve.labels import describe_labels, describe_printing
from paperwork.serve.readers import READERS, list_joined, say_paper
from paperwork.serve.shelf import Shelf
from paperwork.serve.shows import Opened
from paperwork.serve.wording import say_here
from paperwork.serve.work.choosing import describe_edition
from paperwork.serve.work.selection import list_parts
from paperwork.sheets.blanks import FOLDER as BLANK
from paperwork.text.names import fold
from paperwork.text.templating import render_policy, render_template

SCRIPTS = ("alive.js", "fix.js", "page.js", "preview.js")

POLICY: Mapping[str, Any] = {
    "images": "'self' data:",
    "linked": True,
    "more": "connect-src 'self'; form-action 'self'; frame-src 'self'; font-src 'self'",
}

SIGNS = {"new": "new", "gone": "gone", "name": "renamed", "moved": "moved", "changed": "changed"}

ACTS = {
    "pack": "set the pack",
    "label": "stick a label",
    "patch": "patch",
    "wardrobe": "let wardrobe know",
    "coordinator": "let the coordinator know",
    "know": "for information",
}
"""Who must act on a change, in the order of the change list."""


def render_start(shelf: Shelf, base: str, said: Sequence[str] = ()) -> str:
    """The first page: drop a show, or open one of the folder."""
    policy = render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY)
    files, left_off = shelf.list_files()
    return render_template(
        "start.html.j2",
        policy=policy,
        base=base,
        files=[name for name in files if not FORMER.search(Path(name).stem)],
        former=[name for name in files if FORMER.search(Path(name).stem)],
        left_off=left_off,
        folder=shelf.folder.name,
        said=said,
        opened=shelf.opened,
    )


def render_closed() -> str:
    """The last page: the server has ended."""
    return render_template("closed.html.j2", policy=render_policy(styles=("look.css",)))


def render_closing(base: str, others: int, unsaved: Sequence[Opened]) -> str:
    """The question before the end: how many other tabs there are, and the shows whose answers are in no file."""
    policy = render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY)
    return render_template("closing.html.j2", policy=policy, base=base, said=(), others=others, unsaved=unsaved)


def render_way(address: str) -> str:
    """A page that leads on to an address at once."""
    return render_template("way.html.j2", policy=render_policy(styles=("look.css",)), address=address)


def render_show(opened: Opened, shelf: Shelf, base: str, said: Sequence[str] = (), reader: str = "") -> str:
    """The page of one show; for one `reader` with their papers first, and no other papers."""
    reading, printed = opened.reading, opened.papers.printed if opened.papers else ()
    findings = opened.papers.findings if opened.papers else reading.findings
    excerpts, loose = make_excerpts(opened.data, opened.name, findings)
    return render_template(
        "show.html.j2",
        policy=render_policy(styles=("look.css",), scripts=SCRIPTS, **POLICY),
        base=base,
        here=f"{base}shows/{opened.id}/",
        file=opened.name,
        said=said,
        lines=reading.lines,
        next=find_next(opened),
        reader=reader,
        counted_papers=sum(reader in ("", one.folder) for one in printed),
        readers=READERS,
        missing=[(say_paper(one), needs) for one, needs in (opened.papers.missing if opened.papers else ())],
        joined=[one for one in (*READERS, BLANK) if opened.papers and list_joined(opened.papers, one)],
        mendable=any(one.edits and not one.row.decides for one in findings),
        opened=opened,
        editable=opened.source.raw is not None and opened.source.understanding is None,
        finding_rows=list(_describe_findings(findings, opened.questions)),
        excerpts=excerpts,
        loose=loose,
        counted=count_findings(findings),
        screens=list(_describe_screens(opened)),
        settled=_describe_settled(opened),
        others=[name for name in shelf.list_files().names if name != opened.name],
        show=describe_show(reading.show, printed, findings) if reading.show else None,
        edition=describe_edition(opened),
        printing=describe_printing(opened),
        labels=describe_labels(opened, printed, shelf.printers),
        tonight=_describe_tonight(opened, reading.show) if reading.show and not reading.show.is_of_days else None,
        parts=list_parts(opened.papers),
        archive=describe_archive(opened),
        share=shelf.lending.describe(opened) if shelf.lending else None,
        compared=_describe_comparison(opened.compared, opened.since) if opened.compared else None,
        **_describe_reading(opened),
    )


def _describe_findings(findings: Sequence[Finding], questions: Sequence[Question]) -> Iterator[dict[str, Any]]:
    """The findings as rows; one that asks what a question asks leads to it, in place of naming a command."""
    asked = {question.place: number for number, question in reversed(list(enumerate(questions, 1)))}
    for number, finding in enumerate(findings, 1):
        question = asked.get(finding.place, 0) if finding.row.asks else 0
        yield {
            "number": number,
            "severity": finding.severity,
            "text": finding.text,
            "fix": "" if question else say_here(finding.fix),
            "code": finding.code,
            "place": str(finding.place),
            "papers": (),
            "question": question,
            "usable": bool(finding.edits),
        }


def _describe_reading(opened: Opened) -> dict[str, list[dict[str, Any]]]:
    """Of a list that is not ours, a line for each sheet, table and column, and the cells that were not taken as they are
    written, or are in doubt, with the number of the question about each; the most doubtful first."""
    understanding = opened.source.understanding
    if understanding is None:
        return {"decisions": [], "noted": []}
    lines = describe_reading(understanding.decisions, how=False)
    numbers = {(one.kind, one.about): number for number, one in enumerate(opened.questions, 1)}
    noted = [
        {"place": _say_place(one.place), "note": one, "question": numbers.get((one.kind, one.about), 0)}
        for one in sort_notes(understanding.notes)
    ]
    return {"decisions": [{"sign": line[0].strip(), "line": line[1:].strip()} for line in lines], "noted": noted}


def _describe_screens(opened: Opened) -> Iterator[dict[str, Any]]:
    """The questions, one screen for each kind, each with the row of the sheet that it is about."""
    questions = opened.questions
    numbers = {(question.kind, question.about): number for number, question in enumerate(questions, 1)}
    rows = read_rows(opened.data, opened.name, [question.place for question in questions])
    for screen in list_screens(questions):
        yield {
            "title": screen.title,
            "questions": [
                _describe_question(numbers[one.kind, one.about], one, rows.get(one.place, ()))
                for one in screen.questions
            ],
            "for_all": screen.questions[0].choices if screen.is_uniform else (),
        }


def _describe_question(number: int, question: Question, row: Sequence[Fragment]) -> dict[str, Any]:
    return {"number": number, "asks": question, "row": row, "place": _say_place(question.place)}


def _say_place(place: Place) -> str:
    """Where in the file that is being read: its name is said already."""
    return str(place).removeprefix(place.file).lstrip() if place.sheet else f"line {place.line}" if place.line else ""


def _describe_settled(opened: Opened) -> list[dict[str, str]]:
    return [
        {"key": f"{kind}|{about}", "title": KINDS.get(kind, kind), "about": about, "answer": answer}
        for (kind, about), answer in (opened.answers or {}).items()
    ]


def _describe_tonight(opened: Opened, show: Show) -> dict[str, Any]:
    names = sorted((name for name in list_people(show) if _plays(show, name)), key=fold)
    return {
        "people": [(name, name in opened.away) for name in names],
        "packs": [
            (channel.id, channel.pack, " / ".join(show.roles_on(channel)) or channel.by, channel.id in opened.dead)
            for channel in show.channels.values()
            if channel.pack and not channel.spare
        ],
        "lines": list(_list_tonight(opened)),
        "papers": opened.tonight.printed if opened.tonight else (),
    }


def _plays(show: Show, name: str) -> bool:
    return any(role.by == name for role in show.roles.values()) or any(
        channel.by == name for channel in show.channels.values()
    )


def _list_tonight(opened: Opened) -> Iterator[dict[str, str]]:
    """The evening in a few lines, those that nobody covers first: `by` is empty there."""
    if opened.evening is None:
        return
    for change in opened.evening.uncovered:
        yield {"role": change.role, "by": "", "for": change.instead_of, "rest": _count_scenes(change.scenes)}
    for change in opened.evening.changes:
        number = f"channel {change.channel}" if change.channel else "no channel"
        yield {
            "role": change.role,
            "by": change.by,
            "for": change.instead_of,
            "rest": f"{number}, {_count_scenes(change.scenes)}",
        }


def _count_scenes(scenes: Sequence[int]) -> str:
    return f"{len(scenes)} scene{'s' if len(scenes) != 1 else ''}"


def _describe_comparison(compared: Comparison, since: Papers | None) -> dict[str, Any]:
    reprint = compared.reprint
    return {
        "old": compared.old.revision,
        "new": compared.new.revision,
        "entries": [
            {
                "sign": SIGNS[entry.sign],
                "what": entry.what,
                "field": entry.field,
                "old": entry.old,
                "new": entry.new,
                "acts": ", ".join(ACTS.get(act, act) for act in entry.acts),
            }
            for entry in compared.entries
        ],
        "reprint": [_name_pages(fate, fate.printed) for fate in reprint.papers if fate.printed],
        "labels": _name_labels(reprint.labels),
        "collect": "Take down" if compared.is_move else "Destroy",
        "bin": [_name_pages(fate, fate.destroyed) for fate in reprint.papers if fate.destroyed],
        "bin_labels": _name_labels(reprint.bin_labels),
        "valid": [_name_pages(fate, fate.valid) for fate in reprint.papers if fate.valid],
        "papers": since.printed if since else (),
    }


def _name_pages(fate: PaperFate, pages: Sequence[PagePrint]) -> str:
    """A paper by its title, with its pages where it has several, each with its code."""
    listed = ", ".join(page.code if fate.count == 1 else f"{page.number} ({page.code})" for page in pages)
    word = "page" if len(pages) == 1 else "pages"
    return f"{fate.paper.title} ({listed})" if fate.count == 1 else f"{fate.paper.title}, {word} {listed}"


def _name_labels(labels: Mapping[str, Sequence[Any]]) -> list[str]:
    return [f"{label.number} {label.role} ({label.code})" for found in labels.values() for label in found]


HEAD_BYTES = 65_536
"""How much of a zip says whether it is an archive of ours: what it says of itself is first in it."""


def describe_archive(opened: Opened) -> dict[str, Any]:
    """Its name, whether it is there, and the archives whose history it may carry on. None is read whole for it."""
    show, stem = opened.reading.show, opened.name.rpartition(".")[0]
    name = name_archive(stem, show) if show else ""
    names = sorted(_list_names(opened, stem), key=fold)
    return {"name": name, "is_there": name in names, "earlier": [one for one in names if one != name]}


def _list_names(opened: Opened, stem: str) -> list[str]:
    if opened.folder is None:
        return []
    found = []
    for path in opened.folder.glob("*.zip"):
        if path.name.startswith(f"{stem}-") and not path.stem.endswith("-public") and path.is_file():
            with path.open("rb") as file:
                head = file.read(HEAD_BYTES)
            found += [path.name] * (head.startswith(b"PK") and ABOUT.encode() in head)
    return found
