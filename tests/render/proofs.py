"""Proofs on the boxes of a layout, used by several tests."""

from paperwork.document import Sheet
from paperwork.render.blocks.cells import TICK_UM
from paperwork.render.boxes import Fill, Frame, Layout, Page, QrBox, Room, Rule, TextBox
from paperwork.render.text.faces import FACES
from tests.metrics import load_metrics

TICK_CLEAR_UM, LARGEST_TICK_UM = 300, 15_000
"""What two lines need between them to be two at half a metre (common practice, no source). Larger squares hold texts."""


def texts(page: Page) -> list[TextBox]:
    """The page's texts that show something."""
    return [box for box in page.boxes if isinstance(box, TextBox) and box.text]


def all_texts(layout: Layout) -> list[TextBox]:
    """The texts of all pages."""
    return [text for page in layout.pages for text in texts(page)]


def overlap(a: Room, b: Room) -> bool:
    """Whether two rectangles share an area."""
    return a.x < b.right and b.x < a.right and a.y < b.bottom and b.y < a.bottom


def inside(inner: Room, outer: Room, slack: int = 0) -> bool:
    """Whether a rectangle lies in another, give or take."""
    return (
        inner.x >= outer.x - slack
        and inner.right <= outer.right + slack
        and inner.y >= outer.y - slack
        and inner.bottom <= outer.bottom + slack
    )


def check_page(page: Page) -> None:
    """Every text at or above its floor, in its room and on the paper, and none over another or over a QR code."""
    shown = texts(page)
    metrics = load_metrics()
    paper = Room(0, 0, page.width, page.height)
    for text in shown:
        assert text.cap_um >= text.floor_um, text
        length = text.ink.height if text.turned else text.ink.width
        assert length == metrics.width_um(text.text, text.face, text.cap_um), text
        assert inside(text.ink, text.room), text
        assert inside(text.ink, paper), text
        assert text.face in FACES
    _check_overlaps(shown)
    _check_grounds(page, shown)
    _check_squares(page)
    codes = [box for box in page.boxes if isinstance(box, QrBox)]
    for code in codes:
        for text in shown:
            assert not overlap(code.quiet, text.ink), (code.payload, text)
        for other in codes:
            assert other is code or not overlap(code.quiet, other.quiet)
        for frame in (box for box in page.boxes if isinstance(box, Frame)):
            edge = Room(frame.x, frame.y, frame.width, frame.height)
            assert inside(code.quiet, edge) or not overlap(code.quiet, edge)


def _check_overlaps(shown: list[TextBox]) -> None:
    """No ink over other ink, swept from the left so that a full page stays quick."""
    ordered = sorted(shown, key=lambda text: text.ink.x)
    for index, one in enumerate(ordered):
        for other in ordered[index + 1 :]:
            if other.ink.x >= one.ink.right:
                break
            assert not overlap(one.ink, other.ink), (one, other)


def _check_grounds(page: Page, shown: list[TextBox]) -> None:
    """White letters stand on black whole, black ones on none of it: only capital height counts, not the longest descender."""
    fills = [Room(*box[:4]) for box in page.boxes if isinstance(box, Fill)]
    for text in shown:
        height = min(text.cap_um, text.ink.height)
        core = text.ink if text.turned else Room(text.ink.x, text.y - height, text.ink.width, height)
        if text.white:
            assert any(inside(core, fill) for fill in fills), text
        else:
            assert not any(overlap(core, fill) for fill in fills), text


def _check_squares(page: Page) -> None:
    """Each square to tick is clear of the rules and bars above and below it, however close the rows are."""
    lines = [(min(box.x1, box.x2), box.y1, max(box.x1, box.x2), box.y2) for box in page.boxes if isinstance(box, Rule)]
    lines += [(box.x, box.y, box.x + box.width, box.y + box.height) for box in page.boxes if isinstance(box, Fill)]
    for box in page.boxes:
        if isinstance(box, Frame) and TICK_UM <= box.width == box.height < LARGEST_TICK_UM:
            right, top, foot = box.x + box.width, box.y - TICK_CLEAR_UM, box.y + box.height + TICK_CLEAR_UM
            meets = [one for one in lines if one[0] < right and box.x < one[2] and one[1] < foot and top < one[3]]
            assert not meets, (box, meets)


def check_layout(layout: Layout) -> None:
    """Every page proved."""
    for page in layout.pages:
        check_page(page)


def words_of(layout: Layout) -> str:
    """All texts in order, spaces single."""
    return " ".join(" ".join(text.text.split()) for text in all_texts(layout))


def shown_everywhere(sheet: Sheet, layout: Layout) -> None:
    """The masthead's texts stand on every page."""
    for page in layout.pages:
        found = {text.text for text in texts(page)}
        assert sheet.title in found and sheet.revision in found
