"""A sheet becomes pages of boxes: everything is measured before anything is placed, and placed before it is drawn."""

from dataclasses import replace
from typing import Any, TypeAlias

from paperwork.document import Board, Cards, Labels, Note, Panels, Plot, Sheet, Spectrum, Strips, Table
from paperwork.finding import Finding
from paperwork.render import page as furniture
from paperwork.render.boards import lay_board
from paperwork.render.boxes import Box, Layout, Page, moved
from paperwork.render.cards import lay_cards
from paperwork.render.fonts import Metrics
from paperwork.render.labels import lay_labels
from paperwork.render.papers import PAPERS
from paperwork.render.plots import lay_plot
from paperwork.render.spectra import lay_spectrum
from paperwork.render.strips import (
    BLOCK_GAP_UM,
    SNUG_PERCENT,
    Context,
    Run,
    Strip,
    cut_findings,
    lay_note,
    lay_panels,
    lay_table,
)
from paperwork.render.unit_strips import lay_unit_strips
from paperwork.sheetfacts import code

SNUG_PAGES = 12
"""A paper of so many pages is tried with less air, and keeps to it where a page less is needed; of more, nobody counts them."""

FIRST_GAP_UM = 1_800
"""Under the masthead's rule, where the first block has no head of its own that keeps off it."""


Kept: TypeAlias = dict[tuple[int, bool], tuple[tuple[Any, Context], list[Run]]]
"""The blocks of a sheet as they were laid out last, by their number and whether they were snug: what was laid, and the runs."""


def lay_out(sheet: Sheet, metrics: Metrics, kept: Kept | None = None) -> Layout:
    """The sheet's pages, and findings for every text that had to be abbreviated or found no room.

    With `kept`, only blocks that changed since are measured; it is brought up to date. Raises ValueError for a sheet that
    contradicts itself (columns wider than the page): a bug of the paper.
    """
    if isinstance(sheet.blocks[0] if sheet.blocks else None, Labels):
        return lay_labels(sheet, metrics)
    width, height = PAPERS[sheet.paper]
    if sheet.orientation == "landscape":
        width, height = height, width
    inner = width - furniture.LEFT_UM - furniture.RIGHT_UM
    top = (
        furniture.TOP_UM
        + furniture.masthead_height(sheet, inner, metrics)
        + furniture.stamp_height(sheet, inner, metrics)
    )
    top += FIRST_GAP_UM if isinstance(sheet.blocks[0] if sheet.blocks else None, Panels | Note | Board) else 0
    bottom = height - furniture.BOTTOM_UM - furniture.footer_height(sheet, inner, metrics) - BLOCK_GAP_UM // 2
    context = Context(inner, bottom - top, metrics, sheet.words, sheet.title, sheet.revision)
    bodies, findings, used = _lay_pages(sheet, context, top, kept)
    if 1 < len(bodies) <= SNUG_PAGES and used * SNUG_PERCENT // 100 <= context.height * (len(bodies) - 1):
        snug, found, _ = _lay_pages(sheet, replace(context, snug=True), top, kept)
        bodies, findings = (snug, found) if len(snug) < len(bodies) else (bodies, findings)
    signs = code(sheet)
    findings.extend(cut_findings(furniture.said_around(sheet, signs, inner), context))
    pages = []
    for number, body in enumerate(bodies, 1):
        shown = sheet.words.page.format(n=number, m=len(bodies))
        frame = _furnish(sheet, signs, shown, inner, height, metrics)
        pages.append(Page(width, height, (*frame, *body)))
    return Layout(sheet.title, sheet.show, tuple(pages), tuple(findings))


def _lay_pages(
    sheet: Sheet, context: Context, top: int, kept: Kept | None
) -> tuple[list[list[Box]], list[Finding], int]:
    """What stands on each page between masthead and foot, what had to be cut for it, and how high all of it is."""
    blocks, findings = _lay_blocks(sheet, context, kept)
    used = sum(run.bar.height + sum(strip.height for strip in run.strips) for runs in blocks for run in runs)
    return _fill_pages(blocks, context.height, top), findings, used


