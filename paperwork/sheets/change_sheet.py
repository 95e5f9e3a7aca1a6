"""The change list: what was and what is, by who must act; what to print again, what to destroy and what stays valid."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from paperwork.changes import ACTS, Entry, LabelPrint, PagePrint, PaperFate, Reprint, list_shuffles
from paperwork.document import (
    Block,
    Cards,
    Column,
    Labels,
    Line,
    Note,
    RowGroup,
    Sheet,
    Table,
    TableRow,
    WriteIn,
    cell,
    fact,
    row,
    words,
)
from paperwork.document.facts import card_code, label_code, row_facts
from paperwork.document.styles import HAND, HAND_STRONG, NOTE, NOW, WAS
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.sheets.frame import frame_sheet, headed, name_revision, phrase
from paperwork.text.names import shorten_ids
from paperwork.text.words import words_of

NAME = "change-list"
ROW_UM = 9_000

UNNAMED = "\u2013"
"""Printed for a revision that has no name."""


@frozen
class Revisions:
    """What the list is about: the revision that was, the lines, and what becomes of the papers.

    `is_move`: the two revisions are for different venues, so that former papers are taken down and kept.
    """

    old: str
    entries: tuple[Entry, ...]
    reprint: Reprint
    is_move: bool = False


def make_sheets(show: Show, revisions: Revisions) -> tuple[Sheet, ...]:
    """One sheet, the groups in the order of `ACTS`; a change that several must act on stands with each of them."""
    entries = revisions.entries
    groups = tuple(
        RowGroup(
            tuple(_row(show, entry) for entry in entries if act in entry.acts), phrase(show, f"act {act}"), facts=(act,)
        )
        for act in ACTS
        if any(act in entry.acts for entry in entries)
    )
    columns = headed(
        show,
        Column("head what", share=5),
        Column("head was", share=5),
        Column("head now", share=5),
        Column("head done", 24_000),
    )
    body = Table(columns, groups, row_um=ROW_UM) if groups else Note(phrase(show, "change none", old=revisions.old))
    production = show.production
    subtitle = [
        phrase(
            show,
            "change from to",
            old=revisions.old or UNNAMED,
            new=name_revision(show, production.revision) or UNNAMED,
        )
    ]
    subtitle += [phrase(show, "change reason", reason=production.reason)] if production.reason else []
    legend = ("change legend",) if groups else ()
    notes = (
        Note(phrase(show, "change shuffled", count=len(one.ids), field=one.field), HAND_STRONG)
        for one in list_shuffles(entries)
    )
    blocks = (*notes, body, *_papers(show, revisions))
    sheet = frame_sheet(show, NAME, "change list", blocks, subtitle=tuple(subtitle), cautions=legend)
    return (replace(sheet, replaces=""),)


def _row(show: Show, entry: Entry) -> TableRow:
    return row(
        cell(fact(entry.what, HAND_STRONG), fact(entry.field)),
        cell(fact(entry.old, WAS)),
        cell(fact(entry.new, NOW)),
        cell(words(" "), WriteIn()),
        mark=phrase(show, f"sign {entry.sign}"),
        subjects=(Subject(entry.section, entry.id),) if entry.id else (),
    )


def _papers(show: Show, revisions: Revisions) -> Iterator[Block]:
    """A row for each paper with the pages to print and to destroy, then in one paragraph what stays valid."""
    reprint = revisions.reprint
    rows = tuple(
        row(cell(fact(title, HAND_STRONG)), cell(fact(came, HAND)), cell(fact(gone, HAND)))
        for title, came, gone in _list_fates(show, reprint)
        if came or gone
    )
    if rows:
        columns = tuple(
            Column(phrase(show, f"change {key}"), share=5)
            for key in ("paper", "print", "take down" if revisions.is_move else "bin")
        )
        yield Table(columns, (RowGroup(rows, phrase(show, "change papers")),))
    kept = [f"{fate.paper.title} {_valid(show, fate)}" for fate in reprint.papers if fate.valid]
    for paper in reprint.label_sheets:
        count = reprint.valid_labels.get(paper.name, 0)
        kept += [phrase(show, "change labels kept", title=paper.title, count=count)] if count else []
    if kept:
        text = phrase(show, "change keep", old=revisions.old or UNNAMED, papers="  ·  ".join(kept))
        yield Note(text, NOTE, tuple(kept))


def _list_fates(show: Show, reprint: Reprint) -> Iterator[tuple[str, str, str]]:
    """Of each paper the title, the pages or the labels that come, and what is destroyed."""
    for fate in reprint.papers:
        yield fate.paper.title, _pages(show, fate, fate.printed), _pages(show, fate, fate.destroyed)
    for paper in reprint.label_sheets:
        came, gone = (labels.get(paper.name, ()) for labels in (reprint.labels, reprint.bin_labels))
        yield paper.title, _numbers(came), _numbers(gone)


def _pages(show: Show, fate: PaperFate, pages: Sequence[PagePrint]) -> str:
    """The code of the only page, or each page with its code."""
    if fate.count == 1 and pages:
        return ", ".join(page.code for page in pages)
    listed = ", ".join(f"{page.number}:{page.code}" for page in pages)
    return phrase(show, "change pages", pages=listed, count=len(pages)) if pages else ""


def _valid(show: Show, fate: PaperFate) -> str:
    """The codes alone, in order, where every page stays; else each page with its code."""
    if len(fate.valid) == fate.count:
        return " ".join(page.code for page in fate.valid)
    return _pages(show, fate, fate.valid)


def _numbers(labels: Sequence[LabelPrint]) -> str:
    return shorten_ids(tuple(label.number for label in labels))


def keep_labels(sheet: Sheet, reprint: Reprint) -> Sheet:
    """The sheet, stamped as it is printed, with only those of its labels and cards that must be printed again."""
    left = Counter(label.code for label in reprint.labels.get(sheet.name, ()))
    if not left:
        return sheet
    return replace(sheet, blocks=tuple(_keep_labels(block, sheet.at_venue, left) for block in sheet.blocks))


def _keep_labels(block: Block, at_venue: str, left: Counter[str]) -> Block:
    """The block with as many labels of each code as are `left` to print."""

    def is_left(code: str) -> bool:
        left[code] -= 1
        return left[code] >= 0

    match block:
        case Labels():
            labels = tuple(label for label in block.labels if is_left(label_code(label, at_venue)))
            return replace(block, labels=labels)
        case Cards(signed=True):
            return replace(block, cards=tuple(card for card in block.cards if is_left(card_code(card, at_venue))))
    return block


def mark_changed(sheet: Sheet, old: Sheet | None, language: str) -> Sheet:
    """The sheet with a bar and a sign at each row of its tables that the old one did not have as it is now.

    Rows are matched by the records that they show; one that shows none is never marked.
    """
    if old is None:
        return sheet
    w = words_of(language)
    before: dict[frozenset[Subject], list[list[list[list[str]]]]] = {}
    for block in old.blocks:
        for r in _rows(block):
            before.setdefault(_key(r), []).append(row_facts(r))
    known = {subject for key in before for subject in key}

    def mark(r: TableRow) -> TableRow:
        if not r.subjects or r.mark or row_facts(r) in before.get(_key(r), []):
            return r
        return replace(r, mark=w["sign changed"] if r.subjects[0] in known else w["sign new"])

    return replace(sheet, blocks=tuple(_mark_rows(block, mark) for block in sheet.blocks))


def _mark_rows(block: Block, mark: Callable[[TableRow], TableRow]) -> Block:
    if not isinstance(block, Table):
        return block
    return replace(block, groups=tuple(replace(group, rows=tuple(map(mark, group.rows))) for group in block.groups))


def _rows(block: Block) -> tuple[TableRow, ...]:
    return tuple(r for group in block.groups for r in group.rows) if isinstance(block, Table) else ()


def _key(r: TableRow) -> frozenset[Subject]:
    return frozenset(r.subjects[:1])


def list_labels(sheet: Sheet) -> tuple[LabelPrint, ...]:
    """The labels and cut-out cards of a sheet, with their codes."""
    return tuple(label for block in sheet.blocks for label in _print_labels(block, sheet.at_venue))


def _print_labels(block: Block, at_venue: str) -> Iterator[LabelPrint]:
    match block:
        case Labels(labels=labels):
            yield from (LabelPrint(label.number, label.role, label_code(label, at_venue)) for label in labels)
        case Cards(cards=cards, signed=True):
            for card in cards:
                lines = (item.text for item in (*card.items, *card.band) if isinstance(item, Line))
                yield LabelPrint(card.key.text, next(lines, ""), card_code(card, at_venue))
