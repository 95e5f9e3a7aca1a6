"""How a plot is divided over the width of a page: by act, then within one, never below the width that a bar needs; and
the heads of its rows, which are the same in each part."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from paperwork.document import Act, Bar, Plot, PlotRow, PlotScene
from paperwork.document.styles import PLOT_BAR, PLOT_KEY, step_under
from paperwork.frozen import frozen
from paperwork.render.blocks.stacks import Stack, measure_stack, set_stack
from paperwork.render.boxes import LINE_UM, Box, Hatch, Room
from paperwork.render.text.faces import FACES
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

HEAD_UM, KEY_UM = 52_000, 16_000
"""What the head of a row takes, and what a number before it adds."""

COLUMN_FLOOR_UM, COLUMN_MOST_UM = 8_000, 30_000
ACT_GAP_UM = 3_000
INSET_UM = 450
"""From a column's edge to a bar in it."""

TAB_PAD_UM = 700
CAP_UM = 1_700

STACK_PAD_UM = 500
HATCH_UM, HATCH_GAP_UM = 2_600, 1_000
KEY_GAP_UM = HEAD_GAP_UM = 2_500
"""Behind a head, and between a name and the roles beside it."""


@frozen
class PlotPart:
    """Some columns on one page: where each scene stands, by its place in the show, and where each act does."""

    first: int
    scenes: tuple[PlotScene, ...]
    lefts: tuple[int, ...]
    pitch: int
    acts: tuple[tuple[str, int, int], ...]
    right: int

    @property
    def last(self) -> int:
        """The place of the last scene."""
        return self.first + len(self.scenes) - 1


@frozen
class BarPiece:
    """What a part shows of a bar in one act, and of which columns it is."""

    bar: Bar
    first: int
    last: int
    x: int
    width: int
    put_on: bool
    taken_off: bool


def head_width(plot: Plot) -> int:
    """What the heads of rows take of the page."""
    return HEAD_UM + (KEY_UM if any(row.key for row in plot.rows) else 0)


def bar_text(bar: Bar) -> str:
    """What stands in a bar: its number, and that of a second pack behind it."""
    return f"{bar.text}+{bar.second}" if bar.second else bar.text


def column_floor(plot: Plot, metrics: Metrics) -> int:
    """The least width of a column: the widest number in its tab, with the cap behind it."""
    widest = max((metrics.width_um(text, "figures-bold", PLOT_BAR.floor_um) for text in _texts(plot, False)), default=0)
    return max(COLUMN_FLOOR_UM, widest + 2 * TAB_PAD_UM + CAP_UM + 2 * INSET_UM)


def has_room_for_both(plot: Plot, pitch: int, metrics: Metrics) -> bool:
    """Whether the number of a second pack fits one column beside the first."""
    widest = max((metrics.width_um(text, "figures-bold", PLOT_BAR.floor_um) for text in _texts(plot, True)), default=0)
    return widest <= _room_for_number(pitch)


def bar_height_of(plot: Plot, pitch: int, both: bool, metrics: Metrics) -> int:
    """The capital height at which every number of the plot fits one column, with that of a second pack where `both`."""
    widest = max((metrics.units(text, "figures-bold") for text in _texts(plot, both)), default=0)
    most = _room_for_number(pitch) * FACES["figures-bold"].cap // widest if widest else PLOT_BAR.wanted_um
    return max(PLOT_BAR.floor_um, step_under(min(PLOT_BAR.wanted_um, most)))


def _room_for_number(pitch: int) -> int:
    return pitch - 2 * TAB_PAD_UM - CAP_UM - 2 * INSET_UM


def _texts(plot: Plot, both: bool) -> set[str]:
    bars = [bar for row in plot.rows for lane in row.lanes for bar in lane.bars]
    return {bar_text(bar) for bar in bars} if both else {text for bar in bars for text in (bar.text, bar.second)}


