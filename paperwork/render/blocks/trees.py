"""A tree as one slice: boxes in columns from left to right, and cables between them that never run through a box."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from paperwork.document import Tree, TreeLink, TreeNode
from paperwork.document.facts import tree_facts
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.blocks.stacks import Stack, measure_stack, set_stack
from paperwork.render.boxes import HEAVY_UM, LINE_UM, Box, Frame, Open, Room, Rule, wrap

GAP_UM = 30_000
"""Between two columns: lanes in which cables turn, and room for a length over each."""

LANE_UM, LABEL_UM = 1_800, 19_000
PAD_UM, ROW_GAP_UM, LINE_GAP_UM, PORT_UM = 1_600, 3_000, 700, 5_600
SWEEPS = 4
"""How often the boxes are drawn towards what they are joined to, from either side. Choice of this project."""


@dataclass(slots=True)
class _Spot:
    """A box in its column, or the place where a long cable passes through one."""

    column: int
    stack: Stack | None = None
    node: TreeNode | None = None
    height: int = 1_000
    top: int = 0
    before: list["_Spot"] = field(default_factory=list)
    after: list["_Spot"] = field(default_factory=list)

    @property
    def middle(self) -> int:
        return self.top + self.height // 2


def lay_tree(tree: Tree, context: Context) -> list[Series]:
    """The whole tree as one slice."""
    count = max((node.column for node in tree.nodes), default=0) + 1
    width = (context.width - GAP_UM * (count - 1)) // count
    spots = [_measure(node, width, context) for node in tree.nodes]
    ways = [_find_way(spots[link.start], spots[link.end]) for link in tree.links]
    every = list(dict.fromkeys([*map(id, spots), *(id(spot) for way in ways for spot in way)]))
    by_id = {id(spot): spot for spot in [*spots, *(spot for way in ways for spot in way)]}
    _settle([by_id[one] for one in every], count)
    boxes = [box for spot in spots for box in _set_node(spot, width, context)]
    boxes += _set_cables(tree.links, ways, width, context)
    height = max((spot.top + spot.height for spot in by_id.values()), default=0) + ROW_GAP_UM
    boxes = wrap(Open("Figure", alt=_say(tree)), boxes)
    subjects = tuple(subject for node in tree.nodes for subject in node.subjects)
    return [Series((Slice(height, tuple(boxes), facts=tuple(tree_facts(tree)), subjects=subjects),))]


def _say(tree: Tree) -> str:
    """The cables for whoever has them read out, each from box to box."""
    names = [node.title.text for node in tree.nodes]
    said = (
        f"{names[one.start]} \u2192 {names[one.end]}{f' ({one.text.text})' if one.text else ''}" for one in tree.links
    )
    return "; ".join(said) or ", ".join(names)


def _measure(node: TreeNode, width: int, context: Context) -> _Spot:
    stack = measure_stack((node.title, *node.lines), width - 2 * PAD_UM, LINE_GAP_UM, context.metrics)
    return _Spot(node.column, stack, node, stack.height + 2 * PAD_UM)


def _find_way(start: _Spot, end: _Spot) -> list[_Spot]:
    """From a box to another, with a spot of its own in each column between; and the two know each other then."""
    way = [start, *(_Spot(column) for column in range(start.column + 1, end.column)), end]
    for one, two in pairwise(way):
        one.after.append(two)
        two.before.append(one)
    return way


def _settle(spots: Sequence[_Spot], count: int) -> None:
    """Tops: each column in order, drawn towards the middle of what it is joined to."""
    columns = [[spot for spot in spots if spot.column == column] for column in range(count)]
    for spot in spots:
        spot.height = max(spot.height, PORT_UM * max(len(spot.before), len(spot.after)))
    for column in columns:
        _stack(column, [0] * len(column))
    for sweep in range(SWEEPS):
        forward = sweep % 2 == 0
        for column in columns if forward else reversed(columns):
            wanted = [_middle_of(spot, spot.before if forward else spot.after) for spot in column]
            order = sorted(range(len(column)), key=lambda at: (wanted[at], at))
            column[:] = [column[at] for at in order]
            _stack(column, [wanted[at] - column[place].height // 2 for place, at in enumerate(order)])
    least = min((spot.top for spot in spots), default=0)
    for spot in spots:
        spot.top += HEAVY_UM - least


def _middle_of(spot: _Spot, joined: list[_Spot]) -> int:
    return sum(one.middle for one in joined) // len(joined) if joined else spot.middle


def _stack(column: list[_Spot], tops: list[int]) -> None:
    """Each at its top, or below the one before it."""
    free = min(tops, default=0)
    for spot, top in zip(column, tops, strict=True):
        spot.top = max(top, free)
        free = spot.top + spot.height + ROW_GAP_UM


def _set_node(spot: _Spot, width: int, context: Context) -> Iterator[Box]:
    if spot.node is None or spot.stack is None:
        return
    left = spot.column * (width + GAP_UM)
    yield Frame(left, spot.top, width, spot.height, HEAVY_UM if spot.node.heavy else LINE_UM)
    top = spot.top + (spot.height - spot.stack.height) // 2
    room = Room(left + PAD_UM, top, width - 2 * PAD_UM, spot.stack.height)
    yield from set_stack(spot.stack, room, context.setter.of(spot.node))


def _set_cables(links: Sequence[TreeLink], ways: Sequence[list[_Spot]], width: int, context: Context) -> Iterator[Box]:
    """Each cable from port to port, in a lane of its own in every gap; what it is stands over its end."""
    lanes: dict[int, int] = {}
    for link, way in sorted(zip(links, ways, strict=True), key=lambda pair: (pair[1][0].middle, pair[1][-1].middle)):
        for one, two in pairwise(way):
            y1, y2 = _port(one, two, one.after), _port(two, one, two.before)
            start, end = one.column * (width + GAP_UM) + width, two.column * (width + GAP_UM)
            lanes[one.column] = lane = lanes.get(one.column, 0) + 1
            turn = start + 1_500 + (lane * LANE_UM) % (GAP_UM - LABEL_UM - 2_000)
            passing = width if two.node is None else 0
            yield from _bend(start, y1, turn, end + passing, y2)
        if link.text:
            room = Room(end - LABEL_UM, 0, LABEL_UM - 1_200, y2)
            yield context.setter.set(link.text.text, link.text.style, room, y2 - 900, "right")


def _bend(start: int, y1: int, turn: int, end: int, y2: int) -> Iterator[Box]:
    if y1 == y2:
        yield Rule(start, y1, end, y2, LINE_UM)
        return
    yield Rule(start, y1, turn, y1, LINE_UM)
    yield Rule(turn, min(y1, y2), turn, max(y1, y2), LINE_UM)
    yield Rule(turn, y2, end, y2, LINE_UM)


def _port(spot: _Spot, other: _Spot, joined: list[_Spot]) -> int:
    """Where a cable leaves or enters: one place for each, in the order of the other ends."""
    order = sorted(range(len(joined)), key=lambda at: (joined[at].middle, at))
    place = next(number for number, at in enumerate(order) if joined[at] is other)
    return spot.top + spot.height * (place + 1) // (len(joined) + 1)
