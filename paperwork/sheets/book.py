"""The show book's own pages: cover, contents, what is unresolved, all cautions. The papers are between."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import NamedTuple

from paperwork.document import (
    Block,
    Cell,
    Column,
    Line,
    Note,
    Panel,
    Panels,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.styles import COVER, HAND, HAND_STRONG, NOTE, RACK_ROLE, RACK_STRONG, STEP
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.model.facts import fingerprint_show
from paperwork.sheets.forms import format_days, write_cell
from paperwork.sheets.frame import frame_sheet, headed, phrase
from paperwork.text.words import format_date, list_words

NAME, UNRESOLVED = "show-book", "unresolved"
PAGE_UM = 14_000
"""The room of a page number in the contents: the same for any, so that pages are counted before it is known."""

CONTENTS_ROW_UM = 5_800
"""So low that the contents of a whole show stand on one page of A4, in two halves."""

MOST_FINDINGS = 200


class ContentsLine(NamedTuple):
    """One line of the contents: a paper, its folder, the code of its first page, where that is in the book ("":
    unknown), and the name of its sheet, to which it leads."""

    folder: str
    title: str
    code: str
    page: str
    name: str = ""


def _own_page(show: Show, name: str, title: str, blocks: tuple[Block, ...], *subtitle: str) -> Sheet:
    """A page that stands in the book alone: no later revision destroys it, and no pen changes it."""
    return replace(frame_sheet(show, name, title, blocks, subtitle=subtitle), replaces="", returns="")


def name_of(show: Show) -> str:
    """What the book is called: the production's title, else its company, else just a show book."""
    return show.production.title or show.production.company or phrase(show, "book")


class BookVolume(NamedTuple):
    """Which of how many volumes a book is, and the titles of its first and last paper."""

    number: int
    of: int
    holds: str


def make_cover(
    show: Show,
    findings: Sequence[Finding] = (),
    carried: Sequence[str] = (),
    fingerprint: str = "",
    volume: BookVolume | None = None,
) -> Sheet:
    """What the book is of: everything that sets it apart from another revision, another venue, another year.

    `findings` are what is unresolved, `carried` the names of the files within its PDF. A `volume` after the first has a
    name of its own.
    """
    print_ = fingerprint or fingerprint_show(show)
    rows = [
        row(cell(words(phrase(show, f"book {key}"), RACK_STRONG)), cell(fact(value, RACK_ROLE), fact(under, HAND)))
        for key, value, under in (*_list_cover(show), *_list_volume(volume))
        if value
    ]
    elsewhere = volume if volume and volume.number < volume.of else None
    state = cell(*_state(show, findings, elsewhere), link="" if elsewhere else UNRESOLVED)
    rows.append(row(cell(words(phrase(show, "book state"), RACK_STRONG)), state))
    table = Table((Column("", 46_000), Column("")), (RowGroup(tuple(rows)),), row_um=15_000)
    notes = [Note(phrase(show, "book code", code=print_), NOTE, (print_,))]
    if carried:
        notes.append(Note(phrase(show, "book carries", files=list_words(carried, show.production.language)), NOTE))
    blocks: tuple[Block, ...] = (Note(name_of(show), COVER, (name_of(show),)), table, _handover(show), *notes)
    cover = replace(_own_page(show, NAME, "book", blocks), venue="")
    if not volume:
        return cover
    name = NAME if volume.number == 1 else f"{NAME}-{volume.number}"
    return replace(cover, name=name, title=f"{cover.title} {volume.number} / {volume.of}")


def _list_volume(volume: BookVolume | None) -> Iterator[tuple[str, str, str]]:
    if volume:
        yield "volume", f"{volume.number} / {volume.of}", volume.holds


def _list_cover(show: Show) -> Iterator[tuple[str, str, str]]:
    production = show.production
    packs = sum(not channel.spare for channel in show.channels.values())
    yield "company", production.company, ""
    yield "venue", production.venue, format_days(show, production.first_day, production.last_day)
    yield "revision", production.revision, production.reason
    yield "revised", format_date(production.revised, production.language), ""
    yield "earlier", ", ".join(one for one in production.revisions if one != production.revision), ""
    licensed = format_days(show, production.licensed_from, production.licensed_to)
    yield "licence", production.licence, "  ·  ".join(filter(None, (production.licensed_for, licensed)))
    yield "contact", production.contact, ""
    counts = phrase(show, "book counts", channels=packs, spares=len(show.channels) - packs)
    people = {name for channel in show.channels.values() for name in show.performers_of(channel)}
    company = phrase(show, "book company counts", scenes=len(show.scenes), people=len(people)) if show.scenes else ""
    yield "size", counts, company


def _state(show: Show, findings: Sequence[Finding], elsewhere: BookVolume | None) -> Iterator[Line]:
    """How much is unresolved, and where it is listed: in this volume, or in the last one."""
    if not findings:
        yield words(phrase(show, "book state clean"), RACK_ROLE)
        return
    errors = sum(finding.severity == "error" for finding in findings)
    yield words(phrase(show, "book state open", errors=errors, warnings=len(findings) - errors), RACK_ROLE)
    title = phrase(show, "book unresolved")
    title += f", {phrase(show, 'book volume')} {elsewhere.of} / {elsewhere.of}" if elsewhere else ""
    yield words(phrase(show, "book see", title=title), HAND)


