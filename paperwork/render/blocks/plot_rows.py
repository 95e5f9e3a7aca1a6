"""The rows of a plot: a head, and lanes of bars, with their numbers, lines and notes."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import NamedTuple

from paperwork.document import Lane, PlotRow
from paperwork.document.facts import plot_facts
from paperwork.document.styles import PLOT_BAR, PLOT_NOTE
from paperwork.frozen import frozen
from paperwork.render.blocks.plot_parts import (
    CAP_UM,
    HATCH_GAP_UM,
    HATCH_UM,
    TAB_PAD_UM,
    BarPiece,
    PlotHead,
    PlotPart,
    bar_text,
    pieces_of_bar,
    record_head,
    set_head,
    stretches_of,
)
from paperwork.render.blocks.slices import Context, Later, Slice
from paperwork.render.boxes import HAIR_UM, HEAVY_UM, LINE_UM, Box, Fill, Frame, Open, Room, Rule, TextBox, wrap
from paperwork.render.grids import wrap_spans, wrap_table
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

BAR_UM = 5_600
STROKE_UM = LINE_UM
NOTE_UM, NOTE_GAP_UM = 5_100, 1_500
"""Small print under a bar: the gap also takes the accents of its capitals."""

NOTE_SPACE_UM = 1_500
ROW_PAD_UM = 800


@frozen
class RowLook:
    """What every row of a part shares. `both`: a second pack's number is beside the first one's, else in a lane."""

    part: PlotPart
    head: int
    cap: int
    both: bool


class _Note(NamedTuple):
    """The note of a bar and its room, from the top of its lane; `under` the bars or beside one."""

    of: BarPiece
    room: Room
    align: str = "left"
    under: bool = False


class _Bar(NamedTuple):
    """A piece of a bar with the number at its start (None: none), and what that takes with its pads."""

    piece: BarPiece
    number: Fitted | None
    taken: int


@frozen
class _Lane:
    """A lane as a part shows it."""

    bars: tuple[_Bar, ...]
    lines: tuple[tuple[int, int], ...]
    notes: tuple[_Note, ...]

    @property
    def height(self) -> int:
        """A bar, and the small print under it."""
        return BAR_UM + (NOTE_UM if any(note.under for note in self.notes) else 0)


def lay_row(row: PlotRow, head: PlotHead, look: RowLook, key: str, context: Context) -> Slice:
    """One row of a key's table, its lanes in the middle. What has no room is said now; the boxes are set later."""
    setter = context.setter.of(row)
    lanes = [_measure_lane(lane, look, setter) for lane in _lanes_of(row, look)]
    height = max(head.height, _depth_of(lanes), BAR_UM) + 2 * ROW_PAD_UM
    _record_texts(row, head, lanes, setter)
    boxes = Later(partial(_set_row, row, head, lanes, look, key, height, setter.metrics))
    facts = tuple(plot_facts(row, look.part.first, look.part.last))
    margin = HATCH_UM + HATCH_GAP_UM if row.hatch else 0
    return Slice(height, boxes, facts=facts, subjects=row.subjects, margin=margin)


def _depth_of(lanes: list[_Lane]) -> int:
    return sum(lane.height for lane in lanes) + ROW_PAD_UM * max(0, len(lanes) - 1)


def _record_texts(row: PlotRow, head: PlotHead, lanes: list[_Lane], setter: Typesetter) -> None:
    """What of the head and of the notes had to give way."""
    record_head(row, head, setter)
    for note in (note for lane in lanes for bar in lane.bars for note in lane.notes if note.of is bar.piece):
        setter.fit(note.of.bar.note, PLOT_NOTE, note.room.width)


def _set_row(
    row: PlotRow, head: PlotHead, lanes: list[_Lane], look: RowLook, key: str, height: int, metrics: Metrics
) -> list[Box]:
    """The row's boxes, from its own top left corner, with the rule under it."""
    setter = Typesetter(metrics, "")
    title = Open("TH", scope="Row", rows=max(1, len(lanes)))
    boxes: list[Box] = []
    y = (height - _depth_of(lanes)) // 2
    for lane in lanes or [_Lane((), (), ())]:
        head_cell = [] if boxes else wrap(title, set_head(row, head, height, setter))
        boxes += wrap(Open("TR"), [*head_cell, *_set_lane(lane, y, look, setter)])
        y += lane.height + ROW_PAD_UM
    boxes = wrap_table(key, boxes)
    boxes += _guides(look.part, height, [box.ink for box in boxes if isinstance(box, TextBox)])
    return [*boxes, Rule(0, height, look.part.right, height, HAIR_UM)]


