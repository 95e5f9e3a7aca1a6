"""One label set after its sheet's plan: boxes from the top left corner of its clear area."""

from dataclasses import dataclass, replace

from paperwork.document import Label, PageWords
from paperwork.render.boxes import Box, Code, Fill, Frame, Room, Rule
from paperwork.render.fit import Fitted, fit, set_line
from paperwork.render.fonts import Metrics, em_um
from paperwork.render.label_plan import (
    BLANK_FREQUENCY,
    CODE_WIDTH_UM,
    COLUMN_GAP_UM,
    LINE_GAP_UM,
    SIDE_GAP_UM,
    Plan,
    frequency_text,
    name_room,
    name_text,
    pack_text,
    quiet_um,
)
from paperwork.render.qr import QUIET_MODULES, qr_runs
from paperwork.styles import LABEL_CODE, LABEL_FACT, LABEL_NUMBER, Style


@dataclass(frozen=True, slots=True)
class Printed:
    """What a label shows beside its own values."""

    revision: str
    code: str
    payload: str
    words: PageWords

    @property
    def signs(self) -> str:
        """Revision and code as printed on the label."""
        return f"{self.revision}  {self.code}".strip()


class Ink:
    """Boxes of one label, and what it had to cut (text, fitted) or leave off (kind)."""

    def __init__(self, metrics: Metrics) -> None:
        self.metrics = metrics
        self.boxes: list[Box] = []
        self.cuts: list[tuple[str, Style, Fitted]] = []
        self.left_off: list[str] = []

    def width(self, text: str, style: Style) -> int:
        """The width that the text takes at the style's wanted height."""
        fitted = fit(text, style, 10_000_000, self.metrics)
        return self.metrics.width_um(fitted.lines[0], fitted.face, fitted.cap_um)

    def put(self, text: str, style: Style, room: Room, baseline: int, align: str = "left") -> int:
        """Sets the text with its last baseline at `baseline`; returns the top of its first capitals."""
        if not text:
            return baseline
        fitted = fit(text, style, room.width, self.metrics)
        if fitted.outcome != "whole":
            self.cuts.append((text, style, fitted))
        if fitted.outcome == "too wide":
            self.boxes.append(Rule(room.x, baseline, room.right, baseline, 450))
            return baseline - fitted.cap_um
        first = baseline - (len(fitted.lines) - 1) * fitted.pitch_um
        for index, line in enumerate(fitted.lines):
            y = first + index * fitted.pitch_um
            self.boxes.append(set_line(line, fitted, room, y, self.metrics, align))
        return first - fitted.cap_um


def set_label(label: Label, printed: Printed, plan: Plan, metrics: Metrics) -> Ink:
    """The label's ink."""
    ink = Ink(metrics)
    _set_number(label, plan, ink)
    if plan.module_um and label.qr:
        _set_code(printed.payload, plan, ink)
    if plan.shape == "stacked":
        _set_stack(label, printed, plan, ink)
    else:
        _set_beside(label, printed, plan, ink)
    return ink


def _set_number(label: Label, plan: Plan, ink: Ink) -> None:
    style = replace(LABEL_NUMBER, wanted_um=plan.number_um)
    room = Room(0, 0, plan.number_width, plan.number_zone)
    ink.put(label.number, style, room, plan.number_um)
    gap, thick = plan.mark_um
    bar = min(ink.width(label.number, style), plan.number_width)
    ink.boxes.append(Fill(0, plan.number_um + gap, bar, thick))


def _set_code(payload: str, plan: Plan, ink: Ink) -> None:
    module, quiet = plan.module_um, QUIET_MODULES * plan.module_um
    side, runs = qr_runs(payload)
    inset = quiet_um(module)
    x, y = plan.width - side * module - inset, inset
    white = Room(x - quiet, y - quiet, side * module + 2 * quiet, side * module + 2 * quiet)
    ink.boxes.append(Code(x, y, module, side, runs, payload, white))


