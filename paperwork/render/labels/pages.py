"""Pages of labels: which label goes into which cell, where a printer really puts it, and what stands around."""

from dataclasses import replace

from paperwork.document import Label, Labels, Printer, Sheet
from paperwork.document.facts import label_code, page_code
from paperwork.document.styles import LABEL_NUMBER, SMALL_PRINT
from paperwork.finding import Subject
from paperwork.render.boxes import HAIR_UM, Box, Frame, Open, Page, QrBox, Room, TextBox, moved, wrap
from paperwork.render.furniture import list_ticks
from paperwork.render.labels.ink import LabelInk
from paperwork.render.labels.stocks import Stock
from paperwork.render.stamp import stamp_facts, word_stamp
from paperwork.render.text.setting import Typesetter
from paperwork.text.words import words_of

RULER_UM = 100_000
MARGIN_FLOOR_UM = 9_500
"""A margin with less than this has no room for a line of small print clear of the printer's edge and the labels."""

PRINTER_EDGE_UM = 5_000
"""What a laser loses at the edge of the paper: 4 to 6 mm (from memory)."""


def cells_for(count: int, stock: Stock, start: int, blocked: tuple[int, ...]) -> list[tuple[int, int]]:
    """For so many labels the (page, cell) of each, both from 0; the first page skips what is used or peeled off."""
    used = {cell - 1 for cell in blocked} | set(range(start - 1))
    cells = [(0, cell) for cell in range(stock.cells) if cell not in used][:count]
    for index in range(count - len(cells)):
        page, cell = divmod(index, stock.cells)
        cells.append((page + 1, cell))
    return cells


def corner_of(stock: Stock, cell: int, printer: Printer) -> tuple[int, int]:
    """Where a label's corner has to be set so that this printer puts its middle into the middle of the cell.

    Places are stretched, from the corner of the paper; the label itself is not, so that its code keeps whole dots.
    """
    room = stock.room(cell)
    return (
        _stretch(2 * room.x + room.width, printer.across_um) // 2 - room.width // 2 + printer.right_um,
        _stretch(2 * room.y + room.height, printer.along_um) // 2 - room.height // 2 + printer.down_um,
    )


def _stretch(length: int, measured_um: int) -> int:
    return length * RULER_UM // measured_um


def list_page_codes(sheet: Sheet, block: Labels, stock: Stock) -> tuple[str, ...]:
    """The codes of the pages of a block, each from the labels that are on it."""
    copies = [label for label in block.labels for _ in range(label.copies)]
    held: dict[int, list[Label]] = {}
    for label, (page, _) in zip(copies, cells_for(len(copies), stock, block.start, block.blocked), strict=True):
        held.setdefault(page, []).append(label)
    return tuple(
        page_code(sheet, [label_code(label, sheet.at_venue) for label in own], stamp_facts(sheet, _shown_by(own)))
        for own in held.values()
    )


def _shown_by(labels: list[Label]) -> frozenset[Subject]:
    return frozenset(subject for label in labels for subject in label.subjects)


def make_pages(sheet: Sheet, block: Labels, stock: Stock, inks: list[LabelInk], setter: Typesetter) -> tuple[Page, ...]:
    """The pages of a block: every copy of every label in a cell of its own."""
    copies = [one for one in zip(block.labels, inks, strict=True) for _ in range(one[0].copies)]
    cells = cells_for(len(copies), stock, block.start, block.blocked)
    count = cells[-1][0] + 1 if cells else 0
    width, height = stock.page_um
    pages: list[list[Box]] = [[] for _ in range(count)]
    held: list[list[Label]] = [[] for _ in range(count)]
    for (label, ink), (page, cell) in zip(copies, cells, strict=True):
        x, y = corner_of(stock, cell, block.printer)
        held[page].append(label)
        moved_ink = (moved(box, x + stock.edge_um, y + stock.edge_um) for box in ink.boxes)
        pages[page].extend(wrap(Open("LI"), wrap(Open("LBody"), moved_ink)))
    made = []
    for number, (inside, code) in enumerate(zip(pages, list_page_codes(sheet, block, stock), strict=True)):
        shown_here = _shown_by(held[number])
        boxes: list[Box] = []
        if block.proof:
            outlines = _outlines(stock, block.printer, {cell for page, cell in cells if page == number}, setter)
            boxes.extend(wrap(Open("Artifact"), outlines))
        if not stock.on_tape:
            shown = words_of(sheet.language)["page"].format(n=number + 1, m=count)
            boxes.extend(_around(sheet, block, stock, (code, shown), setter))
        boxes += wrap(Open("L", "labels"), inside)
        made.append(Page(width, height, tuple(boxes), code, word_stamp(sheet, shown_here), shown_here))
    return tuple(made)


