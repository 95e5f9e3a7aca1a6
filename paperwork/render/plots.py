"""A plot as strips: a head with its legend, its acts and its scenes, and one strip a row."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from paperwork.document import Line, Plot, Sign
from paperwork.finding import Finding
from paperwork.place import Place
from paperwork.render.boxes import Box, Fill, Frame, Room, Rule
from paperwork.render.fit import Fitted, fit, rise_um, set_line, set_turned
from paperwork.render.fonts import Metrics
from paperwork.render.plot_parts import CAP_UM, bar_height_of, divide, has_room_for_both, head_width
from paperwork.render.plot_rows import STROKE_UM, Look, lay_row
from paperwork.render.strips import Context, Run, Strip, cut_finding, cut_findings
from paperwork.styles import GROUP, LEGEND, PLOT_NAME, PLOT_NOTE, PLOT_SCENE, Style

ACT_UM = 6_400
LEGEND_UM = 6_000
SIGN_UM, SIGN_HIGH_UM = 11_000, 3_400
TURNED_MOST_UM = 46_000
"""The longest scene name that is set upwards on one line; two lines need `TURNED_TWO_UM` of a column."""

TURNED_TWO_UM = 8_000


def lay_plot(plot: Plot, context: Context) -> tuple[list[Run], list[Finding]]:
    """One run a part, each with the heads of its columns; every row whole on one page."""
    findings = cut_findings(_said(plot, context), context)
    runs = []
    parts = divide(plot, context.width, context.metrics)
    for number, part in enumerate(parts):
        both = has_room_for_both(plot, part.pitch, context.metrics)
        cap = bar_height_of(plot, part.pitch, both, context.metrics)
        look = Look(part, head_width(plot), any(row.key for row in plot.rows), cap, both)
        head, cuts = _head(plot, look, len(parts) > 1, context)
        findings += cuts
        strips = []
        for row in plot.rows:
            strip, cuts = lay_row(row, look, context)
            strips.append(strip)
            findings += cuts
        runs.append(Run(tuple(strips), head, new_page=number > 0))
    return runs, list(dict.fromkeys(findings))


def _said(plot: Plot, context: Context) -> list:
    return [(told, LEGEND, context.width - SIGN_UM) for _, told in plot.legend]


# The head: legend, acts, scenes.


def _head(plot: Plot, look: Look, divided: bool, context: Context) -> tuple[Strip, list[Finding]]:
    metrics, part = context.metrics, look.part
    boxes, y = _legend(plot, look.both, context)
    for title, x, width in part.acts:
        if title:
            boxes.append(Fill(x, y, width, ACT_UM))
            room = Room(x + 1_500, y, width - 3_000, ACT_UM)
            fitted = fit(title, replace(GROUP, breaks=True), room.width, metrics)
            boxes.append(
                set_line(fitted.lines[0], fitted, room, y + (ACT_UM + fitted.cap_um) // 2, metrics, white=True)
            )
    count = sum(len(act.scenes) for act in plot.acts)
    if divided:
        text = context.words.part.format(first=part.first + 1, last=part.last + 1, count=count)
        fitted = fit(text, PLOT_NOTE, look.head - 3_000, metrics)
        room = Room(0, y, look.head - 3_000, ACT_UM)
        boxes.append(set_line(fitted.lines[0], fitted, room, y + (ACT_UM + fitted.cap_um) // 2, metrics))
    y += ACT_UM if divided or any(title for title, _, _ in part.acts) else 0
    scenes, height, findings = _scenes(look, y, context)
    boxes += scenes
    boxes.append(Rule(0, y + height, part.right, y + height, 350))
    return Strip(y + height, tuple(boxes)), findings


def _scenes(look: Look, top: int, context: Context) -> tuple[list[Box], int, list[Finding]]:
    """Number, name and note of each scene: names upwards where one of them is too long for its column."""
    part, metrics = look.part, context.metrics
    room = part.pitch - 1_600
    turned = any(fit(s.name, PLOT_NAME, room, metrics).outcome != "whole" for s in part.scenes if s.name)
    length = TURNED_MOST_UM if turned else room
    style = replace(PLOT_NAME, lines=1) if turned and room < TURNED_TWO_UM else PLOT_NAME
    names = [fit(s.name, style, length, metrics) if s.name else None for s in part.scenes]
    notes = any(s.note for s in part.scenes)
    number_foot = top + 1_500 + PLOT_SCENE.wanted_um if any(s.number for s in part.scenes) else top
    deep = _name_depth(names, turned, metrics)
    note_foot = number_foot + deep + (PLOT_NOTE.wanted_um + 1_700 if notes else 0)
    boxes: list[Box] = []
    findings: list[Finding] = []
    for scene, name, x in zip(part.scenes, names, part.lefts, strict=True):
        area = Room(x + 800, top, room, note_foot + 1_300 - top)
        for text, style, foot in ((scene.number, PLOT_SCENE, number_foot), (scene.note, PLOT_NOTE, note_foot)):
            if text:
                fitted = fit(text, style, room, metrics)
                findings += _cuts(text, style, fitted, context)
                boxes.append(set_line(fitted.lines[0], fitted, area, foot, metrics, "centre"))
        if name:
            findings += _cuts(scene.name, PLOT_NAME, name, context)
            lift = _lift([one for one in names if one])
            boxes += _set_name(name, turned, area, number_foot + (0 if turned else lift), deep, metrics)
    return boxes, note_foot + 1_300 - top, findings


def _name_depth(names: list[Fitted | None], turned: bool, metrics: Metrics) -> int:
    shown = [name for name in names if name]
    if not shown:
        return 0
    if turned:
        return 2_600 + max(metrics.width_um(line, n.face, n.cap_um) for n in shown for line in n.lines)
    return _lift(shown) + max((len(n.lines) - 1) * n.pitch_um for n in shown)


def _lift(names: list[Fitted]) -> int:
    """From the number's foot to the first baseline of the names under it: clear of the accents on their capitals."""
    return max(max(1_900 + name.cap_um, 600 + rise_um(name.lines[0], name.face, name.cap_um)) for name in names)


