"""How the labels of one sheet are divided, decided once for all of them, so that they look alike.

Only a label whose texts would have to be broken has a plan of its own, with a smaller number and more room for text.

Two shapes. A tall label stacks: number and code on top, then the role, the performers, and a foot line. A low, wide
label sets the number, the texts and the code side by side. What has no room at its floor is left off, the least
needed first, and reported; number, role, revision and code stay.
"""

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from paperwork.document import Label, PageWords
from paperwork.render.fit import fit, rise_um
from paperwork.render.fonts import FACES, Metrics, em_um
from paperwork.render.qr import QUIET_MODULES, module_um
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
"""Kept clear inside every label: sheets and printers are off by up to a millimetre, and dies wander."""

SIDE_GAP_UM = 1_800
COLUMN_GAP_UM = 2_600
LINE_GAP_UM = 900

LOW_UM = 23_000
"""A label with less clear height than this and width to spare is divided side by side."""
WIDE_UM = 52_000
TINY_UM = 12_000
"""Below this clear height there is no room for a QR code beside readable text."""

CAPSULE_SHARE = 36
"""Percent of a stacked label's width that the capsule may take from the performers beside it."""

CODE_WIDTH_UM = 13_500
"""Revision letter and code at their floor."""

BLANK_FREQUENCY = "000.000"

Shape: TypeAlias = Literal["stacked", "beside"]


@dataclass(frozen=True, slots=True)
class Plan:
    """Sizes for every label of a sheet; heights of zones in micrometres, 0 for what is left off."""

    shape: Shape
    width: int
    height: int
    number_um: int
    number_width: int
    role: Style
    name: Style
    frequency: Style
    small: Style
    role_um: int
    name_um: int
    foot_um: int
    module_um: int
    qr_um: int
    text_width: int
    left_off: tuple[str, ...] = ()

    @property
    def mark_um(self) -> tuple[int, int]:
        """Gap and thickness of the bar under the number: it shows which way up 16, 68, 9 or 06 are read."""
        return self.number_um * 10 // 100, max(900, self.number_um * 13 // 100)

    @property
    def number_zone(self) -> int:
        """Number and bar."""
        return self.number_um + sum(self.mark_um)


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


def sizes(height: int, beside: bool = False) -> tuple[Style, Style, Style, Style]:
    """Role, name, frequency and small print for a clear height: as large as keeps the number the largest."""
    role, name, frequency = (4_600, 2_900, 3_800) if height >= LOW_UM or beside else (3_400, 2_600, 3_000)
    if height >= 40_000:
        role, name, frequency = 6_600, 3_800, 5_200
    if height < TINY_UM:
        role, frequency = 2_900, 2_600
    return (
        replace(LABEL_ROLE, wanted_um=role),
        replace(LABEL_NAME, wanted_um=name),
        replace(LABEL_FREQUENCY, wanted_um=frequency),
        replace(LABEL_FACT, wanted_um=3_200) if height >= 40_000 else replace(LABEL_FACT, wanted_um=2_600),
    )


def plan_labels(
    labels: tuple[Label, ...], width: int, height: int, sides: int, dpi: int, metrics: Metrics
) -> tuple[Plan, ...]:
    """A plan for each label, of the given size cut edge to cut edge. `sides` is the QR code's modules, 0 for none."""
    clear = width - 2 * EDGE_UM, height - 2 * EDGE_UM
    low = clear[1] < LOW_UM and (clear[0] >= WIDE_UM or clear[1] < TINY_UM)
    make = _plan_beside if low else _plan_stacked
    common = make(labels, *clear, sides, dpi, metrics, roomy=True)
    return tuple(
        make((x,), *clear, sides, dpi, metrics, roomy=False) if _is_long(x, common, metrics) else common for x in labels
    )


def _is_long(label: Label, plan: Plan, metrics: Metrics) -> bool:
    """Whether a text of the label does not stand on one line of the plan."""
    role = fit(label.role, replace(plan.role, lines=1), plan.text_width, metrics)
    width = name_room(label, plan.text_width, plan.small, metrics) if plan.shape == "stacked" else plan.text_width
    names = fit(name_text(label), replace(plan.name, lines=1), width, metrics)
    kept = "performers" not in plan.left_off
    raised = plan.shape == "stacked" and accent_um(label.role, role.face, role.cap_um) > 0
    return raised or role.outcome != "whole" or (kept and names.outcome != "whole")


