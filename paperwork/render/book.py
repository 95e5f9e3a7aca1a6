"""Many layouts bound into one: their pages in order, a number at the foot of each, and a bookmark for each part."""

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple, assert_never

from paperwork.document.styles import PAGE
from paperwork.render.boxes import (
    CLOSE,
    Box,
    Close,
    Fill,
    Frame,
    Hatch,
    Layout,
    Open,
    Page,
    QrBox,
    Room,
    Rule,
    TextBox,
    wrap,
)
from paperwork.render.folded import Framed
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line

FOOT_UM = 5_200
"""From the lower edge to the number's baseline: lasers lose 4 to 6 mm at an edge (from memory)."""

EDGE_UM = 10_000
"""So far from an edge reaches the room in which a number stands."""

SIDE_UM = 13_000
WIDE_UM = 80_000


class Bookmark(NamedTuple):
    """One entry of the outline: where it leads, by page from 0, and how deep it stands."""

    title: str
    page: int
    level: int = 0


class BookPart(NamedTuple):
    """One layout of the book under its title. A `level` of 1 is under the last of 0; what leads there has its `name`."""

    title: str
    layout: Layout
    level: int = 0
    name: str = ""


def bind(parts: Sequence[BookPart], title: str, foot: str, metrics: Metrics) -> tuple[Layout, tuple[Bookmark, ...]]:
    """The book and its outline; only pages of its first part keep their codes. `foot` has places for `n` and `m`."""
    count = sum(len(part.layout.pages) for part in parts)
    pages: list[Page] = []
    marks = []
    targets: dict[str, int] = {}
    for place, part in enumerate(parts):
        marks.append(Bookmark(part.title, len(pages), part.level))
        targets.setdefault(part.name, len(pages))
        for page in part.layout.pages:
            for subject in page.subjects:
                targets.setdefault(f"{subject.section}/{subject.id}", len(pages))
            number = _find_number(page, foot.format(n=len(pages) + 1, m=count), metrics)
            boxes = Framed((Open("Sect", f"part {place}"),), page.boxes, (CLOSE, *number))
            code = page.code if not place else ""
            pages.append(replace(page, boxes=boxes, code=code, stamp="", subjects=frozenset(), cut=()))
    first = parts[0].layout if parts else Layout("", "", (), ())
    bound = Layout(title, first.subject, tuple(pages), (), language=first.language, about=first.about)
    return replace(bound, targets=tuple(sorted(targets.items()))), tuple(marks)


def _find_number(page: Page, text: str, metrics: Metrics) -> list[Box]:
    """The page's number where nothing else stands: at the foot, else at the head; a full label sheet has none."""
    boxes = tuple(page.boxes)
    fitted = fit(text, PAGE, WIDE_UM, metrics)
    middle = (page.width - WIDE_UM) // 2
    for left, top in (
        (middle, page.height - EDGE_UM),
        (page.width - SIDE_UM - WIDE_UM, page.height - EDGE_UM),
        (middle, 0),
    ):
        room = Room(left, top, WIDE_UM, EDGE_UM)
        number = set_line(fitted.lines[0], fitted, room, top + EDGE_UM - FOOT_UM, metrics, "centre")
        if not any(_meets(number.ink, box) for box in boxes):
            return wrap(Open("Artifact"), [number])
    return []


def _meets(ink: Room, box: Box) -> bool:
    """Whether a text, a code or an area reaches into the room of the number; lines do not count."""
    match box:
        case TextBox(ink=other) | QrBox(quiet=other):
            pass
        case Fill() | Hatch():
            other = Room(box.x, box.y, box.width, box.height)
        case Frame() | Rule() | Open() | Close():
            return False
        case _:
            assert_never(box)
    return ink.x < other.right and other.x < ink.right and ink.y < other.bottom and other.y < ink.bottom
