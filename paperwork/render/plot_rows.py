"""The rows of a plot: a head, and lanes of bars, with their numbers, lines and notes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from paperwork.document import Lane, Line, PlotRow
from paperwork.finding import Finding
from paperwork.render.boxes import Box, Fill, Frame, Hatch, Room, Rule, Text
from paperwork.render.fit import Fitted, drop_um, fit, rise_um, set_line
from paperwork.render.fonts import Metrics
from paperwork.render.plot_parts import (
    CAP_UM,
    KEY_UM,
    TAB_PAD_UM,
    Part,
    Segment,
    bar_text,
    segments_of,
    stretches_of,
)
from paperwork.render.stacks import Stack, measure_stack, set_stack
from paperwork.render.strips import Context, Strip, cut_finding
from paperwork.styles import PLOT_BAR, PLOT_KEY, PLOT_NOTE

BAR_UM = 5_600
STROKE_UM = 450
NOTE_UM, NOTE_GAP_UM = 5_100, 1_500
"""Small print under a bar: the gap also takes the accents of its capitals."""

NOTE_SPACE_UM = 1_500
ROW_PAD_UM, STACK_PAD_UM = 800, 500
HEAD_GAP_UM = 2_500
"""Behind a head, and between a name and the roles beside it."""


@dataclass(frozen=True, slots=True)
class Look:
    """What every row of a part shares. `both`: a second pack's number stands beside the first one's, else it has a lane."""

    part: Part
    head: int
    keyed: bool
    cap: int
    both: bool


class _Note(NamedTuple):
    """A note and its room, from the top of its lane; `under` the bars or beside one."""

    text: str
    room: Room
    align: str = "left"
    under: bool = False


@dataclass(frozen=True, slots=True)
class _Lane:
    """A lane as a part shows it."""

    segments: tuple[Segment, ...]
    lines: tuple[tuple[int, int], ...]
    notes: tuple[_Note, ...]

    @property
    def height(self) -> int:
        """A bar, and the small print under it."""
        return BAR_UM + (NOTE_UM if any(note.under for note in self.notes) else 0)


def lay_row(row: PlotRow, look: Look, context: Context) -> tuple[Strip, list[Finding]]:
    """One row, its lanes in the middle of it, and a finding for whatever had to be cut."""
    metrics = context.metrics
    lanes = [_measure_lane(lane, look, metrics) for lane in _lanes_of(row, look)]
    deep = sum(lane.height for lane in lanes) + ROW_PAD_UM * max(0, len(lanes) - 1)
    head = _measure_head(row, look, metrics)
    height = max(head.height, deep, BAR_UM) + 2 * ROW_PAD_UM
    cuts = [(item, fitted) for item, fitted in head.cuts]
    boxes = list(_set_head(row, head, look, height, metrics))
    y = (height - deep) // 2
    for lane in lanes:
        boxes += _set_lane(lane, y, look, metrics)
        cuts += _lane_cuts(lane, look, metrics)
        y += lane.height + ROW_PAD_UM
    if row.key:
        key = fit(row.key.text, PLOT_KEY, KEY_UM - 2_500, metrics)
        cuts += [(row.key, key)] if key.outcome != "whole" else []
    boxes += _guides(look.part, height, [box.ink for box in boxes if isinstance(box, Text)])
    boxes.append(Rule(0, height, look.part.right, height, 200))
    return Strip(height, tuple(boxes)), [
        cut_finding(item, fitted, row.where, row.subjects, context.sheet) for item, fitted in cuts
    ]


def _lanes_of(row: PlotRow, look: Look) -> Iterator[Lane]:
    """The lanes, and under each one for second packs where their numbers have no room in its bars."""
    for lane in row.lanes:
        if look.both or not any(bar.second for bar in lane.bars):
            yield lane
            continue
        yield replace(lane, bars=tuple(replace(bar, second="") for bar in lane.bars))
        seconds = tuple(replace(bar, text=bar.second, second="", note="") for bar in lane.bars if bar.second)
        yield Lane(seconds, tuple(keep for keep in lane.keeps if any(bar.first == keep.last + 1 for bar in seconds)))


# The head: the name, and the roles beside it or under it.


class _Head(NamedTuple):
    """Name and roles on one line, or stacked."""

    line: tuple[Fitted, Fitted] | None
    stack: Stack
    height: int
    cuts: tuple


def _measure_head(row: PlotRow, look: Look, metrics: Metrics) -> _Head:
    room = look.head - (KEY_UM if look.keyed else 0) - HEAD_GAP_UM
    stack = measure_stack([row.title, *([row.under] if row.under else [])], room, 700, metrics)
    if row.under:
        pair = (
            fit(row.title.text, row.title.style, room, metrics),
            fit(row.under.text, row.under.style, room, metrics),
        )
        one, two = (metrics.width_um(f.lines[0], f.face, f.cap_um) for f in pair)
        as_wanted = pair[0].cap_um == row.title.style.wanted_um and pair[1].cap_um == row.under.style.wanted_um
        if as_wanted and len(pair[0].lines) == len(pair[1].lines) == 1 and one + HEAD_GAP_UM + two <= room:
            return _Head(pair, stack, rise_um(pair[0].lines[0], pair[0].face, pair[0].cap_um) + _drop(pair), ())
    return _Head(None, stack, stack.height + 2 * STACK_PAD_UM, stack.cuts)


def _drop(pair: Iterable[Fitted]) -> int:
    return max(drop_um(fitted.lines[0], fitted.face, fitted.cap_um) for fitted in pair)


def _set_head(row: PlotRow, head: _Head, look: Look, height: int, metrics: Metrics) -> Iterator[Box]:
    if row.hatch:
        yield Hatch(-3_600, 700, 2_600, height - 1_400, 900, 300)
    if row.key:
        key = fit(row.key.text, PLOT_KEY, KEY_UM - 2_500, metrics)
        yield set_line(key.lines[0], key, Room(0, 0, KEY_UM - 2_500, height), (height + key.cap_um) // 2, metrics)
    left, right = KEY_UM if look.keyed else 0, look.head - HEAD_GAP_UM
    if head.line is None:
        top = (height - head.stack.height) // 2
        yield from set_stack(head.stack, Room(left, top, right - left, height - top), metrics)
        return
    title, under = head.line
    width = metrics.width_um(title.lines[0], title.face, title.cap_um)
    base = min((height + title.cap_um) // 2, height - _drop(head.line) - 100)
    base = max(base, rise_um(title.lines[0], title.face, title.cap_um) + 100)
    yield set_line(title.lines[0], title, Room(left, 0, width + 100, height), base, metrics)
    start = left + width + 100
    yield set_line(under.lines[0], under, Room(start, 0, right - start, height), base, metrics, "right")


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


# A lane: bars, the lines between them, and notes.


def _measure_lane(lane: Lane, look: Look, metrics: Metrics) -> _Lane:
    segments = tuple(sorted((s for bar in lane.bars for s in segments_of(bar, look.part)), key=lambda s: s.x))
    lines = [stretch for keep in lane.keeps for stretch in stretches_of(keep.first, keep.last, look.part)]
    for one, two in pairwise(segments):
        if one.bar is two.bar:
            lines.append((one.x + one.width, two.x))
    return _Lane(segments, tuple(lines), tuple(_notes(segments, tuple(lines), look, metrics)))


def _number(segment: Segment, look: Look, metrics: Metrics) -> tuple[Fitted | None, int]:
    """The number at the start of a bar and what it takes with its pads."""
    text = bar_text(segment.bar)
    if not text:
        return None, 2_000 if segment.put_on else 800
    style = replace(PLOT_BAR, wanted_um=look.cap)
    fitted = fit(text, style, segment.width - 2 * TAB_PAD_UM, metrics)
    return fitted, metrics.width_um(text, fitted.face, fitted.cap_um) + 2 * TAB_PAD_UM


def _has_note(segment: Segment) -> bool:
    """A note stands at the last piece of its bar, or at the first of one that nobody takes off."""
    bar = segment.bar
    return bool(bar.note) and (segment.taken_off if bar.taken_off else segment.put_on or not bar.put_on)


def _notes(
    segments: tuple[Segment, ...], lines: tuple[tuple[int, int], ...], look: Look, metrics: Metrics
) -> Iterator[_Note]:
    """Each note in its bar, else behind it up to whatever comes next, else under the bars."""
    under = []
    for segment in filter(_has_note, segments):
        note = segment.bar.note
        places = (_room_in(segment, look, metrics), _room_behind(segment, segments, lines, look))
        free = (
            room
            for room in places
            if room.width > 0
            and fit(note, PLOT_NOTE, room.width, metrics).outcome == "whole"
            and len(fit(note, PLOT_NOTE, room.width, metrics).lines) == 1
        )
        room = next(free, None)
        if room is None:
            under.append(segment)
        else:
            yield _Note(
                note, room, "right" if room is places[0] and segment.bar.taken_off and segment.bar.text else "left"
            )
    yield from _under(under, look, metrics)


def _room_in(segment: Segment, look: Look, metrics: Metrics) -> Room:
    start = segment.x + _number(segment, look, metrics)[1] + 900
    end = segment.x + segment.width - (CAP_UM if segment.taken_off else 0) - 900
    return Room(start, -ROW_PAD_UM, end - start, BAR_UM + 2 * ROW_PAD_UM)


def _room_behind(
    segment: Segment, segments: tuple[Segment, ...], lines: tuple[tuple[int, int], ...], look: Look
) -> Room:
    """From the end of a bar to the next bar or line of its lane, or to the edge of the page."""
    end = segment.x + segment.width
    following = [x for x, _ in lines if x >= end] + [other.x for other in segments if other.x >= end]
    return Room(end + 1_100, -ROW_PAD_UM, min([look.part.right, *following]) - end - 2_200, BAR_UM + 2 * ROW_PAD_UM)


def _under(segments: list[Segment], look: Look, metrics: Metrics) -> Iterator[_Note]:
    """Each under its bar; moved back where the page ends or the next one begins, at most half the way to the one before."""
    left = look.part.lefts[0]
    starts: list[int] = []
    widths: list[int] = []
    limit = look.part.right
    for index in reversed(range(len(segments))):
        segment, before = segments[index], segments[index - 1].x if index else 2 * left - segments[0].x
        whole = fit(segment.bar.note, PLOT_NOTE, 10_000_000, metrics)
        widths.insert(0, metrics.width_um(whole.lines[0], whole.face, whole.cap_um))
        starts.insert(0, max(min(segment.x, limit - widths[0]), (before + segment.x) // 2))
        limit = starts[0] - NOTE_SPACE_UM
    for index, segment in enumerate(segments):
        start = max(left, starts[index])
        right = max(start, starts[index + 1] - NOTE_SPACE_UM) if index + 1 < len(segments) else look.part.right
        yield _Note(segment.bar.note, Room(start, BAR_UM - 300, right - start, NOTE_UM + 600), under=True)
        left = min(right, start + widths[index]) + NOTE_SPACE_UM


def _set_lane(lane: _Lane, y: int, look: Look, metrics: Metrics) -> Iterator[Box]:
    for start, end in lane.lines:
        yield Rule(start, y + BAR_UM // 2, end, y + BAR_UM // 2, 700)
    for segment in lane.segments:
        yield from _set_bar(segment, y, look, metrics)
    for text, room, align, under in lane.notes:
        fitted = fit(text, PLOT_NOTE, room.width, metrics)
        base = BAR_UM + NOTE_GAP_UM + fitted.cap_um if under else (BAR_UM + fitted.cap_um) // 2
        base = max(base, room.y + rise_um(fitted.lines[0], fitted.face, fitted.cap_um))  # stacked marks, as in Thai
        yield set_line(fitted.lines[0], fitted, room._replace(y=y + room.y), y + base, metrics, align)


def _lane_cuts(lane: _Lane, look: Look, metrics: Metrics) -> Iterator[tuple[Line, Fitted]]:
    for note in lane.notes:
        fitted = fit(note.text, PLOT_NOTE, note.room.width, metrics)
        if fitted.outcome != "whole":
            yield Line(note.text, PLOT_NOTE), fitted
    for segment in lane.segments:
        number, _ = _number(segment, look, metrics)
        if number and number.outcome != "whole":
            yield Line(bar_text(segment.bar), PLOT_BAR), number


def _set_bar(segment: Segment, y: int, look: Look, metrics: Metrics) -> Iterator[Box]:
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
