"""Items stacked in a width, outside any table: the heads of a plot's rows, and cards."""

from collections.abc import Sequence

from paperwork.document import Align, Cell, Column, Item
from paperwork.frozen import frozen
from paperwork.render.blocks.cells import (
    FIRST_ACCENT_UM,
    GAP_UM,
    GUTTER_UM,
    CellLine,
    PointLine,
    measure_cell,
    set_cell_line,
)
from paperwork.render.boxes import Box, Room, TextBox
from paperwork.render.text.fitting import Fitted
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter


@frozen
class Stack:
    """Lines with their baselines from the top, the height that they need, and what had to be cut."""

    lines: tuple[tuple[CellLine, int], ...]
    height: int
    cuts: tuple[tuple[str, Fitted], ...]


def measure_stack(items: Sequence[Item], width: int, gap: int, metrics: Metrics) -> Stack:
    """The items one under the other, `gap` between two items and less between the lines of a broken one.

    An item that is bigger than the one above it begins something new, with twice the gap.
    """
    measured = measure_cell(Cell(tuple(items)), Column(""), width + GUTTER_UM, metrics)
    placed, y = [], 0
    for index, line in enumerate(measured.lines):
        if index:
            above = measured.lines[index - 1].item
            opens = line.first and line.item.style.wanted_um > above.style.wanted_um
            y += 2 * gap if opens else max(gap, GAP_UM) if line.first else GAP_UM
        placed.append((line, y + line.rise))
        y += line.rise + line.drop
    return Stack(tuple(placed), y, measured.cuts)


def set_stack(stack: Stack, room: Room, setter: Typesetter, align: Align = "left", white: bool = False) -> list[Box]:
    """The stack's boxes from the top of the room; an accent on its first line may reach a little over it."""
    for text, fitted in stack.cuts:
        setter.record(text, fitted)
    boxes: list[Box] = []
    bounds = Room(room.x, room.y - FIRST_ACCENT_UM, room.width, stack.height + FIRST_ACCENT_UM)
    for line, baseline in stack.lines:
        for box in set_cell_line(
            line, bounds, room.y + baseline, align, PointLine(room.width, room.width), setter.metrics
        ):
            boxes.append(box._replace(white=True) if white and isinstance(box, TextBox) else box)
    return boxes
