"""The story on one screen: a file is read, shaped, built, checked, laid out and painted.

    reading.read_show(path)   file -> Raw -> shape -> Show -> findings
    make_papers(...)          Show -> sheets -> pages of boxes -> PDF, and the index of them all

Nothing here prints, writes a file or looks at the clock.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from paperwork import limits
from paperwork.changes import Reprint
from paperwork.document import Sheet
from paperwork.document.facts import long_code, tags_of
from paperwork.document.printed import PICTURES, Picture, Printed
from paperwork.finding import Finding, order_findings
from paperwork.index_page import render_index
from paperwork.model import Channel, Show
from paperwork.model.facts import fingerprint_show
from paperwork.pipeline.laid import USUAL_LABELS, LabelChoice, Laid, find_long, lay_out_papers, list_prints
from paperwork.plan.covers import Tonight, stage_all
from paperwork.plan.walls import put_on_walls, walls_of
from paperwork.reading import blank_doubted
from paperwork.render.book import Bookmark, BookPart, bind
from paperwork.render.boxes import Layout
from paperwork.render.layout import lay_out
from paperwork.render.pdf.pdfa import Attachment
from paperwork.render.pdf.press import Press
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import SHEETS, Paper, book
from paperwork.sheets.blanks import list_blanks
from paperwork.sheets.change_sheet import list_labels
from paperwork.sheets.evening import page as evening
from paperwork.sheets.wardrobe import pack_labels
from paperwork.text.names import shorten_ids
from paperwork.text.words import words_of

__all__ = ["LabelChoice", "Laid", "Papers", "bind_book", "lay_out_papers", "list_prints", "make_papers", "make_tonight"]


@dataclass(frozen=True, slots=True)
class Papers:
    """Every file of one run by its path in the output folder, and what was not printed and why."""

    files: Mapping[str, bytes]
    printed: tuple[Printed, ...]
    missing: tuple[tuple[str, str], ...]
    findings: tuple[Finding, ...]
    withheld: tuple[str, ...] = ()
    """The channels whose label is not on its sheet. They stand among what is missing too."""


def make_papers(
    show: Show,
    findings: Sequence[Finding],
    *,
    only: frozenset[str] = frozenset(),
    folders: frozenset[str] = frozenset(),
    labels: LabelChoice = USUAL_LABELS,
    made: str = "",
    kinds: Sequence[Paper] = (),
    reprint: Reprint | None = None,
    blank: bool = False,
    press: Press | None = None,
    attached: Sequence[Attachment] = (),
    pictured: bool = True,
    hand_over: Callable[[Mapping[str, bytes]], None] = lambda papers: None,
) -> Papers:
    """Every paper whose facts the show holds, the book of them all, and the index.

    `only` and `folders` narrow it; empty means all. `kinds` are the papers to make, all of them and the book unless given;
    of the sheets in `reprint` only the pages and labels that it names are printed, each as in the whole. `blank` adds the blank forms. `made` is the ISO date that the PDFs carry as their own; it defaults to the show's
    revision date. A `press` that is used again prints only what has changed since. The book, and no other paper,
    carries what is `attached`. Without `pictured` the index leads to the papers without a picture of their pages.
    `hand_over` is given the papers while the book and the index are still to be made.
    """

    def is_wanted(name: str, folder: str) -> bool:
        return (not only or name in only) and (not folders or folder in folders)

    press = press or Press()
    made = made or show.production.revised or "2000-01-01"
    papers = kinds or SHEETS
    bound = not kinds and is_wanted(book.NAME, "production")
    asked = [paper for paper in papers if bound or is_wanted(paper.name, paper.folder)]
    laid, missing, refused = lay_out_papers(asked, show, findings, labels, press, reprint)
    found = [*findings, *refused, *(finding for one in laid for finding in one.layout.findings)]
    printed = [one for one in laid if is_wanted(one.paper.name, one.paper.folder)]
    if blank:
        forms = list_blanks(papers, lambda sheet: len(press.lay_out(f"blank/{sheet.name}.pdf", sheet).pages))
        printed += lay_out_papers(forms, show, (), labels, press)[0]
    files: dict[str, bytes] = {}
    walls = walls_of(show)
    rows = [_print_paper(one, press, made, files, pictured=None if pictured else 0) for one in printed]
    hand_over(files)
    if bound and sum(len(one.layout.pages) for one in laid) > limits.PAGES:
        found.append(find_long(show, book.NAME, sum(len(one.layout.pages) for one in laid)))
    elif bound and laid:
        carried, hidden = [one.name for one in attached], walls.hide(order_findings(found))
        cover, layout, outline = bind_book(show, laid, hidden, missing, carried, press.metrics)
        one = Laid(Paper("production", book.NAME, lambda _: (), ""), cover, layout)
        rows.append(_print_paper(one, press, made, files, outline, pictured=int(pictured), attached=attached))
    ordered = order_findings(found)
    lacking = [(paper.name, paper.wants(show)) for paper in missing if is_wanted(paper.name, paper.folder)]
    withheld = _list_unlabelled(show, findings) if any(one.paper.name == pack_labels.NAME for one in printed) else ()
    if withheld:
        lacking.append((f"labels of channels {shorten_ids(withheld)}", "certain frequency for them"))
    files["index.html"] = render_index(show, rows, lacking, walls.hide(ordered), whole=not (kinds or only or folders))
    rows = [replace(one, subjects=walls.reveal(one.subjects)) for one in rows] if walls.initials else rows
    return Papers(files, tuple(rows), tuple(lacking), ordered, withheld)


def _list_unlabelled(show: Show, findings: Sequence[Finding]) -> tuple[str, ...]:
    """The channels without a label: a sheet of labels does not show what is not on it."""
    return tuple(channel.id for channel in blank_doubted(show, findings).channels.values() if channel.hz is None)


def _print_paper(
    one: Laid,
    press: Press,
    made: str,
    files: dict[str, bytes],
    outline: Sequence[Bookmark] = (),
    pictured: int | None = None,
    attached: Sequence[Attachment] = (),
) -> Printed:
    """The paper's row of the index; its PDF and its pictures are added to the files."""
    codes = tuple(page.code for page in one.layout.pages)
    keywords = " ".join(filter(None, (*codes, long_code(one.sheet))))
    ink = press.ink(one.path, one.layout, made, outline, pictured, attached, keywords)
    files[one.path] = ink.pdf
    pictures = []
    for number, data in ink.pictures.items():
        page = one.layout.pages[number - 1]
        picture = Picture(
            f"{PICTURES}/{one.path.removesuffix('.pdf')}-{number}.svg", page.width // 1000, page.height // 1000
        )
        files[picture.path] = data
        pictures.append(picture)
    return Printed(
        one.path,
        one.sheet.title,
        one.paper.folder,
        one.pages,
        codes,
        tuple(page.stamp for page in one.layout.pages),
        tuple(pictures),
        frozenset(subject for page in one.layout.pages for subject in page.subjects),
        one.layout.findings,
        tags_of(one.sheet),
        list_labels(one.sheet),
        tuple(page.cut for page in one.layout.pages),
    )


