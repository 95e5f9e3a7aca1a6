"""One cell: its items measured into lines, and the lines set on baselines.

A line has what it needs above and below its baseline. Which baselines, the row decides: the
first lines of its cells share one, and so do the second, until a text had to be broken.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple, assert_never

from paperwork.document import Align, Blank, Cell, Column, Item, Line, Ribbon, Tag, Tick, WriteIn
from paperwork.frozen import frozen
from paperwork.render.boxes import LINE_UM, Box, Frame, Room, Rule, TextBox
from paperwork.render.ribbons import RIBBON_UM, set_ribbon
from paperwork.render.text.faces import em_um
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics, drop_um, rise_um
from paperwork.render.text.setting import set_line

GUTTER_UM = 3_600
"""Kept free at the right of every cell."""

GAP_UM = 700
"""Between the ink of two lines of one cell; an accent on a capital may use it."""

FIRST_ACCENT_UM = 1_100
"""What an accent on the first line may take of the space above it."""

HATCH_UM = 3_000
INDENT_UM = 4_000
"""What a column for spares keeps for the hatched band; a bar's title begins at the same place."""

FRAME_PAD_UM = 1_800
FRAME_INSET_UM = 1_000
FRAME_STROKE_UM = LINE_UM

TAG_PAD_X_UM, TAG_PAD_Y_UM = 900, 800
JOINED = "  ·  "
"""Between two lines that share one."""

NO_ROOM = "000"
"""The form of the ruled blank in place of a number that has no room."""

WRITING_UM = 3_100
"""What a line to write on needs above it; with the gap and the line before, a pen has 4.5 mm (common practice, no
source)."""


TICK_UM = 6_000
"""A square that is ticked with a pen on a clipboard (common practice, no source)."""

TICK_AIR_UM = 400
"""Between a square and the rules of its row, so that they are not read as one figure."""


class PointLine(NamedTuple):
    """Where the decimal points of a column stand, and where three decimals end, from the left edge of the room."""

    at: int
    end: int


@frozen
class CellLine:
    """One line of a cell. `first` is the line that starts an item, the others continue a broken text."""

    item: Item
    text: str
    fitted: Fitted
    rise: int
    drop: int
    first: bool

    def width_um(self, metrics: Metrics) -> int:
        """How wide its text is."""
        return metrics.width_um(self.text, self.fitted.face, self.fitted.cap_um)


@frozen
class MeasuredCell:
    """A cell measured for its column. `left` and `width` are its text room relative to the column's left edge.

    `broken`: a text takes more than one line, so that what follows stands on its own baselines.
    """

    cell: Cell
    left: int
    width: int
    lines: tuple[CellLine, ...]
    beside: tuple[Fitted, ...]
    cuts: tuple[tuple[str, Fitted], ...]
    broken: bool


