"""One cell: its items measured into slots, and the slots set on baselines.

A slot is one line of ink with what it needs above and below its baseline. Which baselines, the row decides: the
first slots of its cells share one, and so do the second, until a text had to be broken.
"""

from dataclasses import dataclass
from typing import NamedTuple

from paperwork.document import Align, Blank, Cell, Column, Item, Line, Tag, Tick, WriteIn
from paperwork.render.boxes import Box, Frame, Room, Rule
from paperwork.render.fit import Fitted, drop_um, fit, rise_um, set_line
from paperwork.render.fonts import Metrics, em_um

GUTTER_UM = 3_600
"""Kept free at the right of every cell."""

GAP_UM = 700
"""Between the ink of two lines of one cell; an accent on a capital may use it."""

FIRST_ACCENT_UM = 1_100
"""What an accent on the first line may take of the space above it."""

HATCH_UM = 3_000
INDENT_UM = 4_000
"""What a column for spares keeps for the hatched band; a bar's title begins at the same place."""

FRAME_PAD_UM = 2_600
FRAME_INSET_UM = 1_000
FRAME_STROKE_UM = 350

TAG_PAD_X_UM, TAG_PAD_Y_UM = 900, 800
NO_ROOM = "000"
"""The form of the ruled blank in place of a number that has no room."""

WRITING_UM = 3_100
"""What a line to write on needs above it; with the gap and the line before, a pen has 4.5 mm (common practice, no
source)."""


TICK_UM = 6_000
"""A square that is ticked with a pen on a clipboard (common practice, no source)."""


class Point(NamedTuple):
    """Where the decimal points of a column stand, and where three decimals end, from the left edge of the room."""

    at: int
    end: int


@dataclass(frozen=True, slots=True)
class Slot:
    """One line of a cell. `first` is the line that starts an item, the others continue a broken text."""

    item: Item
    text: str
    fitted: Fitted
    rise: int
    drop: int
    first: bool


@dataclass(frozen=True, slots=True)
class Measured:
    """A cell measured for its column. `left` and `width` are its text room relative to the column's left edge.

    `broken`: a text takes more than one line, so that what follows stands on its own baselines.
    """

    cell: Cell
    left: int
    width: int
    slots: tuple[Slot, ...]
    beside: tuple[Fitted, ...]
    cuts: tuple[tuple[Item, Fitted], ...]
    broken: bool


