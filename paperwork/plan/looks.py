"""Changes of costume that touch a pack: from which look to which, between which scenes, and in how many seconds."""

from paperwork.frozen import frozen
from paperwork.model import Look, Scene, Show
from paperwork.plan.handovers import time_facts
from paperwork.plan.timeline import Stint, list_days, list_stints


@frozen
class LookChange:
    """One performer goes from `old` (None: not stated) to `new`, last seen in `after`, next seen in `before`.

    `after` is None where the look is their first of the evening. Times as in a handover: exact seconds, or no less
    than that (`at_least`), or None where the show does not state enough.
    """

    by: str
    old: Look | None
    new: Look
    after: Scene | None
    before: Scene
    exit: str = ""
    enter: str = ""
    seconds: int | None = None
    at_least: bool = False
    off_s: int | None = None
    on_s: int | None = None


def looks_of(show: Show, by: str) -> tuple[Look, ...]:
    """A performer's looks in show order: the one without a scene first."""
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    own = (look for look in show.looks.values() if look.by == by)
    return tuple(sorted(own, key=lambda look: order.get(look.scene, -1)))


def look_at(show: Show, by: str, index: int) -> Look | None:
    """What a performer wears in the scene of an index, None where nothing is stated."""
    order = {scene.id: place for place, scene in enumerate(show.scenes)}
    return next((look for look in reversed(looks_of(show, by)) if order.get(look.scene, -1) <= index), None)


def seen_from(show: Show, look: Look) -> Scene | None:
    """The scene in which a look is first seen: its own, or the next one in which its performer is live.

    So a card and a change list name one scene. None where the look has no scene.
    """
    order = {scene.id: place for place, scene in enumerate(show.scenes)}
    if look.scene not in order:
        return None
    at = order[look.scene]
    seen = next((stint.index for stint in _stints_of(show, look.by) if stint.index >= at), at)
    return show.scenes[seen]


def list_look_changes(show: Show) -> tuple[LookChange, ...]:
    """Every change from one look to the next, in show order. The first look of an evening or a day does not count."""
    order = {scene.id: index for index, scene in enumerate(show.scenes)}
    days, found = list_days(show), []
    for by in dict.fromkeys(look.by for look in show.looks.values() if look.by):
        looks, stints = looks_of(show, by), _stints_of(show, by)
        for old, new in zip((None, *looks), looks, strict=False):
            if new.scene in order and (old or any(stint.index < order[new.scene] for stint in stints)):
                found.append(_change(show, by, old, new, order[new.scene], stints))
    if days:
        found = [one for one in found if not one.after or days[order[one.after.id]] == days[order[one.before.id]]]
    return tuple(sorted(found, key=lambda change: (order[change.before.id], change.by)))


def _stints_of(show: Show, by: str) -> list[Stint]:
    roles = [role.id for role in show.roles.values() if role.by == by]
    stints = [stint for own in list_stints(show, roles).values() for stint in own]
    return sorted(stints, key=lambda stint: (stint.index, stint.from_s or 0))


def _change(show: Show, by: str, old: Look | None, new: Look, at: int, stints: list[Stint]) -> LookChange:
    """The change between the last stint before the look's scene and the first in it or after it."""
    one = next((stint for stint in reversed(stints) if stint.index < at), None)
    two = next((stint for stint in stints if stint.index >= at), None)
    return LookChange(
        by=by,
        old=old,
        new=new,
        after=show.scenes[one.index] if one else None,
        before=show.scenes[two.index if two else at],
        **time_facts(one, two),
    )
