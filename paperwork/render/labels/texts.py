"""The texts of one label within its grid: how the role has room, and every performer whole if it can be.

A role is whole on one line, somewhat lower if need be; else by its short name; else on two lines; and abbreviated where
nothing else is left. Nothing moves for it.
"""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from paperwork.document import Label
from paperwork.document.styles import SCALE_UM, Style
from paperwork.frozen import frozen
from paperwork.render.labels.grid import INK_GAP_UM, LEAST_PERCENT, SIDE_GAP_UM, LabelGrid
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics
from paperwork.render.text.setting import Typesetter

LAST_PERCENT = 55
"""How tall a role is tried against the others where neither its short name nor two lines are whole (our own rule)."""

CAPSULE_SHARE = 36
"""Percent of a stacked label's width that the capsule may take from the performers beside it."""


@frozen
class Placed:
    """A fitted text and the base line of its first line."""

    fitted: Fitted
    first: int

    @property
    def top(self) -> int:
        """Where its ink begins."""
        return self.first - self.fitted.rise_um

    @property
    def bottom(self) -> int:
        """Where its ink ends."""
        return self.first + (len(self.fitted.lines) - 1) * self.fitted.pitch_um + self.fitted.drop_um


@frozen
class Texts:
    """The role, and the performers' lines; what gave way for want of room is in `lost`, as (kind, text)."""

    role: Placed | None
    names: tuple[Placed, ...]
    lost: tuple[tuple[str, str], ...] = ()


def name_text(label: Label) -> str:
    """The performers on one line."""
    return " · ".join(name for name in label.performers if name)


def choose_texts(label: Label, grid: LabelGrid, signs_um: int, setter: Typesetter) -> Texts:
    """The largest role beside which all performers are whole; where there is none, what had to be cut is a finding.

    `signs_um` is what stands at the right of the role where a label has but one line.
    """
    metrics = setter.metrics
    right = grid.right - (signs_um if grid.shape == "line" else 0)
    roles = [*_list_roles(label, grid, right, metrics)]
    if label.brief_performers and grid.name_lines:
        if found := _fit_whole(label, grid, right, metrics, roles):
            return found
        label = replace(label, performers=label.brief_performers)
    if found := _fit_whole(label, grid, right, metrics, roles):
        return found
    return _cut_texts(label, grid, right, setter, roles)


def _fit_whole(label: Label, grid: LabelGrid, right: int, metrics: Metrics, roles: list[Placed]) -> Texts | None:
    named = [*_list_names(label, grid, metrics)] if grid.name_lines else [()]
    for role in roles:
        for names in named:
            if _have_room(role, names, grid, right, metrics):
                return Texts(role, names)
    return None


def _cut_texts(label: Label, grid: LabelGrid, right: int, setter: Typesetter, roles: list[Placed]) -> Texts:
    """Texts that are not whole: the performers give way first, on one line; then the role."""
    metrics, text = setter.metrics, name_text(label)
    style = _at(grid.sizes.name, grid.sizes.name.floor_um)
    names = _place_names((fit(text, style, _name_room(label, grid, metrics), metrics),), grid)
    cut = [_place_role(one, grid) for one in _cut_roles(label, grid, right, metrics)]
    options: list[tuple[Placed, ...]] = [names, ()] if text and grid.name_lines else [()]
    for kept in options:
        for role in (*roles, *cut):
            if _have_room(role, kept, grid, right, metrics):
                if role in cut:
                    setter.record(label.role, role.fitted)
                for one in kept:
                    setter.record(text, one.fitted)
                is_lost = bool(text and grid.name_lines and not kept)
                return Texts(role, kept, (("performers", text),) if is_lost else ())
    return Texts(None, (), (("roles", label.role), *((("performers", text),) if text and grid.name_lines else ())))


def _at(style: Style, cap_um: int, lines: int = 1) -> Style:
    return replace(style, wanted_um=cap_um, floor_um=min(cap_um, style.floor_um), lines=lines, paragraph=lines > 1)


def _place_role(fitted: Fitted, grid: LabelGrid) -> Placed:
    """The role on its base line, of two lines the last one; where texts have the whole height, two begin at its top."""
    if len(fitted.lines) > 1 and grid.shape == "beside":
        return Placed(fitted, max(fitted.cap_um, fitted.rise_um + grid.role_top))
    return Placed(fitted, grid.role_base - (len(fitted.lines) - 1) * fitted.pitch_um)


