"""Many layouts bound into one: their pages in order, a number at the foot of each, and a bookmark for each part."""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple, assert_never

from paperwork.document.styles import PAGE
from paperwork.render.boxes import Box, Fill, Frame, Hatch, Layout, Page, QrBox, Room, Rule, TextBox
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line

FOOT_UM = 5_200
"""From the lower edge to the number's baseline: lasers lose 4 to 6 mm at an edge (from memory), this one can be lost."""

SIDE_UM = 13_000
WIDE_UM = 80_000


class Bookmark(NamedTuple):
    """One entry of the outline: where it leads, by page from 0, and how deep it stands."""

    title: str
    page: int
    level: int = 0


class BookPart(NamedTuple):
    """One layout of the book under its name. A `level` of 1 stands under the last of 0."""

    title: str
    layout: Layout
    level: int = 0


def bind(parts: Sequence[BookPart], title: str, foot: str, metrics: Metrics) -> tuple[Layout, tuple[Bookmark, ...]]:
    """The book and its outline; of its pages only those of the first part keep their codes. `foot` is the text of a page's number, with places for `n` and `m`."""
    count = sum(len(part.layout.pages) for part in parts)
    pages: list[Page] = []
    marks = []
    for part in parts:
        marks.append(Bookmark(part.title, len(pages), part.level))
        for page in part.layout.pages:
            own = replace(page, code=page.code if part is parts[0] else "", stamp="", subjects=frozenset(), cut=())
            pages.append(_numbered(own, foot.format(n=len(pages) + 1, m=count), metrics))
    subject = parts[0].layout.subject if parts else ""
    return Layout(title, subject, tuple(pages), ()), tuple(marks)


def _numbered(page: Page, text: str, metrics: Metrics) -> Page:
    """The page with its number where nothing else stands: at the foot, else at the head; a full label sheet has none."""
    fitted = fit(text, PAGE, WIDE_UM, metrics)
    middle = (page.width - WIDE_UM) // 2
    for left, top in (
        (middle, page.height - 10_000),
        (page.width - SIDE_UM - WIDE_UM, page.height - 10_000),
        (middle, 0),
    ):
        room = Room(left, top, WIDE_UM, 10_000)
        number = set_line(fitted.lines[0], fitted, room, top + 10_000 - FOOT_UM, metrics, "centre")
        if not any(_meets(number.ink, box) for box in page.boxes):
            return replace(page, boxes=(*page.boxes, number))
    return page


def _meets(ink: Room, box: Box) -> bool:
    """Whether a text, a code or an area reaches into the room of the number; lines do not count."""
    match box:
        case TextBox(ink=other) | QrBox(quiet=other):
            pass
        case Fill() | Hatch():
            other = Room(box.x, box.y, box.width, box.height)
        case Frame() | Rule():
            return False
        case _:
            assert_never(box)
    return ink.x < other.right and other.x < ink.right and ink.y < other.bottom and other.y < ink.bottom
