"""Cards as slices: all keys of a block at one size, rows of cards of one height, none split."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.document import Card, Cards, Item, Line
from paperwork.document.facts import card_code, card_facts
from paperwork.document.styles import CARD_CODE, CARD_TEXT, SCALE_UM, step_under
from paperwork.frozen import frozen
from paperwork.render.blocks.slices import SNUG_PERCENT, Context, Series, Slice
from paperwork.render.blocks.stacks import Stack, measure_stack, set_stack
from paperwork.render.boxes import LINE_UM, Box, Fill, Frame, Hatch, Open, Room, Rule, moved, wrap
from paperwork.render.text.faces import FACES, face_for
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

GAP_UM, PAD_UM = 3_400, 3_000
KEY_GAP_UM = 4_500
ITEM_GAP_UM = 1_300
BAND_UM, BAND_PAD_UM = 35_000, 1_300
TICK_UM = 9_000
"""A square that a pen finds in the dark: at least 6 mm (common practice, no source)."""

HATCH_UM = 4_600
SNUG_PAD_UM = 2_200
"""The air of a card that is set lower for one row more on a page; a card that is cut to a size keeps its own."""

DOUBT_UM, SIGNS_HIGH_UM = 14_000, 2_700
"""What the word of a doubt takes before revision and code, and how high they are."""
SIGNS_GAP_UM = 3_000
SIGNS_FACE = face_for(CARD_CODE, "C")

KEY_SHARE = 45
"""Percent of a card's width that its key may take from the items beside it."""


