"""Rack strips: one a unit at the width of its opening, in pieces that fit the page, with cut marks."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise
from typing import TypeAlias

from paperwork.document import Item, Slot, Strips, UnitStrip
from paperwork.finding import Finding
from paperwork.render.boxes import Box, Fill, Hatch, Room, Rule
from paperwork.render.fit import Fitted, fit, set_line, set_turned
from paperwork.render.fonts import Metrics
from paperwork.render.stacks import measure_stack, set_stack
from paperwork.render.strips import Context, Run, Strip, cut_finding, cut_findings
from paperwork.sheetfacts import strip_code
from paperwork.styles import CARD_CODE, SMALL_STRONG, Style

TITLE_UM = 6_400
"""Over a strip that leaves no room beside it for its title, and over the strips of a group."""

MARK_UM, MARK_GAP_UM = 4_000, 800
"""A cut mark stands outside the strip and keeps clear of the knife's line."""

BESIDE_UM = 23_000
"""The least width in which a title stands beside its strip."""

FOOT_UM = 2_500
"""Under the last strip of a group."""

PAD_UM, KEY_GAP_UM = 2_200, 3_400
SMALL_GAP_UM, NAME_GAP_UM, NAME_UM = 2_200, 1_700, 6_400
BAR_GAP_UM, BAR_THICK_UM = 900, 1_000
SIGNS_UM = 4_600
"""What revision and code take at the right end, set upwards."""

KEY_SHARE = 42
"""Percent of a slot's width that its number may take."""

Cut: TypeAlias = tuple[Item, Fitted]
"""What was abbreviated, and to what."""

Form: TypeAlias = Callable[[Slot, Room, Metrics], tuple[list[Box], list[Cut]]]
"""How a slot is set into its room."""

TITLE = replace(SMALL_STRONG, lines=5, paragraph=True)


def lay_unit_strips(block: Strips, context: Context) -> tuple[list[Run], list[Finding]]:
    """A run for each group: a strip of boxes for each piece of a unit's strip, without a gap between them."""
    runs: list[Run] = []
    findings: list[Finding] = []
    for group, units in groupby((unit for unit in block.strips if unit.slots), key=lambda unit: unit.group):
        strips, cuts = _lay_group(tuple(units), block, context)
        strips[-1] = replace(strips[-1], height=strips[-1].height + FOOT_UM)
        head = _head(group, context)
        findings += cuts + cut_findings([(group, SMALL_STRONG, _room(context))], context)
        runs.append(Run(tuple(strips), bar=head, again=head))
    return runs, findings


def _lay_group(units: Sequence[UnitStrip], block: Strips, context: Context) -> tuple[list[Strip], list[Finding]]:
    """The strips of one group in one form: number and name side by side, or the name below where that cuts fewer of them."""
    strips, cuts = _lay_units(units, block, _set_beside, context)
    if cuts:
        lower, fewer = _lay_units(units, block, _set_below, context)
        strips, cuts = (lower, fewer) if len(fewer) < len(cuts) else (strips, cuts)
    return strips, cuts


