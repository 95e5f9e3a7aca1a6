"""The story on one screen: a file is read, shaped, built, checked, laid out and painted.

    reading.read_show(path)   file -> Raw -> shape -> Show -> findings
    make_papers(...)          Show -> sheets -> pages of boxes -> PDF, and the index of them all

Nothing here prints, writes a file or looks at the clock.
"""

from collections.abc import Callable, Collection, Mapping, MutableMapping, Sequence
from dataclasses import replace

from paperwork import limits
from paperwork.changes import Reprint
from paperwork.document import Sheet
from paperwork.document.facts import long_code
from paperwork.document.printed import PICTURES, Picture, Printed
from paperwork.finding import Finding, Subject, order_findings
from paperwork.frozen import frozen
from paperwork.index_page import render_index
from paperwork.model import Channel, Show
from paperwork.pipeline.binding import bind_volumes
from paperwork.pipeline.laid import USUAL_LABELS, LabelChoice, Laid, lay_out_each, lay_out_papers, list_prints
from paperwork.plan.covers import Tonight, stage_all
from paperwork.plan.walls import put_on_walls, walls_of
from paperwork.reading import blank_doubted
from paperwork.render.book import Bookmark
from paperwork.render.pdf.pdfa import Attachment
from paperwork.render.pdf.press import Press
from paperwork.sheets import SHEETS, Paper, book
from paperwork.sheets.blanks import list_blanks
from paperwork.sheets.evening import page as evening
from paperwork.sheets.wardrobe import pack_labels
from paperwork.text.names import shorten_ids

__all__ = ["LabelChoice", "Laid", "Papers", "lay_out_papers", "list_prints", "make_papers", "make_tonight"]


@frozen
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
    files: MutableMapping[str, bytes] | None = None,
    hand_over: Callable[[Mapping[str, bytes]], None] = lambda papers: None,
) -> Papers:
    """Every paper whose facts the show holds, the book of them all, and the index.

    `only` and `folders` narrow it; empty means all. `kinds` are the papers to make, all of them and the book unless given;
    of the sheets in `reprint` only the pages and labels that it names are printed, each as in the whole. `blank` adds the blank forms. `made` is the ISO date that the PDFs carry as their own; it defaults to the show's
    revision date. A `press` that is used again prints only what has changed since. The book, and no other paper,
    carries what is `attached`. Without `pictured` the index leads to the papers without a picture of their pages.
    Each file is put into `files` as soon as it is made, where none are given into memory. `hand_over` is given the papers
    while the book and the index are still to be made.
    """

    def is_wanted(name: str, folder: str) -> bool:
        return (not only or name in only) and (not folders or folder in folders)

    press = press or Press(passing=True)
    made = made or show.production.revised or "2000-01-01"
    papers = kinds or SHEETS
    bound = not kinds and is_book_wanted(only, folders)
    asked = [paper for paper in papers if bound or is_wanted(paper.name, paper.folder)]
    files = {} if files is None else files
    found, missing, rows, whole = [*findings], list[Paper](), list[Printed](), list[Laid]()
    shown = limits.PICTURES if pictured else 0
    for paper, one in lay_out_each(asked, show, findings, labels, press, reprint):
        if one is None:
            missing.append(paper)
        elif isinstance(one, Laid):
            found += one.layout.findings
            press.left = len(asked) - 1 - asked.index(paper) + bound
            if is_wanted(paper.name, paper.folder):
                row, one = _print_paper(one, press, made, files, pictured=shown)
                rows.append(row)
            whole += [one.head] if bound else []
        else:
            found += one
    if blank:
        forms = list_blanks(papers, lambda sheet: len(press.lay_out(f"blank/{sheet.name}.pdf", sheet).pages))
        rows += [
            _print_paper(one, press, made, files, pictured=shown)[0]
            for one in lay_out_papers(forms, show, (), labels, press)[0]
        ]
    hand_over(files)
    walls = walls_of(show)
    if whole:
        hidden = walls.hide(order_findings(found))
        for volume in bind_volumes(show, whole, hidden, missing, attached, press.metrics):
            row, _ = _print_paper(volume.laid, press, made, files, volume.outline, int(pictured), volume.attached)
            rows.append(row)
    ordered = order_findings(found)
    lacking = [(paper.name, paper.wants(show)) for paper in missing if is_wanted(paper.name, paper.folder)]
    labelled = any(paper.name == pack_labels.NAME for paper in asked if paper not in missing)
    withheld = (
        _list_unlabelled(show, findings, labels.part) if labelled and is_wanted(pack_labels.NAME, "wardrobe") else ()
    )
    if withheld:
        lacking.append((f"labels of channels {shorten_ids(withheld)}", "certain frequency for them"))
    files["index.html"] = render_index(
        show, rows, lacking, walls.hide_rooms(show, ordered), whole=not (kinds or only or folders)
    )
    rows = [replace(one, subjects=walls.reveal(one.subjects)) for one in rows] if walls.initials else rows
    return Papers(files, tuple(rows), tuple(lacking), ordered, withheld)


def is_book_wanted(only: Collection[str], folders: Collection[str]) -> bool:
    """Whether the show book is among the papers of these names and folders; empty means all."""
    return (not only or book.NAME in only) and (not folders or "production" in folders)


def _list_unlabelled(show: Show, findings: Sequence[Finding], part: frozenset[Subject]) -> tuple[str, ...]:
    """The channels without a label, those of the part if there is one: a sheet of labels does not show what is not on it."""
    channels = blank_doubted(show, findings).channels.values()
    return tuple(one.id for one in channels if one.hz is None and (not part or Subject("channels", one.id) in part))


def _print_paper(
    one: Laid,
    press: Press,
    made: str,
    files: MutableMapping[str, bytes],
    outline: Sequence[Bookmark] = (),
    pictured: int | None = None,
    attached: Sequence[Attachment] = (),
) -> tuple[Printed, Laid]:
    """The paper's row of the index, and the paper with what was drawn of it; its PDF and its pictures are added to the files."""
    keywords = " ".join(filter(None, (*one.codes, long_code(one.sheet))))
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
    return one.describe(tuple(pictures)), replace(one, layout=ink.layout)


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
