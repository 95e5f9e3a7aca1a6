"""A sheet becomes pages of boxes: everything is measured before anything is placed, and placed before it is drawn."""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from typing import Any, TypeAlias, assert_never

from paperwork.document import Block, Board, Cards, Labels, Note, Panels, Plot, Sheet, SpectrumWindow, Strips, Table
from paperwork.document.facts import page_code
from paperwork.finding import Finding, Subject
from paperwork.render import furniture
from paperwork.render.blocks.boards import lay_board
from paperwork.render.blocks.cards import lay_cards
from paperwork.render.blocks.notes import lay_note
from paperwork.render.blocks.panels import lay_panels
from paperwork.render.blocks.plots import lay_plot
from paperwork.render.blocks.slices import BLOCK_GAP_UM, SNUG_PERCENT, Context, Series, Slice
from paperwork.render.blocks.spectra import lay_spectrum
from paperwork.render.blocks.strips import lay_strips
from paperwork.render.blocks.tables import lay_table
from paperwork.render.boxes import Box, Layout, Page, moved
from paperwork.render.labels.block import lay_labels
from paperwork.render.papers import PAPERS
from paperwork.render.stamp import Stamps, list_marks, set_mark, set_stamp
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter
from paperwork.text.words import words_of

SNUG_PAGES = 12
"""A paper of so many pages is tried with less air, and keeps to it where a page less is needed; of more, nobody counts them."""

FIRST_GAP_UM = 1_800
"""Under the masthead's rule, where the first block has no head of its own that keeps off it."""


Kept: TypeAlias = dict[tuple[int, bool], tuple[tuple[Block, Context], list[Series]]]
"""The blocks of a sheet as they were laid out last, by their number and whether they were snug: what was laid, and the series."""


@dataclass(slots=True)
class _Body:
    """What stands on one page between masthead and foot: slices, each with its place from the top; and how far down it goes."""

    places: list[tuple[int, Slice]] = field(default_factory=list)
    y: int = 0

    @property
    def slices(self) -> list[Slice]:
        return [piece for _, piece in self.places]

    @property
    def subjects(self) -> list[Subject]:
        """The records that the page shows."""
        return [subject for piece in self.slices for subject in piece.subjects]

    @property
    def facts(self) -> list[Any]:
        """The facts of the page in order; what stands on several lines counts once."""
        said = [piece.facts for piece in self.slices if piece.facts]
        return [facts for index, facts in enumerate(said) if not index or facts is not said[index - 1]]

    def set(self, doubted: frozenset[Subject], setter: Typesetter) -> Iterator[Box]:
        """The boxes from the body's top left corner, doubted and changed pieces with their marks in the margin."""
        for y, piece in self.places:
            yield from (moved(box, 0, y) for box in piece.boxes)
            if marks := list_marks(not doubted.isdisjoint(piece.subjects), piece.mark):
                yield from (moved(box, 0, y) for box in set_mark(marks, piece.margin, piece.height, setter))


def lay_out(sheet: Sheet, metrics: Metrics, kept: Kept | None = None) -> Layout:
    """The sheet's pages, and findings for every text that had to be abbreviated or found no room.

    With `kept`, only blocks that changed since are measured; it is brought up to date. Raises ValueError for a sheet that
    contradicts itself (columns wider than the page): a bug of the paper.
    """
    first = sheet.blocks[0] if sheet.blocks else None
    if isinstance(first, Labels):
        return lay_labels(sheet, metrics)
    width, height = PAPERS[sheet.paper]
    if sheet.orientation == "landscape":
        width, height = height, width
    inner = width - furniture.LEFT_UM - furniture.RIGHT_UM
    under = furniture.TOP_UM + furniture.masthead_height(sheet, inner, metrics)
    top = under + (FIRST_GAP_UM if isinstance(first, Panels | Note | Board) else 0)
    foot = height - furniture.BOTTOM_UM - furniture.footer_height(sheet, inner, metrics)
    words, setter, stamps = words_of(sheet.language), Typesetter(metrics, sheet.title), Stamps(sheet, inner, metrics)
    room = foot - BLOCK_GAP_UM // 2 - top
    context = Context(inner, room - stamps.tallest, setter, words, sheet.revision, sheet.at_venue)
    bodies, findings = _lay_bodies(sheet, context, (room, stamps), kept)
    is_cut = any(isinstance(block, Strips) or (isinstance(block, Cards) and block.signed) for block in sheet.blocks)
    pages = []
    for number, body in enumerate(bodies, 1):
        stamp = stamps.of(body.subjects)
        code = page_code(sheet, body.facts, stamp.facts)
        shown = words["page"].format(n=number, m=len(bodies))
        parts = [(furniture.TOP_UM, furniture.set_masthead(sheet, code, shown, inner, setter))]
        parts += [(under, set_stamp(stamp, inner, setter))] if stamp.text else []
        parts += [(foot, furniture.set_footer(sheet, inner, setter))] if foot < height - furniture.BOTTOM_UM else []
        parts += (
            [(height - furniture.RULER_FOOT_UM - 2_200, furniture.set_ruler(sheet, inner, setter))] if is_cut else []
        )
        parts.append((top + stamp.height, [*body.set(stamps.doubted, setter)]))
        boxes = tuple(moved(box, furniture.LEFT_UM, y) for y, boxes in parts for box in boxes)
        cut = tuple(piece.cut for piece in body.slices if piece.cut)
        pages.append(Page(width, height, boxes, code, stamp.text, frozenset(body.subjects), cut))
    found = tuple(dict.fromkeys((*findings, *setter.findings)))
    return Layout(sheet.title, sheet.show, tuple(pages), found, scaling=not is_cut)


