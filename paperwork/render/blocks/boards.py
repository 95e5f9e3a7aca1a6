"""Boards as slices: numbers of one height in fixed columns, their heads at the left, notes at the right."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from paperwork.document import Board, BoardRow, Line, RowGroup
from paperwork.document.facts import board_facts
from paperwork.document.styles import BOARD_GONE, BOARD_NOTES, BOARD_NUMBER
from paperwork.render.blocks.slices import Context, Series, Slice, put_under_bar
from paperwork.render.blocks.stacks import measure_stack, set_stack
from paperwork.render.boxes import LINE_UM, Box, Fill, Room, Rule
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.setting import Typesetter

SIDES_UM = ((42_000, 40_000), (35_000, 29_000))
"""What heads and notes take at the sides; the narrower pair only where it saves a line of numbers in every row."""

GAP_UM = 2_400
"""Between numbers: more than between the figures of one, so that no two are read as one."""

LINE_GAP_UM = 400
PAD_X_UM, PAD_Y_UM = 900, 800
"""Black around a white number: without it the edge of the paper's dots eats the figure (common practice, no source)."""

ROW_PAD_UM = 900
BELOW_UM = 1_200
DOT_UM = 700


@dataclass(frozen=True, slots=True)
class _BoardPlan:
    """How a board is divided: heads and notes at its sides, and how far apart and how tall its numbers stand."""

    head: int
    notes: int
    pitch: int
    cap: int
    lines: tuple[tuple[str, ...], ...]

    @property
    def line_um(self) -> int:
        """The height of one line of numbers."""
        return self.cap + 2 * PAD_Y_UM + LINE_GAP_UM


Numbers: TypeAlias = Mapping[str, Fitted]
"""Each number as it fits its place, at the height of all."""


def lay_board(board: Board, context: Context) -> list[Series]:
    """One slice for each row; rows are never split."""
    plan = _plan(board, context)
    style = replace(BOARD_NUMBER, wanted_um=plan.cap)
    numbers = {id: context.setter.fit(id, style, plan.pitch - GAP_UM) for id in board.ids}
    found: list[Series] = []
    for group in board.groups:
        slices = tuple(_row(row, plan, numbers, context) for row in group.rows)
        found.append(put_under_bar(RowGroup((), group.title, facts=(group.title,)), slices, Slice(0), context))
    return found


def _plan(board: Board, context: Context) -> _BoardPlan:
    """As few lines as there can be."""
    plans = [_plan_beside(board, head, notes, context) for head, notes in SIDES_UM]
    return min(plans, key=lambda plan: len(plan.lines))


def _plan_beside(board: Board, head: int, notes: int, context: Context) -> _BoardPlan:
    """The lines as even as can be; the columns share what heads and notes leave."""
    room, metrics = context.width - head - notes, context.metrics
    fitted = [fit(id, BOARD_NUMBER, room - GAP_UM, metrics) for id in board.ids]
    cap = min((one.cap_um for one in fitted), default=BOARD_NUMBER.wanted_um)
    widest = max((metrics.width_um(one.lines[0], one.face, cap) for one in fitted), default=1)
    most = max(1, room // (widest + GAP_UM))
    count = max(1, -(-len(board.ids) // most))
    across = max(1, -(-len(board.ids) // count))
    lines = tuple(board.ids[first : first + across] for first in range(0, len(board.ids), across))
    return _BoardPlan(head, notes, room // across, cap, lines)


def _row(row: BoardRow, plan: _BoardPlan, numbers: Numbers, context: Context) -> Slice:
    """The row. Notes that are taller than the numbers go under them, over the whole width."""
    metrics, setter, shown = context.metrics, context.setter.of(row), {*row.up, *row.gone}
    lines = [line for line in plan.lines if not shown.isdisjoint(line)] or list(plan.lines[:1])
    high = len(lines) * plan.line_um - LINE_GAP_UM
    head = measure_stack([row.title, *([row.under] if row.under else [])], plan.head - 3_000, 900, metrics)
    beside, below = (measure_stack(notes, plan.notes - 2_000, 700, metrics) for notes in (row.notes, ()))
    if beside.height > max(high, head.height):
        text = Line("    ".join(note.text for note in row.notes), BOARD_NOTES)
        beside, below = below, measure_stack((text,), context.width - plan.head, 700, metrics)
    body = max(head.height, beside.height, high + (below.height + BELOW_UM if below.lines else 0))
    boxes: list[Box] = set_stack(head, Room(0, ROW_PAD_UM + 400, plan.head - 3_000, body), setter)
    for number, line in enumerate(lines):
        place = Room(plan.head, ROW_PAD_UM + number * plan.line_um, plan.pitch, plan.line_um - LINE_GAP_UM)
        boxes += _line(row, line, place, numbers, setter)
    boxes += set_stack(
        beside, Room(context.width - plan.notes + 2_000, ROW_PAD_UM + 400, plan.notes - 2_000, body), setter
    )
    boxes += set_stack(below, Room(plan.head, ROW_PAD_UM + high + BELOW_UM, context.width - plan.head, body), setter)
    height = body + 2 * ROW_PAD_UM
    boxes.append(Rule(0, height, context.width, height, LINE_UM))
    return Slice(height, tuple(boxes), facts=tuple(board_facts(row)), subjects=row.subjects)


def _line(row: BoardRow, ids: tuple[str, ...], first: Room, numbers: Numbers, setter: Typesetter) -> Iterator[Box]:
    """The numbers of one line, each in the middle of its column."""
    for index, id in enumerate(ids):
        room = first._replace(x=first.x + index * first.width)
        middle = room.y + room.height // 2
        if id in row.up:
            yield from _up(numbers[id], id in row.new, room, setter)
        elif id in row.gone:
            fitted = fit(id, BOARD_GONE, room.width - GAP_UM, setter.metrics)
            yield setter.line(fitted, room, middle + fitted.cap_um // 2, "centre")
        else:
            yield Fill(room.x + (room.width - DOT_UM) // 2, middle - DOT_UM // 2, DOT_UM, DOT_UM)


def _up(fitted: Fitted, new: bool, room: Room, setter: Typesetter) -> Iterator[Box]:
    """A number that is up; a ruled blank where it has no room."""
    foot = room.y + (room.height + fitted.cap_um) // 2
    if fitted.outcome != "whole":
        yield Rule(room.x, foot, room.right - GAP_UM, foot, LINE_UM)
        return
    text = setter.line(fitted, room, foot, "centre", white=new)
    if new:
        yield Fill(text.x - PAD_X_UM, room.y, text.ink.width + 2 * PAD_X_UM, room.height)
    yield text
