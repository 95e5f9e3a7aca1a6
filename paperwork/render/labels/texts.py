"""The texts of one label in the room that they have: the role as large as it can be, and every performer whole.

For labels whose texts do not stand on one line of the plan that all share.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from paperwork.document import Label
from paperwork.document.styles import Style
from paperwork.render.text.fitting import Fitted, fit
from paperwork.render.text.measuring import Metrics

STEP_UM = 100
TWO_LINES = 75
"""A role on two lines counts for so many percent of its height: one line is read faster (our own rule)."""


@dataclass(frozen=True, slots=True)
class Texts:
    """The role's style at the height chosen, and the performers' lines: all on one, or a line for each."""

    role: Style
    names: tuple[str, ...]
    name: Style


def name_text(label: Label) -> str:
    """The performers on one line."""
    return "  ·  ".join(name for name in label.performers if name)


def choose_texts(
    label: Label,
    styles: tuple[Style, Style],
    widths: tuple[int, int, int],
    fits: Callable[[Texts], bool],
    metrics: Metrics,
) -> Texts | None:
    """The largest role, on one line or two, beside which all performers are whole, where `fits` says that both have room.

    `styles` are those of role and performers, `widths` what a role has, performers on one line, and a line for each.
    Performers are never taller than two thirds of their role. None where nothing at or above the floors has room.
    """
    role, name = styles
    for style in _role_options(label.role, role, widths[0], metrics):
        small = replace(name, wanted_um=max(name.floor_um, min(name.wanted_um, style.wanted_um * 2 // 3)))
        for names in _name_options(label, small, widths[1:], metrics):
            texts = Texts(style, names, small)
            if fits(texts):
                return texts
    return None


def _name_options(label: Label, name: Style, widths: tuple[int, ...], metrics: Metrics) -> Iterator[tuple[str, ...]]:
    """All on one line, a line for each; only what is whole."""
    one = replace(name, lines=1)
    apart = tuple(filter(None, label.performers))
    for lines, width in (((name_text(label),) if apart else (), widths[0]), (apart, widths[1])):
        if all(fit(line, one, width, metrics).outcome == "whole" for line in lines):
            yield lines


def _role_options(text: str, role: Style, width: int, metrics: Metrics) -> Iterator[Style]:
    """The role at every height at which it is whole on one line or two, the best first."""
    wanted = []
    for cap in range(role.wanted_um, role.floor_um - 1, -STEP_UM):
        for lines, worth in ((1, 100), (2, TWO_LINES)):
            wanted.append((cap * worth, -lines, cap))
    for _, lines, cap in sorted(wanted, reverse=True):
        style = replace(role, wanted_um=cap, lines=-lines, paragraph=lines < -1)
        fitted = fit(text, style, width, metrics)
        if fitted.outcome == "whole" and len(fitted.lines) == -lines and fitted.cap_um == cap:
            yield style


def stack_um(lines: list[Fitted], gap: int) -> int:
    """The height of lines set one under the other, `gap` between ink and ink, accents and descenders included."""
    heights = (one.rise_um + (len(one.lines) - 1) * one.pitch_um + one.drop_um for one in lines)
    return sum(heights) + gap * max(0, len(lines) - 1)


def list_steps(lines: list[Fitted]) -> list[int]:
    """From each baseline to the next one, where every line is a text of its own: clear of what hangs and what rises."""
    return [max(one.pitch_um, two.pitch_um, one.drop_um + two.rise_um + 50) for one, two in pairwise(lines)]