def _lay_blocks(sheet: Sheet, context: Context, kept: Kept | None) -> tuple[list[list[Run]], list[Finding]]:
    blocks: list[list[Run]] = []
    findings: list[Finding] = []
    for number, block in enumerate(sheet.blocks):
        key, about = (number, context.snug), (block, replace(context, sheet=""))
        old = kept.get(key) if kept else None
        runs, found = (old[1], []) if old and old[0] == about else _lay_block(block, context)
        if kept is not None and not found:
            kept[key] = about, runs
        blocks.append(runs)
        findings.extend(found)
    return blocks, findings


def _lay_block(block: Any, context: Context) -> tuple[list[Run], list[Finding]]:
    """One block as strips. The sheet's title is only in what is found, so that a block without findings is the same under another."""
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
        case Spectrum():
            return lay_spectrum(block, context)
        case Cards():
            return lay_cards(block, context)
        case Strips():
            return lay_unit_strips(block, context)
    raise ValueError(f"{type(block).__name__} cannot stand on a page with other blocks")


class _Pager:
    """Stacks strips on pages of one height, whose content begins at `top`."""

    def __init__(self, height: int, top: int) -> None:
        self.height = height
        self.top = top
        self.pages: list[list[Box]] = [[]]
        self.y = 0

    def turn(self) -> None:
        self.pages.append([])
        self.y = 0

    def has_room(self, height: int) -> bool:
        return self.y + height <= self.height

    def put(self, strip: Strip) -> None:
        left, top = furniture.LEFT_UM, self.top + self.y
        self.pages[-1].extend([moved(box, left, top) for box in strip.boxes])
        self.y += strip.height


def _fill_pages(blocks: list[list[Run]], height: int, top: int) -> list[list[Box]]:
    pager = _Pager(height, top)
    for index, runs in enumerate(blocks):
        if pager.y:
            pager.y += BLOCK_GAP_UM
        headed = False
        for run in runs:
            tail = _tied_height(blocks[index + 1 :]) if run is runs[-1] else 0
            headed = _put_run(pager, run, headed, tail)
    return pager.pages


def _tied_height(blocks: list[list[Run]]) -> int:
    """What the last strip of a block must keep free below it: the next block, if that is tied to it."""
    run = blocks[0][0] if blocks and blocks[0] else None
    return BLOCK_GAP_UM + sum(strip.height for strip in run.strips) if run and run.tied else 0


WELL_FILLED = 0.5
"""How much of a page must be used before a group is moved to the next one to stay whole. A choice of this project."""


def _is_better_whole(pager: _Pager, run: Run, headed: bool, tail: int) -> bool:
    """Whether a group under a bar would be torn here, and stands whole on the next page: a rack is looked up as one."""
    rest = run.bar.height + sum(strip.height for strip in run.strips) + tail
    torn = not pager.has_room((0 if headed else run.head.height) + rest)
    return bool(
        run.bar.height and torn and run.head.height + rest <= pager.height and pager.y >= WELL_FILLED * pager.height
    )


def _put_run(pager: _Pager, run: Run, headed: bool, tail: int) -> bool:
    """Puts a run on the pages; the bar never stands alone at a foot. True: its head stands on the current page.

    Its last strip is put where `tail` has room below it.
    """
    first = run.strips[0].height if run.strips else 0
    opening = (0 if headed else run.head.height) + run.bar.height + first
    if pager.y and (run.new_page or not pager.has_room(opening) or _is_better_whole(pager, run, headed, tail)):
        pager.turn()
        headed = False
    if not headed:
        pager.put(run.head)
    pager.put(run.bar)
    for index, strip in enumerate(run.strips):
        last = strip is run.strips[-1]
        if index and not pager.has_room(strip.height + (tail if last else 0)):
            pager.turn()
            pager.put(run.head)
            pager.put(run.again)
        pager.put(strip)
    return bool(run.head.height)


def _furnish(sheet: Sheet, signs: str, page: str, inner: int, height: int, metrics: Metrics) -> list[Box]:
    left = furniture.LEFT_UM
    boxes = [moved(b, left, furniture.TOP_UM) for b in furniture.set_masthead(sheet, signs, page, inner, metrics)]
    if sheet.stamp:
        top = furniture.TOP_UM + furniture.masthead_height(sheet, inner, metrics)
        boxes.extend(moved(b, left, top) for b in furniture.set_stamp(sheet, inner, metrics))
    foot = furniture.footer_height(sheet, inner, metrics)
    if foot:
        top = height - furniture.BOTTOM_UM - foot
        boxes.extend(moved(b, left, top) for b in furniture.set_footer(sheet, inner, metrics))
    return boxes
