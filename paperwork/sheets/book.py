"""The show book's own pages: cover, contents, what is unresolved, all cautions in one place. The papers stand between."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from paperwork.document import Column, Group, Note, Panel, Panels, Row, Sheet, Table, cell, fact, row, words
from paperwork.facts import fingerprint_show
from paperwork.finding import Finding
from paperwork.model import Production, Show
from paperwork.sheetfacts import code
from paperwork.sheets.forms import keep
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import HAND, HAND_STRONG, NOTE, RACK_ROLE, RACK_STRONG
from paperwork.words import format_date, words_of

NAME = "show-book"
PAGE_UM = 22_000
"""What a page number in the contents is given: the same for any number, so that pages are counted before it is known."""

MOST_FINDINGS = 200


class Entry(NamedTuple):
    """One line of the contents: a paper, its folder, its code, and its first page as printed ("" until it is known)."""

    folder: str
    title: str
    code: str
    page: str


def make_cover(show: Show) -> Sheet:
    """What the book is of: everything that tells it from another revision, another venue, another year."""
    w, production = words_of(show.production.language), show.production
    rows = tuple(
        row(cell(words(w[f"book {key}"], RACK_STRONG)), cell(fact(value, RACK_ROLE), fact(under, HAND)))
        for key, value, under in _told(show) if value
    )
    table = Table((Column("", 52_000), Column("")), (Group(rows),), row_um=16_000)
    facts = Note(w["book code"].format(code=fingerprint_show(show)), NOTE, (fingerprint_show(show),))
    title = production.title or production.company or w["book"]
    return keep(frame_sheet(show, NAME, title, (table, facts), subtitle=(w["book"],), cautions=(w["licence caution"],)))


def _told(show: Show) -> Iterator[tuple[str, str, str]]:
    production = show.production
    packs = sum(not channel.spare for channel in show.channels.values())
    yield "company", production.company, ""
    yield "venue", production.venue, _days(production, production.first_day, production.last_day)
    yield "revision", production.revision, production.reason
    yield "revised", format_date(production.revised, production.language), ""
    yield "earlier", ", ".join(one for one in production.revisions if one != production.revision), ""
    licensed = _days(production, production.licensed_from, production.licensed_to)
    yield "licence", production.licence, "  ·  ".join(filter(None, (production.licensed_for, licensed)))
    yield "contact", production.contact, ""
    yield "channels", f"{packs} + {len(show.channels) - packs}", ""
    yield "scenes", str(len(show.scenes)) if show.scenes else "", ""


def _days(production: Production, first: str, last: str) -> str:
    days = [format_date(day, production.language) for day in (first, last) if day]
    return " – ".join(dict.fromkeys(days))


def list_entries(sheets: Sequence[tuple[str, Sheet]]) -> list[Entry]:
    """The contents of the sheets by folder, pages not yet known; of two with one title each is told with its subtitle."""
    titles = Counter(sheet.title for _, sheet in sheets)
    return [
        Entry(folder, f"{sheet.title}, {sheet.subtitle[0]}" if titles[sheet.title] > 1 and sheet.subtitle else sheet.title, code(sheet), "")
        for folder, sheet in sheets
    ]


def make_contents(show: Show, entries: Sequence[Entry]) -> Sheet:
    """Every paper with its code and its first page in the book, by reader."""
    w = words_of(show.production.language)
    columns = (Column(w["book head paper"]), Column(w["book head code"], 30_000), Column(w["book head page"], PAGE_UM, align="right"))
    folders = dict.fromkeys(entry.folder for entry in entries)
    groups = tuple(
        Group(tuple(_entry_row(entry) for entry in entries if entry.folder == folder), w[f"folder {folder}"]) for folder in folders
    )
    return keep(frame_sheet(show, "contents", w["book contents"], (Table(columns, groups, row_um=8_000),), subtitle=(w["book order"],)))


def _entry_row(entry: Entry) -> Row:
    return row(cell(words(entry.title, HAND_STRONG)), cell(fact(entry.code, HAND)), cell(words(entry.page or "000", HAND_STRONG)))


def make_unresolved(show: Show, findings: Sequence[Finding], missing: Sequence[tuple[str, str]]) -> Sheet:
    """Every finding with its place and what would fix it, and every paper that lacks its facts. Findings are English."""
    w = words_of(show.production.language)
    blocks: list = []
    if findings:
        columns = (Column(w["book head where"], 44_000), Column(w["book head finding"]))
        rows = tuple(_finding_row(show, finding) for finding in findings[:MOST_FINDINGS])
        blocks.append(Table(columns, (Group(rows),), row_um=10_000))
        if len(findings) > MOST_FINDINGS:
            blocks.append(Note(w["book more"].format(count=len(findings) - MOST_FINDINGS)))
    else:
        blocks.append(Note(w["book clean"]))
    if missing:
        lacking = tuple(f"{name}: {needs}" for name, needs in missing)
        blocks.append(Panels((Panel(w["book missing"], lacking, numbered=False),), across=1))
    return keep(frame_sheet(show, "unresolved", w["book unresolved"], tuple(blocks)))


def _finding_row(show: Show, finding: Finding) -> Row:
    w = words_of(show.production.language)
    place = finding.place
    at = f"{place.sheet} " if place.sheet else ""
    return row(
        cell(fact(w[f"book {finding.severity}"], HAND_STRONG, of=finding.severity), fact(f"{at}{place.line}:{place.column}", HAND)),
        cell(fact(finding.text, NOTE), fact(finding.fix, NOTE), words(finding.code, HAND)),
    )


def make_cautions(show: Show, sheets: Iterable[Sheet]) -> Sheet | None:
    """Every caution of every paper, each once, or None where there is none."""
    cautions = tuple(dict.fromkeys(caution for sheet in sheets for caution in sheet.cautions))
    if not cautions:
        return None
    w = words_of(show.production.language)
    blocks = (Panels((Panel(w["book cautions"], cautions),), across=1),)
    return keep(frame_sheet(show, "cautions", w["book cautions"], blocks, subtitle=(w["book local"],)))
