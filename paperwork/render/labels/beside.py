"""A low, wide label: the number, the texts and the code side by side."""

from dataclasses import replace

from paperwork.document import Label
from paperwork.document.styles import LABEL_CODE, LABEL_FREQUENCY, LABEL_NUMBER
from paperwork.render.labels.plan import (
    COLUMN_GAP_UM,
    LEAST_GAP_UM,
    LINE_GAP_UM,
    SIDE_GAP_UM,
    TINY_UM,
    LabelPlan,
    Space,
    frequency_top,
    number_for,
    sizes_for,
    top_baseline,
    widest_number,
)
from paperwork.render.labels.qr import largest_dots, module_um
from paperwork.render.labels.texts import Texts, choose_texts, stack_um
from paperwork.render.text.faces import FACES
from paperwork.render.text.fitting import fit
from paperwork.render.text.measuring import Metrics

LONG_UM, TALL_TINY_UM = 50_000, 9_500
"""From this clear width on, two lines of text leave room for a code; from this height on, they may be larger."""

NUMBER_SHARES = (32, 28, 24, 21)
"""Percent of the width for the number: where the texts are short, and the less the more room they need."""


def plan_beside(
    labels: tuple[Label, ...],
    space: Space,
    metrics: Metrics,
    share: int = NUMBER_SHARES[0],
    most_um: int = LABEL_NUMBER.wanted_um,
) -> LabelPlan:
    """One plan for these labels: the number takes its share of the width, and no more than `most_um`."""
    width, height = space.width, space.height
    tiny = height < TINY_UM
    sizes = sizes_for(height, beside=True)
    if tiny and height >= TALL_TINY_UM:
        role, frequency = replace(sizes.role, wanted_um=4_000), replace(sizes.frequency, wanted_um=3_200)
        sizes = replace(sizes, role=role, frequency=frequency)
    most = min(height + space.edge, width * 25 // 100)
    coded = space.sides and (not tiny or width >= LONG_UM)
    dots = largest_dots(space.dpi, lambda module: space.span_um(module) <= most) if coded else 0
    foot = 0 if tiny else LABEL_CODE.floor_um + sizes.gap
    number = min(most_um, number_for(labels, width * share // 100, height - foot, space, metrics))
    used = -(-widest_number(labels, metrics) * number // FACES["figures-bold"].cap)
    right = space.span_um(module_um(dots, space.dpi)) if dots else 0 if tiny else space.signs_um
    left = used + SIDE_GAP_UM if tiny else max(used, space.signs_um) + COLUMN_GAP_UM
    return LabelPlan("beside", space, sizes, number, used, 0, 0, foot, width - left - right, dots, names=not tiny)


def give_room_beside(label: Label, common: LabelPlan, metrics: Metrics) -> LabelPlan:
    """The label's own plan: the widest number beside which role and performers have room, else the narrowest."""
    plans = []
    for share in NUMBER_SHARES:
        plan = plan_beside((label,), common.space, metrics, share, common.number_um)
        smaller = max(LABEL_FREQUENCY.floor_um, plan.sizes.frequency.wanted_um * 8 // 10)
        frequency = replace(plan.sizes.frequency, wanted_um=smaller)
        plans += [plan, replace(plan, sizes=replace(plan.sizes, frequency=frequency))]
    for plan in plans if common.foot_um else ():

        def fits(texts: Texts, plan: LabelPlan = plan) -> bool:
            return _past_um(label, _with(plan, texts), texts.names, metrics) <= 0

        widths = (plan.text_width,) * 3
        texts = choose_texts(label, (plan.sizes.role, plan.sizes.name), widths, fits, metrics)
        if texts:
            return _with(plan, texts)
    return plans[-1]


def _with(plan: LabelPlan, texts: Texts) -> LabelPlan:
    return replace(plan, sizes=replace(plan.sizes, role=texts.role, name=texts.name), apart=len(texts.names) > 1)


def _past_um(label: Label, plan: LabelPlan, names: tuple[str, ...], metrics: Metrics) -> int:
    """By how much the role and the performers under it would reach past the frequency's top; nothing where they have room."""
    role = fit(label.role, plan.sizes.role, plan.text_width, metrics)
    bottom = top_baseline(role, plan) + (len(role.lines) - 1) * role.pitch_um + role.drop_um
    if names:
        one = replace(plan.sizes.name, lines=1)
        bottom += LEAST_GAP_UM + stack_um([fit(line, one, plan.text_width, metrics) for line in names], LINE_GAP_UM)
    return bottom - frequency_top(label, plan)
