"""Rack strips: one a unit at the width of its opening, in pieces that fit the page, with cut marks."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from paperwork.document import CardSlot, Strips, UnitStrip
from paperwork.document.facts import slot_facts, strip_code
from paperwork.document.styles import CARD_CODE, SMALL_STRONG
from paperwork.render.blocks.slices import Context, Series, Slice
from paperwork.render.boxes import HAIR_UM, LINE_UM, Box, Open, Room, Rule, wrap
from paperwork.render.stamp import DOUBTED
from paperwork.render.strip_slots import EDGE_UM, Way, choose_way, set_slot
from paperwork.render.text.fitting import fit
from paperwork.render.text.setting import Typesetter, set_turned

TITLE_UM = 6_400
"""Over a strip that leaves no room beside it for its title, and over the strips of a group."""

MARK_UM, MARK_GAP_UM = 4_000, 800
"""A cut mark stands outside the strip and keeps clear of the knife's line."""

BESIDE_UM = 23_000
"""The least width in which a title stands beside its strip."""

FOOT_UM = 2_500
"""Under the last strip of a group."""

SIGNS_UM, LOW_SIGNS_UM, UPRIGHT_UM = 4_600, 12_400, 16_000
"""What revision and code take at the right end, set upwards; one over the other on low strips; how low that is."""

TITLE_LINE_UM = 3_900
"""What a line of a title beside its strip takes of the strip's height."""

TITLE = replace(SMALL_STRONG, lines=5, paragraph=True)


def lay_strips(block: Strips, context: Context) -> list[Series]:
    """A series for each group: a slice of boxes for each piece of a unit's strip, without a gap between them."""
    found: list[Series] = []
    for place, (group, units) in enumerate(
        groupby((unit for unit in block.strips if unit.slots), key=lambda unit: unit.group)
    ):
        slices = _lay_group(tuple(units), block, context)
        slices[-1] = replace(slices[-1], height=slices[-1].height + FOOT_UM)
        head = _head(group if block.named else "", f"strips {context.number}.{place}", context)
        found.append(Series(tuple(slices), bar=head, again=head))
    return found


