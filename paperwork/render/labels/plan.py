"""How the labels of one sheet are divided, decided once for all of them, so that they look alike.

Only a label whose texts have no room on one line has a plan of its own: a role on two lines, a line for each performer,
and a smaller number where that is not enough. Its code stays as large as all others as long as it can.

Two shapes. A tall label stacks: number and code on top, then the role, the performers, and a foot line. A low, wide
label sets the number, the texts and the code side by side. What has no room at its floor is left off, the least
needed first, and reported; number, role, revision and code stay.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from paperwork.document import Label
from paperwork.document.styles import LABEL_FACT, LABEL_FREQUENCY, LABEL_NAME, LABEL_NUMBER, LABEL_ROLE, Style
from paperwork.render.labels.qr import QUIET_MODULES, module_um
from paperwork.render.labels.texts import name_text
from paperwork.render.text.faces import FACES, em_um
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics

EDGE_UM = 2_000
"""Kept clear inside a label of a sheet; a stock may say less (`Stock.edge_um`)."""

SIDE_GAP_UM = 1_800
SMALL_RISE = 130
"""Percent of its capitals that small print reaches above its baseline, with air: its ascenders and accents."""

LINE_GAP_UM, LEAST_GAP_UM = 200, 200
"""Between the ink of lines, and between a role and what is under it, where there is no more room."""

COLUMN_GAP_UM = 2_600
CODE_GAP_UM = 1_000
"""Between the frequency and revision and code on a label of two lines."""

TINY_UM = 12_000
"""Below this clear height a label has two lines of text, and a QR code only where it is long."""

CAPSULE_SHARE = 36
"""Percent of a stacked label's width that the capsule may take from the performers beside it."""

SHORT_SIGNS, WORD_FLOOR_UM = 3, 4_000
"""A number of more signs is a word, and may be lower than a number: still twice what a hand's distance asks for."""

BLANK_FREQUENCY = "000.000"

Shape: TypeAlias = Literal["stacked", "beside"]


@dataclass(frozen=True, slots=True)
class Sizes:
    """The styles for a clear height, and the gap between lines."""

    role: Style
    name: Style
    frequency: Style
    small: Style
    gap: int


