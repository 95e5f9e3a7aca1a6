"""Label stocks."""

from decimal import Decimal
from pathlib import Path

import pytest
import yaml

from paperwork.document.sheet import PAPERS
from paperwork.render.boxes import Room
from paperwork.render.labels.stocks import load_stocks
from tests.render.proofs import inside, overlap

DATA = Path(__file__).parents[1] / "data"
STOCKS = [stock for stock in load_stocks().values() if not stock.on_tape]
TAPES = [stock for stock in load_stocks().values() if stock.on_tape]


def test_tapes_have_the_usual_widths_and_one_label_a_page():
    assert [(stock.id, stock.height_um) for stock in TAPES] == [
        ("tape-9", 9_000),
        ("tape-12", 12_000),
        ("tape-18", 18_000),
        ("tape-24", 24_000),
    ]
    assert all(stock.width_um <= 63_000 for stock in TAPES), "no longer than a pack is wide or high"
    assert all(stock.cells == 1 and stock.page_um == (stock.width_um, stock.height_um) for stock in TAPES)


def test_the_published_layouts_are_all_there_with_their_figures():
    published = yaml.safe_load((DATA / "label_sheets.yaml").read_text(encoding="utf-8"))["label_sheets"]["rows"]
    assert len(published) == 22
    for row in published:
        unit_um = {"mm": Decimal(1_000), "in": Decimal(25_400)}[row["unit"]]
        stock = load_stocks()[row["id"]]
        assert (stock.paper, stock.columns, stock.rows, stock.cells) == (
            row["sheet"],
            row["cols"],
            row["rows"],
            row["labels"],
        )
        for field in ("width", "height", "left", "top", "pitch_x", "pitch_y"):
            # Inches are rounded to five places in the source, so a micrometre may be lost.
            assert abs(getattr(stock, f"{field}_um") - Decimal(str(row[field])) * unit_um) <= 1, (stock.id, field)


def test_stocks_are_named_by_paper_count_and_size():
    for stock in STOCKS:
        paper, count, _ = stock.id.split("-", 2)
        assert paper == stock.paper.lower() and int(count) == stock.cells


@pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.id)
def test_labels_lie_on_the_paper_and_beside_each_other(stock):
    width, height = PAPERS[stock.paper]
    rooms = [stock.room(cell) for cell in range(stock.cells)]
    for index, room in enumerate(rooms):
        assert inside(room, Room(0, 0, width, height), slack=1)
        assert not any(overlap(room, other) for other in rooms[index + 1 :])


@pytest.mark.parametrize("stock", STOCKS, ids=lambda stock: stock.id)
def test_layouts_are_centred_on_their_paper(stock):
    # The source reduces all templates to the centred geometry; 0.1 mm covers its rounding.
    width, height = PAPERS[stock.paper]
    last = stock.room(stock.cells - 1)
    assert abs((width - last.right) - stock.left_um) <= 100
    assert abs((height - stock.bottom_um) - stock.top_um) <= 100


def test_inches_and_millimetres_are_exact():
    letter = load_stocks()["letter-30-2.625x1"]
    assert (letter.width_um, letter.height_um, letter.pitch_x_um) == (66_675, 25_400, 69_850)
    a4 = load_stocks()["a4-21-63.5x38.1"]
    assert (a4.width_um, a4.height_um, a4.left_um, a4.top_um) == (63_500, 38_100, 7_210, 15_150)


def test_cells_are_counted_across_and_then_down():
    stock = load_stocks()["a4-21-63.5x38.1"]
    assert stock.room(1).x > stock.room(0).x and stock.room(1).y == stock.room(0).y
    assert stock.room(3).x == stock.room(0).x and stock.room(3).y > stock.room(0).y