def _lay_group(units: Sequence[UnitStrip], block: Strips, context: Context) -> list[Slice]:
    """The strips of one group, all slots set in one way: the first in which nothing is cut or abbreviated."""
    wide = [min(block.width_um // len(unit.slots), _room(context)) for unit in units]
    signs = _signs_um(block.height_um)
    areas = [
        (slot, Room(0, 0, one - (signs if slot is unit.slots[-1] else 0), block.height_um))
        for unit, one in zip(units, wide, strict=True)
        for slot in unit.slots
    ]
    way = choose_way(block, areas, context.setter)
    return _lay_units(units, block, way, context)


def _lay_units(units: Sequence[UnitStrip], block: Strips, way: Way, context: Context) -> list[Slice]:
    slices: list[Slice] = []
    for unit in units:
        wide = min(block.width_um // len(unit.slots), _room(context))
        pieces = pieces_of(unit.slots, wide, _room(context))
        for number, slots in enumerate(pieces, 1):
            title = unit.title
            if len(pieces) > 1:
                title = context.words["piece"].format(title=title, n=number, m=len(pieces))
            facts = (*unit.facts, f"{number} of {len(pieces)}")
            piece = _piece(title, slots, (wide, block.height_um), way, context)
            slices.append(replace(piece, facts=(facts, *piece.facts)))
    return slices


def _head(group: str, key: str, context: Context) -> Slice:
    """The name of a group over its strips."""
    if not group:
        return Slice(FOOT_UM)
    name = context.setter.set(group, SMALL_STRONG, Room(MARK_UM, 0, _room(context), TITLE_UM), TITLE_UM - 1_800)
    return Slice(TITLE_UM, tuple(wrap(Open("H2", key, once=True), [name])), bar=True)


def _room(context: Context) -> int:
    return context.width - 2 * MARK_UM


def pieces_of(slots: Sequence[CardSlot], wide: int, room: int) -> list[tuple[CardSlot, ...]]:
    """The slots in as few pieces as fit the room, as even as can be."""
    count = max(1, -(-len(slots) // max(1, room // wide)))
    edges = [len(slots) * number // count for number in range(count + 1)]
    return [tuple(slots[one:two]) for one, two in pairwise(edges)]


def _piece(title: str, slots: Sequence[CardSlot], size: tuple[int, int], way: Way, context: Context) -> Slice:
    """A piece of a strip with its slots, its cut marks, revision and code at its right end, and its title."""
    wide, high = size
    length = wide * len(slots)
    titles, top = _title(title, length, high, context)
    boxes = wrap(Open("P"), titles)
    items: list[Box] = []
    boxes += _cut_marks(top, length, high)
    for index, slot in enumerate(slots):
        area = Room(MARK_UM + index * wide, top, wide, high)
        if index:
            boxes.append(Rule(area.x, top, area.x, top + high, LINE_UM))
        last = index == len(slots) - 1
        inside = set_slot(slot, area._replace(width=wide - _signs_um(high)) if last else area, way, context.setter)
        items += wrap(Open("LI"), wrap(Open("LBody"), inside))
    doubt = DOUBTED if any(slot.doubt for slot in slots) else ""
    code = strip_code(slots, context.at_venue)
    boxes += wrap(Open("L"), items)
    edge = Room(MARK_UM + length - _signs_um(high), top, _signs_um(high), high)
    boxes += wrap(Open("P"), _set_signs((doubt, context.revision, code), edge, context.setter))
    subjects = tuple(subject for slot in slots for subject in slot.subjects)
    return Slice(top + high, tuple(boxes), facts=tuple(slot_facts(slots)), subjects=subjects, cut=code)


def _title(title: str, length: int, high: int, context: Context) -> tuple[list[Box], int]:
    """The title beside the strip if there is room, else over it; and where the strip begins."""
    start = MARK_UM + length + MARK_UM + 1_500
    style = replace(TITLE, lines=max(1, min(TITLE.lines, high // TITLE_LINE_UM)))
    fitted = fit(title, style, max(1, context.width - start), context.metrics)
    if context.width - start < BESIDE_UM or fitted.outcome != "whole":
        room = Room(MARK_UM, 0, _room(context), TITLE_UM)
        return [
            *context.setter.lines(context.setter.fit(title, SMALL_STRONG, room.width), room, TITLE_UM - 1_800)
        ], TITLE_UM
    first = (high - (len(fitted.lines) - 1) * fitted.pitch_um + fitted.cap_um) // 2
    return [*context.setter.lines(fitted, Room(start, 0, context.width - start, high), first)], 0


def _signs_um(high: int) -> int:
    """What revision and code take at the right end: set upwards, or one over the other on a low strip."""
    return SIGNS_UM if high >= UPRIGHT_UM else LOW_SIGNS_UM


def _set_signs(parts: tuple[str, str, str], edge: Room, setter: Typesetter) -> list[Box]:
    """Doubt, revision and code at the right end of a piece."""
    if edge.height >= UPRIGHT_UM:
        signs = setter.fit("  ".join(filter(None, parts)), CARD_CODE, edge.height - 3_600)
        x, y = edge.right - 1_300, edge.bottom - 1_800
        return [set_turned(signs.lines[0], signs, x, y, edge, setter.metrics)]
    low = replace(CARD_CODE, wanted_um=CARD_CODE.floor_um)
    over, under = (
        setter.fit(text, low, edge.width - EDGE_UM) for text in (" ".join(filter(None, parts[:2])), parts[2])
    )
    room, middle = edge._replace(width=edge.width - EDGE_UM), edge.y + edge.height // 2
    return [
        setter.line(over, room, middle - 250, "right"),
        setter.line(under, room, middle + 250 + under.cap_um, "right"),
    ]


def _cut_marks(y: int, width: int, height: int) -> Iterator[Box]:
    """A short line at each corner, outside the strip, and a faint line to cut along at each edge."""
    left, right = MARK_UM, MARK_UM + width
    for edge in (y, y + height):
        yield Rule(left - MARK_GAP_UM, edge, left - MARK_UM, edge, HAIR_UM)
        yield Rule(right + MARK_GAP_UM, edge, right + MARK_UM, edge, HAIR_UM)
        yield Rule(left, edge, right, edge, HAIR_UM, dotted=True)
    for edge in (left, right):
        yield Rule(edge, y, edge, y + height, HAIR_UM, dotted=True)
