"""Labels on their sheet: every start on every stock, cells peeled off, printers that are off, proofs, tape."""

from random import Random

import numpy as np
import pypdfium2
import pytest
import zxingcpp
from PIL import Image, ImageFilter

from paperwork.document import Labels, Printer
from paperwork.document.facts import payload
from paperwork.render.boxes import Fill, Frame, Layout, QrBox, Room, Rule, TextBox
from paperwork.render.labels.pages import cells_for, corner_of
from paperwork.render.labels.stocks import load_stocks
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from tests.metrics import load_metrics
from tests.render import samples
from tests.render.proofs import all_texts, check_layout, inside

METRICS = load_metrics()
STOCKS = list(load_stocks().values())
SHEETS = [stock for stock in STOCKS if not stock.on_tape]
TAPES = [stock for stock in STOCKS if stock.on_tape]
NEAR_UM = 50
"""How far a label may be off its cell."""

by_id = pytest.mark.parametrize("stock", SHEETS, ids=lambda stock: stock.id)


@by_id
def test_every_start_position_loses_and_doubles_nothing(stock):
    for start in range(1, stock.cells + 1):
        for count in (1, stock.cells - start + 1, stock.cells - start + 2, 2 * stock.cells + 3):
            cells = cells_for(count, stock, start, ())
            assert cells[0] == (0, start - 1)
            assert [page * stock.cells + cell for page, cell in cells] == list(range(start - 1, start - 1 + count))


