"""A sheet becomes pages of boxes: everything is measured before anything is placed, and placed before it is drawn."""

from collections.abc import Iterator
from dataclasses import replace
from typing import assert_never

from paperwork.document import (
    Block,
    Board,
    Cards,
    Labels,
    Note,
    Panels,
    Plot,
    Sheet,
    SpectrumWindow,
    Strips,
    Table,
    Tree,
)
from paperwork.document.facts import page_code
from paperwork.document.sheet import PAPERS, WALL_PAPERS, Orientation
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.render import furniture
from paperwork.render.blocks.boards import lay_board
from paperwork.render.blocks.cards import lay_cards
from paperwork.render.blocks.panels import lay_note, lay_panels
from paperwork.render.blocks.plots import lay_plot
from paperwork.render.blocks.slices import Context, Later, Series
from paperwork.render.blocks.spectra import lay_spectrum
from paperwork.render.blocks.strips import lay_strips
from paperwork.render.blocks.tables import lay_table
from paperwork.render.blocks.trees import lay_tree
from paperwork.render.boxes import Layout, Open, Page, moved, wrap
from paperwork.render.composing import Composed, Composer, Kept, is_cut_out
from paperwork.render.folded import fold
from paperwork.render.growth import grow, grown, shrink
from paperwork.render.labels.block import lay_labels, list_label_codes
from paperwork.render.pages import Body
from paperwork.render.stamp import Stamps, set_stamp
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter
from paperwork.render.text.shortfalls import find_shortfalls
from paperwork.text.words import words_of

WALL_STEPS = 1
"""So much taller is all on paper for a wall at least, masthead and footer too: it is read from further."""

TURNED: dict[Orientation, Orientation] = {"portrait": "landscape", "landscape": "portrait"}

OVER_FOOT_UM, CUT_GAP_UM = 1_200, 600
"""Over the rule of the footer, and that of a page which is cut up."""

STAMPS, BODY = Open("Div", "stamps"), Open("Div", "body")
"""What is said first of all pages, and then what stands on them: the foot of the first one is read out after both."""

FEW_PAGES = 20
"""A paper of no more pages is not folded up: it is small, and opening it takes time."""

FIRST_GAP_UM = 1_800
"""Under the masthead's rule, where the first block has no head of its own that keeps off it."""


def lay_out(sheet: Sheet, metrics: Metrics, kept: Kept | None = None) -> Layout:
    """The sheet's pages, and findings for every text that had to be abbreviated or found no room.

    With `kept`, only blocks that changed since are measured; it is brought up to date. Raises ValueError for a sheet
    that contradicts itself (columns wider than the page): a bug of the paper.
    """
    return lay_labels(sheet, metrics) if _is_labels(sheet) else _draft(sheet, metrics, kept).finish()


def list_codes(sheet: Sheet, metrics: Metrics) -> tuple[str, ...]:
    """The codes of the pages that `lay_out` makes of the sheet, found without setting anything on them."""
    return list_label_codes(sheet) if _is_labels(sheet) else _draft(sheet, metrics).codes()


def have_same_codes(one: Sheet, other: Sheet, metrics: Metrics) -> bool:
    """Whether the two fall on pages alike, with the same facts: they differ by revision and date at most, and in
    nothing that takes room. Only cards are as wide as the revision on them lets them be."""
    bare, others = (replace(sheet, revision="", replaces="", dated="") for sheet in (one, other))
    signed = one.revision != other.revision and any(isinstance(block, Cards) and block.signed for block in one.blocks)
    return not signed and bare == others and _frame_of(one, metrics) == _frame_of(other, metrics)


def _is_labels(sheet: Sheet) -> bool:
    return bool(sheet.blocks) and isinstance(sheet.blocks[0], Labels)


def _draft(sheet: Sheet, metrics: Metrics, kept: Kept | None = None) -> "_Draft":
    """The sheet, turned where that is better."""
    found = _Draft(sheet, metrics, kept)
    if sheet.turns and (found.pages > 1 or found.lacks):
        turned = _Draft(replace(sheet, orientation=TURNED[sheet.orientation]), metrics, None)
        pages, lacks = turned.pages - found.pages, turned.lacks - found.lacks
        if max(pages, lacks) <= 0 and pages + lacks < 0:
            return turned
    return found


class _Draft:
    """A sheet the way it lies, on its pages, but not yet as tall as it will be, and nothing of it set."""

    def __init__(self, sheet: Sheet, metrics: Metrics, kept: Kept | None) -> None:
        self.sheet, self.is_kept = sheet, kept is not None
        self.frame, self.setter = _frame_of(sheet, metrics), Typesetter(metrics, sheet.title)
        inner, room = self.frame.inner, self.frame.room
        self.stamps = Stamps(sheet, inner, metrics)
        words = words_of(sheet.language)
        context = Context(inner, room - self.stamps.tallest, self.setter, words, sheet.revision, sheet.at_venue)
        self.composer = Composer(sheet, context, room, self.stamps, _lay_block, kept)
        self.composed = self.composer.draft(self.frame.steps)

    @property
    def pages(self) -> int:
        """How many it is on."""
        return len(self.composed.bodies)

    @property
    def lacks(self) -> int:
        """How many of its texts had to give way."""
        return len(self.composed.shortfalls)

    def codes(self) -> tuple[str, ...]:
        """The codes of its pages as they are printed."""
        bodies, stamps = self.composer.finish(self.composed).bodies, self.stamps
        return tuple(page_code(self.sheet, body.facts, stamps.of(body.subjects).facts) for body in bodies)

    def finish(self) -> Layout:
        """Its pages as they are printed."""
        sheet, setter = self.sheet, self.setter
        composed = self.composer.finish(self.composed)
        pages = tuple(_set_pages(sheet, composed, self.frame, self.stamps, setter, folding=not self.is_kept))
        found = find_shortfalls(sheet.title, (*composed.shortfalls, *setter.shortfalls))
        return furniture.make_layout(sheet, pages, found, scaling=not is_cut_out(sheet))