def _lanes_of(row: PlotRow, look: RowLook) -> Iterator[Lane]:
    """The lanes, and under each one for second packs where their numbers have no room in its bars."""
    for lane in row.lanes:
        if look.both or not any(bar.second for bar in lane.bars):
            yield lane
            continue
        yield replace(lane, bars=tuple(replace(bar, second="") for bar in lane.bars))
        seconds = tuple(replace(bar, text=bar.second, second="", note="") for bar in lane.bars if bar.second)
        yield Lane(seconds, tuple(keep for keep in lane.keeps if any(bar.first == keep.last + 1 for bar in seconds)))


def _guides(part: PlotPart, height: int, inks: list[Room]) -> Iterator[Box]:
    """A dotted line at each edge of a column, so that the eye finds the scene above; it stops at every letter."""
    for edge in dict.fromkeys(edge for left in part.lefts for edge in (left, left + part.pitch)):
        y = 0
        for ink in sorted((ink for ink in inks if ink.x - 200 < edge < ink.right + 200), key=lambda ink: ink.y):
            if ink.y - 200 > y:
                yield Rule(edge, y, edge, ink.y - 200, HAIR_UM, dotted=True)
            y = max(y, ink.bottom + 200)
        if y < height:
            yield Rule(edge, y, edge, height, HAIR_UM, dotted=True)


# A lane: bars, the lines between them, and notes.


def _measure_lane(lane: Lane, look: RowLook, setter: Typesetter) -> _Lane:
    shown = (bar for bar in lane.bars if bar.first <= look.part.last and bar.last >= look.part.first)
    pieces = sorted((piece for bar in shown for piece in pieces_of_bar(bar, look.part)), key=lambda one: one.x)
    lines = [stretch for keep in lane.keeps for stretch in stretches_of(keep.first, keep.last, look.part)]
    for one, two in pairwise(pieces):
        if one.bar is two.bar:
            lines.append((one.x + one.width, two.x))
    bars = tuple(_measure_bar(piece, look, setter) for piece in pieces)
    return _Lane(bars, tuple(lines), tuple(_notes(bars, tuple(lines), look, setter.metrics)))


def _measure_bar(piece: BarPiece, look: RowLook, setter: Typesetter) -> _Bar:
    text = bar_text(piece.bar)
    if not text:
        return _Bar(piece, None, 2_000 if piece.put_on else 800)
    fitted = setter.fit(text, replace(PLOT_BAR, wanted_um=look.cap), piece.width - 2 * TAB_PAD_UM)
    return _Bar(piece, fitted, setter.metrics.width_um(text, fitted.face, fitted.cap_um) + 2 * TAB_PAD_UM)


def _has_note(piece: BarPiece) -> bool:
    """A note stands at the last piece of its bar, or at the first of one that nobody takes off."""
    bar = piece.bar
    return bool(bar.note) and (piece.taken_off if bar.taken_off else piece.put_on or not bar.put_on)


def _notes(
    bars: tuple[_Bar, ...], lines: tuple[tuple[int, int], ...], look: RowLook, metrics: Metrics
) -> Iterator[_Note]:
    """Each note in its bar, else behind it up to whatever comes next, else under the bars."""
    under = []
    for bar in bars:
        piece, note = bar.piece, bar.piece.bar.note
        if not _has_note(piece):
            continue
        inside, behind = _room_in(bar), _room_behind(piece, bars, lines, look)
        if _stands_in(note, inside, metrics):
            yield _Note(piece, inside, "right" if piece.bar.taken_off and piece.bar.text else "left")
        elif _stands_in(note, behind, metrics):
            yield _Note(piece, behind)
        else:
            under.append(piece)
    yield from _under(under, look, metrics)


