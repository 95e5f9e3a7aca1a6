"""One slot of a strip: its number, who is on it, small lines, set in the first way that keeps all in the cut.

All slots of a group are set in one way. A strip of a whole or half a rack unit is read from a metre, a lower one from
the hand.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import TypeAlias

from paperwork.document import CardSlot, Line, Strips
from paperwork.document.styles import Style
from paperwork.frozen import frozen
from paperwork.render.blocks.stacks import measure_stack, set_stack
from paperwork.render.boxes import LINE_UM, Box, Fill, Hatch, Room, Rule, TextBox
from paperwork.render.text.fitting import Fitted
from paperwork.render.text.setting import Typesetter

PAD_UM, KEY_GAP_UM = 2_200, 3_400
SMALL_GAP_UM, NAME_GAP_UM, NAME_UM = 2_200, 1_700, 6_000
BAR_GAP_UM, BAR_THICK_UM = 900, 1_000
LOW_BAR_UM = 500
"""Gap and thickness of the bar under a number on a low strip."""

EDGE_UM = 600
"""What ink keeps off a cut: a knife wanders by less (common practice, no source)."""

KEY_SHARE = 42
"""Percent of a slot's width that its number may take."""

LOW_UM = 14_000
"""Below this height everything is on one line."""

Form: TypeAlias = Callable[[CardSlot, Room, Typesetter], list[Box]]
"""How a slot is set into its room."""


@frozen
class Way:
    """A form, and the heights of number, name, small lines; 0 for their styles'. `joined`: small lines on one."""

    form: Form
    number_um: int = 0
    name_um: int = 0
    name_lines: int = 0
    small_um: int = 0
    joined: bool = False


_SCALES = (
    # least height, number, names, small lines
    (40_000, 15_840, (13_320, 9_419, 6_660, 4_709), (9_419, 6_660, 4_709)),
    (LOW_UM, 13_320, (6_660, 5_600, 4_709), (4_709, 2_800)),
    (11_000, 6_660, (4_709, 3_960, 3_330, 2_800, 2_600), (2_800, 2_600)),
    (9_000, 5_600, (3_960, 3_330, 2_800, 2_600), (2_600,)),
    (0, 4_709, (3_960, 3_330, 2_800, 2_600), (2_600,)),
)


def list_ways(block: Strips) -> Iterator[Way]:
    """The ways of a block's slots, the most readable first."""
    if not block.scaled:
        yield from (Way(_set_beside), Way(_set_below))
        return
    _, number, names, smalls = next(row for row in _SCALES if block.height_um >= row[0])
    if block.height_um < LOW_UM:
        yield from (
            Way(_set_row, number, name, 1, small, one) for small in smalls for name in names for one in (True, False)
        )
        return
    for small in smalls:
        for form in (_set_beside, _set_below):
            for name in names:
                for joined in (True, False):
                    yield Way(form, number, name, 1 if name > names[-1] else 3, small, joined)


def choose_way(block: Strips, areas: Sequence[tuple[CardSlot, Room]], setter: Typesetter) -> Way:
    """The first way in which every slot of the group is whole within its area; else that which cuts fewest texts."""
    least: tuple[int, int] | None = None
    ways = [*list_ways(block)]
    best = ways[0]
    for way in ways:
        across = cut = 0
        for slot, area in areas:
            own = Typesetter(setter.metrics, setter.sheet)
            across += not _is_within(_make(slot, area, way, own), area)
            cut += len(own.shortfalls)
            if least is not None and (across, cut) >= least:
                break
        if least is None or (across, cut) < least:
            least, best = (across, cut), way
        if least == (0, 0):
            break
    return best


def set_slot(slot: CardSlot, area: Room, way: Way, setter: Typesetter) -> list[Box]:
    """A slot's boxes, all within the cut: what would cross it is left off, the small lines first, and is a finding."""
    own = setter.of(slot)
    for kept in (slot, replace(slot, small=()), replace(slot, small=(), lines=())):
        tried = Typesetter(setter.metrics, setter.sheet, slot)
        boxes = _make(kept, area, way, tried)
        if _is_within(boxes, area):
            break
    own.shortfalls.extend(tried.shortfalls)
    gone = [line.text for line in (*slot.lines, *slot.small) if line not in (*kept.lines, *kept.small)]
    if gone:
        own.fall_short("text-across-cut", text="  ".join(gone))
    return boxes


