"""What the times of a show count from, and how they are said: the one place between seconds and a clock."""

from collections.abc import Iterator, Sequence
from datetime import date

from paperwork.model import Show
from paperwork.text.clock import DAY_S, format_day_time
from paperwork.text.units import format_clock

NIGHT_S = 6 * 3600
"""Until six in the morning it is still the evening before, and nobody says which day (common practice, no source)."""

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
"""As findings say them; papers have them in their language."""


def is_by_clock(show: Show) -> bool:
    """Whether scenes, moves and parts of the bill have times of day."""
    return show.day.times == "clock"


def list_origins(show: Show) -> tuple[int, ...]:
    """What is 0 for the scenes, in seconds from midnight before the first day: curtain up of each show, or midnight."""
    return (0,) if is_by_clock(show) else show.day.curtain_s


def spans_days(show: Show) -> bool:
    """Whether a time of day alone does not say when: the times go on into another day, beyond the night."""
    return is_by_clock(show) and any(at_s >= DAY_S + NIGHT_S for at_s in _list_known(show))


def _list_known(show: Show) -> Iterator[int]:
    day = show.day
    yield from (*day.power_up_s, *day.checks_s, *day.half_s, *day.curtain_s, *day.interval_s, *day.bows_s)
    stated = [at_s for scene in show.scenes for at_s in (scene.at_s, scene.until_s)]
    stated += [at_s for group in show.groups.values() for at_s in (group.from_s, group.until_s)]
    yield from (at_s for at_s in stated if at_s is not None)


def say_time(show: Show, seconds: int, weekdays: Sequence[str] = WEEKDAYS) -> str:
    """A time of a scene as the show says it: `0:41` from curtain up, `19:05` by the clock."""
    return say_day_time(show, seconds, weekdays) if is_by_clock(show) else format_clock(seconds)


def say_day_time(show: Show, seconds: int, weekdays: Sequence[str] = WEEKDAYS) -> str:
    """A time of day, `00:15`; with its day where there are several: `Sun 10:00`, or `2. 10:00` without dates."""
    time, days = format_day_time(seconds), seconds // DAY_S
    if not spans_days(show):
        return time
    first = show.production.first_day
    number = (date.fromisoformat(first).weekday() + days) % 7 if first else 0
    return f"{weekdays[number]} {time}" if first else f"{days + 1}. {time}"
