"""Rack strips: one a unit at the width of its opening, in pieces that fit the page, with cut marks."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise
from typing import TypeAlias

from paperwork.document import CardSlot, Strips, UnitStrip
from paperwork.document.facts import slot_facts, strip_code
from paperwork.document.styles import CARD_CODE, SMALL_STRONG, Style
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.blocks.stacks import measure_stack, set_stack
from paperwork.render.boxes import HAIR_UM, LINE_UM, Box, Fill, Hatch, Room, Rule
from paperwork.render.stamp import DOUBTED
from paperwork.render.text.fitting import Fitted
from paperwork.render.text.setting import Typesetter, set_turned

TITLE_UM = 6_400
"""Over a strip that leaves no room beside it for its title, and over the strips of a group."""

MARK_UM, MARK_GAP_UM = 4_000, 800
"""A cut mark stands outside the strip and keeps clear of the knife's line."""

BESIDE_UM = 23_000
"""The least width in which a title stands beside its strip."""

FOOT_UM = 2_500
"""Under the last strip of a group."""

PAD_UM, KEY_GAP_UM = 2_200, 3_400
SMALL_GAP_UM, NAME_GAP_UM, NAME_UM = 2_200, 1_700, 6_000
BAR_GAP_UM, BAR_THICK_UM = 900, 1_000
SIGNS_UM = 4_600
"""What revision and code take at the right end, set upwards."""

KEY_SHARE = 42
"""Percent of a slot's width that its number may take."""

Form: TypeAlias = Callable[[CardSlot, Room, Typesetter], list[Box]]
"""How a slot is set into its room."""

TITLE = replace(SMALL_STRONG, lines=5, paragraph=True)


def lay_strips(block: Strips, context: Context) -> list[Series]:
    """A series for each group: a slice of boxes for each piece of a unit's strip, without a gap between them."""
    found: list[Series] = []
    for group, units in groupby((unit for unit in block.strips if unit.slots), key=lambda unit: unit.group):
        slices = _lay_group(tuple(units), block, context)
        slices[-1] = replace(slices[-1], height=slices[-1].height + FOOT_UM)
        head = _head(group, context)
        found.append(Series(tuple(slices), bar=head, again=head))
    return found


def _lay_group(units: Sequence[UnitStrip], block: Strips, context: Context) -> list[Slice]:
    """The strips of one group in one form: number and name side by side, or the name below where that cuts fewer of them."""
    tried = []
    for form in (_set_beside, _set_below):
        setter = Typesetter(context.metrics, context.setter.sheet)
        tried.append((_lay_units(units, block, form, replace(context, setter=setter)), setter.findings))
        if not setter.findings:
            break
    slices, findings = min(tried, key=lambda one: len(one[1]))
    context.setter.findings.extend(findings)
    return slices


