"""The grid of a stock: where number, code and base lines are on every label of it, whatever stands in them.

It follows from the stock and the printer's dots alone, so that a label printed by itself is the one that was printed
among all others. Texts give way within it (`texts`); what has no room at its floor is left off and reported.

Four shapes. A tall label stacks: number and code on top, then the role, the performers, and a foot line. A low, wide
one sets the number, the texts and the code side by side; one of two lines sets the role over the frequency; and the
narrowest tape sets everything on one line.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, TypeAlias

from paperwork.document import Label
from paperwork.document.styles import LABEL_NUMBER, Style
from paperwork.frozen import frozen
from paperwork.render.labels.qr import QUIET_MODULES, largest_dots, module_um
from paperwork.render.labels.sizes import BESIDE, LINE_HIGH_UM, STACKED, TINY_UM, Sizes, reach_um, sizes_for
from paperwork.render.text.faces import FACES
from paperwork.render.text.measuring import Metrics

EDGE_UM = 2_000
"""Kept clear inside a label of a sheet; a stock may say less (`Stock.edge_um`)."""

SIDE_GAP_UM = 1_800
COLUMN_GAP_UM = 2_600
CODE_GAP_UM = 1_000
"""Between the frequency and revision and code on a label of two lines."""

INK_GAP_UM, SIGNS_GAP_UM = 150, 900
"""Between the ink of one line and the next, and between the bar of a number and revision and code under it."""

NARROW_UM = 30_000
"""Texts of less width leave a capsule no room beside the frequency: it is under the code."""

LONG_UM = 50_000
"""From this clear width on, two lines of text leave room for a code."""

SHORT_SIGNS, FIGURES, LONG_FLOOR_UM = 3, 2, 4_000
"""A number of more signs is a word; one of more than two may be lower: still twice what a hand's distance asks."""

NUMBER_SHARE, WORD_SHARE, CODE_SHARE = 28, 33, 45
"""Percent of a low label's width for its number, or for a word on two lines; and at most for the code of a tall one."""

CAPITALS, ACCENTED, BELOW, HOOKED = 860, 1_030, 270, 350
"""Thousandths of the em: what signs between capitals reach, one accent on a capital; what hangs under a line, and a
hook under a letter."""

LEAST_PERCENT = 78
"""How tall a role is on one line at the least, against the others, before its short name or two lines are taken: so
much room is under the code of a tall label, and a wider role with accents is lower."""

BAR_PERCENT = 123
"""A number and its bar, in percent of the number."""

BLANK_FREQUENCY = "000.000"

Shape: TypeAlias = Literal["stacked", "beside", "two lines", "line"]