def measure_cell(cell: Cell, column: Column, column_um: int, metrics: Metrics) -> Measured:
    """The cell fitted into its column of the given width."""
    left, width = 0, column_um - GUTTER_UM
    if cell.frame:
        left, width = FRAME_PAD_UM, width - 2 * FRAME_PAD_UM
    elif column.spares:
        left, width = INDENT_UM, width - INDENT_UM
    beside = tuple(fit(line.text, line.style, width // 3, metrics) for line in cell.beside)
    if beside:
        width -= GAP_UM * 3 + max(metrics.width_um(b.lines[0], b.face, b.cap_um) for b in beside)
    slots: list[Slot] = []
    cuts: list[tuple[Item, Fitted]] = []
    for item in cell.items:
        fitted = fit(_shown(item), item.style, width - _extra_width(item), metrics)
        if fitted.outcome != "whole":
            cuts.append((item, fitted))
        if fitted.outcome == "too wide":
            item = Blank(NO_ROOM, item.style)
            fitted = fit(NO_ROOM, item.style, width, metrics)
        slots.extend(_slots(item, fitted, first=not slots))
    cuts.extend((line, b) for line, b in zip(cell.beside, beside, strict=True) if b.outcome != "whole")
    broken = any(not slot.first for slot in slots)
    return Measured(cell, left, width, tuple(slots), beside, tuple(cuts), broken)


def _shown(item: Item) -> str:
    return item.text


def _extra_width(item: Item) -> int:
    match item:
        case Tag():
            return 2 * TAG_PAD_X_UM
        case Tick(style=style):
            return tick_side_um(style.wanted_um) + 2 * GAP_UM
        case WriteIn(text=text):
            return 12_000 if text else 0
        case _:
            return 0


def tick_side_um(cap_um: int) -> int:
    """The side of a square to tick beside text of this height: half as tall again, never too small for a pen."""
    return max(TICK_UM, cap_um * 3 // 2)


def _slots(item: Item, fitted: Fitted, first: bool) -> list[Slot]:
    slots = []
    for index, text in enumerate(fitted.lines):
        allowed = FIRST_ACCENT_UM if first and index == 0 else GAP_UM
        rise = max(fitted.cap_um, rise_um(text, fitted.face, fitted.cap_um) - allowed)
        drop = drop_um(text, fitted.face, fitted.cap_um)
        match item:
            case Tag():
                rise, drop = fitted.cap_um + TAG_PAD_Y_UM, max(TAG_PAD_Y_UM, drop + 200)
            case Tick():
                spare = (tick_side_um(item.style.wanted_um) - fitted.cap_um + 1) // 2
                rise, drop = max(rise, fitted.cap_um + spare), max(drop, spare)
            case WriteIn():
                rise, drop = max(rise, WRITING_UM), max(drop, 200)
            case Blank():
                rise, drop = fitted.cap_um, 600
            case Line(style=style) if style.breaks:
                drop = max(drop, em_um(fitted.face, fitted.cap_um) * 120 // 1000)
        slots.append(Slot(item, text, fitted, rise, drop, first=index == 0))
    return slots


def set_slot(slot: Slot, bounds: Room, baseline: int, align: Align, point: Point, metrics: Metrics) -> list[Box]:
    """The boxes of one slot in its room, on its baseline."""
    match slot.item:
        case Tag():
            return _set_tag(slot, bounds, baseline, align, metrics)
        case Tick():
            return _set_tick(slot, bounds, baseline, metrics)
        case WriteIn():
            return _set_write_in(slot, bounds, baseline, metrics)
        case Blank():
            return _set_blank(slot, _blank_start(slot, bounds, align, point, metrics), baseline, metrics)
    start = _at_point(slot, bounds, align, point, metrics)
    if start is not None:
        line = set_line(slot.text, slot.fitted, bounds._replace(x=start), baseline, metrics)
        return [line._replace(room=bounds)]
    if align == "point" and bounds.x + point.end > bounds.x + metrics.width_um(
        slot.text, slot.fitted.face, slot.fitted.cap_um
    ):
        bounds = bounds._replace(width=point.end)
    return [set_line(slot.text, slot.fitted, bounds, baseline, metrics, _side(align))]


def _side(align: Align) -> str:
    return "right" if align == "point" else align


def _at_point(slot: Slot, room: Room, align: Align, point: Point, metrics: Metrics) -> int | None:
    """Where a number starts so that its point stands in line, None for what is no such number."""
    whole, dot, _ = slot.text.partition(".")
    if align != "point" or not dot or not whole.isdigit() or not slot.item.style.figures:
        return None
    x = room.x + point.at - metrics.width_um(whole, slot.fitted.face, slot.fitted.cap_um)
    width = metrics.width_um(slot.text, slot.fitted.face, slot.fitted.cap_um)
    return x if x >= room.x and x + width <= room.right else None


def _blank_start(slot: Slot, room: Room, align: Align, point: Point, metrics: Metrics) -> int:
    start = _at_point(slot, room, align, point, metrics)
    if start is not None:
        return start
    slack = room.width - metrics.width_um(slot.text, slot.fitted.face, slot.fitted.cap_um)
    return room.x + {"left": 0, "centre": slack // 2, "right": slack, "point": slack}[align]


def _set_tag(slot: Slot, room: Room, baseline: int, align: Align, metrics: Metrics) -> list[Box]:
    inner = Room(room.x + TAG_PAD_X_UM, room.y, room.width - 2 * TAG_PAD_X_UM, room.height)
    text = set_line(slot.text, slot.fitted, inner, baseline, metrics, _side(align))
    height = slot.fitted.cap_um + 2 * TAG_PAD_Y_UM
    box = Frame(
        text.x - TAG_PAD_X_UM, baseline - slot.fitted.cap_um - TAG_PAD_Y_UM,
        text.ink.width + 2 * TAG_PAD_X_UM, height, 250, 700,
    )  # fmt: skip
    return [box, text]


def _set_tick(slot: Slot, room: Room, baseline: int, metrics: Metrics) -> list[Box]:
    side = tick_side_um(slot.item.style.wanted_um)
    middle = baseline - slot.fitted.cap_um // 2
    inner = Room(room.x + side + 2 * GAP_UM, room.y, room.width - side - 2 * GAP_UM, room.height)
    square = Frame(room.x, middle - side // 2, side, side, 300)
    return [square, set_line(slot.text, slot.fitted, inner, baseline, metrics)] if slot.text else [square]


def _set_write_in(slot: Slot, room: Room, baseline: int, metrics: Metrics) -> list[Box]:
    boxes: list[Box] = []
    start = room.x
    if slot.text:
        text = set_line(slot.text, slot.fitted, room, baseline, metrics)
        boxes.append(text)
        start = text.ink.right + 2 * GAP_UM
    boxes.append(Rule(start, baseline, room.right, baseline, 250, dotted=True))
    return boxes


def _set_blank(slot: Slot, x: int, baseline: int, metrics: Metrics) -> list[Box]:
    boxes: list[Box] = []
    face, cap = slot.fitted.face, slot.fitted.cap_um
    for index, sign in enumerate(slot.text):
        left = x + metrics.width_um(slot.text[:index], face, cap)
        right = x + metrics.width_um(slot.text[: index + 1], face, cap)
        if sign == "0":
            inset = (right - left) // 10
            boxes.append(Rule(left + inset, baseline + 300, right - inset, baseline + 300, 450))
        else:
            boxes.append(
                set_line(
                    sign,
                    slot.fitted,
                    Room(left, baseline - cap - 600, right - left + 20, cap + 1_200),
                    baseline,
                    metrics,
                )
            )
    return boxes
