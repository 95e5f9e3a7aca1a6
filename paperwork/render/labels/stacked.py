"""A tall label: number and code on top, then the role, the performers, and a foot line."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork.document import Label
from paperwork.document.styles import LABEL_CODE, Style
from paperwork.render.labels.plan import (
    CAPSULE_SHARE,
    SIDE_GAP_UM,
    LabelPlan,
    Sizes,
    Space,
    accent_um,
    frequency_text,
    name_room,
    number_for,
    sizes_for,
    text_height,
)
from paperwork.render.labels.qr import MODULE_FLOOR_UM, largest_dots, module_um
from paperwork.render.labels.texts import Texts, choose_texts, list_steps, name_text
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics

NUMBER_PERCENTS = (100, 92, 85, 78, 70)
"""The number of a stacked label whose texts need room, against that of the others."""

ROLE_PERCENT = 70
"""A role at least so tall, against the others, is worth no smaller number."""


def plan_stacked(labels: tuple[Label, ...], space: Space, metrics: Metrics, roomy: bool) -> LabelPlan:
    """One plan for these labels; `roomy` keeps every text to one line."""
    width, height = space.width, space.height
    sizes = sizes_for(height, beside=False)
    foot = max(sizes.frequency.wanted_um if any(map(frequency_text, labels)) else 0, LABEL_CODE.floor_um)
    least = min(space.number_floor_um(label.number) for label in labels)
    for lines in (1, 0) if roomy else (2, 1, 0):
        role = replace(sizes.role, lines=max(1, lines))
        name = replace(sizes.name, lines=max(1, lines))
        role_um = max(text_height(x.role, role, width, sizes.gap, metrics, accents=True) for x in labels)
        name_um = max(_name_height(x, name, sizes, width, metrics) for x in labels) if lines else 0
        top = height - foot - role_um - name_um - 2 * sizes.gap
        if top * 100 // 123 >= least:
            break
    fitted = [fit(x.role, role, width, metrics) for x in labels]
    widest = max(metrics.width_um(line, f.face, f.cap_um) for f in fitted for line in f.lines)
    high = max(accent_um(f, 0) for f in fitted)

    def fits(module: int) -> bool:
        span = space.span_um(module)
        beside_role = roomy or widest + SIDE_GAP_UM + span <= width
        return span <= min(top + (role_um if beside_role else sizes.gap - high), width * 45 // 100)

    dots = largest_dots(space.dpi, fits) if space.sides else 0
    number_width = width - (space.span_um(module_um(dots, space.dpi)) + SIDE_GAP_UM if dots else 0)
    number = number_for(labels, number_width, top, space, metrics)
    sizes = replace(sizes, role=role, name=name)
    return LabelPlan(
        "stacked", space, sizes, number, number_width, role_um, name_um, foot, width, dots, names=bool(lines)
    )


def _name_height(label: Label, name: Style, sizes: Sizes, width: int, metrics: Metrics) -> int:
    room = name_room(label, width, sizes.small, metrics)
    height = text_height(name_text(label), name, room, sizes.gap, metrics, accents=True)
    return max(height, text_height(label.capsule, sizes.small, width * CAPSULE_SHARE // 100, sizes.gap, metrics))


def give_room_stacked(label: Label, common: LabelPlan, metrics: Metrics) -> LabelPlan:
    """The label's own plan: with the code of all others if it can be, the number as tall as the role allows."""
    plain = plan_stacked((label,), common.space, metrics, roomy=False)
    for dots in range(common.dots, max(plain.dots, 1) - 1, -1):
        if module_um(dots, common.space.dpi) < MODULE_FLOOR_UM:
            break
        found = [plan for percent in NUMBER_PERCENTS for plan in _beside_code(label, common, dots, percent, metrics)]
        if found:
            enough = common.sizes.role.wanted_um * ROLE_PERCENT // 100
            tallest = max(found, key=lambda plan: plan.sizes.role.wanted_um)
            return next((plan for plan in found if plan.sizes.role.wanted_um >= enough), tallest)
    return plain


def _beside_code(label: Label, common: LabelPlan, dots: int, percent: int, metrics: Metrics) -> Iterator[LabelPlan]:
    """The plan with a code of so many dots and a number of so many percent, if role and performers have room."""
    space, number = common.space, common.number_um * percent // 100
    if number < space.number_floor_um(label.number) or not common.names:
        return
    span = space.span_um(module_um(dots, space.dpi))
    plan = replace(common, number_um=number, dots=dots, number_width=space.width - span - SIDE_GAP_UM)
    sizes, narrow = plan.sizes, space.width - span - SIDE_GAP_UM
    room = name_room(label, space.width, sizes.small, metrics)

    def settle(texts: Texts) -> tuple[LabelPlan, int]:
        """The plan, and what the lines of performers above the last one add to its height."""
        one = replace(texts.name, lines=1)
        more = sum(list_steps([fit(line, one, min(narrow, room), metrics) for line in texts.names]))
        first = text_height(texts.names[0] if texts.names else "", one, room, sizes.gap, metrics, accents=True)
        beside = text_height(label.capsule, sizes.small, space.width * CAPSULE_SHARE // 100, sizes.gap, metrics)
        role = text_height(label.role, texts.role, narrow, sizes.gap, metrics, accents=True)
        chosen, names = replace(sizes, role=texts.role, name=texts.name), max(first + more, beside)
        return replace(plan, sizes=chosen, role_um=role, name_um=names, text_width=narrow, apart=more > 0), more

    def fits(texts: Texts) -> bool:
        one, more = settle(texts)
        return one.number_zone <= one.role_top and span <= one.role_top + one.role_um + sizes.gap + more

    texts = choose_texts(label, (sizes.role, sizes.name), (narrow, room, min(narrow, room)), fits, metrics)
    if texts:
        yield settle(texts)[0]