def name_room(label: Label, width: int, small: Style, metrics: Metrics) -> int:
    """What the capsule leaves of a stacked label's width for the performers."""
    if not label.capsule:
        return width
    capsule = fit(label.capsule, small, width * CAPSULE_SHARE // 100, metrics)
    return width - metrics.width_um(capsule.lines[0], capsule.face, capsule.cap_um) - SIDE_GAP_UM


def text_height(text: str, style: Style, width: int, metrics: Metrics, accents: bool = False) -> int:
    """The height from the top of the first capital to the foot of the last line, with the gap to what follows."""
    if not text:
        return 0
    fitted = fit(text, style, width, metrics)
    above = accent_um(fitted.lines[0], fitted.face, fitted.cap_um) if accents else 0
    return above + block_height(len(fitted.lines), fitted.face, fitted.cap_um)


def block_height(lines: int, face: str, cap_um: int) -> int:
    """The height of so many lines: capitals, pitches, the room for descenders and accents of the next line."""
    em = em_um(face, cap_um)
    return cap_um + (lines - 1) * em * 112 // 100 + em * 27 // 100 + LINE_GAP_UM


def _name_height(label: Label, name: Style, small: Style, width: int, metrics: Metrics) -> int:
    height = text_height(name_text(label), name, name_room(label, width, small, metrics), metrics)
    return max(height, text_height(label.capsule, small, width * CAPSULE_SHARE // 100, metrics))


def widest_number(labels: tuple[Label, ...], metrics: Metrics) -> int:
    """The width of the widest number in thousandths of the em."""
    return max(metrics.units(label.number, "figures-bold") for label in labels)


def _number_for(labels: tuple[Label, ...], width: int, height: int, metrics: Metrics) -> int:
    """The tallest number whose bar fits the height, and that no label has too wide."""
    by_height = height * 100 // 123
    by_width = width * FACES["figures-bold"].cap // max(1, widest_number(labels, metrics))
    return min(by_height, by_width, LABEL_NUMBER.wanted_um)


def qr_room(plan_height: int, side_um: int) -> int:
    """The square that code and quiet zone may fill; the quiet zone may use the clear edge, the modules may not."""
    return min(plan_height, side_um) + 2 * EDGE_UM


def _module(sides: int, room: int, dpi: int) -> tuple[int, int]:
    """Module and side of the dark square for a room that counts the quiet zone; zeros where none may be."""
    if not sides:
        return 0, 0
    module = module_um(sides, room, dpi)
    return module, module * sides


def quiet_um(module: int) -> int:
    """The quiet zone inside the clear area: what the edge does not already keep white."""
    return max(0, QUIET_MODULES * module - EDGE_UM)


def _plan_stacked(
    labels: tuple[Label, ...], width: int, height: int, sides: int, dpi: int, metrics: Metrics, roomy: bool
) -> Plan:
    role, name, frequency, small = sizes(height)
    foot = max(frequency.wanted_um if any(frequency_text(x) for x in labels) else 0, LABEL_CODE.floor_um)
    left_off: list[str] = []
    for lines in (1, 0) if roomy else (2, 1, 0):
        role = replace(role, lines=max(1, lines))
        name = replace(name, lines=max(1, lines))
        role_um = max(text_height(x.role, role, width, metrics, accents=not roomy) for x in labels)
        name_um = max(_name_height(x, name, small, width, metrics) for x in labels) if lines else 0
        top = height - foot - role_um - name_um - 2 * LINE_GAP_UM
        if top * 100 // 123 >= LABEL_NUMBER.floor_um or not lines:
            break
    if not lines and any(name_text(x) for x in labels):
        left_off.append("performers")
    module, side = _module(sides, min(top + 2 * EDGE_UM, width * 45 // 100 + EDGE_UM), dpi)
    while module and side + quiet_um(module) + QUIET_MODULES * module > top + LINE_GAP_UM:
        dots = module * dpi // 25_400
        module = (dots - 1) * 25_400 // dpi
        side = module * sides
        if module < 330:
            module = side = 0
    number_width = width - (side + QUIET_MODULES * module + SIDE_GAP_UM if module else 0)
    number = _number_for(labels, number_width, top, metrics)
    return Plan(
        "stacked", width, height, number, number_width, role, name, frequency, small,
        role_um, name_um, foot, module, side, width, tuple(left_off),
    )  # fmt: skip


def _plan_beside(
    labels: tuple[Label, ...], width: int, height: int, sides: int, dpi: int, metrics: Metrics, roomy: bool
) -> Plan:
    role, name, frequency, small = sizes(height, beside=True)
    if not roomy:
        frequency = replace(frequency, wanted_um=min(3_000, frequency.wanted_um))
    tiny = height < TINY_UM
    module, side = (0, 0) if tiny else _module(sides, min(height, width * 24 // 100) + 2 * EDGE_UM, dpi)
    foot = 0 if tiny else LABEL_CODE.floor_um + LINE_GAP_UM
    number = _number_for(labels, width * (32 if roomy else 21) // 100, height - foot, metrics)
    used = -(-widest_number(labels, metrics) * number // FACES["figures-bold"].cap)
    left_off = ("performers",) if tiny and any(name_text(x) for x in labels) else ()
    right = side + quiet_um(module) + QUIET_MODULES * module if module else CODE_WIDTH_UM
    text = width - max(used, 0 if tiny else CODE_WIDTH_UM) - COLUMN_GAP_UM - right
    return Plan(
        "beside", width, height, number, used, role, name, frequency, small,
        0, 0, foot, module, side, text, left_off,
    )  # fmt: skip


def accent_um(text: str, face: str, cap_um: int) -> int:
    """How far an accent on a capital reaches past the gap above it."""
    return max(0, rise_um(text, face, cap_um) - cap_um * 130 // 100)