def measure_cell(cell: Cell, column: Column, column_um: int, metrics: Metrics) -> MeasuredCell:
    """The cell fitted into its column of the given width."""
    left, width = 0, column_um - GUTTER_UM
    if cell.frame:
        left, width = FRAME_PAD_UM, width - 2 * FRAME_PAD_UM
    elif column.spares:
        left, width = INDENT_UM, width - INDENT_UM
    beside = tuple(fit(small.text, small.style, width // 3, metrics) for small in cell.beside)
    if beside:
        width -= GAP_UM * 3 + max(b.width_um(metrics) for b in beside)
    lines: list[CellLine] = []
    cuts: list[tuple[str, Fitted]] = []
    for item in _join(cell.items, width, metrics) if cell.joined else cell.items:
        item = _shorten(item, width, metrics)
        fitted = fit(item.text, item.style, width - _extra_width(item), metrics)
        if fitted.outcome != "whole":
            cuts.append((item.text, fitted))
        if fitted.outcome == "too wide":
            item = Blank(NO_ROOM, item.style)
            fitted = fit(NO_ROOM, item.style, width, metrics)
        lines.extend(_lines_of(item, fitted, first=not lines))
    cuts.extend((small.text, b) for small, b in zip(cell.beside, beside, strict=True) if b.outcome != "whole")
    broken = any(not line.first for line in lines)
    return MeasuredCell(cell, left, width, tuple(lines), beside, tuple(cuts), broken)


def _shorten(item: Item, width: int, metrics: Metrics) -> Item:
    """The item by its short name, where its name would have to be broken or cut and the short one stands on a line."""
    if not isinstance(item, Line) or not item.short:
        return item
    name, short = (fit(text, item.style, width, metrics) for text in (item.text, item.short))
    gives_way = [len(one.lines) > 1 or one.outcome != "whole" for one in (name, short)]
    return replace(item, text=item.short) if gives_way == [True, False] else item


def _join(items: tuple[Item, ...], width: int, metrics: Metrics) -> Iterator[Item]:
    """The items, lines of one style that follow each other on one line as long as it holds them at their height."""
    last: Line | None = None
    for item in items:
        if last and isinstance(item, Line) and item.style == last.style:
            both = replace(last, text=f"{last.text}{JOINED}{item.text}")
            fitted = fit(both.text, both.style, width, metrics)
            if len(fitted.lines) == 1 and fitted.cap_um == both.style.wanted_um and fitted.outcome == "whole":
                last = both
                continue
        if last:
            yield last
        last = item if isinstance(item, Line) else None
        if last is None:
            yield item
    if last:
        yield last


def _extra_width(item: Item) -> int:
    """What an item takes of its cell's width beside its text."""
    match item:
        case Tag():
            return 2 * TAG_PAD_X_UM
        case Tick(style=style):
            return tick_side_um(style.wanted_um) + 2 * GAP_UM
        case WriteIn(text=text):
            return 12_000 if text else 0
        case Line() | Blank() | Ribbon():
            return 0
        case _:
            assert_never(item)


def tick_side_um(cap_um: int) -> int:
    """The side of a square to tick beside text of this height: half as tall again, never too small for a pen."""
    return max(TICK_UM, cap_um * 3 // 2)


def _lines_of(item: Item, fitted: Fitted, first: bool) -> list[CellLine]:
    lines = []
    for index, text in enumerate(fitted.lines):
        allowed = FIRST_ACCENT_UM if first and index == 0 else GAP_UM
        rise = max(fitted.cap_um, rise_um(text, fitted.face, fitted.cap_um) - allowed)
        drop = drop_um(text, fitted.face, fitted.cap_um)
        match item:
            case Tag():
                rise, drop = fitted.cap_um + TAG_PAD_Y_UM, max(TAG_PAD_Y_UM, drop + 200)
            case Tick():
                spare = (tick_side_um(item.style.wanted_um) - fitted.cap_um + 1) // 2
                rise, drop = max(rise, fitted.cap_um + spare), max(drop, spare)
            case WriteIn():
                rise, drop = max(rise, WRITING_UM), max(drop, 200)
            case Blank():
                rise, drop = fitted.cap_um, 600
            case Ribbon():
                rise, drop = RIBBON_UM, 0
            case Line(style=style):
                drop = max(drop, em_um(fitted.face, fitted.cap_um) * 120 // 1000) if style.breaks else drop
            case _:
                assert_never(item)
        lines.append(CellLine(item, text, fitted, rise, drop, first=index == 0))
    return lines


def set_cell_line(
    line: CellLine, bounds: Room, baseline: int, align: Align, point: PointLine, metrics: Metrics
) -> list[Box]:
    """The boxes of one line in its room, on its baseline."""
    match line.item:
        case Tag():
            return _set_tag(line, bounds, baseline, align, metrics)
        case Tick():
            return _set_tick(line, bounds, baseline, metrics)
        case WriteIn():
            return _set_write_in(line, bounds, baseline, metrics)
        case Blank():
            return _set_blank(line, _blank_start(line, bounds, align, point, metrics), baseline, metrics)
        case Ribbon():
            return set_ribbon(line.item, bounds, baseline, metrics)
        case Line():
            return [_set_text(line, bounds, baseline, align, point, metrics)]
        case _:
            assert_never(line.item)


def _set_text(line: CellLine, bounds: Room, baseline: int, align: Align, point: PointLine, metrics: Metrics) -> TextBox:
    """A number with its point in line, anything else at its side; all numbers of a column end with the longest."""
    start = _at_point(line, bounds, align, point, metrics)
    if start is not None:
        return set_line(line.text, line.fitted, bounds._replace(x=start), baseline, metrics)._replace(room=bounds)
    if align == "point" and point.end > line.width_um(metrics):
        bounds = bounds._replace(width=point.end)
    return set_line(line.text, line.fitted, bounds, baseline, metrics, side_of(align))


def side_of(align: Align) -> str:
    """Where a text stands that is not a number with a point."""
    return "right" if align == "point" else align


def _at_point(line: CellLine, room: Room, align: Align, point: PointLine, metrics: Metrics) -> int | None:
    """Where a number starts so that its point stands in line, None for what is no such number."""
    whole, dot, _ = line.text.partition(".")
    if align != "point" or not dot or not whole.isdigit() or not line.item.style.figures:
        return None
    x = room.x + point.at - metrics.width_um(whole, line.fitted.face, line.fitted.cap_um)
    return x if x >= room.x and x + line.width_um(metrics) <= room.right else None


def _blank_start(line: CellLine, room: Room, align: Align, point: PointLine, metrics: Metrics) -> int:
    start = _at_point(line, room, align, point, metrics)
    if start is not None:
        return start
    slack = room.width - line.width_um(metrics)
    return room.x + {"left": 0, "centre": slack // 2, "right": slack, "point": slack}[align]


def _set_tag(line: CellLine, room: Room, baseline: int, align: Align, metrics: Metrics) -> list[Box]:
    inner = Room(room.x + TAG_PAD_X_UM, room.y, room.width - 2 * TAG_PAD_X_UM, room.height)
    text = set_line(line.text, line.fitted, inner, baseline, metrics, side_of(align))
    height = line.fitted.cap_um + 2 * TAG_PAD_Y_UM
    box = Frame(
        text.x - TAG_PAD_X_UM, baseline - line.fitted.cap_um - TAG_PAD_Y_UM,
        text.ink.width + 2 * TAG_PAD_X_UM, height, LINE_UM, 700,
    )  # fmt: skip
    return [box, text]


def _set_tick(line: CellLine, room: Room, baseline: int, metrics: Metrics) -> list[Box]:
    side = tick_side_um(line.item.style.wanted_um)
    middle = baseline - line.fitted.cap_um // 2
    inner = Room(room.x + side + 2 * GAP_UM, room.y, room.width - side - 2 * GAP_UM, room.height)
    square = [Frame(room.x, middle - side // 2, side, side, LINE_UM)] if line.first else []
    return [*square, set_line(line.text, line.fitted, inner, baseline, metrics)] if line.text else [*square]


def _set_write_in(line: CellLine, room: Room, baseline: int, metrics: Metrics) -> list[Box]:
    boxes: list[Box] = []
    start = room.x
    if line.text:
        text = set_line(line.text, line.fitted, room, baseline, metrics)
        boxes.append(text)
        start = text.ink.right + 2 * GAP_UM
    boxes.append(Rule(start, baseline, room.right, baseline, LINE_UM))
    return boxes


def _set_blank(line: CellLine, x: int, baseline: int, metrics: Metrics) -> list[Box]:
    boxes: list[Box] = []
    face, cap = line.fitted.face, line.fitted.cap_um
    for index, sign in enumerate(line.text):
        left = x + metrics.width_um(line.text[:index], face, cap)
        right = x + metrics.width_um(line.text[: index + 1], face, cap)
        if sign == "0":
            inset = (right - left) // 10
            boxes.append(Rule(left + inset, baseline + 300, right - inset, baseline + 300, LINE_UM))
        else:
            room = Room(left, baseline - cap - 600, right - left + 20, cap + 1_200)
            boxes.append(set_line(sign, line.fitted, room, baseline, metrics))
    return boxes