@by_id
def test_cells_peeled_off_stay_empty_on_the_first_sheet_alone(stock):
    dice = Random(stock.cells)
    for _ in range(40):
        blocked = tuple(dice.sample(range(1, stock.cells + 1), dice.randint(0, stock.cells - 1)))
        start = dice.randint(1, stock.cells)
        cells = cells_for(dice.randint(1, 2 * stock.cells), stock, start, blocked)
        first = [cell + 1 for page, cell in cells if page == 0]
        later = [place for place in cells if place[0] > 0]
        assert set(first).isdisjoint(blocked) and all(cell >= start for cell in first)
        assert later == [(1 + n // stock.cells, n % stock.cells) for n in range(len(later))]


@by_id
def test_from_every_start_each_label_is_drawn_into_its_own_cell(stock):
    starts = range(1, stock.cells + 1) if stock.cells <= 24 else (1, 2, stock.cells // 2, stock.cells)
    for start in starts:
        block = Labels(stock.id, tuple(samples.label(n, copies=1) for n in range(3)), start=start)
        layout = lay_out(samples.chart(blocks=(block,)), METRICS)
        bars = [(page, box) for page, boxes in enumerate(layout.pages) for box in boxes.boxes if isinstance(box, Fill)]
        for (page, cell), (drawn, bar) in zip(cells_for(3, stock, start, ()), bars, strict=True):
            room = stock.room(cell)
            assert drawn == page and bar.x == room.x + stock.edge_um
            assert inside(Room(*bar[:4]), room)


PRINTERS = [
    Printer(),
    Printer(300, 400, -250),
    Printer(203, -1_200, 900, 99_400, 100_700),
    Printer(600, 0, 0, 97_000, 94_000),
]


def printed(x: int, y: int, printer: Printer) -> tuple[float, float]:
    """Where a printer that shrinks and shifts by its own figures puts a point of the file."""
    return (x - printer.right_um) * printer.across_um / 100_000, (y - printer.down_um) * printer.along_um / 100_000


@by_id
@pytest.mark.parametrize("printer", PRINTERS)
def test_a_printer_that_is_off_puts_every_label_on_its_cell(stock, printer):
    for cell in range(stock.cells):
        x, y = corner_of(stock, cell, printer)
        room = stock.room(cell)
        there = printed(x + room.width // 2, y + room.height // 2, printer)
        assert abs(there[0] - (room.x + room.width / 2)) <= NEAR_UM
        assert abs(there[1] - (room.y + room.height / 2)) <= NEAR_UM


def test_a_printer_that_is_not_off_moves_nothing():
    for stock in STOCKS:
        assert all(corner_of(stock, cell, Printer()) == stock.room(cell)[:2] for cell in range(stock.cells))


def test_the_ruler_measures_a_hundred_millimetres_on_the_printers_own_paper():
    page = lay_out(samples.labels(printer=Printer(300, 0, 0, 99_400)), METRICS).pages[0]
    line = next(box for box in page.boxes if isinstance(box, Rule) and box.y1 == box.y2 and box.stroke == 150)
    assert abs((line.x2 - line.x1) * 99_400 / 100_000 - 100_000) <= NEAR_UM


def test_a_proof_outlines_every_cell_and_counts_the_free_ones():
    layout = lay_out(samples.labels(count=4, start=6, blocked=(8,), proof=True), METRICS)
    check_layout(layout)
    page = layout.pages[0]
    stock = load_stocks()["a4-21-63.5x38.1"]
    frames = [Room(*box[:4]) for box in page.boxes if isinstance(box, Frame) and box.stroke == 150]
    assert frames == [stock.room(cell) for cell in range(21)]
    free = {text.text for text in all_texts(layout) if text.floor_um == 2_600 and text.text.isdigit()}
    assert {"1", "5", "8", "15", "21"} <= free and not {"6", "7", "9"} & free
    assert any("Proof on plain paper" in text.text for text in all_texts(layout))


def test_labels_that_reach_into_the_printers_border_are_warned_of_once():
    def near(stock):
        layout = lay_out(samples.labels(stock, 3), METRICS)
        return [finding for finding in layout.findings if finding.code == "label-near-edge"]

    assert near("a4-21-63.5x38.1") == [] and near("letter-30-2.625x1") == [] and near("tape-12") == []
    (finding,) = near("a4-24-70x37-butt")
    assert "up to 2.0 mm" in finding.text


def test_a_spares_pack_is_on_every_label_of_every_stock():
    for stock in STOCKS:
        spare = samples.label(11, role="SPARE", performers=("for 01 to 05",), pack="S1", capsule="tone 2", mark="")
        layout = lay_out(samples.labels(stock.id, labels=(spare, samples.label(2))), METRICS)
        assert sum(text.text in ("S1", "pack S1") for text in all_texts(layout)) == spare.copies, stock.id


@pytest.mark.parametrize("stock", TAPES, ids=lambda stock: stock.id)
def test_tape_has_one_label_a_page_cut_to_its_width(stock):
    layout = lay_out(samples.labels(stock.id, 12), METRICS)
    check_layout(layout)
    assert len(layout.pages) == 24
    assert {(page.width, page.height) for page in layout.pages} == {(stock.width_um, stock.height_um)}
    codes = [box for page in layout.pages for box in page.boxes if isinstance(box, QrBox)]
    assert len(codes) == (0 if stock.id == "tape-9" else 24)
    assert all(box.dots * 25_400 / box.dpi >= 330 for box in codes)
    small = [text for text in all_texts(layout) if text.cap_um < 2_600]
    assert small == []


def read_worn(layout: Layout, angle: float, seed: int) -> list[tuple[str, set[str]]]:
    """Each code's text, and what is read of its label alone: printed in 203 dpi dots, shrunk to 94 %, turned, out of
    focus, and in the grain of poor light."""
    found = []
    for page, drawn in zip(layout.pages, pypdfium2.PdfDocument(paint_pdf(layout)), strict=True):
        dots = drawn.render(scale=203 / 72, grayscale=True).to_pil().point(lambda level: 255 if level >= 128 else 0)
        for box in (box for box in page.boxes if isinstance(box, QrBox)):
            quiet = [edge * 203 // 25_400 for edge in (box.quiet.x, box.quiet.y, box.quiet.right, box.quiet.bottom)]
            around = dots.crop((quiet[0] - 60, quiet[1] - 20, quiet[2] + 10, quiet[3] + 60))
            found.append((box.payload, {code.text for code in read_dots(around, angle, seed + len(found))}))
    return found


def read_dots(dots: Image.Image, angle: float, seed: int) -> list[zxingcpp.Barcode]:
    seen = dots.resize((int(dots.width * 0.94 * 1.5), int(dots.height * 0.94 * 1.5)), Image.Resampling.BICUBIC)
    seen = seen.rotate(angle, expand=True, fillcolor=255, resample=Image.Resampling.BICUBIC)
    blurred = np.asarray(seen.filter(ImageFilter.GaussianBlur(0.9)), dtype=float)
    noise = np.random.default_rng(seed).normal(0, 10, blurred.shape)
    worn = np.clip(40 + blurred * 0.6 + noise, 0, 255).astype(np.uint8)
    return zxingcpp.read_barcodes(worn, formats=zxingcpp.BarcodeFormat.QRCode)


@pytest.mark.parametrize("angle", [0, 7, 45, 90, 133, 180, 271])
def test_every_code_is_read_worn_shrunk_and_at_any_angle(angle):
    sheet = samples.labels(labels=tuple(samples.label(n, copies=1) for n in range(12)), printer=Printer(203), start=2)
    read = read_worn(lay_out(sheet, METRICS), angle, seed=angle)
    assert [text for text, _ in read] == [payload(label, "C") for label in sheet.blocks[0].labels]
    assert all(text in seen for text, seen in read)


@pytest.mark.parametrize("name", ["letter-30-2.625x1", "a4-65-38.1x21.2-gap", "tape-12", "tape-18"])
def test_the_codes_of_small_stocks_are_read_worn(name):
    sheet = samples.labels(name, labels=tuple(samples.label(n, copies=1) for n in range(6)), printer=Printer(203))
    read = read_worn(lay_out(sheet, METRICS), 12, seed=3)
    assert len(read) >= 5 and all(text in seen for text, seen in read)


def test_labels_say_nothing_twice_and_everything_once():
    layout = lay_out(samples.labels(count=5, printer=Printer(300, 700, 700, 99_000, 101_000)), METRICS)
    check_layout(layout)
    numbers = [
        box.text for page in layout.pages for box in page.boxes if isinstance(box, TextBox) and box.floor_um == 7_000
    ]
    assert numbers == [f"{n:02d}" for n in range(1, 6) for _ in range(2)]