def _handover(show: Show) -> Table:
    """Who gives the book away and who takes it, for a pen."""
    columns = headed(
        show,
        Column("book handed", 46_000),
        Column("book head name"),
        Column("book head signature"),
        Column("inventory head date", 28_000),
    )
    rows = tuple(
        row(cell(words(phrase(show, f"book {side}"), HAND_STRONG)), *(write_cell() for _ in range(3)))
        for side in ("given", "received")
    )
    return Table(columns, (RowGroup(rows),), row_um=12_000)


def list_entries(sheets: Sequence[tuple[str, Sheet, Sequence[str]]]) -> list[ContentsLine]:
    """The contents of the sheets by folder, pages not yet known; of two with one title each has its subtitle. `sheets`
    are folder, sheet and the codes of its pages."""
    titles = Counter(sheet.title for _, sheet, _ in sheets)
    return [
        ContentsLine(
            folder,
            f"{sheet.title}, {sheet.subtitle[0]}" if titles[sheet.title] > 1 and sheet.subtitle else sheet.title,
            codes[0] if codes else "",
            "",
            sheet.name,
        )
        for folder, sheet, codes in sheets
    ]


def make_contents(show: Show, entries: Sequence[ContentsLine]) -> Sheet:
    """Every paper with its code and its first page in the book, by reader: down the left half, then the right."""
    half = headed(
        show,
        Column("book head paper"),
        Column("book head code", 17_000),
        Column("book head page", PAGE_UM, align="right"),
    )
    folders = dict.fromkeys(entry.folder for entry in entries)
    groups = tuple(
        RowGroup(
            tuple(_entry_rows([entry for entry in entries if entry.folder == folder])), phrase(show, f"folder {folder}")
        )
        for folder in folders
    )
    table = Table((*half, Column("", 5_000), *half), groups, row_um=CONTENTS_ROW_UM)
    return _own_page(show, "contents", "book contents", (table,), phrase(show, "book order"))


def _entry_rows(entries: Sequence[ContentsLine]) -> Iterator[TableRow]:
    left = (len(entries) + 1) // 2
    for one, two in zip_longest(entries[:left], entries[left:]):
        yield row(*_entry_cells(one), cell(), *(_entry_cells(two) if two else (cell(), cell(), cell())))


def _entry_cells(entry: ContentsLine) -> tuple[Cell, ...]:
    return (
        cell(words(entry.title, HAND), link=entry.name),
        cell(fact(entry.code, HAND)),
        cell(words(entry.page or "000", HAND), link=entry.name),
    )


def make_unresolved(show: Show, findings: Sequence[Finding], missing: Sequence[str]) -> Sheet:
    """Every finding with its place and its fix, and every paper that lacks its facts, by name. Findings are English."""
    blocks: list[Block] = []
    if findings:
        columns = headed(show, Column("book head where", 50_000), Column("book head finding"))
        groups = tuple(_finding_groups(show, findings[:MOST_FINDINGS]))
        blocks.append(Table(columns, groups, row_um=10_000))
        if len(findings) > MOST_FINDINGS:
            blocks.append(Note(phrase(show, "book more", count=len(findings) - MOST_FINDINGS)))
    else:
        blocks.append(Note(phrase(show, "book clean")))
    if missing:
        lacking = tuple(phrase(show, f"lacks {name}") for name in missing)
        blocks.append(Panels((Panel(phrase(show, "book missing"), lacking, numbered=False),), across=1))
    return _own_page(show, UNRESOLVED, "book unresolved", tuple(blocks))


def _finding_groups(show: Show, findings: Sequence[Finding]) -> Iterator[RowGroup]:
    """Errors, then warnings, each in reading order."""
    for severity in ("error", "warning"):
        rows = tuple(_finding_row(finding) for finding in findings if finding.severity == severity)
        if rows:
            yield RowGroup(rows, phrase(show, f"book {severity}"), str(len(rows)), facts=(severity,))


def _finding_row(finding: Finding) -> TableRow:
    place = finding.place
    text = f"{place.line}:{place.column}" if place.line else place.file
    text = f"{place.sheet}!{place.cell}" if place.cell else text
    about = next(iter(finding.subjects), None)
    return row(
        cell(fact(text, HAND_STRONG), words(finding.code, NOTE), link=f"{about.section}/{about.id}" if about else ""),
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
    columns = headed(show, Column("book head caution", share=3), Column("book head stands", share=2))
    rows = tuple(
        row(cell(words(caution, STEP)), cell(words("  ·  ".join(titles), NOTE))) for caution, titles in stands.items()
    )
    body = Table(columns, (RowGroup(rows),), row_um=10_000)
    return _own_page(show, "cautions", "book cautions", (body,), phrase(show, "book local"))