def _set_name(name: Fitted, turned: bool, area: Room, foot: int, deep: int, metrics: Metrics) -> Iterator[Box]:
    if not turned:
        for index, line in enumerate(name.lines):
            yield set_line(line, name, area, foot + index * name.pitch_um, metrics, "centre")
        return
    middle = area.x + area.width // 2 + name.cap_um // 2 - (len(name.lines) - 1) * name.pitch_um // 2
    for index, line in enumerate(name.lines):
        yield set_turned(line, name, middle + index * name.pitch_um, foot + deep - 1_000, area, metrics)


def _cuts(text: str, style: Style, fitted: Fitted, context: Context) -> list[Finding]:
    if fitted.outcome == "whole":
        return []
    return [cut_finding(Line(text, style), fitted, Place(""), (), context.sheet)]


def _legend(plot: Plot, both: bool, context: Context) -> tuple[list[Box], int]:
    """The signs as they stand in the plot, each with its words, over as many lines as they need."""
    boxes: list[Box] = []
    if not plot.legend:
        return boxes, 0
    x, y = 0, 1_000
    for sign, told in plot.legend:
        fitted = fit(told, LEGEND, context.width - SIGN_UM - 1_600, context.metrics)
        text = fitted.lines[0]
        width = context.metrics.width_um(text, fitted.face, fitted.cap_um)
        if x and x + SIGN_UM + 1_600 + width > context.width:
            x, y = 0, y + LEGEND_UM
        boxes += set_sign("stacked" if sign == "second" and not both else sign, x, y + 600)
        room = Room(x + SIGN_UM + 1_600, y, width + 200, LEGEND_UM)
        boxes.append(set_line(text, fitted, room, y + 600 + (SIGN_HIGH_UM + fitted.cap_um) // 2, context.metrics))
        x += SIGN_UM + 1_600 + width + 7_000
    return boxes, y + LEGEND_UM


def set_sign(sign: Sign | Literal["stacked"], x: int, y: int) -> list[Box]:
    """A sign as it stands in the plot, for its legend: a second pack beside the first, or `stacked` under it."""
    whole, high = SIGN_UM, SIGN_HIGH_UM
    match sign:
        case "put on":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x, y, whole * 4 // 10, high)]
        case "taken off":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x + whole - CAP_UM, y, CAP_UM, high)]
        case "held":
            return [Frame(x, y, whole, high, STROKE_UM, dashed=True)]
        case "second":
            middle, across, down = x + whole // 2, y + high // 2, high * 3 // 10
            return [
                Frame(x, y, whole, high, STROKE_UM),
                Rule(middle - down, across, middle + down, across, 600),
                Rule(middle, across - down, middle, across + down, 600),
            ]
        case "stacked":
            return [
                Frame(x, y - 400, whole, high // 2, STROKE_UM),
                Frame(x, y + high // 2 + 400, whole, high // 2, STROKE_UM),
            ]
        case _:
            third = whole * 3 // 10
            line = Rule(x + third, y + high // 2, x + whole - third, y + high // 2, 700)
            return [Frame(x, y, third, high, STROKE_UM), Frame(x + whole - third, y, third, high, STROKE_UM), line]
