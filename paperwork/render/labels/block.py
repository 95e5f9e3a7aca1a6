"""A sheet of labels: which label goes into which cell, and what stands around them."""

from collections.abc import Iterator

from paperwork.document import Label, Labels, Sheet
from paperwork.document.facts import label_code, payload
from paperwork.document.styles import LABEL_CODE
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place
from paperwork.render.boxes import Layout, Page
from paperwork.render.furniture import make_layout
from paperwork.render.labels.grid import LabelGrid, Space, is_long, make_grid
from paperwork.render.labels.ink import LabelInk, LabelSigns
from paperwork.render.labels.pages import PRINTER_EDGE_UM, list_page_codes, make_pages, nearest_edge
from paperwork.render.labels.qr import qr_runs
from paperwork.render.labels.shapes import set_label
from paperwork.render.labels.stocks import Stock, load_stocks
from paperwork.render.text.faces import face_for
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter
from paperwork.render.text.shortfalls import find_shortfalls
from paperwork.text.words import words_of


def lay_labels(sheet: Sheet, metrics: Metrics) -> Layout:
    """Pages of labels: every label as often as it has copies, in order, copies side by side, none lost or doubled.

    A stock or a start that does not exist gives no page and a finding.
    """
    block, stock = _stocked(sheet)
    faults = _faults(block, stock)
    if faults or stock is None:
        return Layout(sheet.title, sheet.show, (), tuple(faults), scaling=False)
    sides = max((qr_runs(payload(x, sheet.revision))[0] for x in block.labels if x.qr), default=0)
    if not block.labels:
        return Layout(sheet.title, sheet.show, (), (), scaling=False)
    signs = [_signs_of(label, sheet) for label in block.labels]
    widest = max(metrics.width_um(x.text, face_for(LABEL_CODE, x.text), LABEL_CODE.floor_um) for x in signs)
    edge = stock.edge_um
    space = Space(stock.width_um - 2 * edge, stock.height_um - 2 * edge, sides, block.printer.dpi, widest, edge)
    numbered, worded = (make_grid(space, is_word, metrics) for is_word in (False, True))
    grids = tuple(worded if is_long(label.number) else numbered for label in block.labels)
    setter = Typesetter(metrics, sheet.title)
    inks = [set_label(label, own, plan, setter) for label, own, plan in zip(block.labels, signs, grids, strict=True)]
    pages = make_pages(sheet, block, stock, inks, setter)
    short = find_shortfalls(sheet.title, setter.shortfalls)
    findings = (*_list_left_off(block, grids, inks), *_near_edge(stock, pages, inks), *short)
    return make_layout(sheet, pages, tuple(dict.fromkeys(findings)), scaling=False)


def list_label_codes(sheet: Sheet) -> tuple[str, ...]:
    """The codes of the same pages, without any ink."""
    block, stock = _stocked(sheet)
    return () if stock is None or _faults(block, stock) else list_page_codes(sheet, block, stock)


def _stocked(sheet: Sheet) -> tuple[Labels, Stock | None]:
    """The labels of a sheet, and what they are printed on."""
    block = sheet.blocks[0]
    if not isinstance(block, Labels) or len(sheet.blocks) != 1:
        raise ValueError("labels stand alone on their sheet")
    return block, load_stocks().get(block.stock)


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
        find("labels-misplaced", where, about=about, stock=stock.id, cells=stock.cells, asked=cell) for cell in asked
    ]


def _signs_of(label: Label, sheet: Sheet) -> LabelSigns:
    payload_text, words = payload(label, sheet.revision, sheet.at_venue), words_of(sheet.language)
    return LabelSigns(sheet.revision, label_code(label, sheet.at_venue), payload_text, words, bool(label.doubt))


def _list_left_off(block: Labels, grids: tuple[LabelGrid, ...], inks: list[LabelInk]) -> Iterator[Finding]:
    """A finding for each kind of text that labels had to leave off, and one for those without a code."""
    bare = [label for label, grid in zip(block.labels, grids, strict=True) if label.qr and not grid.dots]
    if bare:
        yield _left_off("label-code-left-out", "codes", bare, block.stock)
    left: dict[str, list[Label]] = {}
    for label, ink in zip(block.labels, inks, strict=True):
        for kind, _ in ink.left_off:
            left.setdefault(kind, []).append(label)
    yield from (_left_off("label-text-left-out", kind, labels, block.stock) for kind, labels in left.items())


def _near_edge(stock: Stock, pages: tuple[Page, ...], inks: list[LabelInk]) -> tuple[Finding, ...]:
    """A warning where ink comes so near to the edge of the paper that many printers lose it."""
    near = nearest_edge(pages, inks)
    if stock.on_tape or near >= PRINTER_EDGE_UM:
        return ()
    mm = f"{near / 1000:.1f}"
    return (find("label-near-edge", Place(""), about=(Subject("stock", stock.id),), stock=stock.id, mm=mm),)


def _left_off(code: str, kind: str, labels: list[Label], stock: str) -> Finding:
    """One finding for one kind of text, however many labels lack it."""
    numbers = list(dict.fromkeys(label.number for label in labels))
    shown = ", ".join(numbers[:6]) + (f" and {len(numbers) - 6} more" if len(numbers) > 6 else "")
    subjects = tuple(dict.fromkeys(subject for label in labels for subject in label.subjects))
    return find(code, labels[0].where, about=subjects, stock=stock, kind=kind, labels=shown)
