"""What the page shows, as plain values for its templates."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from paperwork.finding import Finding
from paperwork.index_page import count_findings, describe_show, list_people
from paperwork.intake.questions import KINDS, Question
from paperwork.intake.session import list_screens
from paperwork.model import Show
from paperwork.pipeline import LabelChoice
from paperwork.render.stocks import load_stocks
from paperwork.serve.excerpts import make_excerpts
from paperwork.serve.shows import Opened, Shelf
from paperwork.templating import render_policy, render_template

POLICY = {"images": "'self' data:", "more": "connect-src 'self'; form-action 'self'"}

SIGNS = {"new": "new", "gone": "gone", "name": "renamed", "moved": "moved", "changed": "changed"}

ACTS = {
    "pack": "set the pack", "label": "stick a label", "patch": "patch", "wardrobe": "tell wardrobe",
    "coordinator": "tell the coordinator", "know": "know",
}
"""Who must act on a change, in the order of the change list."""


def render_start(shelf: Shelf, base: str, said: Sequence[str] = ()) -> str:
    """The first page: drop a show, or open one of the folder."""
    policy = render_policy(style="look.css", script="page.js", **POLICY)
    return render_template("start.html.j2", policy=policy, base=base, files=shelf.list_files(), folder=shelf.folder.name, said=said)


def render_show(opened: Opened, shelf: Shelf, base: str, said: Sequence[str] = ()) -> str:
    """The page of one show."""
    reading, printed = opened.reading, opened.papers.printed if opened.papers else ()
    findings = opened.papers.findings if opened.papers else reading.findings
    excerpts, loose = make_excerpts(opened.data, opened.name, findings)
    return render_template(
        "show.html.j2",
        policy=render_policy(style="look.css", script="page.js", **POLICY),
        base=base, here=f"{base}shows/{opened.id}/", file=opened.name, said=said, told=reading.told, opened=opened,
        told_findings=[_finding(number, finding) for number, finding in enumerate(findings, 1)],
        excerpts=excerpts, loose=loose, counted=count_findings(findings),
        screens=_describe_screens(opened.questions), settled=_describe_settled(opened),
        others=[name for name in shelf.list_files() if name != opened.name],
        show=_describe(opened, printed, findings) if reading.show else None,
        labels=_describe_labels(opened) if printed and any(paper.tags for paper in printed) else None,
        tonight=_describe_tonight(opened, reading.show) if reading.show else None,
        compared=_describe_comparison(opened) if opened.compared else None,
    )


def _finding(number: int, finding: Finding) -> dict[str, Any]:
    return {
        "number": number, "severity": finding.severity, "text": finding.text, "fix": finding.fix, "code": finding.code,
        "place": str(finding.place), "papers": (),
    }


def _describe(opened: Opened, printed: Sequence[Any], findings: Sequence[Finding]) -> dict[str, Any]:
    return describe_show(opened.reading.show, printed, findings)


def _describe_screens(questions: Sequence[Question]) -> list[dict[str, Any]]:
    numbers = {(question.kind, question.about): number for number, question in enumerate(questions, 1)}
    return [
        {"title": screen.title, "questions": [(numbers[question.kind, question.about], question) for question in screen.questions]}
        for screen in list_screens(questions)
    ]


def _describe_settled(opened: Opened) -> list[dict[str, str]]:
    return [
        {"key": f"{kind}|{about}", "title": KINDS.get(kind, kind), "about": about, "answer": answer}
        for (kind, about), answer in (opened.answers or {}).items()
    ]


def _describe_labels(opened: Opened) -> dict[str, Any]:
    """The first label sheet, as cells to click: the stock that is chosen, else that of the pack labels."""
    stocks = load_stocks()
    chosen = opened.labels.stock or _stock_of(opened)
    stock = stocks.get(chosen) or next(iter(stocks.values()))
    used = {*opened.labels.blocked, *range(1, opened.labels.start)}
    return {
        "stocks": list(stocks), "stock": stock.id, "columns": stock.columns,
        "cells": [(cell, cell in used) for cell in range(1, stock.cells + 1)], "dpi": opened.labels.printer.dpi,
    }


def _stock_of(opened: Opened) -> str:
    from paperwork.sheets.pack_labels import STOCKS

    return STOCKS[opened.reading.show.production.paper] if opened.reading.show else ""


def read_labels(fields: Sequence[tuple[str, str]], before: LabelChoice) -> LabelChoice:
    """The choice of labels that a form tells: another stock begins with a whole sheet."""
    from paperwork.document import Printer

    told = dict(fields)
    stock = told.get("stock", "")
    if stock not in load_stocks():
        return before
    most = load_stocks()[stock].cells
    peeled = tuple(sorted({int(v) for k, v in fields if k == "peeled" and v.isascii() and v.isdigit() and 0 < int(v[:6]) <= most}))
    dpi = int(told["dpi"]) if told.get("dpi") in ("203", "300", "600") else before.printer.dpi
    same = told.get("shown", stock) == stock and len(peeled) < most
    return LabelChoice(stock, blocked=peeled if same else (), printer=Printer(dpi), proof=False)


def _describe_tonight(opened: Opened, show: Show) -> dict[str, Any]:
    names = [name for name in list_people(show) if _plays(show, name)]
    return {
        "people": [(name, name in opened.away) for name in names],
        "packs": [
            (channel.id, channel.pack, " / ".join(channel.roles) or channel.by, channel.id in opened.dead)
            for channel in show.channels.values() if channel.pack and not channel.spare
        ],
        "lines": list(_tell_tonight(opened)),
        "papers": opened.tonight.printed if opened.tonight else (),
    }


def _plays(show: Show, name: str) -> bool:
    return any(role.by == name for role in show.roles.values()) or any(channel.by == name for channel in show.channels.values())


def _tell_tonight(opened: Opened) -> Iterator[tuple[bool, str]]:
    """The evening in a few lines; True: nobody covers."""
    if opened.evening is None:
        return
    for change in opened.evening.uncovered:
        yield True, f"No cover: {change.role} ({change.instead_of}), {_count_scenes(change.scenes)}"
    for change in opened.evening.changes:
        number = f"channel {change.channel}" if change.channel else "no channel"
        yield False, f"{change.role}: {change.by} for {change.instead_of}, {number}, {_count_scenes(change.scenes)}"


def _count_scenes(scenes: Sequence[int]) -> str:
    return f"{len(scenes)} scene{'s' if len(scenes) != 1 else ''}"


def _describe_comparison(opened: Opened) -> dict[str, Any]:
    compared = opened.compared
    reprint = compared.reprint
    return {
        "old": compared.old.revision, "new": compared.new.revision,
        "entries": [
            {
                "sign": SIGNS[entry.sign], "what": entry.what, "field": entry.field, "old": entry.old, "new": entry.new,
                "acts": ", ".join(ACTS.get(act, act) for act in entry.acts),
            }
            for entry in compared.entries
        ],
        "reprint": [paper.title for paper, _ in reprint.sheets],
        "labels": _name_labels(reprint.labels), "bin": [paper.title for paper in reprint.bin],
        "bin_labels": _name_labels(reprint.bin_labels), "valid": [paper.title for paper in reprint.valid],
        "papers": opened.since.printed if opened.since else (),
    }


def _name_labels(labels: Mapping[str, Sequence[Any]]) -> list[str]:
    return [f"{label.number} {label.role} ({label.code})" for found in labels.values() for label in found]
