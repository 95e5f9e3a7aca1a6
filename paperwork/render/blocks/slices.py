"""What a block becomes: slices that run across the page and are never split, in series under one bar."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from paperwork.document import RowGroup
from paperwork.document.styles import GROUP, GROUP_NOTE
from paperwork.finding import Subject
from paperwork.render.blocks.cells import INDENT_UM
from paperwork.render.boxes import Box, Fill, Room
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

BAR_UM = 6_800
BLOCK_GAP_UM = 4_000

SNUG_PERCENT = 85
"""How much of a height is left at the least where a paper is set snug: blocks do not give up more, and a paper that would
need its last page even then is not tried."""


@dataclass(frozen=True, slots=True)
class Slice:
    """Boxes of one piece, from its own top left corner. A `bar` stays with the slice that follows.

    `facts` are what it adds to its page's code, `subjects` the records that it shows. A `mark` is printed with a bar in the
    margin, clear of what the boxes take there (`margin`). `cut` is the code that a piece to cut out carries.
    """

    height: int
    boxes: tuple[Box, ...] = ()
    bar: bool = False
    facts: tuple[Any, ...] = ()
    subjects: tuple[Subject, ...] = ()
    mark: str = ""
    margin: int = 0
    cut: str = ""


@dataclass(frozen=True, slots=True)
class Series:
    """Slices under one bar. `head` and `again` open every page on which the series goes on.

    A `tied` series stays on a page with the last slice of the one before it.
    """

    slices: tuple[Slice, ...]
    head: Slice = Slice(0)
    bar: Slice = Slice(0)
    again: Slice = Slice(0)
    new_page: bool = False
    tied: bool = False


@dataclass(frozen=True, slots=True)
class Context:
    """What every block needs: how wide and tall the page is inside its furniture, who sets its texts, the page's words."""

    width: int
    height: int
    setter: Typesetter = field(compare=False)
    words: Mapping[str, str]
    revision: str = ""
    at_venue: str = ""
    snug: bool = False
    """Whether the blocks give up what they can spare: tried where a paper may come on fewer pages for it."""

    @property
    def metrics(self) -> Metrics:
        """The widths of texts."""
        return self.setter.metrics


def put_under_bar(group: RowGroup, slices: tuple[Slice, ...], head: Slice, context: Context) -> Series:
    """The slices of a group under its bar, which says on later pages that it goes on."""
    bar = again = Slice(0)
    if group.title:
        bar, again = _set_bars(group, context)
    return Series(slices, head, bar, again, group.new_page)


def _set_bars(group: RowGroup, context: Context) -> tuple[Slice, Slice]:
    """The bar as it opens the group and as it goes on. The note has what the longer title leaves, so that it stays in place."""
    setter = context.setter
    inner = Room(INDENT_UM, 0, context.width - INDENT_UM - 3_000, BAR_UM)
    title_um = inner.width * 6 // 10
    again = setter.fit(context.words["continued"].format(title=group.title), GROUP, title_um)
    title = fit(group.title, GROUP, title_um, context.metrics)
    note_um = inner.width - again.width_um(context.metrics) - 4_000
    note = setter.fit(group.note, GROUP_NOTE, note_um) if group.note else None
    bars = []
    for shown in (title, again):
        baseline = (BAR_UM + shown.cap_um) // 2
        boxes: list[Box] = [Fill(0, 0, context.width, BAR_UM), setter.line(shown, inner, baseline, white=True)]
        if note:
            room = Room(inner.right - note_um, 0, note_um, BAR_UM)
            boxes.append(setter.line(note, room, baseline, "right", white=True))
        bars.append(Slice(BAR_UM, tuple(boxes), bar=True, facts=group.facts))
    return bars[0], bars[1]
