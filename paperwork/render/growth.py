"""Blocks that grow along the scale of type: laid out in a smaller room, and drawn taller, step by step.

A step is the fourth root of two, the step of `styles.SCALE_UM`, so that two of them are from A4 to A3 and every height
stays on the scale. Weights of rules do not grow: there are three on every paper.
"""

from typing import assert_never

from paperwork.render.boxes import Box, Close, Fill, Frame, Hatch, Open, QrBox, Room, Rule, TextBox
from paperwork.render.text.measuring import Metrics

STEPS_PPM = (1_000_000, 1_189_207, 1_414_214, 1_681_793, 2_000_000)
"""What one micrometre becomes after so many steps, in millionths."""


def grow(um: int, steps: int) -> int:
    """A length so many steps on, rounded down: what lies in something else still does."""
    return um * STEPS_PPM[steps] // 1_000_000


def shrink(um: int, steps: int) -> int:
    """The room in which so many steps are still to be made, rounded down."""
    return um * 1_000_000 // STEPS_PPM[steps]


def grown(box: Box, steps: int, metrics: Metrics) -> Box:
    """The box so many steps on. The height below which a text must not fall stays what it is."""
    if not steps:
        return box
    match box:
        case Open() | Close():
            return box
        case TextBox():
            return _grown_text(box, steps, metrics)
        case Rule(x1, y1, x2, y2):
            return box._replace(x1=grow(x1, steps), y1=grow(y1, steps), x2=grow(x2, steps), y2=grow(y2, steps))
        case Frame(x, y, width, height, stroke, radius, dashed):
            return Frame(*_grown_room(Room(x, y, width, height), steps), stroke, grow(radius, steps), dashed)
        case Hatch(x, y, width, height, pitch, stroke):
            return Hatch(*_grown_room(Room(x, y, width, height), steps), grow(pitch, steps), stroke)
        case Fill(x, y, width, height):
            return Fill(*_grown_room(Room(x, y, width, height), steps))
        case QrBox():
            raise ValueError("a code is of whole dots of a printer, and does not grow")
        case _:
            assert_never(box)


def _grown_room(room: Room, steps: int) -> Room:
    x, y = grow(room.x, steps), grow(room.y, steps)
    return Room(x, y, grow(room.right, steps) - x, grow(room.bottom, steps) - y)


def _grown_text(box: TextBox, steps: int, metrics: Metrics) -> TextBox:
    cap = grow(box.cap_um, steps)
    length = metrics.width_um(box.text, box.face, cap)
    x, y, ink, room = grow(box.x, steps), grow(box.y, steps), _grown_room(box.ink, steps), _grown_room(box.room, steps)
    if box.turned:
        ink = Room(ink.x, y - length, ink.width, length)
    else:
        ink = Room(x, ink.y, length, ink.height)
    room = Room(room.x, room.y, room.width + 1, room.height + 1)
    return box._replace(x=x, y=y, cap_um=cap, ink=ink, room=room)
