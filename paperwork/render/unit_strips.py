"""Rack strips: one a unit at the width of its opening, in pieces that fit the page, with cut marks."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from paperwork.document import Slot, Strips
from paperwork.finding import Finding
from paperwork.render.boxes import Box, Fill, Hatch, Room, Rule
from paperwork.render.fit import fit, set_line, set_turned
from paperwork.render.stacks import measure_stack, set_stack
from paperwork.render.strips import Context, Run, Strip, cut_finding, cut_findings
from paperwork.sheetfacts import strip_code
from paperwork.styles import CARD_CODE, SMALL_STRONG

TITLE_UM = 7_000
MARK_UM, MARK_GAP_UM = 4_000, 800
"""A cut mark stands outside the strip and keeps clear of the knife's line."""

PAD_UM, KEY_GAP_UM = 2_200, 3_400
SIGNS_UM = 4_600
"""What revision and code take at the right end, set upwards."""

KEY_SHARE = 42
"""Percent of a slot's width that its number may take."""


def lay_unit_strips(block: Strips, context: Context) -> tuple[list[Run], list[Finding]]:
    """One strip of boxes for each piece of a unit's strip, its title above the cut."""
    strips: list[Strip] = []
    findings: list[Finding] = []
    for unit in block.strips:
        if not unit.slots:
            continue
        wide = block.width_um // len(unit.slots)
        pieces = pieces_of(unit.slots, min(wide, _room(context)), _room(context))
        for number, slots in enumerate(pieces, 1):
            title = unit.title
            if len(pieces) > 1:
                title = context.words.piece.format(title=title, n=number, m=len(pieces))
            boxes, cuts = _piece(title, slots, min(wide, _room(context)), block.height_um, context)
            strips.append(Strip(TITLE_UM + block.height_um + MARK_UM, tuple(boxes)))
            findings += cuts
    return [Run(tuple(strips))], findings


def _room(context: Context) -> int:
    return context.width - 2 * MARK_UM


def pieces_of(slots: Sequence[Slot], wide: int, room: int) -> list[tuple[Slot, ...]]:
    """The slots in as few pieces as fit the room, as even as can be."""
    count = max(1, -(-len(slots) // max(1, room // wide)))
    edges = [len(slots) * number // count for number in range(count + 1)]
    return [tuple(slots[one:two]) for one, two in pairwise(edges)]


def _piece(title: str, slots: Sequence[Slot], wide: int, high: int, context: Context) -> tuple[list[Box], list[Finding]]:
    metrics = context.metrics
    room = Room(MARK_UM, 0, _room(context), TITLE_UM)
    fitted = fit(title, SMALL_STRONG, room.width, metrics)
    boxes: list[Box] = [set_line(fitted.lines[0], fitted, room, TITLE_UM - 2_000, metrics)]
    findings = cut_findings([(title, SMALL_STRONG, room.width)], context)
    top = TITLE_UM + MARK_UM // 2
    boxes += _cut_marks(MARK_UM, top, wide * len(slots), high)
    for index, slot in enumerate(slots):
        area = Room(MARK_UM + index * wide, top, wide, high)
        if index:
            boxes.append(Rule(area.x, top, area.x, top + high, 350))
        last = index == len(slots) - 1
        inked, cuts = _slot(slot, area._replace(width=wide - SIGNS_UM) if last else area, context)
        boxes += inked
        findings += cuts
    signs = fit(f"{context.revision}  {strip_code(slots)}".strip(), CARD_CODE, high - 3_600, metrics)
    edge = Room(MARK_UM + wide * len(slots) - SIGNS_UM, top, SIGNS_UM, high)
    boxes.append(set_turned(signs.lines[0], signs, edge.right - 1_300, top + high - 1_800, edge, metrics))
    return boxes, findings


def _cut_marks(x: int, y: int, width: int, height: int) -> Iterator[Box]:
    """Two short lines at each corner, outside it, and a faint line to cut along."""
    for edge in (x, x + width):
        yield Rule(edge, y - MARK_GAP_UM, edge, y - MARK_UM // 2, 150)
        yield Rule(edge, y + height + MARK_GAP_UM, edge, y + height + MARK_UM // 2, 150)
    for edge in (y, y + height):
        yield Rule(x - MARK_GAP_UM, edge, x - MARK_UM, edge, 150)
        yield Rule(x + width + MARK_GAP_UM, edge, x + width + MARK_UM, edge, 150)
        yield Rule(x, edge, x + width, edge, 120, dotted=True)


def _slot(slot: Slot, area: Room, context: Context) -> tuple[list[Box], list[Finding]]:
    """The number at the left over its bar, the big lines and the small ones beside it, in the middle."""
    metrics = context.metrics
    boxes: list[Box] = []
    inner = area._replace(x=area.x + PAD_UM, width=area.width - 2 * PAD_UM)
    if slot.hatch:
        boxes.append(Hatch(area.right - 4_200, area.y + 900, 3_200, area.height - 1_800, 900, 300))
        inner = inner._replace(width=inner.width - 3_400)
    key = fit(slot.key.text, slot.key.style, inner.width * KEY_SHARE // 100, metrics)
    cuts = [(slot.key, key)] if key.outcome != "whole" else []
    width = metrics.width_um(key.lines[0], key.face, key.cap_um)
    gap, thick = 900, 1_000
    foot = area.y + (area.height + key.cap_um - gap - thick) // 2
    if key.outcome == "whole":
        boxes.append(set_line(key.lines[0], key, inner._replace(width=width + 10), foot, metrics))
        boxes.append(Fill(inner.x, foot + gap, width, thick))
    else:
        width = inner.width * KEY_SHARE // 100
        boxes.append(Rule(inner.x, foot, inner.x + width, foot, 450))
    beside = inner._replace(x=inner.x + width + KEY_GAP_UM, width=inner.width - width - KEY_GAP_UM)
    stack = measure_stack((*slot.lines, *slot.small), beside.width, 900, metrics)
    boxes += set_stack(stack, beside._replace(y=area.y + (area.height - stack.height) // 2), metrics)
    cuts += stack.cuts
    return boxes, [cut_finding(item, fitted, slot.where, slot.subjects, context.sheet) for item, fitted in cuts]