@frozen
class Space:
    """What every label of a sheet has: the clear area and the edge around it, the code's modules, the printer's dots.

    `sides` is the QR code's modules, 0 for none; `signs_um` the width of the widest revision and code at their floor.
    """

    width: int
    height: int
    sides: int
    dpi: int
    signs_um: int
    edge: int = EDGE_UM

    def inset_um(self, module: int) -> int:
        """How far dark modules keep from the clear area's edge so that four modules of white remain on the label."""
        return max(0, QUIET_MODULES * module - self.edge)

    def span_um(self, module: int) -> int:
        """What a code takes of the clear area along one side, its inner quiet zone included."""
        return self.inset_um(module) + (self.sides + QUIET_MODULES) * module

    def code_within(self, most_um: int) -> int:
        """The most printer dots to a module of a code that takes no more than this; 0 where it would be unreadable."""
        return largest_dots(self.dpi, lambda module: self.span_um(module) <= most_um) if self.sides else 0

    @property
    def over_um(self) -> int:
        """How far accents and descenders may reach into the clear edge; capitals and figures stay out of it."""
        return self.edge * 3 // 4 if self.edge >= EDGE_UM else self.edge * 9 // 10

    def number_floor_um(self, number: str) -> int:
        """A number's floor; on the narrowest tape what the tape allows, still twice what a hand's distance asks for."""
        floor = LABEL_NUMBER.floor_um if len(number) <= FIGURES else LONG_FLOOR_UM
        return min(floor, self.height * 100 // BAR_PERCENT)


@frozen
class LabelGrid:
    """Sizes and places in micrometres from the top left of the clear area.

    The role is on `role_base`, the last line of the performers on `name_base`. Their ink keeps between `role_top` and
    `foot_top`, and on the sides to `left` and `right`. `name_lines` is 0 where performers have no room.
    """

    shape: Shape
    space: Space
    sizes: Sizes
    number_um: int
    number_width: int
    dots: int
    left: int
    right: int
    role_top: int
    role_base: int
    name_base: int
    foot_top: int
    role_lines: int = 1
    name_lines: int = 0

    @property
    def width(self) -> int:
        """The clear area's width."""
        return self.space.width

    @property
    def height(self) -> int:
        """The clear area's height, where the base line of the foot is."""
        return self.space.height

    @property
    def mark_um(self) -> tuple[int, int]:
        """Gap and thickness of the bar under the number: it shows which way up 16, 68, 9 or 06 are read."""
        return self.number_um * 10 // 100, max(700, self.number_um * 13 // 100)

    @property
    def number_zone(self) -> int:
        """Number and bar."""
        return self.number_um + sum(self.mark_um)

    @property
    def text_width(self) -> int:
        """The width of role and performers."""
        return self.right - self.left

    @property
    def module(self) -> int:
        """The side of a QR module."""
        return module_um(self.dots, self.space.dpi)

    @property
    def code_span(self) -> int:
        """From the clear area's edge to the end of the quiet zone on the other side."""
        return self.space.span_um(self.module) if self.dots else 0


TWO_LINES_UM = 8_700
"""What two lines at the floor of a role take above the lower base line, accents included."""


def make_grid(space: Space, is_word: bool, metrics: Metrics) -> LabelGrid:
    """The grid of a stock; `is_word`: for labels whose number is a word, which has no room beside the texts."""
    low = space.width * 10 >= space.height * 25 and (space.width >= 52_000 or space.height < TINY_UM)
    if space.height < TINY_UM and low:
        return _make_lines(space, is_word, metrics)
    return _make_beside(space, metrics) if low and not is_word else _make_stacked(space)


def is_long(number: str) -> bool:
    """Whether a number is a word."""
    return len(number) > SHORT_SIGNS


def _foot_top(space: Space, sizes: Sizes) -> int:
    """Over the frequency and the small print beside it."""
    return space.height - max(
        sizes.frequency.wanted_um * 103 // 100, reach_um(sizes.small, CAPITALS if space.height >= 19_000 else 0)
    )


def _make_stacked(space: Space) -> LabelGrid:
    sizes = sizes_for(space.height, STACKED)
    foot = _foot_top(space, sizes)
    name_lines = 1 if sizes.name.wanted_um else 0
    name_base = foot - INK_GAP_UM - reach_um(sizes.name, HOOKED, "text-regular")
    top = name_base - reach_um(sizes.name, ACCENTED, "text-regular") if name_lines else foot
    base = top - INK_GAP_UM - reach_um(sizes.role, BELOW)
    rise = reach_um(sizes.role, ACCENTED)
    two = space.height >= 32_000
    role_top = base - max(rise, TWO_LINES_UM if two else 0)
    under = reach_um(replace(sizes.role, wanted_um=sizes.role.wanted_um * LEAST_PERCENT // 100), CAPITALS)
    dots = space.code_within(min(base - under, space.width * CODE_SHARE // 100))
    number_width = space.width - (space.span_um(module_um(dots, space.dpi)) + SIDE_GAP_UM if dots else 0)
    number = min(LABEL_NUMBER.wanted_um, role_top * 100 // BAR_PERCENT)
    return LabelGrid(
        "stacked", space, sizes, number, number_width, dots, 0, space.width,
        role_top, base, name_base, foot, 2 if two else 1, name_lines,
    )  # fmt: skip


def _make_beside(space: Space, metrics: Metrics) -> LabelGrid:
    sizes = sizes_for(space.height, BESIDE)
    signs_top = space.height - sizes.code.wanted_um - SIGNS_GAP_UM
    tallest = min(LABEL_NUMBER.wanted_um, signs_top * 100 // BAR_PERCENT)
    pair = metrics.width_um("00", "figures-bold", tallest)
    column = max(min(space.width * NUMBER_SHARE // 100, pair), space.signs_um)
    number = min(tallest, column * FACES["figures-bold"].cap // metrics.units("00", "figures-bold"))
    most = min(space.height + space.edge, space.width // 4)
    if space.width - column - COLUMN_GAP_UM - most < NARROW_UM:
        most = min(most, space.height - reach_um(sizes.small, CAPITALS))
    dots = space.code_within(most)
    right = space.width - (space.span_um(module_um(dots, space.dpi)) if dots else SIDE_GAP_UM)
    foot = _foot_top(space, sizes)
    name_base = foot - INK_GAP_UM - reach_um(sizes.name, HOOKED, "text-regular")
    return LabelGrid(
        "beside", space, sizes, number, column, dots, column + COLUMN_GAP_UM, right,
        -space.over_um, _top_base(space, sizes.role), name_base, foot, 2, 2,
    )  # fmt: skip


def _make_lines(space: Space, is_word: bool, metrics: Metrics) -> LabelGrid:
    """Two lines of text, or one: the number takes the height, the role what frequency and code leave."""
    sizes = sizes_for(space.height, BESIDE)
    one = space.height < LINE_HIGH_UM
    number = space.height * 100 // BAR_PERCENT
    column = max(metrics.width_um("00", "figures-bold", number), space.width * WORD_SHARE // 100 if is_word else 0)
    most = min(space.height + space.edge, space.width // 4)
    dots = space.code_within(most) if space.width >= LONG_UM and not one else 0
    right = space.width - (space.span_um(module_um(dots, space.dpi)) if dots else 0)
    foot = space.height + space.over_um if one else space.height - sizes.frequency.wanted_um * 103 // 100
    middle = (space.height + sizes.role.wanted_um) // 2
    base = middle if one else _top_base(space, sizes.role)
    return LabelGrid(
        "line" if one else "two lines", space, sizes, number, column, dots, column + SIDE_GAP_UM, right,
        -space.over_um, base, 0, foot,
    )  # fmt: skip


def _top_base(space: Space, role: Style) -> int:
    """The base line of a role at the top of the clear area, so low that an accent stays on the label."""
    return max(role.wanted_um, reach_um(role, ACCENTED) - space.over_um)


def frequency_text(label: Label) -> str:
    """The frequency as printed, the form of a blank where one belongs and none is known, "" where none belongs."""
    if label.frequency is None:
        return ""
    return label.frequency or BLANK_FREQUENCY


def tag_text(label: Label) -> str:
    """What is set apart on a label: whom to ask where it is doubted, else its mark."""
    return label.doubt or label.mark


def pack_text(label: Label, words: Mapping[str, str]) -> str:
    """The pack's number with its word, "" without one."""
    return words["label pack"].format(pack=label.pack) if label.pack else ""
