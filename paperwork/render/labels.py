"""A sheet of labels: which label goes into which cell, and what stands around them."""

from paperwork.document import Label, Labels, Line, Sheet
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place
from paperwork.render.boxes import Box, Layout, Page, Room, Rule, moved
from paperwork.render.fit import fit, set_line
from paperwork.render.fonts import Metrics, face_for
from paperwork.render.label_ink import Ink, Printed, set_label
from paperwork.render.label_plan import EDGE_UM, Plan, plan_labels
from paperwork.render.papers import PAPERS
from paperwork.render.qr import qr_runs
from paperwork.render.stocks import Stock, load_stocks
from paperwork.render.strips import cut_finding
from paperwork.sheetfacts import code, label_code, payload
from paperwork.styles import LABEL_CODE, SMALL_PRINT

RULER_UM = 100_000
MARGIN_FLOOR_UM = 9_500
"""A margin with less than this has no room for a line of small print clear of the printer's edge and the labels."""

PRINTER_EDGE_UM = 5_000
"""What a laser loses at the edge of the paper: 4 to 6 mm (from memory)."""


def lay_labels(sheet: Sheet, metrics: Metrics) -> Layout:
    """Pages of labels: every label as often as it has copies, in order, copies side by side, none lost or doubled.

    A stock or a start that does not exist gives no page and a finding.
    """
    block = sheet.blocks[0]
    if not isinstance(block, Labels) or len(sheet.blocks) != 1:
        raise ValueError("labels stand alone on their sheet")
    stock = load_stocks().get(block.stock)
    faults = _faults(block, stock)
    if faults or stock is None:
        return Layout(sheet.title, sheet.show, (), tuple(faults), scaling=False)
    sides = max((qr_runs(payload(x, sheet.revision))[0] for x in block.labels if x.qr), default=0)
    if not block.labels:
        return Layout(sheet.title, sheet.show, (), (), scaling=False)
    printed = [_printed(label, sheet) for label in block.labels]
    signs = max(
        metrics.width_um(x.signs, face_for(LABEL_CODE, x.signs), LABEL_CODE.floor_um) for x in printed
    )
    plans = plan_labels(block.labels, stock.width_um, stock.height_um, sides, block.printer.dpi, signs, metrics)
    inks = [
        set_label(label, shown, plan, metrics)
        for label, shown, plan in zip(block.labels, printed, plans, strict=True)
    ]
    pages = _pages(sheet, block, stock, inks, metrics)
    return Layout(sheet.title, sheet.show, pages, _findings(sheet, block, plans, inks), scaling=False)


def _faults(block: Labels, stock: Stock | None) -> list[Finding]:
    where, about = Place(""), (Subject("stock", block.stock),)
    if stock is None:
        known = ", ".join(load_stocks())
        return [find("stock-unknown", where, about=about, stock=block.stock, known=known)]
    asked = [cell for cell in (block.start, *block.blocked) if not 1 <= cell <= stock.cells]
    free = set(range(block.start, stock.cells + 1)) - set(block.blocked)
    if not asked and not free:
        asked = [block.start]
    return [
        find("labels-misplaced", where, about=about, stock=stock.id, cells=stock.cells, asked=cell)
        for cell in asked
    ]


def _printed(label: Label, sheet: Sheet) -> Printed:
    return Printed(sheet.revision, label_code(label), payload(label, sheet.revision), sheet.words)


def cells_for(count: int, stock: Stock, start: int, blocked: tuple[int, ...]) -> list[tuple[int, int]]:
    """For so many labels the (page, cell) of each, both from 0; the first page skips what is used or peeled off."""
    used = {cell - 1 for cell in blocked} | set(range(start - 1))
    cells = [(0, cell) for cell in range(stock.cells) if cell not in used][:count]
    for index in range(count - len(cells)):
        page, cell = divmod(index, stock.cells)
        cells.append((page + 1, cell))
    return cells


