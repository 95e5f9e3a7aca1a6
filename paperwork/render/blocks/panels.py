"""Panels: framed boxes side by side, each row one slice; and a note, a paragraph that breaks line by line."""

from paperwork.document import Note, Panel, Panels
from paperwork.document.styles import PANEL_TITLE, STEP, Style
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.boxes import LINE_UM, Box, Frame, Open, Room, moved, wrap
from paperwork.render.text.faces import em_um
from paperwork.render.text.measuring import drop_um, rise_um
from paperwork.render.text.setting import set_line

PAD_UM, SNUG_PAD_UM = 2_400, 1_900
GAP_UM = 4_000
STEP_GAP_UM, SNUG_STEP_GAP_UM = 700, 300
NUMBER = Style("step number", STEP.wanted_um, STEP.floor_um, "bold", figures=True, breaks=False)


def lay_panels(block: Panels, context: Context) -> list[Series]:
    """A series for each row of panels, all of a row equally tall."""
    across = min(block.across, len(block.panels)) or 1
    width = (context.width - GAP_UM * (across - 1)) // across
    found: list[Series] = []
    for start in range(0, len(block.panels), across):
        insides = [_set_inside(panel, width, context) for panel in block.panels[start : start + across]]
        tallest = max(height for _, height in insides)
        boxes: list[Box] = []
        for index, (inside, _) in enumerate(insides):
            left = index * (width + GAP_UM)
            boxes.append(Frame(left, 0, width, tallest, LINE_UM, 1_500))
            boxes.extend(wrap(Open("Sect"), (moved(box, left, 0) for box in inside)))
        facts = tuple(list(panel.facts) for panel in block.panels[start : start + across])
        found.append(Series((Slice(tallest, tuple(boxes), facts=facts),), tied=block.tied and not found))
    return found


def _set_inside(panel: Panel, width: int, context: Context) -> tuple[list[Box], int]:
    """The title and the lines from the panel's corner, and the height that they need."""
    setter = context.setter
    pad, gap = (SNUG_PAD_UM, SNUG_STEP_GAP_UM) if context.snug else (PAD_UM, STEP_GAP_UM)
    inner = width - 2 * PAD_UM
    title = setter.fit(panel.title, PANEL_TITLE, inner)
    y = pad + title.cap_um
    below = title.pitch_um * (len(title.lines) - 1)
    boxes: list[Box] = wrap(Open("H2"), setter.lines(title, Room(PAD_UM, 0, inner, y + below + title.cap_um), y))
    items: list[Box] = []
    y += below + 1_200
    indent = setter.metrics.width_um("00  ", "text-bold", STEP.wanted_um) if panel.numbered else 0
    for number, text in enumerate(panel.lines, 1):
        fitted = setter.fit(text, STEP, inner - indent)
        pitch = fitted.pitch_um
        room = Room(PAD_UM + indent, y, inner - indent, pitch * len(fitted.lines) + 1_200)
        item = wrap(Open("LBody"), setter.lines(fitted, room, y + pitch))
        if panel.numbered:
            label = setter.set(str(number), NUMBER, Room(PAD_UM, y, indent, room.height), y + pitch)
            item = [*wrap(Open("Lbl"), [label]), *item]
        items += wrap(Open("LI"), item)
        y += pitch * len(fitted.lines) + gap
    return [*boxes, *wrap(Open("L"), items)], y + drop_um("g", "text-regular", STEP.wanted_um) + pad - 1_200


def lay_note(note: Note, context: Context) -> list[Series]:
    """A slice for each line, so that a long one goes over pages."""
    fitted = context.setter.fit(note.text, note.style, context.width)
    room = Room(0, 0, context.width, fitted.pitch_um)
    usual = fitted.pitch_um - (em_um(fitted.face, fitted.cap_um) * 27 + 99) // 100
    baseline = max(usual, *(rise_um(line, fitted.face, fitted.cap_um) for line in fitted.lines))  # accents on capitals
    lines = (set_line(line, fitted, room, baseline, context.metrics) for line in fitted.lines)
    paragraph = Open("P", f"note {context.number}")
    facts = (note.facts,)  # one value for all lines: a page counts it once
    return [Series(tuple(Slice(fitted.pitch_um, tuple(wrap(paragraph, [line])), facts=facts) for line in lines))]
