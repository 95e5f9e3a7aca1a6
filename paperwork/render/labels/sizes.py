"""The sizes of a label's texts by the height that the label has: steps of `styles.SCALE_UM`, or the floor."""

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
    (56_000, 9_419, 5_600, 6_660, 3_960),
    (40_000, 6_660, 3_960, 5_600, 2_800),
    (32_000, 4_709, 2_800, 3_960, 2_800),
    (25_000, 3_960, 2_800, 3_330, 2_600),
    (19_000, 3_330, 0, 2_800, 2_600),
    (0, 2_800, 0, 2_600, 2_600),
)

BESIDE = (
    (40_000, 11_200, 5_600, 7_920, 3_960),
    (23_000, 7_920, 4_709, 5_600, 3_330),
    (19_000, 5_600, 3_330, 3_960, 2_600),
    (TINY_UM, 4_709, 2_800, 3_330, 2_600),
    (9_500, 3_960, 0, 3_330, 2_600),
    (LINE_HIGH_UM, 2_800, 0, 2_600, 2_600),
    (0, 3_960, 0, 2_600, 2_600),
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
