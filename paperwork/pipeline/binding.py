"""The show book: every paper once more between a cover and what is unresolved; in volumes where one would be too thick."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from paperwork import limits
from paperwork.finding import Finding
from paperwork.model import Show
from paperwork.model.facts import fingerprint_show
from paperwork.pipeline.laid import Laid
from paperwork.plan.walls import put_on_walls
from paperwork.render.book import Bookmark, BookPart, bind
from paperwork.render.boxes import Layout
from paperwork.render.layout import lay_out
from paperwork.render.pdf.pdfa import Attachment
from paperwork.render.text.measuring import Metrics
from paperwork.sheets import Paper, book
from paperwork.text.words import say, words_of

READERS = ("rack", "wardrobe", "production")


class Volume(NamedTuple):
    """A volume of the book as it is printed: its cover and pages, its outline, and the files in its PDF."""

    laid: Laid
    outline: tuple[Bookmark, ...]
    attached: Sequence[Attachment]


def bind_volumes(
    show: Show,
    laid: Sequence[Laid],
    findings: Sequence[Finding],
    missing: Sequence[Paper],
    attached: Sequence[Attachment],
    metrics: Metrics,
) -> Iterator[Volume]:
    """The book, by reader: one volume of almost every show. The first carries what is attached, the last says what is
    unresolved, and the cautions of all papers."""
    ordered = sorted(laid, key=lambda one: READERS.index(one.paper.folder))
    parts = _split(ordered)
    fingerprint, walled = fingerprint_show(show), put_on_walls(show)
    last = [book.make_unresolved(walled, findings, [paper.name for paper in missing])]
    last += filter(None, (book.make_cautions(walled, [one.sheet for one in ordered]),))
    ends = [Laid(_paper_of(sheet.name), sheet, lay_out(sheet, metrics)) for sheet in last]
    for number, part in enumerate(parts, 1):
        carried = () if number > 1 else attached
        holds = f"{part[0].sheet.title} – {part[-1].sheet.title}"
        volume = book.BookVolume(number, len(parts), holds) if len(parts) > 1 else None
        cover = book.make_cover(walled, findings, [one.name for one in carried], fingerprint, volume)
        whole = [*part, *ends] if number == len(parts) else part
        layout, outline = _bind(walled, lay_out(cover, metrics), whole, volume, metrics)
        yield Volume(Laid(_paper_of(book.NAME), cover, layout), outline, carried)


def _paper_of(name: str) -> Paper:
    return Paper("production", name, lambda _: (), "")


def _split(ordered: Sequence[Laid]) -> list[list[Laid]]:
    """The papers by volume, each whole."""
    volumes: list[list[Laid]] = [[]]
    pages = 0
    for one in ordered:
        own = len(one.layout.pages)
        if volumes[-1] and pages + own > limits.VOLUME_PAGES:
            volumes.append([])
            pages = 0
        volumes[-1].append(one)
        pages += own
    return volumes


def _bind(
    show: Show, cover: Layout, parted: Sequence[Laid], volume: "book.BookVolume | None", metrics: Metrics
) -> tuple[Layout, tuple[Bookmark, ...]]:
    """Cover, contents and papers as one layout, and its outline. The contents are laid out twice: first to count their own
    pages, which no page number changes."""
    language, name = show.production.language, book.name_of(show)
    w = words_of(language)
    entries = book.list_entries([(one.paper.folder, one.sheet, one.codes) for one in parted])
    layouts = [one.layout for one in parted]
    front = [cover, lay_out(book.make_contents(show, entries), metrics)]
    page = 1 + sum(len(layout.pages) for layout in front)
    for index, layout in enumerate(layouts):
        entries[index] = entries[index]._replace(page=str(page))
        page += len(layout.pages)
    front[1] = lay_out(book.make_contents(show, entries), metrics)
    parts = [BookPart(name, front[0]), BookPart(w["book contents"], front[1])]
    parts += (BookPart(one.title, layout, name=one.name) for one, layout in zip(entries, layouts, strict=True))
    title = say(language, "labelled", name=name, text=w["book"]) + (f" {volume.number} / {volume.of}" if volume else "")
    return bind(parts, title, w["book foot"], metrics)