@frozen
class _Frame:
    """What stands around the blocks of a sheet: the paper, how wide it is inside its margins, where masthead, blocks
    and footer begin, by how many steps masthead and footer have grown, the margins at the left and over the masthead,
    and the air over the footer."""

    width: int
    height: int
    inner: int
    under: int
    top: int
    foot: int
    steps: int
    left: int = furniture.LEFT_UM
    over: int = furniture.TOP_UM
    gap: int = OVER_FOOT_UM

    @property
    def room(self) -> int:
        """The height that there is for blocks."""
        return self.foot - self.gap - self.top


def _frame_of(sheet: Sheet, metrics: Metrics) -> _Frame:
    first = sheet.blocks[0] if sheet.blocks else None
    width, height = PAPERS[sheet.paper]
    if sheet.orientation == "landscape":
        width, height = height, width
    if is_cut_out(sheet):
        inner, over = width - 2 * furniture.CUT_SIDE_UM, furniture.CUT_TOP_UM
        under = over + furniture.cut_head_height(sheet, inner, metrics)
        foot = height - furniture.CUT_BOTTOM_UM - furniture.footer_height(_unreturned(sheet), inner, metrics)
        return _Frame(width, height, inner, under, under, foot, 0, furniture.CUT_SIDE_UM, over, CUT_GAP_UM)
    steps = WALL_STEPS if sheet.paper in WALL_PAPERS else 0
    inner = width - furniture.LEFT_UM - furniture.RIGHT_UM
    small = shrink(inner, steps)
    under = furniture.TOP_UM + grow(furniture.masthead_height(sheet, small, metrics), steps)
    top = under + (FIRST_GAP_UM if isinstance(first, Panels | Note | Board) else 0)
    foot = height - furniture.BOTTOM_UM - grow(furniture.footer_height(sheet, small, metrics), steps)
    return _Frame(width, height, inner, under, top, foot, steps)


def _unreturned(sheet: Sheet) -> Sheet:
    """A sheet that is cut up comes back to nobody."""
    return replace(sheet, returns="")


def _set_pages(
    sheet: Sheet, composed: Composed, frame: _Frame, stamps: Stamps, setter: Typesetter, *, folding: bool
) -> Iterator[Page]:
    """Page after page. Those of a long paper are folded up at once, and what they were made of is let go."""
    for number, body in enumerate(composed.bodies, 1):
        page = _set_page(sheet, body, number, composed, frame, stamps, setter)
        if folding and len(composed.bodies) > FEW_PAGES:
            page = replace(page, boxes=fold(page.boxes))
            for piece in body.slices:
                if isinstance(piece.boxes, Later):
                    piece.boxes.forget()
        yield page


def _set_page(
    sheet: Sheet, body: Body, number: int, composed: Composed, frame: _Frame, stamps: Stamps, setter: Typesetter
) -> Page:
    """One page: what stands around its blocks, and the blocks as tall as they have grown."""
    stamp = stamps.of(body.subjects)
    code = page_code(sheet, body.facts, stamp.facts)
    shown = words_of(sheet.language)["page"].format(n=number, m=len(composed.bodies))
    small, metrics = shrink(frame.inner, frame.steps), setter.metrics
    signs = wrap(Open("P"), set_stamp(stamp, frame.inner, setter)) if stamp.text else ()
    is_cut = is_cut_out(sheet)
    set_head = furniture.set_cut_head if is_cut else furniture.set_masthead
    above = [(frame.over, frame.steps, set_head(sheet, code, shown, small, setter))]
    above.append((frame.under, 0, wrap(STAMPS, signs)))
    below = []
    if frame.foot < frame.height - furniture.BOTTOM_UM:
        footed = _unreturned(sheet) if is_cut else sheet
        below.append((frame.foot, frame.steps, furniture.set_footer(footed, small, setter)))
    if is_cut:
        ruler = frame.height - furniture.RULER_FOOT_UM - 2_200
        below.append((ruler, 0, furniture.set_ruler(sheet, frame.inner, setter)))
    around = [
        [moved(grown(box, steps, metrics), frame.left, y) for y, steps, boxes in part for box in boxes]
        for part in (above, below)
    ]
    left, top = frame.left, frame.top + stamp.height
    doubted = frozenset[Subject]() if is_cut else stamps.doubted  # what is cut out says it itself
    if composed.steps:
        blocks = [moved(grown(box, composed.steps, metrics), left, top) for box in body.set(doubted, setter, 0, 0)]
    else:
        blocks = list(body.set(doubted, setter, left, top))
    boxes = (*around[0], *wrap(BODY, blocks), *around[1])
    cut = tuple(piece.cut for piece in body.slices if piece.cut)
    return Page(frame.width, frame.height, boxes, code, stamp.text, frozenset(body.subjects), cut)


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
        case Tree():
            return lay_tree(block, context)
        case Cards():
            return lay_cards(block, context)
        case Strips():
            return lay_strips(block, context)
        case Labels():
            raise ValueError("labels cannot stand on a page with other blocks")
        case _:
            assert_never(block)
