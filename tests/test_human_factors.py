"""Sizes against reading distance, and everything told apart in black and white.

A capital read fast fills 16 minutes of arc at the least and 20 to 22 at best (ISO 9241-3, as quoted by ergonomics pages);
7 milliradians were read right about always (a field study of 1979, doi 10.1177/001872087912210604, from its abstract).
"""

from math import radians, tan

import numpy as np
import pypdfium2
import pytest

from paperwork.document import Cell, Column, RowGroup, Table, TableRow, fact, row, styles
from paperwork.render.blocks.cells import TICK_UM, tick_side_um
from paperwork.render.blocks.plots import SIGN_HIGH_UM, SIGN_UM, set_sign
from paperwork.render.boxes import Layout, Page, TextBox
from paperwork.render.layout import lay_out
from paperwork.render.pdf.painting import paint_pdf
from paperwork.sheets import SHEETS
from tests.metrics import load_metrics
from tests.render import samples
from tests.sheets.reading import make

METRICS = load_metrics()


def minutes(arc: float, metres: float) -> float:
    """The height in micrometres that fills so many minutes of arc at a distance."""
    return tan(radians(arc / 60)) * metres * 1_000_000


def test_the_figures_of_the_sources_come_out():
    assert round(minutes(16, 1.0)) == 4654 and round(minutes(22, 0.4)) == 2560


@pytest.mark.parametrize(
    ("names", "metres"),
    [
        (("RACK_NUMBER", "RACK_ROLE", "RACK_FREQUENCY", "STRIP_NUMBER", "STRIP_ROLE"), 1.0),
        (("PATCH_NUMBER", "RACK_PLUG", "CARD_KEY", "SWAP_NAME"), 1.0),
        (("PLOT_KEY", "PLOT_SCENE", "PLOT_BAR", "PLOT_TITLE", "PLOT_UNDER", "PLOT_NAME", "PLOT_NOTE", "LEGEND"), 0.5),
        (("DRESS_NUMBER", "DRESS_TIME", "DRESS_STRONG", "DRESS"), 0.6),
        (("CAST_NAME", "CAST_TIME"), 0.75),
        (("CAST_NUMBER",), 1.5),
        (("HAND_NUMBER", "HAND_FREQUENCY", "HAND_STRONG", "HAND"), 0.4),
        (("LABEL_NUMBER", "LABEL_ROLE", "LABEL_FREQUENCY", "LABEL_NAME", "LABEL_CODE"), 0.4),
        (("SQUARE_KEY",), 2.0),
    ],
)
def test_what_is_searched_for_never_falls_below_sixteen_minutes_of_arc(names, metres):
    for name in names:
        assert getattr(styles, name).floor_um >= minutes(16, metres), name


@pytest.mark.parametrize("name", ["CARD_KEY", "CARD_STRONG", "CARD_TEXT", "CARD_TIME", "CARD_ORDINAL", "CARD_BAND"])
def test_a_card_read_in_near_dark_keeps_seven_milliradians(name):
    assert getattr(styles, name).floor_um >= 0.007 * 400_000


def test_a_number_on_a_board_is_read_from_a_metre():
    assert styles.BOARD_NUMBER.floor_um >= minutes(22, 1.0) and styles.LIVE_SCENE.floor_um >= minutes(16, 1.0)


def test_keys_are_wanted_at_twenty_two_minutes_or_more():
    for name, metres in (
        ("RACK_NUMBER", 1.0),
        ("HAND_NUMBER", 0.4),
        ("CARD_KEY", 0.4),
        ("PLOT_BAR", 0.5),
        ("SQUARE_KEY", 5.0),
    ):
        assert getattr(styles, name).wanted_um >= minutes(22, metres), name


def test_the_revision_is_compared_at_arms_length():
    assert styles.REVISION.floor_um >= 4_000 and styles.CODE.floor_um >= 4_000


def test_no_text_of_any_paper_is_smaller_than_what_a_hand_reads():
    for paper in SHEETS:
        for sheet in make(paper.name):
            for page in lay_out(sheet, METRICS).pages:
                smallest = min(box.cap_um for box in page.boxes if isinstance(box, TextBox) and box.text)
                assert smallest >= minutes(16, 0.4), sheet.name


def dots_of(page_index: int, sheet) -> np.ndarray:
    """The page as a mono laser with 300 dots to the inch prints it: black or white."""
    drawn = pypdfium2.PdfDocument(paint_pdf(lay_out(sheet, METRICS)))[page_index]
    return np.asarray(drawn.render(scale=300 / 72, grayscale=True).to_pil()) < 128


def picture(boxes) -> np.ndarray:
    layout = Layout("", "", (Page(SIGN_UM + 4_000, SIGN_HIGH_UM + 4_000, tuple(boxes)),), ())
    drawn = pypdfium2.PdfDocument(paint_pdf(layout))[0]
    return np.asarray(drawn.render(scale=300 / 72, grayscale=True).to_pil()) < 128


def test_the_signs_of_a_plot_are_six_shapes_in_black_and_white():
    shapes = [
        picture(set_sign(sign, 2_000, 2_000)) for sign in ("put on", "keeps", "taken off", "held", "second", "stacked")
    ]
    for index, one in enumerate(shapes):
        for other in shapes[index + 1 :]:
            assert (one != other).sum() > 0.1 * max(one.sum(), other.sum())


def spare_row(hatch: bool) -> TableRow:
    return row(Cell((fact("12", styles.RACK_NUMBER),), key=True, hatch=hatch), Cell((fact("X", styles.RACK_ROLE),)))


def test_a_spare_is_told_by_its_hatching_without_any_grey():
    pages = []
    for hatch in (False, True):
        table = Table((Column("", 30_000, spares=True), Column("")), (RowGroup((spare_row(hatch),)),), row_um=14_000)
        pages.append(dots_of(0, samples.chart(blocks=(table,))))
    changed = pages[0] != pages[1]
    assert changed.sum() > 1_000 and changed[:, : int(20 / 25.4 * 300)].sum() == changed.sum()


@pytest.mark.parametrize(
    "name", ["channel-chart", "mic-plot", "swap-sheets", "pack-labels", "pouch-cards", "receiver-strips"]
)
def test_paper_is_black_on_white_and_nothing_else(name):
    for sheet in make(name):
        drawn = pypdfium2.PdfDocument(paint_pdf(lay_out(sheet, METRICS)))[0].render(scale=1.5).to_numpy().astype(int)
        assert np.abs(drawn - drawn[:, :, :1]).max() == 0
        sharp = pypdfium2.PdfDocument(paint_pdf(lay_out(sheet, METRICS)))[0].render(scale=300 / 72, grayscale=True)
        grey = np.asarray(sharp.to_pil())
        edges = ((grey > 40) & (grey < 215)).mean()
        assert edges < 0.03


def test_a_square_to_tick_is_as_large_as_a_pen_needs():
    assert tick_side_um(0) == TICK_UM >= 6_000
