"""Boards as strips: numbers of one height in fixed columns, their heads at the left, notes at the right."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from paperwork.document import Board, BoardRow, Group, Item, Line
from paperwork.finding import Finding
from paperwork.place import Place
from paperwork.render.boxes import Box, Fill, Room, Rule
from paperwork.render.fit import Fitted, fit, set_line
from paperwork.render.fonts import Metrics
from paperwork.render.stacks import measure_stack, set_stack
from paperwork.render.strips import Context, Run, Strip, cut_finding, run_under_bar
from paperwork.styles import BOARD_GONE, BOARD_NOTES, BOARD_NUMBER

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
class _Plan:
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

    def fit(self, id: str, metrics: Metrics) -> Fitted:
        """A number in its place, at the height of all."""
        return fit(id, replace(BOARD_NUMBER, wanted_um=self.cap), self.pitch - GAP_UM, metrics)


def lay_board(board: Board, context: Context) -> tuple[list[Run], list[Finding]]:
    """One strip for each row; rows are never split."""
    plan = _plan(board, context)
    runs: list[Run] = []
    findings: list[Finding] = []
    for id in board.ids:
        fitted = plan.fit(id, context.metrics)
        if fitted.outcome != "whole":
            findings.append(cut_finding(Line(id, BOARD_NUMBER), fitted, Place(""), (), context.sheet))
    for group in board.groups:
        strips = []
        for row in group.rows:
            strip, cuts = _row(row, plan, context)
            strips.append(strip)
            findings += [cut_finding(item, fitted, row.where, row.subjects, context.sheet) for item, fitted in cuts]
        runs.append(run_under_bar(Group((), group.title), tuple(strips), Strip(0), context))
    return runs, findings


def _plan(board: Board, context: Context) -> _Plan:
    """As few lines as there can be."""
    plans = [_plan_beside(board, head, notes, context) for head, notes in SIDES_UM]
    return min(plans, key=lambda plan: len(plan.lines))


def _plan_beside(board: Board, head: int, notes: int, context: Context) -> _Plan:
    """The lines as even as can be; the columns share what heads and notes leave."""
    room, metrics = context.width - head - notes, context.metrics
    fitted = [fit(id, BOARD_NUMBER, room - GAP_UM, metrics) for id in board.ids]
    cap = min((one.cap_um for one in fitted), default=BOARD_NUMBER.wanted_um)
    widest = max((metrics.width_um(one.lines[0], one.face, cap) for one in fitted), default=1)
    most = max(1, room // (widest + GAP_UM))
    count = max(1, -(-len(board.ids) // most))
    across = max(1, -(-len(board.ids) // count))
    lines = tuple(board.ids[first : first + across] for first in range(0, len(board.ids), across))
    return _Plan(head, notes, room // across, cap, lines)


def _row(row: BoardRow, plan: _Plan, context: Context) -> tuple[Strip, list[tuple[Item, Fitted]]]:
    """The row with what had to be cut. Notes that are taller than the numbers go under them, over the whole width."""
    metrics, shown = context.metrics, {*row.up, *row.gone}
    lines = [line for line in plan.lines if not shown.isdisjoint(line)] or list(plan.lines[:1])
    high = len(lines) * plan.line_um - LINE_GAP_UM
    head = measure_stack([row.title, *([row.under] if row.under else [])], plan.head - 3_000, 900, metrics)
    beside, below = (
        measure_stack(row.notes, plan.notes - 2_000, 700, metrics),
        measure_stack((), plan.notes, 700, metrics),
    )
    if beside.height > max(high, head.height):
        told = Line("    ".join(note.text for note in row.notes), BOARD_NOTES)
        beside, below = below, measure_stack((told,), context.width - plan.head, 700, metrics)
    body = max(head.height, beside.height, high + (below.height + BELOW_UM if below.slots else 0))
    boxes: list[Box] = set_stack(head, Room(0, ROW_PAD_UM + 400, plan.head - 3_000, body), metrics)
    for number, line in enumerate(lines):
        place = Room(plan.head, ROW_PAD_UM + number * plan.line_um, plan.pitch, plan.line_um - LINE_GAP_UM)
        boxes += _line(row, line, place, plan, metrics)
    boxes += set_stack(
        beside, Room(context.width - plan.notes + 2_000, ROW_PAD_UM + 400, plan.notes - 2_000, body), metrics
    )
    boxes += set_stack(below, Room(plan.head, ROW_PAD_UM + high + BELOW_UM, context.width - plan.head, body), metrics)
    height = body + 2 * ROW_PAD_UM
    boxes.append(Rule(0, height, context.width, height, 250))
    return Strip(height, tuple(boxes)), [*head.cuts, *beside.cuts, *below.cuts]


def _line(row: BoardRow, ids: tuple[str, ...], first: Room, plan: _Plan, metrics: Metrics) -> Iterator[Box]:
    """The numbers of one line, each in the middle of its column."""
    for index, id in enumerate(ids):
        room = first._replace(x=first.x + index * plan.pitch)
        middle = room.y + room.height // 2
        if id in row.up:
            yield from _up(id, id in row.new, room, plan, metrics)
        elif id in row.gone:
            fitted = fit(id, BOARD_GONE, room.width - GAP_UM, metrics)
            yield set_line(fitted.lines[0], fitted, room, middle + fitted.cap_um // 2, metrics, "centre")
        else:
            yield Fill(room.x + (room.width - DOT_UM) // 2, middle - DOT_UM // 2, DOT_UM, DOT_UM)


def _up(id: str, new: bool, room: Room, plan: _Plan, metrics: Metrics) -> Iterator[Box]:
    """A number that is up; a ruled blank where it has no room."""
    fitted = plan.fit(id, metrics)
    foot = room.y + (room.height + fitted.cap_um) // 2
    if fitted.outcome != "whole":
        yield Rule(room.x, foot, room.right - GAP_UM, foot, 450)
        return
    text = set_line(fitted.lines[0], fitted, room, foot, metrics, "centre", white=new)
    if new:
        yield Fill(text.x - PAD_X_UM, room.y, text.ink.width + 2 * PAD_X_UM, room.height)
    yield text
