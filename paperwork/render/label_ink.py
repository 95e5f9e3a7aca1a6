"""One label set after its plan: boxes from the top left corner of its clear area."""

from dataclasses import dataclass, replace

from paperwork.document import Label, PageWords
from paperwork.render.boxes import Box, Code, Fill, Frame, Room, Rule
from paperwork.render.fit import Fitted, drop_um, fit, rise_um, set_line
from paperwork.render.fonts import Metrics, em_um
from paperwork.render.label_plan import (
    BLANK_FREQUENCY,
    COLUMN_GAP_UM,
    SIDE_GAP_UM,
    Plan,
    frequency_text,
    name_room,
    name_text,
    pack_text,
)
from paperwork.render.qr import QUIET_MODULES, qr_runs
from paperwork.styles import LABEL_CODE, LABEL_FACT, LABEL_NUMBER, Style

EDGE_INK_UM = 1_500
"""Accents and descenders may reach so far into the clear edge; capitals and figures stay out of it."""


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
    """Boxes of one label, the texts it had to cut, and the (kind, text) of what it had to leave off."""

    def __init__(self, metrics: Metrics) -> None:
        self.metrics = metrics
        self.boxes: list[Box] = []
        self.cuts: list[tuple[str, Style, Fitted]] = []
        self.left_off: list[tuple[str, str]] = []

    def width(self, text: str, style: Style) -> int:
        """The width that the text takes at the style's wanted height."""
        fitted = fit(text, style, 10_000_000, self.metrics)
        return self.metrics.width_um(fitted.lines[0], fitted.face, fitted.cap_um)

    def fits(self, text: str, style: Style, width: int) -> bool:
        """Whether the text stands whole on one line of the width."""
        return width > 0 and fit(text, replace(style, lines=1), width, self.metrics).outcome == "whole"

    def put(self, text: str, style: Style, room: Room, baseline: int, align: str = "left") -> None:
        """Sets the text with its last baseline at `baseline`; a number without room becomes a ruled blank."""
        if not text:
            return
        fitted = fit(text, style, room.width, self.metrics)
        if fitted.outcome != "whole":
            self.cuts.append((text, style, fitted))
        if fitted.outcome == "too wide":
            self.boxes.append(Rule(room.x, baseline, room.right, baseline, 450))
            return
        first = baseline - (len(fitted.lines) - 1) * fitted.pitch_um
        for index, line in enumerate(fitted.lines):
            y = first + index * fitted.pitch_um
            self.boxes.append(set_line(line, fitted, room, y, self.metrics, align))


def set_label(label: Label, printed: Printed, plan: Plan, metrics: Metrics) -> Ink:
    """The label's ink."""
    ink = Ink(metrics)
    _set_number(label, plan, ink)
    if plan.dots and label.qr:
        _set_code(printed.payload, plan, ink)
    if name_text(label) and not plan.names:
        ink.left_off.append(("performers", name_text(label)))
    if plan.shape == "stacked":
        _set_stack(label, printed, plan, ink)
    elif plan.foot_um:
        _set_beside(label, printed, plan, ink)
    else:
        _set_tiny(label, printed, plan, ink)
    return ink


def _column(plan: Plan, left: int, right: int) -> Room:
    """The room between two edges, as tall as accents and descenders may go."""
    return Room(left, -EDGE_INK_UM, right - left, plan.height + 2 * EDGE_INK_UM)


def _top_baseline(fitted: Fitted) -> int:
    """The first baseline at the top of the clear area, lower where an accent would leave the label."""
    rise = rise_um(fitted.lines[0], fitted.face, fitted.cap_um)
    return max(fitted.cap_um, rise - EDGE_INK_UM)


def _set_number(label: Label, plan: Plan, ink: Ink) -> None:
    style = replace(LABEL_NUMBER, wanted_um=plan.number_um)
    room = _column(plan, 0, plan.number_width)
    ink.put(label.number, style, room, plan.number_um)
    gap, thick = plan.mark_um
    bar = min(ink.width(label.number, style), plan.number_width)
    ink.boxes.append(Fill(0, plan.number_um + gap, bar, thick))


def _set_code(payload: str, plan: Plan, ink: Ink) -> None:
    module, quiet = plan.module, QUIET_MODULES * plan.module
    side, runs = qr_runs(payload)
    x, y = plan.width - side * module - plan.code_inset, plan.code_inset
    white = Room(x - quiet, y - quiet, side * module + 2 * quiet, side * module + 2 * quiet)
    ink.boxes.append(Code(x, y, plan.dots, plan.dpi, side, runs, payload, white))


