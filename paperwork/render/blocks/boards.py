"""Boards as slices: numbers of one height in fixed columns, their heads at the left, notes at the right."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TypeAlias

from paperwork.document import Board, BoardRow, Line, RowGroup
from paperwork.document.facts import board_facts
from paperwork.document.styles import BOARD_GONE, BOARD_NOTES, BOARD_NUMBER
from paperwork.frozen import frozen
from paperwork.render.blocks.slices import Context, Series, Slice, set_bars
from paperwork.render.blocks.stacks import measure_stack, set_stack
from paperwork.render.boxes import LINE_UM, Box, Fill, Open, Room, Rule, wrap
from paperwork.render.grids import wrap_table
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


@frozen
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
    for number, group in enumerate(board.groups):
        key = f"board {context.number}.{number}"
        slices = (
            _row(row, _lines_of(board, row, plan, opens=row is group.rows[0]), plan, numbers, context)
            for row in group.rows
        )
        rows = tuple(replace(one, boxes=tuple(wrap_table(key, one.boxes))) for one in slices)
        title = Open("H2", f"bar {key}", once=True)
        bar, again = (
            replace(one, boxes=tuple(wrap(title, one.boxes)))
            for one in set_bars(RowGroup((), group.title, facts=(group.title,)), context)
        )
        found.append(Series(rows, bar=bar, again=again))
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


def _lines_of(board: Board, row: BoardRow, plan: _BoardPlan, *, opens: bool) -> list[tuple[str, ...]]:
    """A row's numbers in lines: each in its place, or only those that change; all in the row that opens a group."""
    shown, across = {*row.up, *row.gone}, len(plan.lines[0]) if plan.lines else 1
    if not board.changes:
        return [line for line in plan.lines if not shown.isdisjoint(line)] or list(plan.lines[:1])
    moved = {*row.gone, *(row.up if opens else row.new)}
    ids = tuple(id for id in board.ids if id in moved)
    return [ids[first : first + across] for first in range(0, len(ids), across)] or [()]


def _row(row: BoardRow, lines: list[tuple[str, ...]], plan: _BoardPlan, numbers: Numbers, context: Context) -> Slice:
    """The row. Notes that are taller than the numbers go under them, over the whole width."""
    metrics, setter = context.metrics, context.setter.of(row)
    high = len(lines) * plan.line_um - LINE_GAP_UM
    head = measure_stack([row.title, *([row.under] if row.under else [])], plan.head - 3_000, 900, metrics)
    beside, below = (measure_stack(notes, plan.notes - 2_000, 700, metrics) for notes in (row.notes, ()))
    if beside.height > max(high, head.height):
        text = Line("    ".join(note.text for note in row.notes), BOARD_NOTES)
        beside, below = below, measure_stack((text,), context.width - plan.head, 700, metrics)
    body = max(head.height, beside.height, high + (below.height + BELOW_UM if below.lines else 0))
    title = set_stack(head, Room(0, ROW_PAD_UM + 400, plan.head - 3_000, body), setter)
    up: list[Box] = []
    gone: list[Box] = []
    for number, line in enumerate(lines):
        place = Room(plan.head, ROW_PAD_UM + number * plan.line_um, plan.pitch, plan.line_um - LINE_GAP_UM)
        up += _line(row, line, place, numbers, setter)
        gone += _line_gone(row, line, place, setter)
    notes = set_stack(
        beside, Room(context.width - plan.notes + 2_000, ROW_PAD_UM + 400, plan.notes - 2_000, body), setter
    )
    notes += set_stack(below, Room(plan.head, ROW_PAD_UM + high + BELOW_UM, context.width - plan.head, body), setter)
    height = body + 2 * ROW_PAD_UM
    rule = Rule(0, height, context.width, height, LINE_UM)
    return Slice(
        height, (*_wrap_row(title, up, gone, notes), rule), facts=tuple(board_facts(row)), subjects=row.subjects
    )


def _wrap_row(title: Sequence[Box], *cells: Sequence[Box]) -> list[Box]:
    """For whoever has it read out: the row's head, what is up, what has gone, and the notes."""
    found = wrap(Open("TH", scope="Row"), title)
    for boxes in cells:
        found += wrap(Open("TD"), boxes)
    return wrap(Open("TR"), found)


def _line(row: BoardRow, ids: tuple[str, ...], first: Room, numbers: Numbers, setter: Typesetter) -> Iterator[Box]:
    """The numbers of one line that are up, each in the middle of its column, and dots."""
    for index, id in enumerate(ids):
        room = first._replace(x=first.x + index * first.width)
        if id in row.up:
            yield from _up(numbers[id], id in row.new, room, setter)
        elif id not in row.gone:
            middle = room.y + room.height // 2
            yield Fill(room.x + (room.width - DOT_UM) // 2, middle - DOT_UM // 2, DOT_UM, DOT_UM)


def _line_gone(row: BoardRow, ids: tuple[str, ...], first: Room, setter: Typesetter) -> Iterator[Box]:
    """The numbers of one line that have just gone."""
    for index, id in enumerate(ids):
        if id in row.gone and id not in row.up:
            room = first._replace(x=first.x + index * first.width)
            fitted = fit(id, BOARD_GONE, room.width - GAP_UM, setter.metrics)
            yield setter.line(fitted, room, room.y + (room.height + fitted.cap_um) // 2, "centre")


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
