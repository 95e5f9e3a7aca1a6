"""Panels: framed boxes side by side, each row of them one slice."""

from paperwork.document import Panel, Panels
from paperwork.document.styles import PANEL_TITLE, STEP, Style
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.boxes import LINE_UM, Box, Frame, Room, moved
from paperwork.render.text.measuring import drop_um
from paperwork.render.text.setting import Typesetter

PAD_UM = 2_400
GAP_UM = 4_000
STEP_GAP_UM = 700
NUMBER = Style("step number", STEP.wanted_um, STEP.floor_um, "bold", figures=True, breaks=False)


def lay_panels(block: Panels, context: Context) -> list[Series]:
    """A series for each row of panels, all of a row equally tall."""
    across = min(block.across, len(block.panels)) or 1
    width = (context.width - GAP_UM * (across - 1)) // across
    found: list[Series] = []
    for start in range(0, len(block.panels), across):
        insides = [_set_inside(panel, width, context.setter) for panel in block.panels[start : start + across]]
        tallest = max(height for _, height in insides)
        boxes: list[Box] = []
        for index, (inside, _) in enumerate(insides):
            left = index * (width + GAP_UM)
            boxes.append(Frame(left, 0, width, tallest, LINE_UM, 1_500))
            boxes.extend(moved(box, left, 0) for box in inside)
        facts = tuple(list(panel.facts) for panel in block.panels[start : start + across])
        found.append(Series((Slice(tallest, tuple(boxes), facts=facts),), tied=block.tied and not found))
    return found


def _set_inside(panel: Panel, width: int, setter: Typesetter) -> tuple[list[Box], int]:
    """The title and the lines from the panel's corner, and the height that they need."""
    inner = width - 2 * PAD_UM
    title = setter.fit(panel.title, PANEL_TITLE, inner)
    y = PAD_UM + title.cap_um
    boxes: list[Box] = [setter.line(title, Room(PAD_UM, 0, inner, y + title.cap_um), y)]
    y += 1_200
    indent = setter.metrics.width_um("00  ", "text-bold", STEP.wanted_um) if panel.numbered else 0
    for number, text in enumerate(panel.lines, 1):
        fitted = setter.fit(text, STEP, inner - indent)
        pitch = fitted.pitch_um
        room = Room(PAD_UM + indent, y, inner - indent, pitch * len(fitted.lines) + 1_200)
        if panel.numbered:
            boxes.append(setter.set(str(number), NUMBER, Room(PAD_UM, y, indent, room.height), y + pitch))
        boxes.extend(setter.lines(fitted, room, y + pitch))
        y += pitch * len(fitted.lines) + STEP_GAP_UM
    return boxes, y + drop_um("g", "text-regular", STEP.wanted_um) + PAD_UM - 1_200