def _place_names(lines: tuple[Fitted, ...], grid: LabelGrid) -> tuple[Placed, ...]:
    """The performers, the last of them on the base line."""
    steps = list_steps([*lines])
    return tuple(Placed(one, grid.name_base - sum(steps[index:])) for index, one in enumerate(lines))


def _list_names(label: Label, grid: LabelGrid, metrics: Metrics) -> Iterator[tuple[Placed, ...]]:
    """The performers on one line, or a line for each; only what is whole."""
    apart, width = tuple(filter(None, label.performers)), _name_room(label, grid, metrics)
    if not apart:
        yield ()
        return
    ways = ((name_text(label),), *((apart,) if 1 < len(apart) <= grid.name_lines else ()))
    for cap in _steps_of(grid.sizes.name):
        for way in ways:
            lines = tuple(fit(line, _at(grid.sizes.name, cap), width, metrics) for line in way)
            if all(one.outcome == "whole" and one.cap_um == cap and len(one.lines) == 1 for one in lines):
                yield _place_names(lines, grid)


def _name_room(label: Label, grid: LabelGrid, metrics: Metrics) -> int:
    """What the capsule leaves of a stacked label's width for the performers."""
    if grid.shape != "stacked" or not label.capsule:
        return grid.text_width
    capsule = fit(label.capsule, grid.sizes.small, grid.width * CAPSULE_SHARE // 100, metrics)
    return grid.width - capsule.width_um(metrics) - SIDE_GAP_UM


def _list_roles(label: Label, grid: LabelGrid, right: int, metrics: Metrics) -> Iterator[Placed]:
    """Every way in which the role is whole, the best first."""
    role = grid.sizes.role
    names = [*dict.fromkeys(filter(None, (label.role, label.brief)))]
    caps = _steps_of(role)
    first = [cap for cap in caps if cap * 100 >= role.wanted_um * LEAST_PERCENT] or caps[:1]
    last = [cap for cap in caps if cap < first[-1] and cap * 100 >= role.wanted_um * LAST_PERCENT]
    for lines, steps in ((1, first), (2, [cap for cap in caps if cap <= first[-1]]), (1, last)):
        for text in names if lines <= grid.role_lines else ():
            for cap in steps:
                fitted = fit(text, _at(role, cap, lines), right - grid.left, metrics)
                if fitted.outcome == "whole" and fitted.cap_um == cap and len(fitted.lines) == lines:
                    yield _place_role(fitted, grid)


def _steps_of(style: Style) -> list[int]:
    """The heights from the wanted one along the scale down to the floor."""
    return [*(step for step in reversed(SCALE_UM) if style.floor_um < step <= style.wanted_um), style.floor_um]


def _cut_roles(label: Label, grid: LabelGrid, right: int, metrics: Metrics) -> Iterator[Fitted]:
    """The role at its floor, cut off visibly: its short name, which says most on the least room."""
    role, width = grid.sizes.role, right - grid.left
    narrow = width - (grid.code_span + SIDE_GAP_UM if grid.shape == "stacked" else 0)
    for lines, room in ((grid.role_lines, width), (grid.role_lines, narrow), (1, width), (1, narrow)):
        yield fit(label.brief or label.role, _at(role, role.floor_um, lines), room, metrics)


def _have_room(role: Placed, names: tuple[Placed, ...], grid: LabelGrid, right: int, metrics: Metrics) -> bool:
    """Whether nothing of role and performers touches another, the number, the code, the foot or the cut."""
    below = names[0].top if names else grid.foot_top
    if role.top < grid.role_top or role.bottom + INK_GAP_UM > below:
        return False
    if names and names[-1].bottom + INK_GAP_UM > grid.foot_top:
        return False
    return grid.shape != "stacked" or not grid.dots or _clears_code(role, grid, right, metrics)


def _clears_code(role: Placed, grid: LabelGrid, right: int, metrics: Metrics) -> bool:
    """Whether the lines that are as high as the code end beside its quiet zone."""
    fitted = role.fitted
    for index, line in enumerate(fitted.lines):
        one = replace(fitted, lines=(line,))
        if role.first + index * fitted.pitch_um - one.rise_um < grid.code_span:
            width = metrics.width_um(line, fitted.face, fitted.cap_um)
            if grid.left + width + SIDE_GAP_UM + grid.code_span > right:
                return False
    return True


def list_steps(lines: list[Fitted]) -> list[int]:
    """From each baseline to the next one, where every line is a text of its own: clear of what hangs and what rises."""
    return [max(one.cap_um * 138 // 100, one.drop_um + two.rise_um + 50) for one, two in pairwise(lines)]
