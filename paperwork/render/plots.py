"""A plot as strips: a head with its legend, its acts and its scenes, and one strip a row."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import zip_longest

from paperwork.document import Line, Plot, PlotRow, Sign
from paperwork.finding import Finding
from paperwork.place import Place
from paperwork.render.boxes import Box, Fill, Frame, Hatch, Room, Rule, Text
from paperwork.render.fit import Fitted, fit, set_line, set_turned
from paperwork.render.fonts import Metrics
from paperwork.render.plot_parts import (
    CAP_UM,
    KEY_UM,
    TAB_PAD_UM,
    Part,
    Segment,
    bar_height_of,
    divide,
    head_width,
    segments_of,
    stretches_of,
)
from paperwork.render.stacks import measure_stack, set_stack
from paperwork.render.strips import Context, Run, Strip, cut_finding, cut_findings
from paperwork.styles import GROUP, LEGEND, PLOT_BAR, PLOT_KEY, PLOT_NAME, PLOT_NOTE, PLOT_SCENE, Style

BAR_UM = 6_300
STROKE_UM = 450
ACT_UM = 6_400
LEGEND_UM = 6_000
SIGN_UM, SIGN_HIGH_UM = 11_000, 3_400
NOTE_UM, NOTE_GAP_UM = 5_100, 1_500
"""Small print under a bar: the gap also takes the accents of its capitals."""

ROW_PAD_UM = 1_000
TURNED_MOST_UM = 34_000
"""The longest scene name that is set upwards on one line."""


@dataclass(frozen=True, slots=True)
class _Look:
    """What every row of a part shares."""

    part: Part
    head: int
    keyed: bool
    cap: int


def lay_plot(plot: Plot, context: Context) -> tuple[list[Run], list[Finding]]:
    """One run a part, each with the heads of its columns; every row whole on one page."""
    findings = cut_findings(_said(plot, context), context)
    runs = []
    parts = divide(plot, context.width, context.metrics)
    for number, part in enumerate(parts):
        cap = bar_height_of(plot, part.pitch, context.metrics)
        look = _Look(part, head_width(plot), any(row.key for row in plot.rows), cap)
        head, cuts = _head(plot, look, len(parts) > 1, context)
        findings += cuts
        strips = []
        for row in plot.rows:
            strip, cuts = _row(row, look, context)
            strips.append(strip)
            findings += cuts
        runs.append(Run(tuple(strips), head, new_page=number > 0))
    return runs, list(dict.fromkeys(findings))


def _said(plot: Plot, context: Context) -> list:
    return [(told, LEGEND, context.width - SIGN_UM) for _, told in plot.legend]


# The head: legend, acts, scenes.


def _head(plot: Plot, look: _Look, divided: bool, context: Context) -> tuple[Strip, list[Finding]]:
    metrics, part = context.metrics, look.part
    boxes, y = _legend(plot, context)
    for title, x, width in part.acts:
        boxes.append(Fill(x, y, width, ACT_UM))
        if title:
            room = Room(x + 1_500, y, width - 3_000, ACT_UM)
            fitted = fit(title, replace(GROUP, breaks=True), room.width, metrics)
            boxes.append(set_line(fitted.lines[0], fitted, room, y + (ACT_UM + fitted.cap_um) // 2, metrics, white=True))
    count = sum(len(act.scenes) for act in plot.acts)
    if divided:
        text = context.words.part.format(first=part.first + 1, last=part.last + 1, count=count)
        fitted = fit(text, PLOT_NOTE, look.head - 3_000, metrics)
        room = Room(0, y, look.head - 3_000, ACT_UM)
        boxes.append(set_line(fitted.lines[0], fitted, room, y + (ACT_UM + fitted.cap_um) // 2, metrics))
    y += ACT_UM
    scenes, height, findings = _scenes(look, y, context)
    boxes += scenes
    boxes.append(Rule(0, y + height, part.right, y + height, 350))
    return Strip(y + height, tuple(boxes)), findings


def _scenes(look: _Look, top: int, context: Context) -> tuple[list[Box], int, list[Finding]]:
    """Number, name and note of each scene: names upwards where one of them is too long for its column."""
    part, metrics = look.part, context.metrics
    room = part.pitch - 1_600
    turned = any(fit(s.name, PLOT_NAME, room, metrics).outcome != "whole" for s in part.scenes if s.name)
    length = TURNED_MOST_UM if turned else room
    names = [fit(s.name, PLOT_NAME, length, metrics) if s.name else None for s in part.scenes]
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
            boxes += _set_name(name, turned, area, number_foot, deep, metrics)
    return boxes, note_foot + 1_300 - top, findings


def _name_depth(names: list[Fitted | None], turned: bool, metrics: Metrics) -> int:
    shown = [name for name in names if name]
    if not shown:
        return 0
    if turned:
        return 2_600 + max(metrics.width_um(line, n.face, n.cap_um) for n in shown for line in n.lines)
    return 1_400 + max(n.cap_um + 500 + (len(n.lines) - 1) * n.pitch_um for n in shown)


def _set_name(name: Fitted, turned: bool, area: Room, foot: int, deep: int, metrics: Metrics) -> Iterator[Box]:
    if not turned:
        for index, line in enumerate(name.lines):
            yield set_line(line, name, area, foot + 1_900 + name.cap_um + index * name.pitch_um, metrics, "centre")
        return
    middle = area.x + area.width // 2 + name.cap_um // 2 - (len(name.lines) - 1) * name.pitch_um // 2
    for index, line in enumerate(name.lines):
        yield set_turned(line, name, middle + index * name.pitch_um, foot + deep - 1_000, area, metrics)


def _cuts(text: str, style: Style, fitted: Fitted, context: Context) -> list[Finding]:
    if fitted.outcome == "whole":
        return []
    return [cut_finding(Line(text, style), fitted, Place(""), (), context.sheet)]


def _legend(plot: Plot, context: Context) -> tuple[list[Box], int]:
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
        boxes += set_sign(sign, x, y + 600)
        room = Room(x + SIGN_UM + 1_600, y, width + 200, LEGEND_UM)
        boxes.append(set_line(text, fitted, room, y + 600 + (SIGN_HIGH_UM + fitted.cap_um) // 2, context.metrics))
        x += SIGN_UM + 1_600 + width + 7_000
    return boxes, y + LEGEND_UM


def set_sign(sign: Sign, x: int, y: int) -> list[Box]:
    """A sign as it stands in the plot, for its legend."""
    whole, high = SIGN_UM, SIGN_HIGH_UM
    match sign:
        case "put on":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x, y, whole * 4 // 10, high)]
        case "taken off":
            return [Frame(x, y, whole, high, STROKE_UM), Fill(x + whole - CAP_UM, y, CAP_UM, high)]
        case "held":
            return [Frame(x, y, whole, high, STROKE_UM, dashed=True)]
        case "second":
            return [
                Frame(x, y - 400, whole, high // 2, STROKE_UM),
                Frame(x, y + high // 2 + 400, whole, high // 2, STROKE_UM),
            ]
        case _:
            third = whole * 3 // 10
            line = Rule(x + third, y + high // 2, x + whole - third, y + high // 2, 700)
            return [Frame(x, y, third, high, STROKE_UM), Frame(x + whole - third, y, third, high, STROKE_UM), line]


# A row: its head, and its lanes.


def _row(row: PlotRow, look: _Look, context: Context) -> tuple[Strip, list[Finding]]:
    metrics, part = context.metrics, look.part
    left = KEY_UM if look.keyed else 0
    stack = measure_stack([row.title, *([row.under] if row.under else [])], look.head - left - 3_000, 700, metrics)
    findings = [cut_finding(item, fitted, row.where, row.subjects, context.sheet) for item, fitted in stack.cuts]
    segments = [[s for bar in lane.bars for s in segments_of(bar, part)] for lane in row.lanes]
    heights = [BAR_UM + (NOTE_UM if any(_runs_under(s, look, metrics) for s in lane) else 0) for lane in segments]
    lanes = sum(heights) + ROW_PAD_UM * max(0, len(heights) - 1)
    height = max(stack.height, lanes, BAR_UM) + 2 * ROW_PAD_UM
    boxes: list[Box] = []
    if row.hatch:
        boxes.append(Hatch(-3_600, 700, 2_600, height - 1_400, 900, 300))
    if row.key:
        key = fit(row.key.text, PLOT_KEY, KEY_UM - 2_500, metrics)
        findings += _cuts(row.key.text, PLOT_KEY, key, context)
        room = Room(0, 0, KEY_UM - 2_500, height)
        boxes.append(set_line(key.lines[0], key, room, (height + key.cap_um) // 2, metrics))
    room = Room(left, (height - stack.height) // 2, look.head - left - 3_000, height - (height - stack.height) // 2)
    boxes += set_stack(stack, room, metrics)
    y = (height - lanes) // 2
    for lane, shown, high in zip(row.lanes, segments, heights, strict=True):
        for keep in lane.keeps:
            boxes += [Rule(a, y + BAR_UM // 2, b, y + BAR_UM // 2, 700) for a, b in stretches_of(keep.first, keep.last, part)]
        boxes += _set_lane(shown, y, look, metrics)
        findings += [
            cut_finding(Line(text, style), fitted, row.where, row.subjects, context.sheet)
            for text, style, fitted in _lane_cuts(shown, look, metrics)
        ]
        y += high + ROW_PAD_UM
    boxes += _guides(part, height, [box.ink for box in boxes if isinstance(box, Text)])
    boxes.append(Rule(0, height, part.right, height, 200))
    return Strip(height, tuple(boxes)), findings


def _guides(part: Part, height: int, inks: list[Room]) -> Iterator[Box]:
    """A dotted line at each edge of a column, so that the eye finds the scene above; it stops at every letter."""
    for edge in dict.fromkeys(edge for left in part.lefts for edge in (left, left + part.pitch)):
        y = 0
        for ink in sorted((ink for ink in inks if ink.x - 200 < edge < ink.right + 200), key=lambda ink: ink.y):
            if ink.y - 200 > y:
                yield Rule(edge, y, edge, ink.y - 200, 120, dotted=True)
            y = max(y, ink.bottom + 200)
        if y < height:
            yield Rule(edge, y, edge, height, 120, dotted=True)


def _number(segment: Segment, look: _Look, metrics: Metrics) -> tuple[Fitted | None, int]:
    """The number at the start of a bar and what it takes with its pads."""
    if not segment.bar.text:
        return None, 2_000 if segment.put_on else 800
    style = replace(PLOT_BAR, wanted_um=look.cap)
    fitted = fit(segment.bar.text, style, segment.width - 2 * TAB_PAD_UM, metrics)
    return fitted, metrics.width_um(segment.bar.text, fitted.face, fitted.cap_um) + 2 * TAB_PAD_UM


def _note_room(segment: Segment, look: _Look, metrics: Metrics) -> int:
    """What a bar has for its note behind its number."""
    return segment.width - _number(segment, look, metrics)[1] - (CAP_UM if segment.taken_off else 0) - 1_800


def _has_note(segment: Segment) -> bool:
    """A note stands at the last piece of its bar, or at the first of one that nobody takes off."""
    bar = segment.bar
    return bool(bar.note) and (segment.taken_off if bar.taken_off else segment.put_on or not bar.put_on)


def _runs_under(segment: Segment, look: _Look, metrics: Metrics) -> bool:
    if not _has_note(segment):
        return False
    room = _note_room(segment, look, metrics)
    return room <= 0 or fit(segment.bar.note, PLOT_NOTE, room, metrics).outcome != "whole"


def _set_lane(segments: list[Segment], y: int, look: _Look, metrics: Metrics) -> Iterator[Box]:
    for segment, follower in zip_longest(segments, segments[1:]):
        yield from _set_bar(segment, y, look, metrics)
        end = segment.x + segment.width
        if follower and follower.bar is segment.bar:
            yield Rule(end, y + BAR_UM // 2, follower.x, y + BAR_UM // 2, 700)
        if _has_note(segment) and not _runs_under(segment, look, metrics):
            start = segment.x + _number(segment, look, metrics)[1] + 900
            room = Room(start, y, end - (CAP_UM if segment.taken_off else 0) - 900 - start, BAR_UM)
            fitted = fit(segment.bar.note, PLOT_NOTE, room.width, metrics)
            side = "right" if segment.bar.taken_off and segment.bar.text else "left"
            yield set_line(fitted.lines[0], fitted, room, y + (BAR_UM + fitted.cap_um) // 2, metrics, side)
    for text, room in _under(segments, look, metrics):
        fitted = fit(text, PLOT_NOTE, room.width, metrics)
        yield set_line(fitted.lines[0], fitted, room._replace(y=y + room.y), y + BAR_UM + NOTE_GAP_UM + fitted.cap_um, metrics)


def _under(segments: list[Segment], look: _Look, metrics: Metrics) -> Iterator[tuple[str, Room]]:
    """The notes that do not fit their bars, under them: each may run on to the next one, or back from the page's edge."""
    noted = [s for s in segments if _runs_under(s, look, metrics)]
    left = look.part.lefts[0]
    for segment, follower in zip_longest(noted, noted[1:]):
        right = follower.x - 1_500 if follower else look.part.right
        whole = fit(segment.bar.note, PLOT_NOTE, 10_000_000, metrics)
        wanted = metrics.width_um(whole.lines[0], whole.face, whole.cap_um)
        start = max(left, min(segment.x, right - wanted))
        yield segment.bar.note, Room(start, BAR_UM - 300, right - start, NOTE_UM + 300)
        left = min(right, start + wanted) + 1_500


