"""Shapes on a page of a PDF stand where the layout put them: read back as pixels by an independent reader."""

import pypdfium2
import pytest

from paperwork.render.boxes import Fill, Frame, Hatch, Layout, Page, QrBox, Room, Rule
from paperwork.render.pdf.painting import paint_pdf

SIDE_UM = 25_400
"""An inch, so that a picture of 254 dots shows a dot for each tenth of a millimetre."""


def pixels(*boxes) -> list[list[bool]]:
    """The rows of the page from its top, True where it is dark."""
    document = pypdfium2.PdfDocument(paint_pdf(Layout("", "", (Page(SIDE_UM, SIDE_UM, boxes),), ())))
    picture = document[0].render(scale=254 / 72).to_pil().convert("L")
    return [[picture.getpixel((x, y)) < 128 for x in range(254)] for y in range(254)]


def dark(rows: list[list[bool]]) -> tuple[int, int, int, int]:
    """The rectangle around all dark dots: left, top, right and bottom."""
    xs = [x for row in rows for x, is_dark in enumerate(row) if is_dark]
    ys = [y for y, row in enumerate(rows) if any(row)]
    return min(xs), min(ys), max(xs) + 1, max(ys) + 1


def test_a_fill_covers_its_rectangle_measured_from_the_top():
    rows = pixels(Fill(2_000, 3_000, 10_000, 4_000))
    assert dark(rows) == (20, 30, 120, 70)
    assert sum(map(sum, rows)) == 100 * 40


def test_a_frame_is_a_line_around_its_rectangle():
    rows = pixels(Frame(5_000, 5_000, 10_000, 8_000, stroke=400))
    assert dark(rows) == (48, 48, 152, 132)
    assert not rows[90][100]


@pytest.mark.parametrize("x, y", [(50, 50), (149, 50), (50, 149), (149, 149)])
def test_a_round_corner_runs_on_a_circle(x, y):
    """On the diagonal a circle of radius r is r * (1 - 1 / sqrt(2)) away from both sides of its square."""
    frame = Frame(5_000, 5_000, 10_000, 10_000, stroke=200, radius=3_000)
    rows = pixels(frame)
    inwards_x, inwards_y = (1 if x < 100 else -1), (1 if y < 100 else -1)
    met = [step for step in range(30) if rows[y + inwards_y * step][x + inwards_x * step]]
    assert met and abs(sum(met) / len(met) - 30 * (1 - 2**-0.5)) < 1
    assert not rows[y][x]


def test_a_rule_runs_between_its_ends_and_dots_leave_gaps():
    assert dark(pixels(Rule(2_000, 5_000, 22_000, 5_000, stroke=400))) == (20, 48, 220, 52)
    dotted = pixels(Rule(2_000, 5_000, 22_000, 5_000, stroke=400, dotted=True))[50]
    assert 0 < sum(dotted) < 100


def test_a_hatch_stays_in_its_rectangle_and_leaves_most_of_it_white():
    rows = pixels(Hatch(5_000, 6_000, 10_000, 4_000, pitch=1_000, stroke=150))
    left, top, right, bottom = dark(rows)
    assert (left, top, right, bottom) == (50, 60, 150, 100)
    assert 0.05 < sum(map(sum, rows)) / (100 * 40) < 0.4


def test_what_a_dashed_frame_sets_does_not_reach_the_next_line():
    frame = Frame(1_000, 1_000, 3_000, 3_000, stroke=200, dashed=True)
    assert all(pixels(frame, Rule(5_000, 10_000, 20_000, 10_000, stroke=400))[100][52:198])


def test_modules_of_a_code_are_whole_dots_of_its_printer():
    code = QrBox(2_540, 2_540, 3, 254, 2, ((0, 0, 1, 2), (1, 1, 1, 1)), "", Room(0, 0, 0, 0))
    rows = pixels(code)
    assert [[rows[25 + y * 3 + 1][25 + x * 3 + 1] for x in range(3)] for y in range(3)] == [
        [True, False, False],
        [True, True, False],
        [False, False, False],
    ]
