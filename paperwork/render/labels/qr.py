"""QR codes as modules: one size of grid for a text, a fixed mask, dark modules merged into few rectangles."""

from collections.abc import Callable
from functools import lru_cache

MODULE_FLOOR_UM = 330
"""A module smaller than 0.33 mm is refused: phones began to fail below it in a printed-dot model (measured)."""

QUIET_MODULES = 4
"""ISO/IEC 18004, 9.1: the quiet zone is four modules wide on every side."""

MASK = 3
"""One mask for all: choosing the best of eight costs ten times as much and reads no better (measured)."""

MICROMETRES_PER_INCH = 25_400

MOST_DOTS = 60
"""The widest module looked for: 5 mm at 300 dpi."""


@lru_cache(maxsize=1024)
def qr_runs(text: str, sides: int = 0) -> tuple[int, tuple[tuple[int, int, int, int], ...]]:
    """Modules on a side, quiet zone not counted, and the dark ones as (row, column, width, height) rectangles.

    The smallest version at level M that holds the text (ISO/IEC 18004 table 7), or one of as many modules as `sides`,
    so that all codes of a sheet are of one size.
    """
    from qrcode.constants import ERROR_CORRECT_M
    from qrcode.main import QRCode

    code = QRCode(
        version=(sides - 17) // 4 if sides else None, error_correction=ERROR_CORRECT_M, border=0, mask_pattern=MASK
    )
    code.add_data(text)
    code.make(fit=True)
    return len(code.modules), tuple(_merge(code.modules))


def _merge(modules: list[list[bool]]) -> list[tuple[int, int, int, int]]:
    """Runs along a row, grown downwards while the next row has the same run."""
    done: list[tuple[int, int, int, int]] = []
    growing: dict[tuple[int, int], tuple[int, int]] = {}
    for row, line in enumerate([*modules, []]):
        current: dict[tuple[int, int], tuple[int, int]] = {}
        for column, width in _runs(line):
            first, height = growing.pop((column, width), (row, 0))
            current[column, width] = (first, height + 1)
        done.extend((first, c, w, height) for (c, w), (first, height) in growing.items())
        growing = current
    return sorted(done)


def _runs(line: list[bool]) -> list[tuple[int, int]]:
    runs: list[tuple[int, int]] = []
    start = None
    for column, dark in enumerate([*line, False]):
        if dark and start is None:
            start = column
        elif not dark and start is not None:
            runs.append((start, column - start))
            start = None
    return runs


def largest_dots(dpi: int, fits: Callable[[int], bool]) -> int:
    """The most printer dots to a module for which `fits(module in micrometres)` holds; 0 where the module would fall
    below its floor. At 300 dpi four dots are 338 um, at 203 dpi three are 375 um."""
    for dots in range(MOST_DOTS, 0, -1):
        module = module_um(dots, dpi)
        if module < MODULE_FLOOR_UM:
            return 0
        if fits(module):
            return dots
    return 0


def module_um(dots: int, dpi: int) -> int:
    """The side of a module of so many printer dots, rounded up."""
    return -(-dots * MICROMETRES_PER_INCH // dpi)
