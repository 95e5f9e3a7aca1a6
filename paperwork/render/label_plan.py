"""How the labels of one sheet are divided, decided once for all of them, so that they look alike.

Only a label whose texts would have to be broken has a plan of its own, with a smaller number and more room for text.

Two shapes. A tall label stacks: number and code on top, then the role, the performers, and a foot line. A low, wide
label sets the number, the texts and the code side by side. What has no room at its floor is left off, the least
needed first, and reported; number, role, revision and code stay.
"""

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from paperwork.document import Label, PageWords
from paperwork.render.fit import Fitted, fit, rise_um
from paperwork.render.fonts import FACES, Metrics, em_um
from paperwork.render.qr import QUIET_MODULES, largest_dots, module_um
from paperwork.styles import (
    LABEL_CODE,
    LABEL_FACT,
    LABEL_FREQUENCY,
    LABEL_NAME,
    LABEL_NUMBER,
    LABEL_ROLE,
    Style,
)

EDGE_UM = 2_000
"""Kept clear inside a label of a sheet; a stock may say less (`Stock.edge_um`)."""

SIDE_GAP_UM = 1_800
COLUMN_GAP_UM = 2_600

TINY_UM = 12_000
"""Below this clear height a label has two lines of text, and a QR code only where it is long."""

LONG_UM, TALL_TINY_UM = 50_000, 9_500
"""From this clear width on, two lines of text leave room for a code; from this height on, they may be larger."""

CAPSULE_SHARE = 36
"""Percent of a stacked label's width that the capsule may take from the performers beside it."""