@frozen
class _CardPlan:
    """What the cards of a block share: their width, where the band ends, the key's height and room."""

    width: int
    left: int
    key_um: int
    key_width: int
    right: int
    marked: bool
    stacked: bool
    signed: bool = False
    pad_um: int = PAD_UM
    """Above the first and below the last line."""
    signs_um: int = 0
    """What revision and code take."""

    @property
    def mark_um(self) -> tuple[int, int]:
        """Gap and thickness of the bar under a number that can be read from two sides."""
        return (max(600, self.key_um * 6 // 100), max(900, self.key_um * 7 // 100)) if self.marked else (0, 0)

    @property
    def key_zone(self) -> int:
        """The key and its bar."""
        return self.key_um + sum(self.mark_um)


@frozen
class _MeasuredCard:
    card: Card
    band: Stack
    items: Stack
    foot: Stack
    height: int
    plan: _CardPlan


def lay_cards(block: Cards, context: Context) -> list[Series]:
    """One slice for each row of cards."""
    if not block.cards:
        return []
    gap = 0 if block.width_um and block.signed else GAP_UM  # one cut parts two that are cut to a size
    across, plan = _plan(block, gap, context)
    if block.signed:
        shown = [f"{context.revision}  {card_code(card, context.at_venue)}" for card in block.cards]
        signs = max(context.metrics.width_um(text, SIGNS_FACE, CARD_CODE.wanted_um) for text in shown)
        plan = replace(plan, signs_um=signs + SIGNS_GAP_UM)
    measured = [_measure(card, plan, context.metrics) for card in block.cards]
    height = max(block.height_um, *(one.height for one in measured))
    if block.width_um:
        height = block.height_um
        plan, measured = _keep_within(measured, plan, height, context)
    elif context.snug:
        plan, measured, height = _make_snug(plan, measured, height, context)
    slices = []
    for first in range(0, len(measured), across):
        held = measured[first : first + across]
        cards = [wrap(Open("Sect"), _set(one, one.plan, height, context)) for one in held]
        boxes = [moved(box, n * (plan.width + gap), gap) for n, card in enumerate(cards) for box in card]
        facts = tuple(card_facts(one.card) for one in held)
        subjects = tuple(subject for one in held for subject in one.card.subjects)
        slices.append(Slice(height + gap, tuple(boxes), facts=facts, subjects=subjects))
    return [Series(tuple(slices))]


def _keep_within(
    measured: list[_MeasuredCard], plan: _CardPlan, height: int, context: Context
) -> tuple[_CardPlan, list[_MeasuredCard]]:
    """Cards as they fit the size that they are cut to: all with less air, then with all texts lower alike, down to their floors.
    Then a key over its items gives way, and what still has no room is left off from the end of its card, and is a finding."""
    cards = [one.card for one in measured]
    wanted = max((item.style.wanted_um for card in cards for item in (*card.items, *card.foot)), default=0)
    for step in (max(SCALE_UM), *(step for step in reversed(SCALE_UM) if step < wanted)):
        if max(one.height for one in measured) <= height:
            return plan, measured
        plan = replace(plan, pad_um=SNUG_PAD_UM)
        measured = [_measure(_lower(card, step), plan, context.metrics) for card in cards]
    return plan, [_leave_off(one, plan, height, context) for one in measured]


def _leave_off(one: _MeasuredCard, plan: _CardPlan, height: int, context: Context) -> _MeasuredCard:
    card = one.card
    gone: list[str] = []
    if plan.stacked and one.height > height:
        one = _measure(card, replace(plan, key_um=min(plan.key_um, card.key.style.floor_um)), context.metrics)
    while one.height > height and (card.foot or card.items):
        last = (card.foot or card.items)[-1]
        card = replace(card, foot=card.foot[:-1]) if card.foot else replace(card, items=card.items[:-1])
        gone = [last.text, *gone] if isinstance(last, Line) else gone
        one = _measure(card, one.plan, context.metrics)
    if gone:
        context.setter.of(card).fall_short("text-across-cut", text=", ".join(gone))
    return one


def _lower(card: Card, most_um: int) -> Card:
    """The card with no text that is wanted taller, or than its floor."""

    def lower(item: Item) -> Item:
        wanted = max(item.style.floor_um, min(item.style.wanted_um, most_um)) if isinstance(item, Line) else 0
        return replace(item, style=replace(item.style, wanted_um=wanted)) if isinstance(item, Line) else item

    return replace(card, items=tuple(map(lower, card.items)), foot=tuple(map(lower, card.foot)))


def _make_snug(
    plan: _CardPlan, measured: list[_MeasuredCard], height: int, context: Context
) -> tuple[_CardPlan, list[_MeasuredCard], int]:
    """Cards as low as one row more on a page asks for, keys smaller for it; as they are where that is too low."""
    lower = context.height // (context.height // (height + GAP_UM) + 1) - GAP_UM
    if lower < height * SNUG_PERCENT // 100:
        return plan, measured, height
    over = max(one.height for one in measured) - lower
    if over > 0 and plan.stacked:
        floor = max(one.card.key.style.floor_um for one in measured)
        smaller = replace(plan, key_um=max(floor, step_under(plan.key_um - over)), pad_um=SNUG_PAD_UM)
        again = [_measure(one.card, smaller, context.metrics) for one in measured]
        if max(one.height for one in again) <= lower:
            return smaller, again, lower
    return (plan, measured, lower) if over <= 0 else (plan, measured, height)


def _plan(block: Cards, gap: int, context: Context) -> tuple[int, _CardPlan]:
    """As many across as asked for, fewer where a key would fall below its floor."""
    most = block.across
    if block.width_um:
        most = max(1, (context.width + gap) // (block.width_um + gap))
    for across in range(most, 0, -1):
        width = block.width_um or (context.width - gap * (across - 1)) // across
        plan = _plan_for(block, width, context.metrics)
        style = block.cards[0].key.style
        if all(_fits(card, plan, context.metrics) for card in block.cards if card.key.style == style):
            return across, plan
    return 1, _plan_for(block, block.width_um or context.width, context.metrics)


def _plan_for(block: Cards, width: int, metrics: Metrics) -> _CardPlan:
    left = BAND_UM if any(card.band for card in block.cards) else 0
    right = PAD_UM + (HATCH_UM if any(card.hatch for card in block.cards) else 0)
    inner = width - left - PAD_UM - right
    room = inner if block.stacked else inner * KEY_SHARE // 100
    style = block.cards[0].key.style
    heights = [style.wanted_um]
    alike = [card for card in block.cards if card.key.style == style]
    for card in alike:
        face = face_for(style, card.key.text)
        heights.append(room * FACES[face].cap // max(1, metrics.units(card.key.text, face)))
    key = max(style.floor_um, step_under(min(heights)))
    widest = max(_key_width(card, key, metrics) for card in alike)
    used = room if block.stacked else min(room, widest)
    return _CardPlan(width, left, key, used, right, block.stacked or block.width_um > 0, block.stacked, block.signed)


def _key_width(card: Card, cap: int, metrics: Metrics) -> int:
    return metrics.width_um(card.key.text, face_for(card.key.style, card.key.text), cap)


def _fits(card: Card, plan: _CardPlan, metrics: Metrics) -> bool:
    return _key_width(card, plan.key_um, metrics) <= plan.key_width


def _inner(plan: _CardPlan) -> int:
    return plan.width - plan.left - PAD_UM - plan.right


def _measure(card: Card, plan: _CardPlan, metrics: Metrics) -> _MeasuredCard:
    beside = _beside(card, plan, metrics)
    band = measure_stack(card.band, plan.left - PAD_UM - 2 * BAND_PAD_UM, ITEM_GAP_UM + 600, metrics)
    items = measure_stack(card.items, beside, ITEM_GAP_UM, metrics)
    foot = measure_stack(card.foot, _inner(plan) - _kept(card, plan, metrics), ITEM_GAP_UM, metrics)
    body = (
        plan.key_zone + (items.height + plan.pad_um if items.lines else 0)
        if plan.stacked
        else max(plan.key_zone, items.height)
    )
    below = _below(card, foot)
    signs = SIGNS_HIGH_UM if plan.signed and plan.stacked else 0
    height = 2 * plan.pad_um + body + signs + (below + 2 * PAD_UM - 600 if below else 0)
    return _MeasuredCard(card, band, items, foot, max(height, band.height + 2 * PAD_UM), plan)


def _beside(card: Card, plan: _CardPlan, metrics: Metrics) -> int:
    """The width of the items: all, or what the key leaves, and a square to tick that no foot takes in."""
    if plan.stacked:
        return _inner(plan)
    tick = _tick_width(card, metrics) if card.tick and not card.foot else 0
    return _inner(plan) - plan.key_width - KEY_GAP_UM - tick


def _below(card: Card, foot: Stack) -> int:
    """What stands under the card's rule: the foot, and the square beside it."""
    return max(foot.height, TICK_UM if card.tick and card.foot else 0)


def _kept(card: Card, plan: _CardPlan, metrics: Metrics) -> int:
    """What the square to tick, or revision and code, keep free at the lower right."""
    return _tick_width(card, metrics) if card.tick else _signs_width(card, plan) if plan.signed else 0


def _signs_width(card: Card, plan: _CardPlan) -> int:
    return plan.signs_um + (DOUBT_UM if card.doubt else 0)


def _tick_width(card: Card, metrics: Metrics) -> int:
    words = fit(card.tick, CARD_TEXT, 40_000, metrics)
    return TICK_UM + words.width_um(metrics) + 6_000


def _set(one: _MeasuredCard, plan: _CardPlan, height: int, context: Context) -> Iterator[Box]:
    card, setter = one.card, context.setter.of(one.card)
    yield Frame(0, 0, plan.width, height, LINE_UM)
    if plan.left:
        edge = plan.left - PAD_UM
        yield Fill(0, 0, edge, height) if card.loud else Rule(edge, 0, edge, height, LINE_UM)
        middle = Room(BAND_PAD_UM, (height - one.band.height) // 2, plan.left - PAD_UM - 2 * BAND_PAD_UM, height)
        yield from wrap(Open("P"), set_stack(one.band, middle, setter, "centre", white=card.loud))
    if card.hatch:
        yield Hatch(plan.width - 1_000 - HATCH_UM, 1_000, HATCH_UM, height - 2_000, 900, LINE_UM)
    below = _below(card, one.foot)
    body = height - (below + 2 * PAD_UM - 600 if below else 0)
    yield from _set_body(one, plan, body, setter)
    area = Room(plan.left + PAD_UM, body + PAD_UM - 600, _inner(plan), below)
    if below:
        yield Rule(plan.left + PAD_UM - 1_000, body, plan.width - plan.right, body, LINE_UM)
        start = area.y + max(0, (below - one.foot.height) // 2)
        width = area.width - _kept(card, plan, setter.metrics)
        yield from wrap(Open("P"), set_stack(one.foot, area._replace(y=start, width=width), setter))
    if card.tick:
        area = area if below else Room(plan.left + PAD_UM, 0, _inner(plan), height)
        yield from wrap(Open("P"), _set_tick(card, area, setter))
    if plan.signed:
        signs = "  ".join(filter(None, (card.doubt, context.revision, card_code(card, context.at_venue))))
        area = Room(plan.width - plan.right - _signs_width(card, plan), 0, _signs_width(card, plan), height)
        yield from wrap(Open("P"), [setter.set(signs, CARD_CODE, area, height - 2_000, "right")])


def _set_body(one: _MeasuredCard, plan: _CardPlan, height: int, setter: Typesetter) -> Iterator[Box]:
    """The key beside its items or over them; on cards cut to a size as far under the edge whatever is below."""
    x, inner = plan.left + PAD_UM, _inner(plan)
    top = plan.pad_um if plan.marked else (height - plan.key_zone) // 2
    key = setter.fit(one.card.key.text, replace(one.card.key.style, wanted_um=plan.key_um), plan.key_width)
    room = Room(x, 0, inner if plan.stacked else plan.key_width, height)
    text = setter.line(key, room, top + plan.key_um, "centre" if plan.stacked else "left")
    yield from wrap(Open("H2"), [text])
    if plan.marked:
        yield Fill(text.x, top + plan.key_um + plan.mark_um[0], text.ink.width, plan.mark_um[1])
    if plan.stacked:
        below = Room(x, top + plan.key_zone + plan.pad_um, inner, one.items.height)
        yield from wrap(Open("P"), set_stack(one.items, below, setter, "centre"))
        return
    beside = Room(x + plan.key_width + KEY_GAP_UM, 0, _beside(one.card, plan, setter.metrics), height)
    middle = top + plan.key_zone // 2 if plan.marked else height // 2
    start = max(min(plan.pad_um, height - one.items.height), middle - one.items.height // 2)
    yield from wrap(Open("P"), set_stack(one.items, beside._replace(y=start), setter))


def _set_tick(card: Card, area: Room, setter: Typesetter) -> Iterator[Box]:
    top = area.y + (area.height - TICK_UM) // 2
    yield Frame(area.right - TICK_UM, top, TICK_UM, TICK_UM, LINE_UM)
    words = setter.fit(card.tick, CARD_TEXT, 40_000)
    room = Room(area.x, area.y, area.width - TICK_UM - 2_500, area.height)
    yield setter.line(words, room, top + (TICK_UM + words.cap_um) // 2, "right")
