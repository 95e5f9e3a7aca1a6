"""Slices on pages: where pages split, so that nothing is torn that is looked up as one, and none is nearly empty."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from typing import Any

from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.render.blocks.slices import BLOCK_GAP_UM, Series, Slice
from paperwork.render.boxes import Box, moved, put_first
from paperwork.render.growth import shrink
from paperwork.render.stamp import Stamps, list_marks, set_mark
from paperwork.render.text.setting import Typesetter

WELL_FILLED = 0.5
"""How much of a page must be used before a group is moved to the next one to stay whole. A choice of this project."""

NEAR_UM = 500
"""So close to the lowest height that needs no further page is near enough."""


@dataclass(slots=True)
class Body:
    """What stands on one page between masthead and foot: slices, each with its place, and how far down it goes."""

    places: list[tuple[int, int, Slice]] = field(default_factory=list)
    y: int = 0
    column: int = 0
    top: int = 0
    """Which of the columns is filled, and where they begin."""
    lowest: int = 0
    """How far down the columns before it go."""

    @property
    def slices(self) -> list[Slice]:
        return [piece for _, _, piece in self.places]

    @property
    def subjects(self) -> list[Subject]:
        """The records that the page shows."""
        return [subject for piece in self.slices for subject in piece.subjects]

    @property
    def facts(self) -> list[Any]:
        """The facts of the page in order; what stands on several lines counts once."""
        said = [piece.facts for piece in self.slices if piece.facts]
        return [facts for index, facts in enumerate(said) if not index or facts is not said[index - 1]]

    def set(self, doubted: frozenset[Subject], setter: Typesetter, left: int, top: int) -> Iterator[Box]:
        """The boxes, the body's top left corner at a place, doubted and changed pieces with marks in the margin."""
        for x, y, piece in self.places:
            marks = list_marks(not doubted.isdisjoint(piece.subjects), piece.mark)
            signs = set_mark(marks, piece.margin, piece.height, setter) if marks else ()
            yield from (moved(box, left + x, top + y) for box in put_first(signs, tuple(piece.boxes)))


@frozen
class PageRoom:
    """What each page has for blocks: the height, of which its own stamp takes its part; `gap` between two blocks.

    `steps` is how much all is still to grow: a stamp does not, and takes less of what is. `torn`: a group need not
    stay whole.
    """

    height: int
    stamps: Stamps
    steps: int = 0
    gap: int = BLOCK_GAP_UM
    torn: bool = False
    stamped: bool = True
    limits: tuple[int, ...] = ()
    """To which height the first pages are filled, where that is less."""

    @property
    def is_stamped(self) -> bool:
        """Whether a page may have a stamp."""
        return self.stamped and bool(self.stamps.doubted)

    def stamp_height(self, pieces: Iterable[Slice]) -> int:
        """What the stamp of a page with these pieces takes."""
        if not self.is_stamped:
            return 0
        height = self.stamps.of(subject for piece in pieces for subject in piece.subjects).height
        return shrink(height, self.steps) + bool(height)


class Pager:
    """Stacks slices on pages, in one column or more."""

    def __init__(self, room: PageRoom) -> None:
        self.room = room
        self.pages = [Body()]
        self.across = 1
        self.shift = 0
        self.foot: tuple[Slice, ...] = ()
        """What stands at the foot of each page of the block that is put, a gap above it, under all of its columns."""
        self.begun = False
        """Whether something of that block is on the page already."""

    @property
    def page(self) -> Body:
        """The page that is filled."""
        return self.pages[-1]

    @property
    def filled(self) -> int:
        """How much stands in the column that is filled."""
        return self.page.y - self.page.top

    def divide(self, across: int, shift: int) -> None:
        """From here on so many columns side by side, each `shift` from the one before."""
        page = self.page
        page.y = page.lowest = max(page.y, page.lowest)
        page.column, page.top = 0, page.y if across > 1 else 0
        self.across, self.shift = across, shift

    def turn(self) -> None:
        """The next column, or the next page."""
        page = self.page
        page.lowest = max(page.lowest, page.y)
        if page.column + 1 < self.across:
            page.y, page.column = page.top, page.column + 1
            return
        page.y, page.column = page.lowest, 0
        if self.foot and self.begun:
            self.skip(self.room.gap)
            for piece in self.foot:
                self.put(piece)
        self.pages.append(Body())

    def turn_to(self, height: int, *pieces: Slice) -> None:
        """The next column, or the next page, that has room for the pieces and so much more."""
        self.turn()
        while self.page.y and not self.has_room(height + sum(piece.height for piece in pieces), *pieces):
            self.turn()

    def has_room(self, height: int, *pieces: Slice) -> bool:
        """Whether so much more fits on the page, with the stamp that it has once the pieces are on it."""
        foot, number = self.page.y + height + self._foot_height(), len(self.pages)
        most = self.room.limits[number - 1] if number <= len(self.room.limits) else self.room.height
        if foot > most or not self.room.is_stamped:
            return foot <= most
        return foot + self.room.stamp_height([*self.page.slices, *pieces]) <= self.room.height

    def fits_whole(self, height: int, *pieces: Slice) -> bool:
        """The same of an empty page."""
        return height + self._foot_height() + self.room.stamp_height(pieces) <= self.room.height

    def _foot_height(self) -> int:
        return self.room.gap + sum(piece.height for piece in self.foot) if self.foot else 0

    def put(self, piece: Slice) -> None:
        page = self.page
        page.places.append((page.column * self.shift, page.y, piece))
        page.y += piece.height

    def skip(self, height: int) -> None:
        """Leaves air before the next block, but not at the top of a page."""
        if self.page.y:
            self.page.y += height


