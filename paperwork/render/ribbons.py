"""A ribbon: a stretch of spectrum as one bar in a cell, with ticks for carriers above it."""

from collections.abc import Iterator

from paperwork.document import Band, Ribbon
from paperwork.document.styles import SPECTRUM_BAND
from paperwork.render.boxes import HAIR_UM, LINE_UM, Box, Fill, Frame, Hatch, Room, Rule
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import set_line

BAR_UM, TICK_UM = 7_000, 1_600
RIBBON_UM = BAR_UM + TICK_UM
NAME_UM = 900
"""Names are in the upper half, clear of what is loud and of what is weak."""

WEAK_UM, FOOT_UM = 1_600, 1_800
"""Pitch and height of the hatching of what is weak."""


def set_ribbon(ribbon: Ribbon, bounds: Room, foot: int, metrics: Metrics) -> list[Box]:
    """The boxes of the bar, its foot on the baseline."""
    bar = Room(bounds.x, foot - BAR_UM, bounds.width, BAR_UM)
    span = ribbon.high_hz - ribbon.low_hz

    def x(hz: int) -> int:
        return bar.x + (min(max(hz, ribbon.low_hz), ribbon.high_hz) - ribbon.low_hz) * bar.width // span

    boxes: list[Box] = []
    for band in ribbon.bands:
        left, right = x(band.low_hz), x(band.high_hz)
        if right > left:
            boxes += _band(band, bar._replace(x=left, width=max(right - left, LINE_UM)), metrics)
    boxes += (Rule(x(hz), bar.y - TICK_UM, x(hz), bar.y, LINE_UM) for hz in ribbon.marks)
    boxes.append(Frame(*bar, LINE_UM))
    return boxes


def _band(band: Band, room: Room, metrics: Metrics) -> Iterator[Box]:
    """One stretch, with its name where it has room."""
    if band.kind == "loud":
        yield Fill(room.x, room.y + room.height // 2, room.width, room.height - room.height // 2)
        return
    black = band.kind in ("taken", "kept")
    if black:
        yield Fill(room.x, room.y, max(room.width - HAIR_UM, HAIR_UM), room.height)
    else:
        yield Rule(room.x, room.y, room.x, room.bottom, HAIR_UM)
    if band.kind == "weak":
        yield Hatch(room.x, room.bottom - FOOT_UM, room.width, FOOT_UM, WEAK_UM, HAIR_UM)
    fitted = fit(band.text, SPECTRUM_BAND, max(1, room.width - 1_000), metrics)
    if fitted.outcome == "whole" and len(fitted.lines) == 1:
        foot = room.y + NAME_UM + fitted.cap_um
        yield set_line(fitted.lines[0], fitted, room, foot, metrics, "centre", black)
