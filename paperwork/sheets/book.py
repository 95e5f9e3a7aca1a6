"""The show book's own pages: cover, contents, what is unresolved, all cautions in one place. The papers stand between."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from paperwork.document import (
    Block,
    Column,
    Group,
    Line,
    Note,
    Panel,
    Panels,
    Row,
    Sheet,
    Table,
    cell,
    fact,
    row,
    words,
)
from paperwork.facts import fingerprint_show
from paperwork.finding import Finding
from paperwork.model import Production, Show
from paperwork.sheetfacts import code
from paperwork.sheets.forms import write_cell
from paperwork.sheets.frame import frame_sheet
from paperwork.styles import COVER, HAND, HAND_STRONG, NOTE, RACK_ROLE, RACK_STRONG, STEP
from paperwork.words import format_date, list_words, words_of

NAME = "show-book"
PAGE_UM = 22_000
"""What a page number in the contents is given: the same for any number, so that pages are counted before it is known."""

CONTENTS_ROW_UM = 6_600
"""So low that the contents of a whole show stand on one page of A4."""

MOST_FINDINGS = 200


class Entry(NamedTuple):
    """One line of the contents: a paper, its folder, its code, and its first page as printed ("" until it is known)."""

    folder: str
    title: str
    code: str
    page: str


def _own_page(show: Show, name: str, title: str, blocks: tuple[Block, ...], *subtitle: str) -> Sheet:
    """A page that stands in the book alone: no later revision destroys it, and no pen changes it."""
    return replace(frame_sheet(show, name, title, blocks, subtitle=subtitle), replaces="", returns="")


def name_of(show: Show) -> str:
    """What the book is called: the production's title, else its company, else just a show book."""
    return show.production.title or show.production.company or words_of(show.production.language)["book"]


def make_cover(
    show: Show, findings: Sequence[Finding] = (), carried: Sequence[str] = (), fingerprint: str = ""
) -> Sheet:
    """What the book is of: everything that tells it from another revision, another venue, another year.

    `findings` are what is unresolved, `carried` the names of the files within its PDF.
    """
    w, print_ = words_of(show.production.language), fingerprint or fingerprint_show(show)
    rows = tuple(
        row(cell(words(w[f"book {key}"], RACK_STRONG)), cell(fact(value, RACK_ROLE), fact(under, HAND)))
        for key, value, under in _told(show)
        if value
    )
    rows += (
        row(
            cell(words(w["book state"], RACK_STRONG)),
            cell(words(_state(show, findings), RACK_ROLE), *_see(show, findings)),
        ),
    )
    table = Table((Column("", 46_000), Column("")), (Group(rows),), row_um=15_000)
    facts = [Note(w["book code"].format(code=print_), NOTE, (print_,))]
    facts += (
        [Note(w["book carries"].format(files=list_words(carried, show.production.language)), NOTE)] if carried else []
    )
    blocks: tuple[Block, ...] = (Note(name_of(show), COVER, (name_of(show),)), table, _handover(show), *facts)
    return replace(_own_page(show, NAME, w["book"], blocks), venue="")


def _told(show: Show) -> Iterator[tuple[str, str, str]]:
    production, w = show.production, words_of(show.production.language)
    packs = sum(not channel.spare for channel in show.channels.values())
    yield "company", production.company, ""
    yield "venue", production.venue, _days(production, production.first_day, production.last_day)
    yield "revision", production.revision, production.reason
    yield "revised", format_date(production.revised, production.language), ""
    yield "earlier", ", ".join(one for one in production.revisions if one != production.revision), ""
    licensed = _days(production, production.licensed_from, production.licensed_to)
    yield "licence", production.licence, "  ·  ".join(filter(None, (production.licensed_for, licensed)))
    yield "contact", production.contact, ""
    counts = w["book counts"].format(channels=packs, spares=len(show.channels) - packs)
    people = {name for channel in show.channels.values() for name in show.performers_of(channel)}
    yield (
        "size",
        counts,
        w["book company counts"].format(scenes=len(show.scenes), people=len(people)) if show.scenes else "",
    )


def _state(show: Show, findings: Sequence[Finding]) -> str:
    w, errors = words_of(show.production.language), sum(finding.severity == "error" for finding in findings)
    if not findings:
        return w["book state clean"]
    return w["book state open"].format(errors=errors, warnings=len(findings) - errors)


def _see(show: Show, findings: Sequence[Finding]) -> tuple[Line, ...]:
    w = words_of(show.production.language)
    return (words(w["book see"].format(title=w["book unresolved"]), HAND),) if findings else ()