def fill_pages(blocks: list[list[Series]], room: PageRoom) -> list[Body]:
    """The blocks on pages, each as full as it can be."""
    pager = Pager(room)
    for index, block in enumerate(blocks):
        pager.divide(1, 0)
        pager.skip(room.gap)
        if block and block[0].across > 1:
            pager.divide(block[0].across, block[0].shift)
        pager.foot, pager.begun = _list_tied(blocks[index:]), False
        headed = False
        for series in block:
            headed = _put_series(pager, series, headed)
    for page in pager.pages:  # without the air before what then came on the next page
        page.y = max((y + piece.height for _, y, piece in page.places), default=0)
    return pager.pages


def balance_pages(blocks: list[list[Series]], room: PageRoom) -> list[Body]:
    """The same on as many pages, all of them about as full.

    As if no page had a stamp, where all have room for theirs: a doubt on one page moves no row to another.
    """
    for own in (replace(room, stamped=False), room):
        found = _balance(blocks, own)
        if all(body.y + room.stamp_height(body.slices) <= room.height for body in found):
            break
    return found


def _balance(blocks: list[list[Series]], room: PageRoom) -> list[Body]:
    """Filled to the lowest height that needs no further page."""
    found = fill_pages(blocks, room)
    across = max((series.across for block in blocks for series in block), default=1)
    low, high = sum(page.y for page in found) // len(found) // across, room.height
    while (len(found) > 1 or across > 1) and high - low > NEAR_UM:
        middle = (low + high) // 2
        tried = fill_pages(blocks, replace(room, height=middle))
        if len(tried) <= len(found) and all(body.y + room.stamp_height(body.slices) <= room.height for body in tried):
            found, high = tried, middle
        else:
            low = middle
    if across == 1 and len(found) > 1 and found[-1].y < WELL_FILLED * room.height:
        return _share(blocks, found, room)
    return found


def _share(blocks: list[list[Series]], found: list[Body], room: PageRoom) -> list[Body]:
    """Each page filled to its share of what is left, where pieces are so tall that one height for all leaves the last
    page nearly empty; as it was if that takes a page more."""
    total, tried = sum(page.y for page in found), found
    for number in range(1, len(found)):
        used = sum(page.y for page in tried[: number - 1])
        limits = (*room.limits, (total - used) // (len(found) - number + 1))
        room = replace(room, limits=limits)
        tried = fill_pages(blocks, room)
    return tried if len(tried) == len(found) else found


def stretch_page(body: Body, air: int) -> Body:
    """A page with the same pieces, rows so much taller: each moves down by what has grown above it in its column."""
    places: list[tuple[int, int, Slice]] = []
    old_foot = new_foot = 0
    beside: dict[int, int] = {}
    shifts: dict[int, int] = {}
    for x, y, piece in body.places:
        other = piece.taller(air)
        if not x:  # under all that stands above it, be that one column or more
            shift = new_foot - old_foot if y >= old_foot else shifts.get(0, 0)
            beside.setdefault(y, shift)
            shifts = {}
        else:  # a further column begins beside a piece of the first
            shift = shifts.get(x, beside.get(y, 0))
        places.append((x, y + shift, other))
        shifts[x] = shift + other.height - piece.height
        old_foot, new_foot = max(old_foot, y + piece.height), max(new_foot, y + shift + other.height)
    return Body(places, new_foot)


def _list_tied(blocks: list[list[Series]]) -> tuple[Slice, ...]:
    """The pieces of the block that is tied to the first of these, and to those between."""
    tied = next((index for index, block in enumerate(blocks) if block and block[0].tied), 0)
    return tuple(piece for series in blocks[tied] for piece in series.slices) if tied else ()


def _is_better_whole(pager: Pager, series: Series, headed: bool) -> bool:
    """Whether a group under a bar would be torn here, and stands whole on the next page: a rack is looked up as one."""
    if pager.room.torn or not series.bar.height or pager.page.y < WELL_FILLED * pager.room.height:
        return False
    rest = series.bar.height + sum(piece.height for piece in series.slices)
    torn = not pager.has_room((0 if headed else series.head.height) + rest, *series.slices)
    return torn and pager.fits_whole(series.head.height + rest, *series.slices)


def _put_series(pager: Pager, series: Series, headed: bool) -> bool:
    """Puts a series on the pages, no bar at a foot with less than two pieces. True: its head is on the current page."""
    first = series.slices[: 2 if series.bar.bar else 1]
    opening = (0 if headed else series.head.height) + series.bar.height + sum(piece.height for piece in first)
    if series.new_page and pager.page.y > pager.page.top:
        pager.turn()
        headed = False
    elif pager.page.y and (not pager.has_room(opening, *first) or _is_better_whole(pager, series, headed)):
        pager.turn_to(series.head.height + series.bar.height, *first)
        headed = False
    if not headed:
        pager.put(series.head)
    pager.put(series.bar)
    pager.begun = True
    for index, piece in enumerate(series.slices):
        if index and not pager.has_room(piece.height, piece):
            pager.turn_to(series.head.height + series.again.height, piece)
            pager.put(series.head)
            pager.put(series.again)
        pager.put(piece)
    return bool(series.head.height)