@dataclass(frozen=True, slots=True)
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

    @property
    def over_um(self) -> int:
        """How far accents and descenders may reach into the clear edge; capitals and figures stay out of it."""
        return self.edge * 3 // 4 if self.edge >= EDGE_UM else self.edge * 9 // 10

    def number_floor_um(self, number: str) -> int:
        """A number's floor; on the narrowest tape what the tape allows, still twice what a hand's distance asks for."""
        floor = LABEL_NUMBER.floor_um if len(number) <= SHORT_SIGNS else WORD_FLOOR_UM
        return min(floor, self.height * 100 // 123)


@dataclass(frozen=True, slots=True)
class LabelPlan:
    """Sizes and zones for labels, in micrometres from the top left of the clear area; 0 for what is left off."""

    shape: Shape
    space: Space
    sizes: Sizes
    number_um: int
    number_width: int
    role_um: int
    name_um: int
    foot_um: int
    text_width: int
    dots: int
    names: bool = True
    apart: bool = False
    """A line for each performer."""

    @property
    def width(self) -> int:
        """The clear area's width."""
        return self.space.width

    @property
    def height(self) -> int:
        """The clear area's height."""
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
    def role_top(self) -> int:
        """Where the zone of the role begins, in a stacked label."""
        return self.height - self.foot_um - self.role_um - self.name_um - 2 * self.sizes.gap

    @property
    def module(self) -> int:
        """The side of a QR module."""
        return module_um(self.dots, self.space.dpi)

    @property
    def code_inset(self) -> int:
        """From the clear area's edge to the dark modules: what of the quiet zone the label's edge does not keep."""
        return self.space.inset_um(self.module)

    @property
    def code_span(self) -> int:
        """From the clear area's edge to the end of the quiet zone on the other side."""
        return self.space.span_um(self.module) if self.dots else 0


def frequency_text(label: Label) -> str:
    """The frequency as printed, the form of a blank where one belongs and none is known, "" where none belongs."""
    if label.frequency is None:
        return ""
    return label.frequency or BLANK_FREQUENCY


def tag_text(label: Label) -> str:
    """What is set apart on a label: whom to ask where it is doubted, else its mark."""
    return label.doubt or label.mark


def name_lines(label: Label, plan: LabelPlan) -> tuple[str, ...]:
    """The performers as the plan has them: on one line, or a line for each."""
    return tuple(filter(None, label.performers if plan.apart else (name_text(label),)))


def pack_text(label: Label, words: Mapping[str, str]) -> str:
    """The pack's number with its word, "" without one."""
    return words["label pack"].format(pack=label.pack) if label.pack else ""


_STACKED = (
    # clear height, role, name, frequency, small print, gap
    (56_000, 9_000, 5_000, 7_000, 4_000, 1_400),
    (40_000, 6_600, 3_800, 5_200, 3_000, 1_100),
    (32_000, 5_000, 3_100, 4_000, 2_800, 900),
    (23_000, 4_600, 2_900, 3_800, 2_600, 900),
    (19_000, 3_400, 2_600, 3_000, 2_600, 700),
    (0, 2_900, 2_600, 2_600, 2_600, 500),
)

_BESIDE = (
    (40_000, 10_000, 5_400, 7_000, 4_000, 1_400),
    (23_000, 8_000, 4_200, 5_200, 3_000, 1_100),
    (19_000, 5_000, 2_900, 3_800, 2_600, 900),
    (TINY_UM, 4_200, 2_600, 3_000, 2_600, 700),
    (0, 2_900, 2_600, 2_600, 2_600, 500),
)
"""Side by side, texts have the whole height."""


def sizes_for(height: int, beside: bool) -> Sizes:
    """The styles for a clear height."""
    _, role, name, frequency, small, gap = next(row for row in (_BESIDE if beside else _STACKED) if height >= row[0])
    return Sizes(
        replace(LABEL_ROLE, wanted_um=role),
        replace(LABEL_NAME, wanted_um=name),
        replace(LABEL_FREQUENCY, wanted_um=frequency),
        replace(LABEL_FACT, wanted_um=small),
        gap,
    )


def name_room(label: Label, width: int, small: Style, metrics: Metrics) -> int:
    """What the capsule leaves of a stacked label's width for the performers."""
    if not label.capsule:
        return width
    capsule = fit(label.capsule, small, width * CAPSULE_SHARE // 100, metrics)
    return width - capsule.width_um(metrics) - SIDE_GAP_UM


def text_height(text: str, style: Style, width: int, gap: int, metrics: Metrics, accents: bool = False) -> int:
    """The height from the top of the first capital to the foot of the last line, with the gap to what follows."""
    if not text:
        return 0
    fitted = fit(text, style, width, metrics)
    above = accent_um(fitted, gap) if accents else 0
    em = em_um(fitted.face, style.wanted_um)
    return above + fitted.cap_um + (len(fitted.lines) - 1) * fitted.pitch_um + em * 27 // 100 + gap + 50


def accent_um(fitted: Fitted, gap: int) -> int:
    """How far the ink of the first line reaches past its capitals and the gap above them."""
    return max(0, fitted.rise_um - fitted.cap_um - gap)


def number_for(labels: tuple[Label, ...], width: int, height: int, space: Space, metrics: Metrics) -> int:
    """The tallest number whose bar fits the height, and that no label has too wide; never under its floor."""
    by_width = width * FACES["figures-bold"].cap // max(1, widest_number(labels, metrics))
    floor = min(space.number_floor_um(label.number) for label in labels)
    return max(min(height * 100 // 123, by_width, LABEL_NUMBER.wanted_um), floor)


def widest_number(labels: tuple[Label, ...], metrics: Metrics) -> int:
    """The widest number, in units of its face."""
    return max(metrics.units(label.number, "figures-bold") for label in labels)


def top_baseline(fitted: Fitted, plan: LabelPlan) -> int:
    """The first baseline at the top of the clear area, lower where an accent would leave the label."""
    rise = fitted.rise_um
    return max(fitted.cap_um, rise - plan.space.over_um)


def frequency_top(label: Label, plan: LabelPlan) -> int:
    """Where the texts of a low label end: above the frequency and the small print beside it, or at the foot."""
    small = plan.sizes.small.wanted_um * SMALL_RISE // 100 if label.pack or label.capsule or tag_text(label) else 0
    return plan.height - max(plan.sizes.frequency.wanted_um + 400 if frequency_text(label) else 0, small)
