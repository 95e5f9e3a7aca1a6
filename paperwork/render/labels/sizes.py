"""The sizes of a label's texts by the height that the label has."""

from dataclasses import replace

from paperwork.document.styles import LABEL_CODE, LABEL_FACT, LABEL_FREQUENCY, LABEL_NAME, LABEL_ROLE, Style
from paperwork.frozen import frozen
from paperwork.render.text.faces import em_um

TINY_UM, LINE_HIGH_UM = 12_000, 8_000
"""Below this clear height a label has two lines of text; below that one."""


@frozen
class Sizes:
    """The styles for a clear height."""

    role: Style
    name: Style
    frequency: Style
    small: Style
    code: Style


STACKED = (
    # clear height, role, name (0: none), frequency, small print
    (56_000, 9_000, 5_000, 7_000, 4_000),
    (40_000, 6_600, 3_800, 5_200, 3_000),
    (32_000, 4_600, 2_900, 3_800, 2_800),
    (25_000, 4_000, 2_700, 3_400, 2_600),
    (19_000, 3_400, 0, 3_000, 2_600),
    (0, 2_900, 0, 2_600, 2_600),
)

BESIDE = (
    (40_000, 10_000, 5_400, 7_000, 4_000),
    (23_000, 8_000, 4_200, 5_200, 3_000),
    (19_000, 5_000, 2_900, 3_800, 2_600),
    (TINY_UM, 4_200, 2_600, 3_000, 2_600),
    (9_500, 4_000, 0, 3_200, 2_600),
    (LINE_HIGH_UM, 2_900, 0, 2_600, 2_600),
    (0, 4_000, 0, 2_600, 2_600),
)
"""Side by side, texts have the whole height."""


def sizes_for(height: int, table: tuple[tuple[int, ...], ...]) -> Sizes:
    """The styles for a clear height, by one of the two tables."""
    _, role, name, frequency, small = next(row for row in table if height >= row[0])
    return Sizes(
        replace(LABEL_ROLE, wanted_um=role),
        replace(LABEL_NAME, wanted_um=name),
        replace(LABEL_FREQUENCY, wanted_um=frequency),
        replace(LABEL_FACT, wanted_um=small),
        replace(LABEL_CODE, wanted_um=max(LABEL_CODE.floor_um, min(LABEL_CODE.wanted_um, frequency))),
    )


def reach_um(style: Style, thousandths: int, face: str = "text-bold") -> int:
    """How far so many thousandths of the em reach at the height that the style wants."""
    return -(-em_um(face, style.wanted_um) * thousandths // 1_000)
