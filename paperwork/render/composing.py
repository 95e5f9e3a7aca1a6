"""How a sheet's blocks come on pages: on as few as there can be, then as tall as these pages let them, then with all
air.

A page is looked at from afar, and a hole at its foot is room that its type could have had. So a sheet is first set
closer if that saves a page; then its blocks grow along the scale of type while no page more is needed; then its rows
share what is left, and the pages are filled alike.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TypeAlias

from paperwork.document import Block, Cards, Ribbon, Sheet, SpectrumWindow, Strips, Table
from paperwork.frozen import frozen
from paperwork.render.blocks.columns import has_width
from paperwork.render.blocks.slices import BLOCK_GAP_UM, SNUG_BLOCK_GAP_UM, Context, Series
from paperwork.render.growth import grow, shrink
from paperwork.render.pages import Body, PageRoom, balance_pages, fill_pages, stretch_page
from paperwork.render.stamp import Stamps
from paperwork.render.text.setting import Typesetter
from paperwork.render.text.shortfalls import Shortfall

MOST_PAGES = 12
"""A paper of so many pages is tried with less air and in other sizes; of more, nobody counts them."""

CLOSER_PERCENT = 70
"""How much of its height a sheet keeps at the least where it is set closer: one that would need its last page even
then is not tried."""

MOST_STEPS = 2
"""So many steps a block may grow: two are A3 to A4. Three lines in letters for a wall help nobody."""

MOST_AIR_PERCENT = 40
"""What a row may be taller, of what it needs: more, and the eye no longer finds from one end to the other."""

LEAST_AIR_UM = 150
"""Less for each row is not seen, and not worth setting them again."""

FULL_PERCENT = 88
"""A fuller page has rows as tall as those of the fullest; one with a hole at its foot has all of its own air."""

WIDER_PERCENT = 106
"""What a grown block may need beyond its steps: more, and its texts had to break."""

LayBlock: TypeAlias = Callable[[Block, Context], list[Series]]

Kept: TypeAlias = dict[tuple[int, int, bool], tuple[tuple[Block, Context], list[Series]]]
"""The blocks of a sheet as they were laid out last, by number and way: what was laid, and the series."""


@frozen
class Composed:
    """The blocks of a sheet, set in one way: the pages that they fill, what gave way for it, and the room of a page."""

    bodies: list[Body]
    blocks: list[list[Series]]
    shortfalls: list[Shortfall]
    context: Context
    page: PageRoom

    @property
    def steps(self) -> int:
        """How much the blocks are still to grow."""
        return self.page.steps

    @property
    def room(self) -> int:
        """The height of all pages."""
        return self.context.height * len(self.bodies)

    @property
    def used(self) -> int:
        """How much of it the blocks take."""
        return sum(body.y for body in self.bodies)


@dataclass(slots=True)
class Composer:
    """Sets the blocks of one sheet in one way after another. `room` is the page's, `kept` what was laid before."""

    sheet: Sheet
    context: Context
    room: int
    stamps: Stamps
    lay_block: LayBlock
    kept: Kept | None = None

    def draft(self, least: int) -> Composed:
        """On as few pages as there can be, at least so many steps grown: what comes after it takes no page more."""
        return self._closer(self._set(least))

    def finish(self, best: Composed) -> Composed:
        """The same as tall as its pages let it be, with all air."""
        if len(best.bodies) > MOST_PAGES:
            return best
        if is_cut_out(self.sheet):
            return replace(best, bodies=balance_pages(best.blocks, best.page))
        least = best.steps
        for steps in range(least + MOST_STEPS, least, -1):
            if self._may_grow(best, steps):
                taller = self._set(steps, snug=best.context.snug, torn=best.page.torn)
                if self._is_as_good(taller, best):
                    best = taller
                    break
        return self._airy(best)

    def _may_grow(self, found: Composed, steps: int) -> bool:
        """Whether blocks so much taller can come on the same pages at all: where they do not as tall as they are now,
        they do not once they are narrower, and measuring them again is most of the work."""
        if grow(found.used, steps) > grow(found.room, found.steps):
            return False
        if any(map(_is_to_scale, self.sheet.blocks)):
            return False  # a name that has no room in its band is left out of it, and nothing would say so
        width = shrink(self.context.width, steps)
        if not all(has_width(block.columns, width) for block in self.sheet.blocks if isinstance(block, Table)):
            return False
        page = replace(found.page, height=shrink(self.room, steps), steps=steps)
        return len(fill_pages(found.blocks, page)) <= len(found.bodies)

    def _set(self, steps: int, *, snug: bool = False, torn: bool = False) -> Composed:
        context = replace(
            self.context, width=shrink(self.context.width, steps), height=shrink(self.context.height, steps), snug=snug
        )
        blocks: list[list[Series]] = []
        shortfalls: list[Shortfall] = []
        for number, block in enumerate(self.sheet.blocks):
            own = replace(context, setter=Typesetter(context.metrics, self.sheet.title), number=number)
            key = number, steps, snug
            old = self.kept.get(key) if self.kept else None
            series = old[1] if old and old[0] == (block, own) else self.lay_block(block, own)
            if self.kept is not None and not own.setter.shortfalls:
                self.kept[key] = (block, own), series
            blocks.append(series)
            shortfalls += own.setter.shortfalls
        gap = SNUG_BLOCK_GAP_UM if snug else BLOCK_GAP_UM
        room = PageRoom(shrink(self.room, steps), self.stamps, steps, gap, torn)
        return Composed(fill_pages(blocks, room), blocks, shortfalls, context, room)

    def _closer(self, found: Composed) -> Composed:
        """The same with less air, where that saves a page."""
        pages = len(found.bodies)
        if not 1 < pages <= MOST_PAGES or found.used * CLOSER_PERCENT // 100 > found.context.height * (pages - 1):
            return found
        if all(map(_is_fixed, self.sheet.blocks)):
            page = replace(found.page, gap=SNUG_BLOCK_GAP_UM)
            closer = replace(found, bodies=fill_pages(found.blocks, page), page=page)
        else:
            closer = self._set(found.steps, snug=True)
        if len(closer.bodies) < pages:
            return closer
        page = replace(closer.page, torn=True)
        torn = fill_pages(closer.blocks, page)
        return replace(closer, bodies=torn, page=page) if len(torn) < pages else found

    @staticmethod
    def _is_as_good(taller: Composed, found: Composed) -> bool:
        """Whether blocks have grown without a page more, a text less, or lines that had to break."""
        if len(taller.bodies) > len(found.bodies) or len(taller.shortfalls) > len(found.shortfalls):
            return False
        return taller.used <= found.used * WIDER_PERCENT // 100

    def _airy(self, found: Composed) -> Composed:
        """The same with all pages filled alike, and with what they have left over shared by the rows of tables."""
        bodies = balance_pages(found.blocks, found.page)
        airs = [_air_of(body, found.page) for body in bodies]
        least = min((air for air in airs if air is not None), default=0)
        for number, (body, air) in enumerate(zip(bodies, airs, strict=True)):
            most = air if air is not None and body.y < found.page.height * FULL_PERCENT // 100 else least
            if most >= LEAST_AIR_UM:
                bodies[number] = stretch_page(body, most)
        return replace(found, bodies=bodies)


