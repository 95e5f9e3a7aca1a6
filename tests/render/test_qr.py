"""QR modules."""

import numpy as np
import pytest
import zxingcpp

from paperwork.render.labels.qr import largest_dots, module_um, qr_runs


def _picture(text: str, dots: int = 4) -> np.ndarray:
    side, runs = qr_runs(text)
    grid = np.full((side + 8, side + 8), 255, np.uint8)
    for row, column, width, height in runs:
        assert (grid[row + 4 : row + 4 + height, column + 4 : column + 4 + width] == 255).all()
        grid[row + 4 : row + 4 + height, column + 4 : column + 4 + width] = 0
    return np.kron(grid, np.ones((dots, dots), np.uint8))


@pytest.mark.parametrize("text", ["12:VERA:C:7F3A", "01::A:2346", "12:QUARTERMAS:C:7F3A", "101:A:12.3:AAAA", "X" * 60])
def test_merged_runs_are_the_code_that_a_reader_reads(text):
    assert zxingcpp.read_barcodes(_picture(text))[0].text == text


def test_twenty_characters_stand_in_the_smallest_code():
    # ISO/IEC 18004 table 7: version 1 at level M holds 20 alphanumeric characters; version 1 has 21 modules a side.
    assert qr_runs("12:QUARTERMAS:C:7F3A")[0] == 21
    assert qr_runs("12:QUARTERMAST:C:7F3A")[0] == 25


def test_level_is_m():
    assert zxingcpp.read_barcodes(_picture("12:VERA:C:7F3A"))[0].ec_level == "M"


def test_modules_are_whole_dots_and_never_under_a_third_of_a_millimetre():
    assert module_um(3, 203) == 376 and module_um(4, 300) == 339
    assert largest_dots(300, lambda module: module <= 340) == 4
    assert largest_dots(203, lambda module: module <= 340) == 0
    assert largest_dots(300, lambda module: module <= 330) == 0
    assert largest_dots(600, lambda module: module <= 345) == 8
