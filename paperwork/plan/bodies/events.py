"""All that changes on a body between two entrances, in show order: one number for one event on every paper.

A pack goes to another body, a body changes its pack, or a costume changes in a way that touches a pack.
"""

from collections.abc import Iterable
from typing import TypeAlias

from paperwork.frozen import frozen
from paperwork.model import Show
from paperwork.plan.covers import usual_evening
from paperwork.plan.evening import PackChange, list_pack_changes
from paperwork.plan.handovers import BEFORE_ALL_S, Handover, list_all_handovers
from paperwork.plan.looks import LookChange, list_look_changes
from paperwork.plan.timeline import scene_times

BodyChange: TypeAlias = Handover | PackChange | LookChange

QUICK_S = 300
"""A change with less time than five minutes is a quick one: nobody can be sent for what is missing (common practice, no
source)."""


@frozen
class Event:
    """One change with its number in the show, from 1.

    `sheds` is the channel whose pack the second body of a handover takes off for it, "" where it wears none.
    `in_interval`: an interval lies between the last exit and the next entrance.
    """

    number: int
    change: BodyChange
    sheds: str = ""
    in_interval: bool = False

    @property
    def is_quick(self) -> bool:
        """Whether time is known to be so short that everything has to lie ready; in sight of all it always is."""
        change = self.change
        in_vision = isinstance(change, Handover) and change.in_vision
        return in_vision or (change.seconds is not None and change.seconds < QUICK_S)


def list_events(show: Show) -> tuple[Event, ...]:
    """Every change of the usual evening, by when it must be done: the entrance for which it is made."""
    place = {scene.id: index for index, scene in enumerate(show.scenes)}
    handed = list_all_handovers(show)
    received = {(one.channel, one.to_by, one.before.id) for one in handed}
    shed = {(one.to_channel, one.by, one.before.id): one for one in list_pack_changes(show, usual_evening(show))}
    changed = [one for key, one in shed.items() if key not in received]

    def due(change: BodyChange) -> tuple[int, int, int]:
        known_s = change.on_s if change.on_s is not None else change.before.at_s
        return (
            place[change.before.id],
            BEFORE_ALL_S if known_s is None else known_s,
            place[change.after.id] if change.after else -1,
        )

    changes: Iterable[BodyChange] = sorted((*list_look_changes(show), *handed, *changed), key=due)
    times = scene_times(show)
    found = []
    for number, change in enumerate(changes, 1):
        off = shed.get((change.channel, change.to_by, change.before.id)) if isinstance(change, Handover) else None
        ends_s = times[place[change.after.id]][1] if change.after else None
        found.append(Event(number, change, off.from_channel if off else "", _spans_interval(show, change, ends_s)))
    return tuple(found)


def _spans_interval(show: Show, change: BodyChange, ends_s: int | None) -> bool:
    """Whether an interval is known to lie between the exit and the entrance. `ends_s`: of the scene of the exit."""
    off_s = change.off_s if change.off_s is not None else ends_s
    on_s = change.on_s if change.on_s is not None else change.before.at_s
    return off_s is not None and on_s is not None and any(off_s <= at_s <= on_s for at_s in show.day.interval_s)