def _lay_units(units: Sequence[UnitStrip], block: Strips, form: Form, context: Context) -> list[Slice]:
    slices: list[Slice] = []
    for unit in units:
        wide = min(block.width_um // len(unit.slots), _room(context))
        pieces = pieces_of(unit.slots, wide, _room(context))
        for number, slots in enumerate(pieces, 1):
            title = unit.title
            if len(pieces) > 1:
                title = context.words["piece"].format(title=title, n=number, m=len(pieces))
            facts = (*unit.facts, f"{number} of {len(pieces)}")
            piece = _piece(title, slots, (wide, block.height_um), form, context)
            slices.append(replace(piece, facts=(facts, *piece.facts)))
    return slices


def _head(group: str, context: Context) -> Slice:
    """The name of a group over its strips."""
    if not group:
        return Slice(FOOT_UM)
    name = context.setter.set(group, SMALL_STRONG, Room(MARK_UM, 0, _room(context), TITLE_UM), TITLE_UM - 1_800)
    return Slice(TITLE_UM, (name,), bar=True)


def _room(context: Context) -> int:
    return context.width - 2 * MARK_UM


def pieces_of(slots: Sequence[CardSlot], wide: int, room: int) -> list[tuple[CardSlot, ...]]:
    """The slots in as few pieces as fit the room, as even as can be."""
    count = max(1, -(-len(slots) // max(1, room // wide)))
    edges = [len(slots) * number // count for number in range(count + 1)]
    return [tuple(slots[one:two]) for one, two in pairwise(edges)]


def _piece(title: str, slots: Sequence[CardSlot], size: tuple[int, int], form: Form, context: Context) -> Slice:
    """A piece of a strip with its slots, its cut marks, revision and code at its right end, and its title."""
    wide, high = size
    length = wide * len(slots)
    boxes, top = _title(title, length, high, context)
    boxes += _cut_marks(MARK_UM, top, length, high)
    for index, slot in enumerate(slots):
        area = Room(MARK_UM + index * wide, top, wide, high)
        if index:
            boxes.append(Rule(area.x, top, area.x, top + high, LINE_UM))
        last = index == len(slots) - 1
        boxes += _slot(slot, area._replace(width=wide - SIGNS_UM) if last else area, form, context)
    doubt = DOUBTED if any(slot.doubt for slot in slots) else ""
    code = strip_code(slots, context.at_venue)
    parts = (doubt, context.revision, code)
    signs = context.setter.fit("  ".join(filter(None, parts)), CARD_CODE, high - 3_600)
    edge = Room(MARK_UM + length - SIGNS_UM, top, SIGNS_UM, high)
    boxes.append(set_turned(signs.lines[0], signs, edge.right - 1_300, top + high - 1_800, edge, context.metrics))
    subjects = tuple(subject for slot in slots for subject in slot.subjects)
    return Slice(top + high, tuple(boxes), facts=tuple(slot_facts(slots)), subjects=subjects, cut=code)


def _title(title: str, length: int, high: int, context: Context) -> tuple[list[Box], int]:
    """The title beside the strip if there is room, else over it; and where the strip begins."""
    start = MARK_UM + length + MARK_UM + 1_500
    if context.width - start < BESIDE_UM:
        room = Room(MARK_UM, 0, _room(context), TITLE_UM)
        return [
            *context.setter.lines(context.setter.fit(title, SMALL_STRONG, room.width), room, TITLE_UM - 1_800)
        ], TITLE_UM
    fitted = context.setter.fit(title, TITLE, context.width - start)
    first = (high - (len(fitted.lines) - 1) * fitted.pitch_um + fitted.cap_um) // 2
    return [*context.setter.lines(fitted, Room(start, 0, context.width - start, high), first)], 0


def _cut_marks(x: int, y: int, width: int, height: int) -> Iterator[Box]:
    """A short line at each corner, outside the strip, and a faint line to cut along at each edge."""
    for edge in (y, y + height):
        yield Rule(x - MARK_GAP_UM, edge, x - MARK_UM, edge, HAIR_UM)
        yield Rule(x + width + MARK_GAP_UM, edge, x + width + MARK_UM, edge, HAIR_UM)
        yield Rule(x, edge, x + width, edge, HAIR_UM, dotted=True)
    for edge in (x, x + width):
        yield Rule(edge, y, edge, y + height, HAIR_UM, dotted=True)


def _slot(slot: CardSlot, area: Room, form: Form, context: Context) -> list[Box]:
    """A slot's boxes, hatched at the right where nobody plays on it."""
    boxes: list[Box] = []
    inner = area._replace(x=area.x + PAD_UM, width=area.width - 2 * PAD_UM)
    if slot.hatch:
        boxes.append(Hatch(area.right - 4_200, area.y + 900, 3_200, area.height - 1_800, 900, LINE_UM))
        inner = inner._replace(width=inner.width - 3_400)
    return boxes + form(slot, inner, context.setter.of(slot))


def _set_beside(slot: CardSlot, inner: Room, setter: Typesetter) -> list[Box]:
    """The number at the left over its bar, the big lines and the small ones beside it, in the middle."""
    key = setter.fit(slot.key.text, slot.key.style, inner.width * KEY_SHARE // 100)
    foot = inner.y + (inner.height + key.cap_um - BAR_GAP_UM - BAR_THICK_UM) // 2
    boxes, width = _set_key(key, inner, foot, setter)
    beside = inner._replace(x=inner.x + width + KEY_GAP_UM, width=inner.width - width - KEY_GAP_UM)
    stack = measure_stack((*slot.lines, *slot.small), beside.width, 900, setter.metrics)
    return boxes + set_stack(stack, beside._replace(y=inner.y + (inner.height - stack.height) // 2), setter)


def _set_below(slot: CardSlot, inner: Room, setter: Typesetter) -> list[Box]:
    """The number at its floor with the small lines beside it, and under both the big lines across the whole slot."""
    style = slot.key.style
    key = setter.fit(slot.key.text, replace(style, wanted_um=style.floor_um), inner.width * KEY_SHARE // 100)
    lines = [replace(line, style=_lower(line.style)) for line in slot.lines]
    name = measure_stack(lines, inner.width, 900, setter.metrics)
    high = key.cap_um + BAR_GAP_UM + BAR_THICK_UM
    top = inner.y + max(0, inner.height - high - NAME_GAP_UM * bool(lines) - name.height) // 2
    boxes, width = _set_key(key, inner, top + key.cap_um, setter)
    beside = inner._replace(x=inner.x + width + SMALL_GAP_UM, width=inner.width - width - SMALL_GAP_UM)
    small = measure_stack(slot.small, beside.width, 700, setter.metrics)
    boxes += set_stack(small, beside._replace(y=top + max(0, high - small.height)), setter)
    return boxes + set_stack(name, inner._replace(y=top + high + NAME_GAP_UM), setter)


def _lower(style: Style) -> Style:
    """One line, low enough to stand under a number."""
    return replace(style, lines=1, wanted_um=min(style.wanted_um, max(style.floor_um, NAME_UM)))


def _set_key(key: Fitted, inner: Room, foot: int, setter: Typesetter) -> tuple[list[Box], int]:
    """The number and the bar under it, or a line to write it on; and how wide it is."""
    if key.outcome != "whole":
        width = inner.width * KEY_SHARE // 100
        return [Rule(inner.x, foot, inner.x + width, foot, LINE_UM)], width
    width = key.width_um(setter.metrics)
    number = setter.line(key, inner._replace(width=width + 10), foot)
    return [number, Fill(inner.x, foot + BAR_GAP_UM, width, BAR_THICK_UM)], width
