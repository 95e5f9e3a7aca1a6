"""Which plan each label of a sheet has: that of all, or one of its own where its texts need more room."""

from dataclasses import replace

from paperwork.document import Label
from paperwork.document.styles import LABEL_NUMBER
from paperwork.render.labels.beside import give_room_beside, plan_beside
from paperwork.render.labels.plan import (
    CODE_GAP_UM,
    SHORT_SIGNS,
    SIDE_GAP_UM,
    TINY_UM,
    LabelPlan,
    Space,
    accent_um,
    frequency_text,
    name_room,
    widest_number,
)
from paperwork.render.labels.stacked import give_room_stacked, plan_stacked
from paperwork.render.labels.texts import name_text
from paperwork.render.text.faces import FACES
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics

WORD_SHARE = 36
"""Percent of a low label's width that a number may take beside the texts; a longer one stands over them."""


def plan_labels(labels: tuple[Label, ...], space: Space, metrics: Metrics) -> tuple[LabelPlan, ...]:
    """A plan for each label in a space that is the same for all. Numbers and words are planned apart: their floors differ."""
    kinds = [tuple(x for x in labels if (len(x.number) > SHORT_SIGNS) == is_word) for is_word in (False, True)]
    plans = [iter(_plan_kind(kind, space, metrics) if kind else ()) for kind in kinds]
    return tuple(next(plans[len(x.number) > SHORT_SIGNS]) for x in labels)


def _plan_kind(labels: tuple[Label, ...], space: Space, metrics: Metrics) -> tuple[LabelPlan, ...]:
    low = space.width * 10 >= space.height * 25 and (space.width >= 52_000 or space.height < TINY_UM)
    widest = widest_number(labels, metrics) * LABEL_NUMBER.floor_um
    is_word = widest > space.width * WORD_SHARE // 100 * FACES["figures-bold"].cap
    beside = low and not (is_word and space.height >= TINY_UM)
    common = plan_beside(labels, space, metrics) if beside else plan_stacked(labels, space, metrics, roomy=True)
    give_room = give_room_beside if beside else give_room_stacked
    return tuple(give_room(x, common, metrics) if _is_long(x, common, metrics) else common for x in labels)


def _is_long(label: Label, plan: LabelPlan, metrics: Metrics) -> bool:
    """Whether a text of the label does not stand on one line of the plan, or runs into the code."""
    role = fit(label.role, replace(plan.sizes.role, lines=1), plan.text_width, metrics)
    width = name_room(label, plan.text_width, plan.sizes.small, metrics) if plan.shape == "stacked" else plan.text_width
    names = fit(name_text(label), replace(plan.sizes.name, lines=1), width, metrics)
    raised = plan.shape == "stacked" and _runs_under_code(role, plan, metrics)
    crowded = raised or role.outcome != "whole" or (plan.names and names.outcome != "whole")
    return crowded or not _has_frequency_room(label, plan, metrics)


def _has_frequency_room(label: Label, plan: LabelPlan, metrics: Metrics) -> bool:
    """Whether a frequency stands beside revision and code on a label of two lines: a wider number may have taken its room."""
    if plan.shape == "stacked" or plan.foot_um:
        return True
    width = plan.text_width - plan.space.signs_um - CODE_GAP_UM
    return fit(frequency_text(label), plan.sizes.frequency, width, metrics).outcome == "whole"


def _runs_under_code(role: Fitted, plan: LabelPlan, metrics: Metrics) -> bool:
    width = role.width_um(metrics)
    deep = plan.code_span > plan.role_top + plan.sizes.gap - accent_um(role, 0)
    return deep and width + SIDE_GAP_UM + plan.code_span > plan.width