def _handover(show: Show) -> Table:
    """Who gives the book away and who takes it, for a pen."""
    w = words_of(show.production.language)
    columns = (
        Column(w["book handed"], 46_000),
        Column(w["book head name"]),
        Column(w["book head signature"]),
        Column(w["inventory head date"], 28_000),
    )
    rows = tuple(
        row(cell(words(w[f"book {side}"], HAND_STRONG)), *(write_cell() for _ in range(3)))
        for side in ("given", "received")
    )
    return Table(columns, (Group(rows),), row_um=12_000)


def _days(production: Production, first: str, last: str) -> str:
    days = [format_date(day, production.language) for day in (first, last) if day]
    return " – ".join(dict.fromkeys(days))


def list_entries(sheets: Sequence[tuple[str, Sheet]]) -> list[Entry]:
    """The contents of the sheets by folder, pages not yet known; of two with one title each is told with its subtitle."""
    titles = Counter(sheet.title for _, sheet in sheets)
    return [
        Entry(
            folder,
            f"{sheet.title}, {sheet.subtitle[0]}" if titles[sheet.title] > 1 and sheet.subtitle else sheet.title,
            code(sheet),
            "",
        )
        for folder, sheet in sheets
    ]


def make_contents(show: Show, entries: Sequence[Entry]) -> Sheet:
    """Every paper with its code and its first page in the book, by reader."""
    w = words_of(show.production.language)
    columns = (
        Column(w["book head paper"]),
        Column(w["book head code"], 30_000),
        Column(w["book head page"], PAGE_UM, align="right"),
    )
    folders = dict.fromkeys(entry.folder for entry in entries)
    groups = tuple(
        Group(tuple(_entry_row(entry) for entry in entries if entry.folder == folder), w[f"folder {folder}"])
        for folder in folders
    )
    return _own_page(
        show, "contents", w["book contents"], (Table(columns, groups, row_um=CONTENTS_ROW_UM),), w["book order"]
    )


def _entry_row(entry: Entry) -> Row:
    return row(cell(words(entry.title, HAND)), cell(fact(entry.code, HAND)), cell(words(entry.page or "000", HAND)))


def make_unresolved(show: Show, findings: Sequence[Finding], missing: Sequence[tuple[str, str]]) -> Sheet:
    """Every finding with its place and what would fix it, and every paper that lacks its facts. Findings are English."""
    w = words_of(show.production.language)
    blocks: list = []
    if findings:
        columns = (Column(w["book head where"], 50_000), Column(w["book head finding"]))
        groups = tuple(_finding_groups(show, findings[:MOST_FINDINGS]))
        blocks.append(Table(columns, groups, row_um=10_000))
        if len(findings) > MOST_FINDINGS:
            blocks.append(Note(w["book more"].format(count=len(findings) - MOST_FINDINGS)))
    else:
        blocks.append(Note(w["book clean"]))
    if missing:
        by_need: dict[str, list[str]] = {}
        for name, needs in missing:
            by_need.setdefault(needs, []).append(name)
        lacking = tuple(f"{needs}: {', '.join(names)}" for needs, names in by_need.items())
        blocks.append(Panels((Panel(w["book missing"], lacking, numbered=False),), across=1))
    return _own_page(show, "unresolved", w["book unresolved"], tuple(blocks))


def _finding_groups(show: Show, findings: Sequence[Finding]) -> Iterator[Group]:
    """Errors, then warnings, each in reading order."""
    w = words_of(show.production.language)
    for severity in ("error", "warning"):
        rows = tuple(_finding_row(finding) for finding in findings if finding.severity == severity)
        if rows:
            yield Group(rows, w[f"book {severity}"], str(len(rows)), facts=(severity,))


def _finding_row(finding: Finding) -> Row:
    place = finding.place
    at = f"{place.sheet} " if place.sheet else ""
    told = f"{at}{place.line}:{place.column}" if place.line else place.file
    return row(
        cell(fact(told, HAND_STRONG), words(finding.code, NOTE)),
        cell(fact(finding.text, STEP), fact(finding.fix, NOTE)),
    )


def make_cautions(show: Show, sheets: Iterable[Sheet]) -> Sheet | None:
    """Every caution of every paper, each once with the papers that carry it, or None where there is none."""
    stands: dict[str, dict[str, None]] = {}
    for sheet in sheets:
        for caution in sheet.cautions:
            stands.setdefault(caution, {})[sheet.title] = None
    if not stands:
        return None
    w = words_of(show.production.language)
    columns = (Column(w["book head caution"], share=3), Column(w["book head stands"], share=2))
    rows = tuple(
        row(cell(words(caution, STEP)), cell(words("  ·  ".join(titles), NOTE))) for caution, titles in stands.items()
    )
    body = Table(columns, (Group(rows),), row_um=10_000)
    return _own_page(show, "cautions", w["book cautions"], (body,), w["book local"])
