"""Times in a show file: from curtain up, or of the day, with a date where they are on another one."""

import re
import unicodedata
from datetime import date
from typing import NamedTuple

from paperwork.text.units import Doubt, format_clock, parse_clock, parse_date, parse_time_of_day

DAY_S = 24 * 3600

_DATED = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:\s+|T)(.+)")
_BEFORE = r"[-\u2212\u2013]\s*(.+)"


class Clock(NamedTuple):
    """How a show states its times: by the clock of its days (`by_day`), else from curtain up.

    `first_day` is the ISO date of the show, "" where it states none: the midnight before it is 0 by the clock. `day`
    is that on which a time without a date is.
    """

    by_day: bool = False
    first_day: str = ""
    day: str = ""


FROM_CURTAIN = Clock()
"""What times count from where nothing else is said."""


def split_date(text: str) -> tuple[str, str]:
    """The date in front of a time, "" where there is none, and the time."""
    match = _DATED.fullmatch(unicodedata.normalize("NFKC", text).strip())
    return (match[1], match[2]) if match else ("", text)


def parse_show_time(text: str, clock: Clock) -> int:
    """Seconds from curtain up, less than 0 before it (`-0:20`); by the clock from midnight before the first day.

    Raises Doubt for a time of the other manner.
    """
    before = re.fullmatch(_BEFORE, unicodedata.normalize("NFKC", text).strip())
    if clock.by_day:
        if before:
            raise Doubt(f"{text} is before 0, but times are times of day here")
        return parse_day_time(text, clock)
    if split_date(text)[0]:
        raise Doubt(f"{text} has a date, but times count from curtain up unless day: times is clock")
    return -parse_clock(before[1]) if before else parse_clock(text)


def parse_day_time(text: str, clock: Clock) -> int:
    """Seconds from midnight before the first day: `19:05`, `7:05 pm`, `25:30` the night after, `2027-07-11 10:00`."""
    day, time = split_date(text)
    seconds = parse_time_of_day(time)
    day = parse_date(day) if day else clock.day
    if not day:
        return seconds
    if not clock.first_day:
        raise Doubt(f"{text} has a date, but show: dates does not say which day is the first")
    days = (date.fromisoformat(day) - date.fromisoformat(clock.first_day)).days
    if days < 0:
        raise Doubt(f"{text} is before the first day of the show, {clock.first_day}")
    return days * DAY_S + seconds


def format_day_time(seconds: int) -> str:
    """A time of day as a clock on the wall shows it: `00:15` after midnight."""
    return format_clock(seconds % DAY_S).rjust(5, "0")