def _lane_cuts(segments: list[Segment], look: _Look, metrics: Metrics) -> Iterator[tuple]:
    for text, room in _under(segments, look, metrics):
        fitted = fit(text, PLOT_NOTE, room.width, metrics)
        if fitted.outcome != "whole":
            yield text, PLOT_NOTE, fitted
    for segment in segments:
        fitted, _ = _number(segment, look, metrics)
        if fitted and fitted.outcome != "whole":
            yield segment.bar.text, PLOT_BAR, fitted


def _set_bar(segment: Segment, y: int, look: _Look, metrics: Metrics) -> Iterator[Box]:
    held = segment.bar.kind == "held"
    yield Frame(segment.x, y, segment.width, BAR_UM, STROKE_UM, dashed=held)
    number, taken = _number(segment, look, metrics)
    if segment.put_on:
        yield Fill(segment.x, y, taken, BAR_UM)
    if segment.taken_off:
        yield Fill(segment.x + segment.width - CAP_UM, y, CAP_UM, BAR_UM)
    if number:
        room = Room(segment.x + TAB_PAD_UM, y, taken - 2 * TAB_PAD_UM, BAR_UM)
        baseline = y + (BAR_UM + number.cap_um) // 2
        yield set_line(number.lines[0], number, room, baseline, metrics, white=segment.put_on)
