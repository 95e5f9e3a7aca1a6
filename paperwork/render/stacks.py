"""Items stacked in a width, outside any table: the heads of a plot's rows, and cards."""

from collections.abc import Sequence
from dataclasses import dataclass

from paperwork.document import Align, Cell, Column, Item
from paperwork.render.boxes import Box, Room, Text
from paperwork.render.cells import FIRST_ACCENT_UM, GAP_UM, GUTTER_UM, Point, Slot, measure_cell, set_slot
from paperwork.render.fit import Fitted
from paperwork.render.fonts import Metrics


@dataclass(frozen=True, slots=True)
class Stack:
    """Slots with their baselines from the top, the height that they need, and what had to be cut."""

    slots: tuple[tuple[Slot, int], ...]
    height: int
    cuts: tuple[tuple[Item, Fitted], ...]


def measure_stack(items: Sequence[Item], width: int, gap: int, metrics: Metrics) -> Stack:
    """The items one under the other, `gap` between two items and less between the lines of a broken one.

    An item that is bigger than the one above it begins something new, with twice the gap.
    """
    measured = measure_cell(Cell(tuple(items)), Column(""), width + GUTTER_UM, metrics)
    placed, y = [], 0
    for index, slot in enumerate(measured.slots):
        if index:
            above = measured.slots[index - 1].item
            opens = slot.first and slot.item.style.wanted_um > above.style.wanted_um
            y += 2 * gap if opens else max(gap, GAP_UM) if slot.first else GAP_UM
        placed.append((slot, y + slot.rise))
        y += slot.rise + slot.drop
    return Stack(tuple(placed), y, measured.cuts)


def set_stack(stack: Stack, room: Room, metrics: Metrics, align: Align = "left", white: bool = False) -> list[Box]:
    """The stack's boxes from the top of the room; an accent on its first line may reach a little over it."""
    boxes: list[Box] = []
    bounds = Room(room.x, room.y - FIRST_ACCENT_UM, room.width, stack.height + FIRST_ACCENT_UM)
    for slot, baseline in stack.slots:
        for box in set_slot(slot, bounds, room.y + baseline, align, Point(room.width, room.width), metrics):
            boxes.append(box._replace(white=True) if white and isinstance(box, Text) else box)
    return boxes