def divide(plot: Plot, width: int, metrics: Metrics) -> tuple[PlotPart, ...]:
    """The parts of a plot on pages of a width: whole acts together where they fit, a wider act in even pieces."""
    room, floor = width - head_width(plot), column_floor(plot, metrics)
    pages: list[list[Act]] = []
    for act in plot.acts:
        pieces = max(1, min(len(act.scenes), -(-len(act.scenes) * floor // room)))  # none without a scene
        for number in range(pieces):
            first, last = (len(act.scenes) * i // pieces for i in (number, number + 1))
            piece = Act(act.title, act.scenes[first:last])
            if pieces == 1 and pages and _needs([*pages[-1], piece], floor) <= room:
                pages[-1].append(piece)
            else:
                pages.append([piece])
    parts, first = [], 0
    for acts in pages:
        parts.append(_place(acts, first, room, head_width(plot)))
        first = parts[-1].last + 1
    return tuple(parts)


def _needs(acts: list[Act], floor: int) -> int:
    return sum(len(act.scenes) for act in acts) * floor + (len(acts) - 1) * ACT_GAP_UM


def _place(acts: list[Act], first: int, room: int, left: int) -> PlotPart:
    count = sum(len(act.scenes) for act in acts)
    pitch = min(COLUMN_MOST_UM, (room - ACT_GAP_UM * (len(acts) - 1)) // max(1, count))
    lefts: list[int] = []
    bars: list[tuple[str, int, int]] = []
    x = left
    for act in acts:
        bars.append((act.title, x, pitch * len(act.scenes)))
        for _ in act.scenes:
            lefts.append(x)
            x += pitch
        x += ACT_GAP_UM
    scenes = tuple(scene for act in acts for scene in act.scenes)
    return PlotPart(first, scenes, tuple(lefts), pitch, tuple(bars), x - ACT_GAP_UM)


def pieces_of_bar(bar: Bar, part: PlotPart) -> list[BarPiece]:
    """The pieces of a bar that a part shows, one an act, from the left."""
    found: list[BarPiece] = []
    for first, last in _spans(bar.first, bar.last, part):
        x = part.lefts[first - part.first] + INSET_UM
        width = part.lefts[last - part.first] + part.pitch - INSET_UM - x
        found.append(
            BarPiece(bar, first, last, x, width, bar.put_on and first == bar.first, bar.taken_off and last == bar.last)
        )
    return found


def stretches_of(first: int, last: int, part: PlotPart) -> list[tuple[int, int]]:
    """From where to where a line over these columns runs in a part: from the bar before it to the bar behind it."""
    if last < part.first - 1 or first > part.last + 1:
        return []
    one, two = max(first - 1, part.first) - part.first, min(last + 1, part.last) - part.first
    start = part.lefts[one] + part.pitch - INSET_UM if first > part.first else part.lefts[0]
    end = part.lefts[two] + INSET_UM if last < part.last else part.right
    return [(start, end)] if start < end else []


def _spans(first: int, last: int, part: PlotPart) -> list[tuple[int, int]]:
    """The columns that are in the part, cut where an act ends."""
    spans: list[list[int]] = []
    for place in range(max(first, part.first), min(last, part.last) + 1):
        x = part.lefts[place - part.first]
        if spans and part.lefts[place - 1 - part.first] + part.pitch == x:
            spans[-1][1] = place
        else:
            spans.append([place, place])
    return [(one, two) for one, two in spans]


# The head of a row: a number, the name, and the roles beside it or under it.


class PlotHead(NamedTuple):
    """Name and roles on one line, or stacked, and from where to where."""

    left: int
    right: int
    line: tuple[Fitted, Fitted] | None
    stack: Stack
    height: int


def measure_head(row: PlotRow, width: int, keyed: bool, metrics: Metrics) -> PlotHead:
    """The head of a row in the width of all heads, the same in each part."""
    left, right = KEY_UM if keyed else 0, width - HEAD_GAP_UM
    room = right - left
    stack = measure_stack([row.title, *([row.under] if row.under else [])], room, 700, metrics)
    if row.under:
        pair = (
            fit(row.title.text, row.title.style, room, metrics),
            fit(row.under.text, row.under.style, room, metrics),
        )
        one, two = (f.width_um(metrics) for f in pair)
        as_wanted = pair[0].cap_um == row.title.style.wanted_um and pair[1].cap_um == row.under.style.wanted_um
        if as_wanted and len(pair[0].lines) == len(pair[1].lines) == 1 and one + HEAD_GAP_UM + two <= room:
            return PlotHead(left, right, pair, stack, pair[0].rise_um + _drop(pair))
    return PlotHead(left, right, None, stack, stack.height + 2 * STACK_PAD_UM)


def _drop(pair: Iterable[Fitted]) -> int:
    return max(fitted.drop_um for fitted in pair)


def record_head(row: PlotRow, head: PlotHead, setter: Typesetter) -> None:
    """Keeps what of it had to give way."""
    if row.key:
        setter.fit(row.key.text, PLOT_KEY, KEY_UM - KEY_GAP_UM)
    for text, fitted in () if head.line else head.stack.cuts:
        setter.record(text, fitted)


def set_head(row: PlotRow, head: PlotHead, height: int, setter: Typesetter) -> Iterator[Box]:
    """Its boxes in the middle of the height of its row, a spare's hatching left of them."""
    if row.hatch:
        yield Hatch(-HATCH_GAP_UM - HATCH_UM, 700, HATCH_UM, height - 1_400, 900, LINE_UM)
    if row.key:
        yield setter.set(row.key.text, PLOT_KEY, Room(0, 0, KEY_UM - KEY_GAP_UM, height))
    left, right = head.left, head.right
    if head.line is None:
        top = (height - head.stack.height) // 2
        yield from set_stack(head.stack, Room(left, top, right - left, height - top), setter)
        return
    title, under = head.line
    width = title.width_um(setter.metrics)
    base = min((height + title.cap_um) // 2, height - _drop(head.line) - 100)
    base = max(base, title.rise_um + 100)
    yield setter.line(title, Room(left, 0, width + 100, height), base)
    start = left + width + 100
    yield setter.line(under, Room(start, 0, right - start, height), base, "right")