def _stands_in(note: str, room: Room, metrics: Metrics) -> bool:
    fitted = fit(note, PLOT_NOTE, room.width, metrics) if room.width > 0 else None
    return fitted is not None and fitted.outcome == "whole" and len(fitted.lines) == 1


def _room_in(bar: _Bar) -> Room:
    start = bar.piece.x + bar.taken + 900
    end = bar.piece.x + bar.piece.width - (CAP_UM if bar.piece.taken_off else 0) - 900
    return Room(start, -ROW_PAD_UM, end - start, BAR_UM + 2 * ROW_PAD_UM)


def _room_behind(piece: BarPiece, bars: tuple[_Bar, ...], lines: tuple[tuple[int, int], ...], look: RowLook) -> Room:
    """From the end of a bar to the next bar or line of its lane, or to the edge of the page."""
    end = piece.x + piece.width
    following = [x for x, _ in lines if x >= end] + [other.piece.x for other in bars if other.piece.x >= end]
    return Room(end + 1_100, -ROW_PAD_UM, min([look.part.right, *following]) - end - 2_200, BAR_UM + 2 * ROW_PAD_UM)


def _under(pieces: list[BarPiece], look: RowLook, metrics: Metrics) -> Iterator[_Note]:
    """Each under its bar; moved back where page or room ends, at most half the way to the one before."""
    left = look.part.lefts[0]
    starts: list[int] = []
    widths: list[int] = []
    limit = look.part.right
    for index in reversed(range(len(pieces))):
        piece, before = pieces[index], pieces[index - 1].x if index else 2 * left - pieces[0].x
        whole = fit(piece.bar.note, PLOT_NOTE, 10_000_000, metrics)
        widths.insert(0, whole.width_um(metrics))
        starts.insert(0, max(min(piece.x, limit - widths[0]), (before + piece.x) // 2))
        limit = starts[0] - NOTE_SPACE_UM
    for index, piece in enumerate(pieces):
        start = max(left, starts[index])
        right = max(start, starts[index + 1] - NOTE_SPACE_UM) if index + 1 < len(pieces) else look.part.right
        yield _Note(piece, Room(start, BAR_UM - 300, right - start, NOTE_UM + 600), under=True)
        left = min(right, start + widths[index]) + NOTE_SPACE_UM


def _set_lane(lane: _Lane, y: int, look: RowLook, setter: Typesetter) -> Iterator[Box]:
    """The lane; for whoever has it read out its bars are cells that span columns, each with its note."""
    for start, end in lane.lines:
        yield Rule(start, y + BAR_UM // 2, end, y + BAR_UM // 2, HEAVY_UM)
    cells = [
        (bar.piece.first - look.part.first, bar.piece.last - look.part.first + 1,
         [*_set_bar(bar, y, setter), *(_set_note(note, y, setter) for note in lane.notes if note.of is bar.piece)])
        for bar in lane.bars
    ]  # fmt: skip
    yield from wrap_spans(cells, len(look.part.scenes))


def _set_note(note: _Note, y: int, setter: Typesetter) -> Box:
    piece, room, align, under = note
    fitted = setter.fit(piece.bar.note, PLOT_NOTE, room.width)
    base = BAR_UM + NOTE_GAP_UM + fitted.cap_um if under else (BAR_UM + fitted.cap_um) // 2
    base = max(base, room.y + fitted.rise_um)  # stacked marks, as in Thai
    return setter.line(fitted, room._replace(y=y + room.y), y + base, align)


def _set_bar(bar: _Bar, y: int, setter: Typesetter) -> Iterator[Box]:
    piece, number, taken = bar
    yield Frame(piece.x, y, piece.width, BAR_UM, STROKE_UM, dashed=piece.bar.kind == "held")
    if piece.put_on:
        yield Fill(piece.x, y, taken, BAR_UM)
    if piece.taken_off:
        yield Fill(piece.x + piece.width - CAP_UM, y, CAP_UM, BAR_UM)
    if number:
        room = Room(piece.x + TAB_PAD_UM, y, taken - 2 * TAB_PAD_UM, BAR_UM)
        yield setter.line(number, room, y + (BAR_UM + number.cap_um) // 2, white=piece.put_on)
