"""What a block becomes: slices that run across the page and are never split, in series under one bar."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import field, replace
from functools import partial
from typing import Any

from paperwork.document import RowGroup
from paperwork.document.styles import GROUP, GROUP_NOTE
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.render.blocks.cells import INDENT_UM
from paperwork.render.boxes import Box, Fill, Room
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

BAR_UM, SNUG_BAR_UM = 6_800, 5_600
BLOCK_GAP_UM, SNUG_BLOCK_GAP_UM = 4_000, 2_600
MARK_GAP_UM = 400

SNUG_PERCENT = 74
"""How much of a wanted height is left at the least where a paper is set snug."""


class Later:
    """Boxes that are set when they are asked for: of the ways to set a sheet that were tried and left, none are."""

    def __init__(self, make: Callable[[], Iterable[Box]]) -> None:
        self._make = make
        self._boxes: tuple[Box, ...] | None = None

    def __iter__(self) -> Iterator[Box]:
        if self._boxes is None:
            self._boxes = tuple(self._make())
        return iter(self._boxes)

    def forget(self) -> None:
        """Lets the boxes go: they are set again if anybody asks."""
        self._boxes = None


@frozen
class Slice:
    """Boxes of one piece, from its own top left corner. A `bar` stays with the slice that follows.

    `facts` are what it adds to its page's code, `subjects` the records that it shows. A `mark` is printed with a bar
    in the margin, clear of what the boxes take there (`margin`). `cut` is the code that a piece to cut out carries.
    `rows` are the rows in it that may be taller.
    """

    height: int
    boxes: Iterable[Box] = ()
    bar: bool = False
    facts: tuple[Any, ...] = ()
    subjects: tuple[Subject, ...] = ()
    mark: str = ""
    margin: int = 0
    cut: str = ""
    rows: int = 0
    stretch: Callable[[int], Iterable[Box]] | None = field(default=None, compare=False, repr=False)
    """Sets it in another height, if it has rows."""

    def taller(self, air: int) -> "Slice":
        """The same with so much more height for each of its rows."""
        if not (self.rows and self.stretch):
            return self
        height = self.height + air * self.rows
        return replace(self, height=height, boxes=Later(partial(self.stretch, height)))


@frozen
class Series:
    """Slices under one bar. `head` and `again` open every page on which the series goes on.

    A `tied` series stands at the foot of each page of the block before it.
    """

    slices: tuple[Slice, ...]
    head: Slice = Slice(0)
    bar: Slice = Slice(0)
    again: Slice = Slice(0)
    new_page: bool = False
    tied: bool = False
    across: int = 1
    shift: int = 0
    """In how many columns side by side the block stands, and how far each is from the one before."""


@frozen
class Context:
    """What every block needs: the page's width and height inside its furniture, who sets its texts, its words."""

    width: int
    height: int
    setter: Typesetter = field(compare=False)
    words: Mapping[str, str]
    revision: str = ""
    at_venue: str = ""
    snug: bool = False
    """Whether the blocks give up what they can spare: tried where a paper may come on fewer pages for it."""
    number: int = 0
    """The block's place in its sheet, by which its parts on several pages are known as one."""
    measured: dict[tuple[int, int], Any] = field(default_factory=dict, compare=False, repr=False)
    """What a sheet's blocks measured, by number and width: rows that are set closer measure the same."""

    @property
    def metrics(self) -> Metrics:
        """The widths of texts."""
        return self.setter.metrics


def set_bars(group: RowGroup, context: Context) -> tuple[Slice, Slice]:
    """The bar as it opens the group and as it goes on; nothing for a group without a title. The note has what the
    longer title leaves, so that it stays in place. Stacked marks, as in Vietnamese or Thai, make a bar taller."""
    if not group.title:
        return Slice(0), Slice(0)
    setter = context.setter
    width = context.width - INDENT_UM - 3_000
    said_um = fit(group.note, GROUP_NOTE, width, context.metrics).width_um(context.metrics) if group.note else 0
    title_um = max(width * 6 // 10, width - said_um - 4_000)
    title = fit(group.title, GROUP, title_um, context.metrics)
    longer = context.words["continued"].format(title=group.title)
    again = fit(longer, GROUP, title_um, context.metrics)
    if again.outcome == "abbreviated":  # a title that is whole says more than its beginning and that it goes on
        longer, again = group.title, title
    setter.record(longer, again)
    note_um = width - again.width_um(context.metrics) - 4_000
    note = setter.fit(group.note, GROUP_NOTE, note_um) if group.note else None
    texts = (title, again, note) if note else (title, again)
    tall = SNUG_BAR_UM if context.snug else BAR_UM
    lower = max(0, *(one.rise_um + MARK_GAP_UM - (tall + one.cap_um) // 2 for one in texts))
    foot = max((tall + one.cap_um) // 2 + one.drop_um for one in texts)
    inner = Room(INDENT_UM, 0, width, max(tall, foot) + lower)
    bars = []
    for shown in (title, again):
        line = setter.line(shown, inner, (tall + shown.cap_um) // 2 + lower, white=True)
        boxes: list[Box] = [Fill(0, 0, context.width, inner.height), line]
        if note:
            room = inner._replace(x=inner.right - note_um, width=note_um)
            boxes.append(setter.line(note, room, (tall + note.cap_um) // 2 + lower, "right", white=True))
        bars.append(Slice(inner.height, tuple(boxes), bar=True, facts=group.facts))
    return bars[0], bars[1]