def _lay_units(
    units: Sequence[UnitStrip], block: Strips, form: Form, context: Context
) -> tuple[list[Strip], list[Finding]]:
    strips: list[Strip] = []
    findings: list[Finding] = []
    for unit in units:
        wide = min(block.width_um // len(unit.slots), _room(context))
        pieces = pieces_of(unit.slots, wide, _room(context))
        for number, slots in enumerate(pieces, 1):
            title = unit.title
            if len(pieces) > 1:
                title = context.words.piece.format(title=title, n=number, m=len(pieces))
            strip, cuts = _piece(title, slots, (wide, block.height_um), form, context)
            strips.append(strip)
            findings += cuts
    return strips, findings


def _head(group: str, context: Context) -> Strip:
    """The name of a group over its strips."""
    if not group:
        return Strip(FOOT_UM)
    fitted = fit(group, SMALL_STRONG, _room(context), context.metrics)
    room = Room(MARK_UM, 0, _room(context), TITLE_UM)
    return Strip(TITLE_UM, (set_line(fitted.lines[0], fitted, room, TITLE_UM - 1_800, context.metrics),), bar=True)


def _room(context: Context) -> int:
    return context.width - 2 * MARK_UM


def pieces_of(slots: Sequence[Slot], wide: int, room: int) -> list[tuple[Slot, ...]]:
    """The slots in as few pieces as fit the room, as even as can be."""
    count = max(1, -(-len(slots) // max(1, room // wide)))
    edges = [len(slots) * number // count for number in range(count + 1)]
    return [tuple(slots[one:two]) for one, two in pairwise(edges)]


def _piece(
    title: str, slots: Sequence[Slot], size: tuple[int, int], form: Form, context: Context
) -> tuple[Strip, list[Finding]]:
    metrics = context.metrics
    wide, high = size
    length = wide * len(slots)
    boxes, top, findings = _title(title, length, high, context)
    boxes += _cut_marks(MARK_UM, top, length, high)
    for index, slot in enumerate(slots):
        area = Room(MARK_UM + index * wide, top, wide, high)
        if index:
            boxes.append(Rule(area.x, top, area.x, top + high, 350))
        last = index == len(slots) - 1
        inked, cuts = _slot(slot, area._replace(width=wide - SIGNS_UM) if last else area, form, context)
        boxes += inked
        findings += cuts
    signs = fit(f"{context.revision}  {strip_code(slots)}".strip(), CARD_CODE, high - 3_600, metrics)
    edge = Room(MARK_UM + length - SIGNS_UM, top, SIGNS_UM, high)
    boxes.append(set_turned(signs.lines[0], signs, edge.right - 1_300, top + high - 1_800, edge, metrics))
    return Strip(top + high, tuple(boxes)), findings


def _title(title: str, length: int, high: int, context: Context) -> tuple[list[Box], int, list[Finding]]:
    """The title beside the strip if there is room, else over it; where the strip begins; what had to be cut."""
    start = MARK_UM + length + MARK_UM + 1_500
    beside = context.width - start >= BESIDE_UM
    room = Room(start, 0, context.width - start, high) if beside else Room(MARK_UM, 0, _room(context), TITLE_UM)
    style = TITLE if beside else SMALL_STRONG
    fitted = fit(title, style, room.width, context.metrics)
    first = (high - (len(fitted.lines) - 1) * fitted.pitch_um + fitted.cap_um) // 2 if beside else TITLE_UM - 1_800
    boxes: list[Box] = [
        set_line(line, fitted, room, first + index * fitted.pitch_um, context.metrics)
        for index, line in enumerate(fitted.lines)
    ]
    return boxes, 0 if beside else TITLE_UM, cut_findings([(title, style, room.width)], context)


def _cut_marks(x: int, y: int, width: int, height: int) -> Iterator[Box]:
    """A short line at each corner, outside the strip, and a faint line to cut along at each edge."""
    for edge in (y, y + height):
        yield Rule(x - MARK_GAP_UM, edge, x - MARK_UM, edge, 150)
        yield Rule(x + width + MARK_GAP_UM, edge, x + width + MARK_UM, edge, 150)
        yield Rule(x, edge, x + width, edge, 120, dotted=True)
    for edge in (x, x + width):
        yield Rule(edge, y, edge, y + height, 130, dotted=True)


def _slot(slot: Slot, area: Room, form: Form, context: Context) -> tuple[list[Box], list[Finding]]:
    """A slot's boxes, hatched at the right where nobody plays on it, and what had to be cut."""
    boxes: list[Box] = []
    inner = area._replace(x=area.x + PAD_UM, width=area.width - 2 * PAD_UM)
    if slot.hatch:
        boxes.append(Hatch(area.right - 4_200, area.y + 900, 3_200, area.height - 1_800, 900, 300))
        inner = inner._replace(width=inner.width - 3_400)
    inked, cuts = form(slot, inner, context.metrics)
    return boxes + inked, [cut_finding(item, fitted, slot.where, slot.subjects, context.sheet) for item, fitted in cuts]


def _set_beside(slot: Slot, inner: Room, metrics: Metrics) -> tuple[list[Box], list[Cut]]:
    """The number at the left over its bar, the big lines and the small ones beside it, in the middle."""
    key = fit(slot.key.text, slot.key.style, inner.width * KEY_SHARE // 100, metrics)
    foot = inner.y + (inner.height + key.cap_um - BAR_GAP_UM - BAR_THICK_UM) // 2
    boxes, width, cuts = _set_key(slot.key, key, inner, foot, metrics)
    beside = inner._replace(x=inner.x + width + KEY_GAP_UM, width=inner.width - width - KEY_GAP_UM)
    stack = measure_stack((*slot.lines, *slot.small), beside.width, 900, metrics)
    boxes += set_stack(stack, beside._replace(y=inner.y + (inner.height - stack.height) // 2), metrics)
    return boxes, [*cuts, *stack.cuts]


def _set_below(slot: Slot, inner: Room, metrics: Metrics) -> tuple[list[Box], list[Cut]]:
    """The number at its floor with the small lines beside it, and under both the big lines across the whole slot."""
    style = slot.key.style
    key = fit(slot.key.text, replace(style, wanted_um=style.floor_um), inner.width * KEY_SHARE // 100, metrics)
    lines = [replace(line, style=_lower(line.style)) for line in slot.lines]
    name = measure_stack(lines, inner.width, 900, metrics)
    high = key.cap_um + BAR_GAP_UM + BAR_THICK_UM
    top = inner.y + max(0, inner.height - high - NAME_GAP_UM * bool(lines) - name.height) // 2
    boxes, width, cuts = _set_key(slot.key, key, inner, top + key.cap_um, metrics)
    beside = inner._replace(x=inner.x + width + SMALL_GAP_UM, width=inner.width - width - SMALL_GAP_UM)
    small = measure_stack(slot.small, beside.width, 700, metrics)
    boxes += set_stack(small, beside._replace(y=top + max(0, high - small.height)), metrics)
    boxes += set_stack(name, inner._replace(y=top + high + NAME_GAP_UM), metrics)
    return boxes, [*cuts, *small.cuts, *name.cuts]


def _lower(style: Style) -> Style:
    """One line, low enough to stand under a number."""
    return replace(style, lines=1, wanted_um=min(style.wanted_um, max(style.floor_um, NAME_UM)))


def _set_key(item: Item, key: Fitted, inner: Room, foot: int, metrics: Metrics) -> tuple[list[Box], int, list[Cut]]:
    """The number and the bar under it, or a line to write it on; how wide it is; what had to be cut."""
    if key.outcome != "whole":
        width = inner.width * KEY_SHARE // 100
        return [Rule(inner.x, foot, inner.x + width, foot, 450)], width, [(item, key)]
    width = metrics.width_um(key.lines[0], key.face, key.cap_um)
    number = set_line(key.lines[0], key, inner._replace(width=width + 10), foot, metrics)
    return [number, Fill(inner.x, foot + BAR_GAP_UM, width, BAR_THICK_UM)], width, []