def _lay_bodies(
    sheet: Sheet, context: Context, filled: tuple[int, Stamps], kept: Kept | None
) -> tuple[list[_Body], list[Finding]]:
    """What stands on each page between masthead and foot, closer where that saves a page; and what gave way for it.

    `filled` are the height that there is for it, and the stamps that take of it."""
    blocks, findings = _lay_blocks(sheet, context, kept)
    bodies = _fill_pages(blocks, *filled)
    used = sum(one.bar.height + sum(piece.height for piece in one.slices) for series in blocks for one in series)
    if 1 < len(bodies) <= SNUG_PAGES and used * SNUG_PERCENT // 100 <= context.height * (len(bodies) - 1):
        closer, found = _lay_blocks(sheet, replace(context, snug=True), kept)
        snug = _fill_pages(closer, *filled)
        if len(snug) < len(bodies):
            return snug, found
    return bodies, findings


def _lay_blocks(sheet: Sheet, context: Context, kept: Kept | None) -> tuple[list[list[Series]], list[Finding]]:
    blocks: list[list[Series]] = []
    findings: list[Finding] = []
    for number, block in enumerate(sheet.blocks):
        own = replace(context, setter=Typesetter(context.metrics, sheet.title))
        key = number, context.snug
        old = kept.get(key) if kept else None
        series = old[1] if old and old[0] == (block, own) else _lay_block(block, own)
        if kept is not None and not own.setter.findings:
            kept[key] = (block, own), series
        blocks.append(series)
        findings += own.setter.findings
    return blocks, findings


def _lay_block(block: Block, context: Context) -> list[Series]:
    """One block as slices."""
    match block:
        case Table():
            return lay_table(block, context)
        case Panels():
            return lay_panels(block, context)
        case Note():
            return lay_note(block, context)
        case Board():
            return lay_board(block, context)
        case Plot():
            return lay_plot(block, context)
        case SpectrumWindow():
            return lay_spectrum(block, context)
        case Cards():
            return lay_cards(block, context)
        case Strips():
            return lay_strips(block, context)
        case Labels():
            raise ValueError("labels cannot stand on a page with other blocks")
        case _:
            assert_never(block)


class _Pager:
    """Stacks slices on pages of one height, of which each page gives up what its own stamp takes."""

    def __init__(self, height: int, stamps: Stamps) -> None:
        self.height = height
        self.stamps = stamps
        self.pages = [_Body()]

    @property
    def y(self) -> int:
        return self.pages[-1].y

    def turn(self) -> None:
        self.pages.append(_Body())

    def has_room(self, height: int, *pieces: Slice) -> bool:
        """Whether so much more fits on the page, with the stamp that it has once the pieces are on it."""
        return self.y + height + self._stamp_height(*self.pages[-1].slices, *pieces) <= self.height

    def fits_whole(self, height: int, *pieces: Slice) -> bool:
        """The same of an empty page."""
        return height + self._stamp_height(*pieces) <= self.height

    def _stamp_height(self, *pieces: Slice) -> int:
        if not self.stamps.doubted:
            return 0
        return self.stamps.of(subject for piece in pieces for subject in piece.subjects).height

    def put(self, piece: Slice) -> None:
        body = self.pages[-1]
        body.places.append((body.y, piece))
        body.y += piece.height

    def skip(self, height: int) -> None:
        """Leaves air before the next block, but not at the top of a page."""
        if self.y:
            self.pages[-1].y += height


def _fill_pages(blocks: list[list[Series]], height: int, stamps: Stamps) -> list[_Body]:
    pager = _Pager(height, stamps)
    for index, block in enumerate(blocks):
        pager.skip(BLOCK_GAP_UM)
        headed = False
        for series in block:
            tail = _tied_height(blocks[index + 1 :]) if series is block[-1] else 0
            headed = _put_series(pager, series, headed, tail)
    return pager.pages


def _tied_height(blocks: list[list[Series]]) -> int:
    """What the last slice of a block must keep free below it: the next block, if that is tied to it."""
    series = blocks[0][0] if blocks and blocks[0] else None
    return BLOCK_GAP_UM + sum(piece.height for piece in series.slices) if series and series.tied else 0


WELL_FILLED = 0.5
"""How much of a page must be used before a group is moved to the next one to stay whole. A choice of this project."""


def _is_better_whole(pager: _Pager, series: Series, headed: bool, tail: int) -> bool:
    """Whether a group under a bar would be torn here, and stands whole on the next page: a rack is looked up as one."""
    if not series.bar.height or pager.y < WELL_FILLED * pager.height:
        return False
    rest = series.bar.height + sum(piece.height for piece in series.slices) + tail
    torn = not pager.has_room((0 if headed else series.head.height) + rest, *series.slices)
    return torn and pager.fits_whole(series.head.height + rest, *series.slices)


def _put_series(pager: _Pager, series: Series, headed: bool, tail: int) -> bool:
    """Puts a series on the pages; the bar never stands alone at a foot. True: its head stands on the current page.

    Its last piece is put where `tail` has room below it.
    """
    first = series.slices[:1]
    opening = (0 if headed else series.head.height) + series.bar.height + sum(piece.height for piece in first)
    if pager.y and (
        series.new_page or not pager.has_room(opening, *first) or _is_better_whole(pager, series, headed, tail)
    ):
        pager.turn()
        headed = False
    if not headed:
        pager.put(series.head)
    pager.put(series.bar)
    for index, piece in enumerate(series.slices):
        last = piece is series.slices[-1]
        if index and not pager.has_room(piece.height + (tail if last else 0), piece):
            pager.turn()
            pager.put(series.head)
            pager.put(series.again)
        pager.put(piece)
    return bool(series.head.height)