def _pages(sheet: Sheet, block: Labels, stock: Stock, inks: list[Ink], metrics: Metrics) -> tuple[Page, ...]:
    copies = [ink for label, ink in zip(block.labels, inks, strict=True) for _ in range(label.copies)]
    cells = cells_for(len(copies), stock, block.start, block.blocked)
    count = cells[-1][0] + 1 if cells else 0
    width, height = PAPERS[stock.paper]
    pages: list[list[Box]] = [[] for _ in range(count)]
    for ink, (page, cell) in zip(copies, cells, strict=True):
        room = stock.room(cell)
        pages[page].extend(moved(box, room.x + EDGE_UM, room.y + EDGE_UM) for box in ink.boxes)
    for number, boxes in enumerate(pages, 1):
        shown = sheet.words.page.format(n=number, m=count)
        boxes.extend(_around(sheet, stock, shown, width, height, metrics))
    return tuple(Page(width, height, tuple(boxes)) for boxes in pages)


def _around(sheet: Sheet, stock: Stock, page: str, width: int, height: int, metrics: Metrics) -> list[Box]:
    """The ruler above the labels and the sheet's name below them, where the margins have room."""
    boxes: list[Box] = []
    if stock.top_um >= MARGIN_FLOOR_UM:
        boxes.extend(_ruler(sheet.words.ruler, width, stock.top_um, metrics))
    if height - stock.bottom_um >= MARGIN_FLOOR_UM:
        text = sheet.words.label_foot.format(
            show=sheet.show, title=sheet.title, revision=sheet.revision, code=code(sheet), page=page
        )
        left = max(stock.left_um, PRINTER_EDGE_UM) + EDGE_UM
        room = Room(left, stock.bottom_um, width - 2 * left, height - stock.bottom_um)
        fitted = fit(text, SMALL_PRINT, room.width, metrics)
        baseline = height - max(PRINTER_EDGE_UM, room.height // 2 - fitted.cap_um // 2)
        boxes.append(set_line(fitted.lines[0], fitted, room, baseline, metrics, "right"))
    return boxes


def _ruler(words: str, width: int, margin: int, metrics: Metrics) -> list[Box]:
    """A line of exactly 100 mm with a tick each 10 mm: the one way to see that a printer has shrunk the page."""
    left, y = (width - RULER_UM) // 2, max(PRINTER_EDGE_UM + 3_000, margin - 4_500)
    boxes: list[Box] = [Rule(left, y, left + RULER_UM, y, 200)]
    for tick in range(11):
        long = 2_200 if tick % 5 == 0 else 1_200
        boxes.append(Rule(left + tick * 10_000, y, left + tick * 10_000, y + long, 200))
    room = Room(left, 0, RULER_UM, margin)
    fitted = fit(words, SMALL_PRINT, room.width, metrics)
    boxes.append(set_line(fitted.lines[0], fitted, room, y - 900, metrics, "centre"))
    return boxes


def _findings(sheet: Sheet, block: Labels, plans: tuple[Plan, ...], inks: list[Ink]) -> tuple[Finding, ...]:
    findings: list[Finding] = []
    bare = [label for label, plan in zip(block.labels, plans, strict=True) if label.qr and not plan.dots]
    if bare:
        findings.append(_left_off("label-code-left-out", "codes", bare, block.stock))
    left: dict[str, list[Label]] = {}
    for label, ink in zip(block.labels, inks, strict=True):
        for kind, _ in ink.left_off:
            left.setdefault(kind, []).append(label)
        for text, style, fitted in ink.cuts:
            findings.append(cut_finding(Line(text, style), fitted, label.where, label.subjects, sheet.title))
    findings.extend(
        _left_off("label-text-left-out", kind, labels, block.stock) for kind, labels in left.items()
    )
    return tuple(findings)


def _left_off(code: str, kind: str, labels: list[Label], stock: str) -> Finding:
    """One finding for one kind of text, however many labels lack it."""
    numbers = list(dict.fromkeys(label.number for label in labels))
    shown = ", ".join(numbers[:6]) + (f" and {len(numbers) - 6} more" if len(numbers) > 6 else "")
    subjects = tuple(dict.fromkeys(subject for label in labels for subject in label.subjects))
    return find(code, labels[0].where, about=subjects, stock=stock, kind=kind, labels=shown)
