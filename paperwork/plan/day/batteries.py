"""Batteries: how long each pack is on, when its cells are changed, and whether they reach the next change.

Hours on against hours of the cells times a margin. Fresh cells at every power-up; in between, at the change points
that the house names, or at as few as will do.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from paperwork.frozen import frozen
from paperwork.model import ChangePoint, Channel, Show
from paperwork.plan.day.clockface import is_by_clock, list_origins
from paperwork.plan.day.powered import Powered, powered_stretches
from paperwork.plan.rules import HALF_S, margin_hundredths
from paperwork.plan.timeline import Stretch, list_bows


class CellChange(NamedTuple):
    """Fresh cells at a time of day."""

    at_s: int
    point: ChangePoint


class CellRun(NamedTuple):
    """What one set of cells is asked to do: from a change to the next, on for so many seconds of it."""

    change: CellChange
    until_s: int
    on_s: int


@frozen
class BatteryPlan:
    """The cells of one channel's transmitter over the day.

    `chosen`: the changes were chosen here, since the house names none. A run is `short` if the cells are empty before
    its end, and `tight` if they reach it, but not with the margin.
    """

    channel: str
    pack: str
    hours_s: int
    margin_hundredths: int
    runs: tuple[CellRun, ...]
    chosen: bool

    @property
    def longest(self) -> CellRun:
        """The run that asks most."""
        return max(self.runs, key=lambda run: run.on_s)

    @property
    def short(self) -> bool:
        """Whether some run is longer than the cells last."""
        return self.longest.on_s > self.hours_s

    @property
    def tight(self) -> bool:
        """Whether some run asks for more than the margin leaves."""
        return not fits(self.longest.on_s, self.hours_s, self.margin_hundredths)


def fits(on_s: int, hours_s: int, margin_hundredths: int) -> bool:
    """Whether cells of so many hours run so long with the margin. Seconds; exact."""
    return on_s * margin_hundredths <= hours_s * 100


def hours_of(show: Show, channel: Channel) -> int | None:
    """How long the cells of a channel's transmitter last, in seconds: its own word, else its type's."""
    transmitter, radio = show.transmitters.get(channel.pack), show.radio_of(channel)
    own = transmitter.hours_s if transmitter else None
    return own if own is not None else radio.hours_s if radio else None


def plan_batteries(show: Show) -> tuple[BatteryPlan, ...]:
    """The plan of every channel whose hours and powered times are known; idle spares have none."""
    points = list_change_points(show)
    margin = margin_hundredths(show)
    plans, powered = [], Powered(show)
    for channel in show.channels.values():
        hours_s, on = hours_of(show, channel), powered.list_stretches_of(channel)
        if hours_s is None or not on:
            continue
        chosen = not show.day.cells
        usable = [point for point in points if chosen or point.point in show.day.cells or point.point == "power-up"]
        changes = _choose(on, usable, hours_s, margin) if chosen else _changes_in(on, usable)
        if runs := _runs(on, changes):  # none where a part ends before it begins
            plans.append(BatteryPlan(channel.id, channel.pack, hours_s, margin, runs, chosen))
    return tuple(plans)


def list_change_points(show: Show) -> tuple[CellChange, ...]:
    """Every time of the day at which cells can be changed, in order. On a bill or in a match, each new part is one."""
    day, on, bows_s = show.day, powered_stretches(show), list_bows(show)
    if not on or not (bows_s or is_by_clock(show)):
        return ()
    changes = [CellChange(stretch.from_s, "power-up") for stretch in on]
    changes += (CellChange(half_s, "half") for half_s in _list_halves(show))
    for zero_s in list_origins(show):
        changes += (CellChange(zero_s + at_s, "interval") for at_s in day.interval_s)
        changes += (
            CellChange(zero_s + scene.at_s, "between") for scene in show.scenes if scene.kind != "scene" and scene.at_s
        )
    zeros = list_origins(show) * (len(bows_s) if is_by_clock(show) else 1)
    changes += (CellChange(zero_s + end_s, "between") for zero_s, end_s in [*zip(zeros, bows_s, strict=False)][:-1])
    return tuple(sorted(changes))


def _list_halves(show: Show) -> list[int]:
    """The half of each show: as stated, else as long before curtain up as always; by the clock as stated alone."""
    day, curtains = show.day, () if is_by_clock(show) else show.day.curtain_s
    usual = [curtain_s - HALF_S for curtain_s in curtains[len(day.half_s) :]]
    return [*(day.half_s if is_by_clock(show) else day.half_s[: len(curtains)]), *usual]


def _changes_in(on: tuple[Stretch, ...], points: Sequence[CellChange]) -> list[CellChange]:
    """The points, in their order, that are in the powered times. The first power-up of the cells is always one."""
    start = CellChange(on[0].from_s, "power-up")
    first = bisect_right(points, on[0].from_s, key=_at)
    return [start, *points[first : bisect_left(points, on[-1].to_s, first, key=_at)]]


def _at(change: CellChange) -> int:
    return change.at_s


def _choose(on: tuple[Stretch, ...], points: Sequence[CellChange], hours_s: int, margin: int) -> list[CellChange]:
    """As few changes as will do: each set of cells runs to the last point that it reaches with its margin.

    Every power-up takes fresh cells. Where not even the next point is reached, it is taken all the same.
    """
    ahead = _changes_in(on, points)
    chosen = [ahead.pop(0)]
    end_s = on[-1].to_s
    while ahead:
        limit_s = next((point.at_s for point in ahead if point.point == "power-up"), end_s)
        if fits(_on_between(on, chosen[-1].at_s, limit_s), hours_s, margin):
            reached = [point for point in ahead if point.at_s == limit_s and point.point == "power-up"]
        else:
            within = [point for point in ahead if point.at_s <= limit_s]
            reached = [point for point in within if fits(_on_between(on, chosen[-1].at_s, point.at_s), hours_s, margin)]
            reached = reached or within[:1]
        if not reached:
            break
        chosen.append(reached[-1])
        ahead = [point for point in ahead if point.at_s > reached[-1].at_s]
    return chosen


def _runs(on: tuple[Stretch, ...], changes: list[CellChange]) -> tuple[CellRun, ...]:
    """The runs between changes, those in which the transmitter is never on left out."""
    ends = [*(change.at_s for change in changes[1:]), on[-1].to_s]
    runs = (
        CellRun(change, end_s, _on_between(on, change.at_s, end_s)) for change, end_s in zip(changes, ends, strict=True)
    )
    return tuple(run for run in runs if run.on_s > 0)


def _on_between(on: tuple[Stretch, ...], from_s: int, to_s: int) -> int:
    return sum(max(0, min(to_s, stretch.to_s) - max(from_s, stretch.from_s)) for stretch in on)
