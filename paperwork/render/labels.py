"""A sheet of labels: which label goes into which cell, and what stands around them."""

from paperwork.document import Label, Labels, Line, Sheet
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place
from paperwork.render.boxes import Layout, Page
from paperwork.render.fonts import Metrics, face_for
from paperwork.render.label_choice import plan_labels
from paperwork.render.label_ink import Ink, Printed
from paperwork.render.label_pages import PRINTER_EDGE_UM, make_pages, nearest_edge
from paperwork.render.label_plan import Plan, Space
from paperwork.render.label_shapes import set_label
from paperwork.render.qr import qr_runs
from paperwork.render.stocks import Stock, load_stocks
from paperwork.render.strips import cut_finding
from paperwork.sheetfacts import label_code, payload
from paperwork.styles import LABEL_CODE


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
    signs = max(metrics.width_um(x.signs, face_for(LABEL_CODE, x.signs), LABEL_CODE.floor_um) for x in printed)
    edge = stock.edge_um
    space = Space(stock.width_um - 2 * edge, stock.height_um - 2 * edge, sides, block.printer.dpi, signs, edge)
    plans = plan_labels(block.labels, space, metrics)
    inks = [
        set_label(label, shown, plan, metrics) for label, shown, plan in zip(block.labels, printed, plans, strict=True)
    ]
    pages = make_pages(sheet, block, stock, inks, metrics)
    findings = (*_findings(sheet, block, plans, inks), *_near_edge(stock, pages, inks))
    return Layout(sheet.title, sheet.show, pages, findings, scaling=False)


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


def _printed(label: Label, sheet: Sheet) -> Printed:
    return Printed(sheet.revision, label_code(label), payload(label, sheet.revision), sheet.words, bool(label.doubt))


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
    findings.extend(_left_off("label-text-left-out", kind, labels, block.stock) for kind, labels in left.items())
    return tuple(findings)


def _near_edge(stock: Stock, pages: tuple[Page, ...], inks: list[Ink]) -> tuple[Finding, ...]:
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