def _air_of(body: Body, page: PageRoom) -> int | None:
    """What each row of a page could be taller, None where there is none."""
    columns: dict[int, list[int]] = {}
    for x, _, piece in body.places:
        if piece.rows:
            columns.setdefault(x, []).extend([piece.height // piece.rows] * piece.rows)
    if not columns:
        return None
    rows = max(columns.values(), key=len)
    left = page.height - body.y - page.stamp_height(body.slices)
    return min(left // len(rows), sum(rows) // len(rows) * MOST_AIR_PERCENT // 100)


def _is_to_scale(block: Block) -> bool:
    """Whether a band as wide as its frequencies is drawn in it."""
    if isinstance(block, Table):
        cells = (cell for group in block.groups for row in group.rows for parts in row.cells for cell in parts)
        return any(isinstance(item, Ribbon) for cell in cells for item in cell.items)
    return isinstance(block, SpectrumWindow)


def _is_fixed(block: Block) -> bool:
    """Whether it has the size that it has, however close it is set."""
    return isinstance(block, Strips) or (isinstance(block, Cards) and block.width_um > 0)


def is_cut_out(sheet: Sheet) -> bool:
    """Whether something of it is cut to size, and so has the size that it has."""
    return any(isinstance(block, Strips) or (isinstance(block, Cards) and block.signed) for block in sheet.blocks)