NUMBER_SHARES = 32, 21
"""Percent of a low label's width for the number: where the texts are short, and where they need the room."""

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

    @property
    def number_floor_um(self) -> int:
        """The number's floor; on the narrowest tape what the tape allows, still twice what a hand's distance asks for."""
        return min(LABEL_NUMBER.floor_um, self.height * 100 // 123)


@dataclass(frozen=True, slots=True)
class Plan:
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


def name_text(label: Label) -> str:
    """The performers on one line."""
    return "  ·  ".join(name for name in label.performers if name)


def pack_text(label: Label, words: PageWords) -> str:
    """The pack's number with its word, "" without one."""
    return words.label_pack.format(pack=label.pack) if label.pack else ""


_SIZES = (
    # clear height, role, name, frequency, small print, gap
    (56_000, 9_000, 5_000, 7_000, 4_000, 1_400),
    (40_000, 6_600, 3_800, 5_200, 3_000, 1_100),
    (23_000, 4_600, 2_900, 3_800, 2_600, 900),
    (19_000, 3_400, 2_600, 3_000, 2_600, 700),
    (0, 2_900, 2_600, 2_600, 2_600, 500),
)


def sizes_for(height: int, beside: bool) -> Sizes:
    """The styles for a clear height. Side by side, texts have the whole height and take the next larger sizes."""
    index = next(i for i, row in enumerate(_SIZES) if height >= row[0])
    if beside and height >= TINY_UM:
        index = max(0, index - 1)
    _, role, name, frequency, small, gap = _SIZES[index]
    return Sizes(
        replace(LABEL_ROLE, wanted_um=role),
        replace(LABEL_NAME, wanted_um=name),
        replace(LABEL_FREQUENCY, wanted_um=frequency),
        replace(LABEL_FACT, wanted_um=small),
        gap,
    )


def plan_labels(labels: tuple[Label, ...], space: Space, metrics: Metrics) -> tuple[Plan, ...]:
    """A plan for each label in a space that is the same for all."""
    beside = space.width * 10 >= space.height * 25 and (space.width >= 52_000 or space.height < TINY_UM)
    make = _plan_beside if beside else _plan_stacked
    common = make(labels, space, metrics, roomy=True)
    return tuple(
        make((x,), space, metrics, roomy=False) if _is_long(x, common, metrics) else common for x in labels
    )


def _is_long(label: Label, plan: Plan, metrics: Metrics) -> bool:
    """Whether a text of the label does not stand on one line of the plan, or runs into the code."""
    role = fit(label.role, replace(plan.sizes.role, lines=1), plan.text_width, metrics)
    width = (
        name_room(label, plan.text_width, plan.sizes.small, metrics)
        if plan.shape == "stacked"
        else plan.text_width
    )
    names = fit(name_text(label), replace(plan.sizes.name, lines=1), width, metrics)
    raised = plan.shape == "stacked" and _runs_under_code(role, plan, metrics)
    return raised or role.outcome != "whole" or (plan.names and names.outcome != "whole")


def _runs_under_code(role: Fitted, plan: Plan, metrics: Metrics) -> bool:
    width = metrics.width_um(role.lines[0], role.face, role.cap_um)
    deep = plan.code_span > plan.role_top + plan.sizes.gap - accent_um(role, 0)
    return deep and width + SIDE_GAP_UM + plan.code_span > plan.width


def name_room(label: Label, width: int, small: Style, metrics: Metrics) -> int:
    """What the capsule leaves of a stacked label's width for the performers."""
    if not label.capsule:
        return width
    capsule = fit(label.capsule, small, width * CAPSULE_SHARE // 100, metrics)
    return width - metrics.width_um(capsule.lines[0], capsule.face, capsule.cap_um) - SIDE_GAP_UM


def text_height(
    text: str, style: Style, width: int, gap: int, metrics: Metrics, accents: bool = False
) -> int:
    """The height from the top of the first capital to the foot of the last line, with the gap to what follows."""
    if not text:
        return 0
    fitted = fit(text, style, width, metrics)
    above = accent_um(fitted, gap) if accents else 0
    em = em_um(fitted.face, style.wanted_um)
    return above + fitted.cap_um + (len(fitted.lines) - 1) * fitted.pitch_um + em * 27 // 100 + gap + 50


def accent_um(fitted: Fitted, gap: int) -> int:
    """How far the ink of the first line reaches past its capitals and the gap above them."""
    return max(0, rise_um(fitted.lines[0], fitted.face, fitted.cap_um) - fitted.cap_um - gap)


def _number_for(labels: tuple[Label, ...], width: int, height: int, floor: int, metrics: Metrics) -> int:
    """The tallest number whose bar fits the height, and that no label has too wide; never under its floor."""
    by_width = width * FACES["figures-bold"].cap // max(1, _widest_number(labels, metrics))
    return max(min(height * 100 // 123, by_width, LABEL_NUMBER.wanted_um), floor)


def _widest_number(labels: tuple[Label, ...], metrics: Metrics) -> int:
    return max(metrics.units(label.number, "figures-bold") for label in labels)


def _plan_stacked(labels: tuple[Label, ...], space: Space, metrics: Metrics, roomy: bool) -> Plan:
    width, height = space.width, space.height
    sizes = sizes_for(height, beside=False)
    foot = max(sizes.frequency.wanted_um if any(map(frequency_text, labels)) else 0, LABEL_CODE.floor_um)
    for lines in (1, 0) if roomy else (2, 1, 0):
        role = replace(sizes.role, lines=max(1, lines))
        name = replace(sizes.name, lines=max(1, lines))
        role_um = max(text_height(x.role, role, width, sizes.gap, metrics, accents=True) for x in labels)
        name_um = max(_name_height(x, name, sizes, width, metrics) for x in labels) if lines else 0
        top = height - foot - role_um - name_um - 2 * sizes.gap
        if top * 100 // 123 >= space.number_floor_um:
            break
    fitted = [fit(x.role, role, width, metrics) for x in labels]
    widest = max(metrics.width_um(line, f.face, f.cap_um) for f in fitted for line in f.lines)
    high = max(accent_um(f, 0) for f in fitted)

    def fits(module: int) -> bool:
        span = space.span_um(module)
        beside_role = roomy or widest + SIDE_GAP_UM + span <= width
        return span <= min(top + (role_um if beside_role else sizes.gap - high), width * 45 // 100)

    dots = largest_dots(space.dpi, fits) if space.sides else 0
    number_width = width - (space.span_um(module_um(dots, space.dpi)) + SIDE_GAP_UM if dots else 0)
    number = _number_for(labels, number_width, top, space.number_floor_um, metrics)
    sizes = replace(sizes, role=role, name=name)
    return Plan(
        "stacked", space, sizes, number, number_width, role_um, name_um, foot, width, dots, names=bool(lines),
    )


def _name_height(label: Label, name: Style, sizes: Sizes, width: int, metrics: Metrics) -> int:
    room = name_room(label, width, sizes.small, metrics)
    height = text_height(name_text(label), name, room, sizes.gap, metrics, accents=True)
    return max(
        height, text_height(label.capsule, sizes.small, width * CAPSULE_SHARE // 100, sizes.gap, metrics)
    )


def _plan_beside(labels: tuple[Label, ...], space: Space, metrics: Metrics, roomy: bool) -> Plan:
    width, height = space.width, space.height
    tiny = height < TINY_UM
    sizes = sizes_for(height, beside=True)
    if not roomy:
        smaller = max(sizes.frequency.floor_um, sizes.frequency.wanted_um * 8 // 10)
        sizes = replace(sizes, frequency=replace(sizes.frequency, wanted_um=smaller))
    if tiny and height >= TALL_TINY_UM:
        sizes = replace(sizes, role=replace(sizes.role, wanted_um=4_000), frequency=replace(sizes.frequency, wanted_um=3_200))
    most = min(height + space.edge, width * 25 // 100)
    coded = space.sides and (not tiny or width >= LONG_UM)
    dots = largest_dots(space.dpi, lambda module: space.span_um(module) <= most) if coded else 0
    foot = 0 if tiny else LABEL_CODE.floor_um + sizes.gap
    number = _number_for(
        labels, width * NUMBER_SHARES[not roomy] // 100, height - foot, space.number_floor_um, metrics
    )
    used = -(-_widest_number(labels, metrics) * number // FACES["figures-bold"].cap)
    right = space.span_um(module_um(dots, space.dpi)) if dots else 0 if tiny else space.signs_um
    left = used + SIDE_GAP_UM if tiny else max(used, space.signs_um) + COLUMN_GAP_UM
    return Plan(
        "beside", space, sizes, number, used, 0, 0, foot, width - left - right, dots, names=not tiny,
    )