def bind_book(
    show: Show,
    laid: Sequence[Laid],
    findings: Sequence[Finding],
    missing: Sequence[Paper],
    carried: Sequence[str],
    metrics: Metrics,
) -> tuple[Sheet, Layout, tuple[Bookmark, ...]]:
    """The show book: its cover, its pages and its outline. Cover, contents, every paper by reader, the unresolved, cautions.
    `carried` are the names of the files in its PDF.

    The contents are laid out twice: first to count their own pages, which no page number changes.
    """
    w = words_of(show.production.language)
    ordered = sorted(laid, key=lambda one: ("rack", "wardrobe", "production").index(one.paper.folder))
    fingerprint, show = fingerprint_show(show), put_on_walls(show)
    cover, name = book.make_cover(show, findings, carried, fingerprint), book.name_of(show)
    last = [book.make_unresolved(show, findings, [(paper.name, paper.wants(show)) for paper in missing])]
    last += filter(None, (book.make_cautions(show, [one.sheet for one in laid]),))
    ends = [(Paper("production", sheet.name, lambda _: (), ""), sheet, lay_out(sheet, metrics)) for sheet in last]
    parted = [*ordered, *(Laid(*end) for end in ends)]
    entries = book.list_entries([(one.paper.folder, one.sheet, one.print.pages) for one in parted])
    layouts = [one.layout for one in parted]
    front = [lay_out(cover, metrics), lay_out(book.make_contents(show, entries), metrics)]
    page = 1 + sum(len(layout.pages) for layout in front)
    for index, layout in enumerate(layouts):
        entries[index] = entries[index]._replace(page=str(page))
        page += len(layout.pages)
    front[1] = lay_out(book.make_contents(show, entries), metrics)
    parts = [BookPart(name, front[0]), BookPart(w["book contents"], front[1])]
    parts += (BookPart(entry.title, layout) for entry, layout in zip(entries, layouts, strict=True))
    layout, outline = bind(parts, f"{name}: {w['book']}", w["book foot"], metrics)
    return cover, layout, outline


def make_tonight(
    show: Show,
    findings: Sequence[Finding],
    tonight: Tonight,
    dead: Sequence[Channel],
    *,
    night: evening.Night | None = None,
    labels: LabelChoice = USUAL_LABELS,
    made: str = "",
) -> Papers:
    """The page of what differs tonight, and the labels that it makes wrong. `dead` are channels whose pack died."""
    walls = walls_of(show)
    night = night or evening.Night()
    usual = stage_all(put_on_walls(night.usual, walls)) if night.usual else None
    tonight, night = walls.hide(tonight), replace(night, usual=usual, findings=walls.hide(night.findings))

    def make_page(certain: Show) -> tuple[Sheet, ...]:
        certain = stage_all(certain)
        return evening.make_sheets(certain, tonight, evening.pair_spares(certain, _channels(certain, dead)), night)

    def make_labels(certain: Show) -> tuple[Sheet, ...]:
        certain = stage_all(certain)
        return evening.make_labels(certain, tonight, evening.pair_spares(certain, _channels(certain, dead)), usual)

    kinds = (
        Paper("rack", evening.NAME, make_page, "anything that differs"),
        Paper("wardrobe", evening.LABELS, make_labels, "labels that tonight makes wrong"),
    )
    return make_papers(show, findings, labels=labels, made=made, kinds=kinds)


def _channels(show: Show, named: Sequence[Channel]) -> tuple[Channel, ...]:
    return tuple(show.channels[channel.id] for channel in named)