# A tall label: number and code, role, performers and capsule, foot.


def _set_stack(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    sizes = plan.sizes
    name_foot = plan.height - plan.foot_um - sizes.gap
    role_foot = name_foot - plan.name_um
    drop = em_um("text-bold", sizes.role.wanted_um) * 27 // 100
    area = _column(plan, 0, plan.width)
    ink.put(label.role, sizes.role, area, role_foot - drop)
    if label.mark:
        _set_tag(label.mark, plan, ink)
    name_base = name_foot - em_um("text-regular", sizes.name.wanted_um) * 27 // 100
    if plan.name_um:
        names = name_room(label, plan.width, sizes.small, ink.metrics)
        ink.put(name_text(label), sizes.name, area._replace(width=names), name_base)
        start = names + SIDE_GAP_UM
        ink.put(label.capsule, sizes.small, _column(plan, start, plan.width), name_base, "right")
    elif label.capsule:
        ink.left_off.append(("capsules", label.capsule))
    _set_foot(label, printed, plan, ink)


def _set_tag(mark: str, plan: Plan, ink: Ink) -> None:
    """The mark (a swap) boxed, right of the number on its baseline."""
    number = next(box for box in ink.boxes if isinstance(box, Fill))
    left = number.width + SIDE_GAP_UM + 700
    room = Room(left, 0, plan.number_width - left - 700, plan.number_zone)
    if not ink.fits(mark, LABEL_FACT, room.width):
        ink.left_off.append(("marks", mark))
        return
    fitted = fit(mark, LABEL_FACT, room.width, ink.metrics)
    text = set_line(fitted.lines[0], fitted, room, plan.number_um - 900, ink.metrics)
    width, height = text.ink.width + 1_400, fitted.cap_um + 1_800
    ink.boxes.append(Frame(left - 700, text.y - fitted.cap_um - 900, width, height, 300, 700))
    ink.boxes.append(text)


def _set_foot(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    height = plan.height
    code = ink.width(printed.signs, LABEL_CODE)
    band = _column(plan, 0, plan.width)
    ink.put(printed.signs, LABEL_CODE, band._replace(x=plan.width - code, width=code), height, "right")
    taken = _set_frequency(label, plan, ink, band._replace(width=plan.width - code - SIDE_GAP_UM), height)
    left = taken + (COLUMN_GAP_UM if taken else 0)
    room = band._replace(x=left, width=plan.width - code - COLUMN_GAP_UM - left)
    _set_pack(label, printed.words, plan.sizes.small, ink, room, height)


def _set_pack(label: Label, words: PageWords, style: Style, ink: Ink, room: Room, baseline: int) -> None:
    """The pack, where there is room. Left off without a word when it is the number that stands above."""
    pack = pack_text(label, words)
    if pack and ink.fits(pack, style, room.width):
        ink.put(pack, style, room, baseline)
    elif pack and label.pack != label.number:
        ink.left_off.append(("packs", pack))


def _set_frequency(label: Label, plan: Plan, ink: Ink, room: Room, baseline: int) -> int:
    """The frequency, or a ruled blank in its form where it is not known; returns the width it takes."""
    text = frequency_text(label)
    if not text:
        return 0
    fitted = fit(text, plan.sizes.frequency, room.width, ink.metrics)
    if label.frequency or fitted.outcome != "whole":
        ink.put(text, plan.sizes.frequency, room, baseline)
    else:
        for index, sign in enumerate(BLANK_FREQUENCY):
            left = room.x + ink.metrics.width_um(text[:index], fitted.face, fitted.cap_um)
            right = room.x + ink.metrics.width_um(text[: index + 1], fitted.face, fitted.cap_um)
            if sign == "0":
                ink.boxes.append(Rule(left + 150, baseline, right - 150, baseline, 400))
            else:
                place = room._replace(x=left, width=right - left)
                ink.boxes.append(set_line(sign, fitted, place, baseline, ink.metrics))
    return min(room.width, ink.metrics.width_um(text, fitted.face, fitted.cap_um))


# A low, wide label: number over revision and code, texts, QR code over capsule and pack.


def _set_beside(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    width, height = plan.width, plan.height
    start = max(plan.number_width, plan.signs_um) + COLUMN_GAP_UM
    ink.put(printed.signs, LABEL_CODE, _column(plan, 0, start - COLUMN_GAP_UM), height)
    end = width - (plan.code_span or plan.signs_um)
    left_over = _set_right(label, printed, plan, ink, end)
    room = _column(plan, start, end)
    taken = _set_middle(label, plan, ink, room)
    x = start + taken + (COLUMN_GAP_UM if taken else 0)
    for kind, text in left_over:
        need = ink.width(text, plan.sizes.small)
        if x + need <= end - SIDE_GAP_UM:
            ink.put(text, plan.sizes.small, Room(x, room.y, need, room.height), height)
            x += need + COLUMN_GAP_UM
        elif text != pack_text(label, printed.words) or label.pack != label.number:
            ink.left_off.append((kind, text))


def _set_right(label: Label, printed: Printed, plan: Plan, ink: Ink, start: int) -> list[tuple[str, str]]:
    """Capsule, mark and pack under the code, the last on the foot's baseline; returns those without room."""
    style = plan.sizes.small
    pitch = em_um("text-semibold", style.wanted_um) * 112 // 100
    top = plan.code_span
    room = _column(plan, start + 500, plan.width)
    wanted = [
        (kind, text)
        for kind, text in (
            ("marks", label.mark), ("capsules", label.capsule), ("packs", pack_text(label, printed.words))
        )
        if text
    ]  # fmt: skip
    lines = max(0, (plan.height - top - style.wanted_um) // pitch + 1)
    shown = [pair for pair in wanted if ink.fits(pair[1], style, room.width)][:lines]
    for index, (_, text) in enumerate(reversed(shown)):
        ink.put(text, style, room, plan.height - index * pitch, "right")
    return [pair for pair in wanted if pair not in shown]


def _set_middle(label: Label, plan: Plan, ink: Ink, room: Room) -> int:
    """Role from the top, frequency at the foot, performers between; returns the width that the frequency takes."""
    sizes = plan.sizes
    taken = _set_frequency(label, plan, ink, room, plan.height)
    foot = plan.height - (sizes.frequency.wanted_um + 400 if taken else 0)
    style = sizes.role
    role = fit(label.role, style, room.width, ink.metrics)
    base = _top_baseline(role) + (len(role.lines) - 1) * role.pitch_um
    if base > foot:
        style = replace(style, lines=1)
        role = fit(label.role, style, room.width, ink.metrics)
        base = _top_baseline(role)
    ink.put(label.role, style, room, base)
    if plan.names and name_text(label):
        _set_names(label, plan, ink, room, base + drop_um(role.lines[-1], role.face, role.cap_um), foot)
    return taken


def _set_names(label: Label, plan: Plan, ink: Ink, room: Room, top: int, foot: int) -> None:
    """The performers on two lines or one, whichever has room between the role's ink and the frequency."""
    text = name_text(label)
    for lines, gap in ((2, plan.sizes.gap), (2, 200), (1, plan.sizes.gap), (1, 200)):
        style = replace(plan.sizes.name, lines=lines)
        fitted = fit(text, style, room.width, ink.metrics)
        first = top + gap + rise_um(fitted.lines[0], fitted.face, fitted.cap_um)
        last = first + (len(fitted.lines) - 1) * fitted.pitch_um
        if last + drop_um(fitted.lines[-1], fitted.face, fitted.cap_um) <= foot:
            ink.put(text, style, room, last)
            return
    ink.left_off.append(("performers", text))


# A label too low for a QR code: number, role over frequency and code.


def _set_tiny(label: Label, printed: Printed, plan: Plan, ink: Ink) -> None:
    start = plan.number_width + SIDE_GAP_UM
    room = _column(plan, start, plan.width)
    one = replace(plan.sizes.role, lines=1)
    role = fit(label.role, one, room.width, ink.metrics)
    ink.put(label.role, one, room, max(one.wanted_um, _top_baseline(role)))
    signs = printed.signs.replace("  ", " ")
    code = ink.width(signs, replace(LABEL_CODE, wanted_um=LABEL_CODE.floor_um))
    ink.put(signs, LABEL_CODE, room._replace(x=plan.width - code, width=code), plan.height, "right")
    _set_frequency(label, plan, ink, room._replace(width=room.width - code - 1_000), plan.height)
    for kind, text in (("capsules", label.capsule), ("marks", label.mark)):
        if text:
            ink.left_off.append((kind, text))
    if label.pack and label.pack != label.number:
        ink.left_off.append(("packs", label.pack))
