"""The show of one performance: its date, its times, and who plays. Papers of it are made as of any show."""

from dataclasses import replace
from typing import Any

from paperwork.model import Day, Performance, Show, Where
from paperwork.text.names import fold

TIMES = ("power_up_s", "checks_s", "half_s", "curtain_s", "interval_s", "bows_s")
"""What a performance may say in place of the section day."""

RUN = ".."
"""Between the first and the last date of a run of performances."""


def find_performance(show: Show, name: str) -> Performance | None:
    """The performance of a name; or of a date, where it is the only one on it."""
    named = [one for one in show.performances.values() if fold(one.id) == fold(name)]
    dated = [one for one in show.performances.values() if one.date == name.strip()]
    return named[0] if named else dated[0] if len(dated) == 1 else None


def stage_run(show: Show, name: str) -> Show | None:
    """The show with the performances from one date to another, `2027-03-04..2027-03-10`, for papers of a whole week;
    None where there is none between them."""
    first, _, last = (part.strip() for part in name.partition(RUN))
    kept = {id: one for id, one in show.performances.items() if first <= one.date <= last}
    return replace(show, performances=kept, at_performance=f"{first} to {last}") if kept and first else None


def stage_performance(show: Show, performance: Performance) -> Show:
    """What a show that is written for that performance alone would say."""
    stated = {name: value for name in TIMES if (value := getattr(performance, name)) not in ((), None)}
    times: dict[str, Any] = _move_before_curtain(show.day, performance.curtain_s) | stated
    team = performance.team or show.day.team
    cast = dict(performance.cast)
    roles = {id: role.played_by(cast.get(id, role.by)) for id, role in show.roles.items()}
    production, date = show.production, performance.date
    return replace(
        show,
        production=replace(production, first_day=date, last_day=date) if date else production,
        day=replace(show.day, team=team, where=_say_where(show.day, performance), **times),
        roles=roles,
        at_performance=performance.id,
    )


def _say_where(day: Day, performance: Performance) -> Where:
    """Where each field of the day is written: what the performance states, in its row."""
    own = {name: place for name, place in performance.where.fields.items() if name in day.where.known}
    return replace(day.where, fields={**day.where.fields, **own})


def _move_before_curtain(day: Day, curtain_s: tuple[int, ...]) -> dict[str, tuple[int, ...]]:
    """The day's times before curtain up, as long before another one; of shows that the day does not have, none."""
    if not curtain_s:
        return {}
    moved = tuple(new - old for new, old in zip(curtain_s, day.curtain_s, strict=False))
    return {
        name: tuple(at + by for at, by in zip(getattr(day, name), moved, strict=False) if at + by >= 0)
        for name in ("power_up_s", "checks_s", "half_s")
    }