def _is_within(boxes: Sequence[Box], area: Room) -> bool:
    """Whether all ink keeps off the cut, and off other ink."""
    shown = [box for box in boxes if isinstance(box, TextBox) and box.text.strip()]
    inks = [box.ink for box in shown]
    for index, ink in enumerate(inks):
        if ink.right > shown[index].room.right:
            return False
        if ink.y < area.y + EDGE_UM or ink.bottom > area.bottom - EDGE_UM:
            return False
        if ink.x < area.x + EDGE_UM or ink.right > area.right - EDGE_UM:
            return False
        if any(_touch(ink, other) for other in inks[:index]):
            return False
    return True


def _touch(one: Room, other: Room) -> bool:
    return one.x < other.right and other.x < one.right and one.y < other.bottom and other.y < one.bottom


def _make(slot: CardSlot, area: Room, way: Way, setter: Typesetter) -> list[Box]:
    """A slot's boxes, hatched at the right where nobody plays on it."""
    boxes: list[Box] = []
    inner = area._replace(x=area.x + PAD_UM, width=area.width - 2 * PAD_UM)
    if slot.hatch:
        boxes.append(Hatch(area.right - 4_200, area.y + 900, 3_200, area.height - 1_800, 900, LINE_UM))
        inner = inner._replace(width=inner.width - 3_400)
    return boxes + way.form(_styled(slot, way), inner, setter)


def _styled(slot: CardSlot, way: Way) -> CardSlot:
    """The slot with the heights of the way."""
    if not way.number_um:
        return slot
    small = slot.small
    if way.joined and len(small) > 1:
        small = (replace(small[0], text="   ".join(line.text for line in small)),)
    return replace(
        slot,
        key=_at(slot.key, way.number_um, 1, min(slot.key.style.floor_um, way.number_um)),
        lines=tuple(_at(line, way.name_um, way.name_lines) for line in slot.lines),
        small=tuple(_at(line, way.small_um, 1) for line in small),
    )


def _at(line: Line, cap_um: int, lines: int, floor_um: int = 0) -> Line:
    return replace(line, style=replace(line.style, wanted_um=cap_um, floor_um=floor_um or cap_um, lines=lines))


def _set_row(slot: CardSlot, inner: Room, setter: Typesetter) -> list[Box]:
    """The number at the left, small lines at the right, the name between, each in the middle of a low strip."""
    key = setter.fit(slot.key.text, slot.key.style, inner.width * KEY_SHARE // 100)
    foot = inner.y + (inner.height + key.cap_um - 2 * LOW_BAR_UM) // 2
    boxes, width = _set_key(key, inner, foot, setter, (LOW_BAR_UM, LOW_BAR_UM))
    small = [setter.fit(line.text, line.style, inner.width // 2) for line in slot.small if line.text]
    aside = max((one.width_um(setter.metrics) for one in small), default=0)
    pitch = max((one.cap_um + 500 for one in small), default=0)
    first = inner.y + (inner.height - pitch * (len(small) - 1) + max((one.cap_um for one in small), default=0)) // 2
    for index, one in enumerate(small):
        boxes.append(setter.line(one, inner, first + index * pitch, "right"))
    left = inner.x + width + SMALL_GAP_UM
    middle = inner._replace(x=left, width=inner.right - left - (aside + SMALL_GAP_UM if small else 0))
    for line in slot.lines[:1]:
        name = setter.fit(line.text, line.style, max(1, middle.width))
        boxes.append(setter.line(name, middle, inner.y + (inner.height + name.cap_um) // 2))
    return boxes


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


def _set_key(
    key: Fitted, inner: Room, foot: int, setter: Typesetter, bar: tuple[int, int] = (BAR_GAP_UM, BAR_THICK_UM)
) -> tuple[list[Box], int]:
    """The number and the bar under it, or a line to write it on; and how wide it is."""
    if key.outcome != "whole":
        width = inner.width * KEY_SHARE // 100
        return [Rule(inner.x, foot, inner.x + width, foot, LINE_UM)], width
    width = key.width_um(setter.metrics)
    number = setter.line(key, inner._replace(width=width + 10), foot)
    return [number, Fill(inner.x, foot + bar[0], width, bar[1])], width