def _set_stack(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    width, height = plan.width, plan.height
    name_foot = height - plan.foot_um - LINE_GAP_UM
    role_foot = name_foot - plan.name_um
    drop = em_um("text-bold", plan.role.wanted_um) * 27 // 100
    role_base = role_foot - drop
    top = Room(0, 0, width, role_foot)
    ink.put(label.role, plan.role, top, role_base)
    name_base = name_foot - em_um("text-regular", plan.name.wanted_um) * 27 // 100
    used = 0
    if plan.name_um:
        used = _set_facts(label, plan, ink, name_base)
        room = Room(0, role_foot - drop, width - used, plan.name_um + drop)
        ink.put(name_text(label), plan.name, room, name_base)
    elif label.capsule:
        ink.left_off.append(label.capsule)
    _set_foot(label, printed, plan, ink)


def _set_facts(label: Label, plan: Plan, ink: Ink, baseline: int) -> int:
    """The capsule at the right of the name's last line, the mark in a box beside the number; the width it takes."""
    if label.mark:
        _set_tag(label.mark, plan, ink)
    if not label.capsule:
        return 0
    taken = plan.width - name_room(label, plan.width, plan.small, ink.metrics) - SIDE_GAP_UM
    room = Room(plan.width - taken, baseline - plan.name.wanted_um - 1_500, taken, plan.name.wanted_um + 3_000)
    ink.put(label.capsule, plan.small, room, baseline, "right")
    return taken + SIDE_GAP_UM


def _set_tag(mark: str, plan: Plan, ink: Ink) -> None:
    """The mark (a swap) boxed, right of the number on its baseline."""
    number = next(box for box in ink.boxes if isinstance(box, Fill))
    left = number.width + SIDE_GAP_UM + 700
    room = Room(left, 0, plan.number_width - left - 700, plan.number_zone)
    if room.width < ink.width(mark, replace(LABEL_FACT, wanted_um=LABEL_FACT.floor_um)):
        ink.left_off.append(mark)
        return
    fitted = fit(mark, LABEL_FACT, room.width, ink.metrics)
    text = set_line(fitted.lines[0], fitted, room, plan.number_um - 900, ink.metrics)
    ink.boxes.append(Frame(left - 700, text.y - fitted.cap_um - 900, text.ink.width + 1_400, fitted.cap_um + 1_800, 300, 700))
    ink.boxes.append(text)


def _set_foot(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    height = plan.height
    code = ink.width(printed.signs, LABEL_CODE)
    band = Room(0, height - plan.foot_um - 1_000, plan.width, plan.foot_um + 2_000)
    ink.put(printed.signs, LABEL_CODE, band._replace(x=plan.width - code, width=code), height, "right")
    taken = _set_frequency(label, plan, ink, band._replace(width=plan.width - code - SIDE_GAP_UM), height)
    pack = pack_text(label, printed.words)
    left = taken + (SIDE_GAP_UM * 3 // 2 if taken else 0)
    room = band._replace(x=left, width=plan.width - code - SIDE_GAP_UM - left)
    if pack and room.width >= ink.width(pack, replace(plan.small, wanted_um=plan.small.floor_um)):
        ink.put(pack, plan.small, room, height)
    elif pack and label.pack != label.number:
        ink.left_off.append(pack)


def _set_frequency(label: Label, plan: Plan, ink: Ink, room: Room, baseline: int) -> int:
    """The frequency, or a ruled blank in its form where it is not known; returns the width it takes."""
    text = frequency_text(label)
    if not text:
        return 0
    fitted = fit(text, plan.frequency, room.width, ink.metrics)
    if label.frequency:
        ink.put(text, plan.frequency, room, baseline)
    elif fitted.outcome == "whole":
        for index, sign in enumerate(BLANK_FREQUENCY):
            left = room.x + ink.metrics.width_um(text[:index], fitted.face, fitted.cap_um)
            right = room.x + ink.metrics.width_um(text[: index + 1], fitted.face, fitted.cap_um)
            if sign == "0":
                ink.boxes.append(Rule(left + 150, baseline, right - 150, baseline, 400))
            else:
                ink.boxes.append(set_line(sign, fitted, room._replace(x=left, width=right - left), baseline, ink.metrics))
    return ink.metrics.width_um(text, fitted.face, fitted.cap_um)


def _set_beside(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    width, height = plan.width, plan.height
    signs = ink.width(printed.signs, LABEL_CODE)
    if plan.foot_um:
        start = max(plan.number_width, signs) + COLUMN_GAP_UM
        end = width - _right_column(plan)
        foot = Room(0, height - LABEL_CODE.wanted_um - 1_000, start - COLUMN_GAP_UM, LABEL_CODE.wanted_um + 2_000)
        ink.put(printed.signs, LABEL_CODE, foot, height)
        _set_right(label, printed, plan, ink)
    else:
        start, end = plan.number_width + SIDE_GAP_UM, width - signs - SIDE_GAP_UM
        ink.put(printed.signs, LABEL_CODE, Room(width - signs, 0, signs, height + 500), height, "right")
        _set_tiny_capsule(label, plan, ink, Room(width - signs, -500, signs, height))
    _set_middle(label, plan, ink, Room(start, -EDGE_INK_UM, end - start, height + 2 * EDGE_INK_UM))


EDGE_INK_UM = 1_500
"""Accents and descenders may reach so far into the clear edge."""


def _set_tiny_capsule(label: Label, plan: Plan, ink: Ink, room: Room) -> None:
    if label.capsule and ink.width(label.capsule, replace(plan.small, wanted_um=plan.small.floor_um)) <= room.width:
        ink.put(label.capsule, plan.small, room, plan.small.floor_um, "right")
    elif label.capsule:
        ink.left_off.append(label.capsule)


def _right_column(plan: Plan) -> int:
    if not plan.module_um:
        return CODE_WIDTH_UM
    return plan.qr_um + quiet_um(plan.module_um) + QUIET_MODULES * plan.module_um


def _set_right(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    """Capsule and pack under the code, as many lines as there is height for, the last on the foot's baseline."""
    quiet = QUIET_MODULES * plan.module_um
    top = plan.qr_um + quiet_um(plan.module_um) + quiet if plan.module_um else 0
    pitch = em_um("text-semibold", plan.small.wanted_um) * 112 // 100
    room = Room(plan.width - _right_column(plan) + SIDE_GAP_UM // 2, top, _right_column(plan) - SIDE_GAP_UM // 2, plan.height - top + 800)
    wanted = [text for text in (label.capsule, pack_text(label, printed.words), label.mark) if text]
    lines = max(0, (plan.height - top - plan.small.wanted_um) // pitch + 1)
    for index, text in enumerate(reversed(wanted[:lines])):
        ink.put(text, plan.small, room, plan.height - index * pitch, "right")
    ink.left_off.extend(text for text in wanted[lines:] if text != pack_text(label, printed.words) or label.pack != label.number)


def _set_middle(label: Label, plan: Plan, ink: Ink, room: Room) -> None:
    """Role from the top, frequency at the foot, performers between them in what is left."""
    foot = plan.height
    if frequency_text(label):
        _set_frequency(label, plan, ink, room, plan.height)
        foot = plan.height - plan.frequency.wanted_um - LINE_GAP_UM
    role = fit(label.role, plan.role, room.width, ink.metrics)
    base = role.cap_um + (len(role.lines) - 1) * role.pitch_um
    if base > foot and len(role.lines) > 1:
        style = replace(plan.role, lines=1)
        role = fit(label.role, style, room.width, ink.metrics)
        base = role.cap_um
    else:
        style = plan.role
    ink.put(label.role, style, room, base)
    _set_names(label, plan, ink, room, base + em_um(role.face, role.cap_um) * 20 // 100, foot)


def _set_names(label: Label, plan: Plan, ink: Ink, room: Room, top: int, foot: int) -> None:
    text = name_text(label)
    if not text or "performers" in plan.left_off:
        return
    pitch = em_um("text-regular", plan.name.floor_um) * 112 // 100
    lines = min(2, (foot - top) // pitch)
    if lines < 1:
        ink.left_off.append(text)
        return
    style = replace(plan.name, lines=lines)
    fitted = fit(text, style, room.width, ink.metrics)
    first = top + fitted.pitch_um - em_um(fitted.face, fitted.cap_um) * 20 // 100
    ink.put(text, style, room, first + (len(fitted.lines) - 1) * fitted.pitch_um)