def nearest_edge(pages: tuple[Page, ...], inks: list[LabelInk]) -> int:
    """How near the ink of a label comes to an edge of the paper, in micrometres."""
    signs = {(box.text, box.cap_um) for ink in inks for box in ink.boxes if isinstance(box, TextBox)}
    least = RULER_UM
    for page in pages:
        for box in page.boxes:
            if isinstance(box, TextBox) and (box.text, box.cap_um) in signs:
                least = min(least, _clear(box.ink, page))
            elif isinstance(box, QrBox):
                least = min(least, _clear(Room(box.x, box.y, 0, 0), page))
    return least


def _clear(ink: Room, page: Page) -> int:
    return min(ink.x, ink.y, page.width - ink.right, page.height - ink.bottom)


def _outlines(stock: Stock, printer: Printer, used: set[int], setter: Typesetter) -> list[Box]:
    """Every cell's outline; the free ones show the number by which a start or a peeled cell is named."""
    boxes: list[Box] = []
    for cell in range(stock.cells):
        x, y = corner_of(stock, cell, printer)
        boxes.append(Frame(x, y, stock.width_um, stock.height_um, HAIR_UM))
        if cell not in used:
            room = Room(x + stock.edge_um, y, stock.width_um - 2 * stock.edge_um, stock.height_um)
            style = replace(LABEL_NUMBER, wanted_um=min(LABEL_NUMBER.floor_um, stock.height_um // 2), floor_um=2_600)
            boxes.append(setter.set(str(cell + 1), style, room, align="centre"))
    return boxes


def _around(sheet: Sheet, block: Labels, stock: Stock, signs: tuple[str, str], setter: Typesetter) -> list[Box]:
    """The ruler above the labels, and below them the sheet's name with the `signs` of the page (its code, its number),
    where the margins have room."""
    boxes: list[Box] = []
    width, height = stock.page_um
    if stock.top_um >= MARGIN_FLOOR_UM:
        words = words_of(sheet.language)["proof" if block.proof else "ruler"]
        boxes.extend(wrap(Open("Artifact"), _ruler(words, width, stock.top_um, block.printer, setter)))
    if height - stock.bottom_um >= MARGIN_FLOOR_UM:
        text = words_of(sheet.language)["label foot"].format(
            show=sheet.show, title=sheet.title, revision=sheet.revision, code=signs[0], page=signs[1]
        )
        left = max(stock.left_um, PRINTER_EDGE_UM) + stock.edge_um
        room = Room(left, stock.bottom_um, width - 2 * left, height - stock.bottom_um)
        fitted = setter.fit(text, SMALL_PRINT, room.width)
        baseline = height - max(PRINTER_EDGE_UM, room.height // 2 - fitted.cap_um // 2)
        boxes += wrap(Open("H1", "foot", once=True), [setter.line(fitted, room, baseline, "right")])
    return boxes


def _ruler(words: str, width: int, margin: int, printer: Printer, setter: Typesetter) -> list[Box]:
    """A line that is 100 mm on paper, with a tick each 10 mm: the one way to see that a page has been shrunk.

    It is stretched as the labels are: if it measures 100 mm, the printer's own figures are right.
    """
    long = _stretch(RULER_UM, printer.across_um)
    left, y = (width - long) // 2, max(PRINTER_EDGE_UM + 3_000, margin - 4_500)
    room = Room(left, 0, long, margin)
    return [*list_ticks(left, y, long), setter.set(words, SMALL_PRINT, room, y - 900, "centre")]
