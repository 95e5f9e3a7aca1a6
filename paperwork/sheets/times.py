"""Times as papers print them: from curtain up or of the day, as the show says them, never both in one line."""

from paperwork.document import Line, fact
from paperwork.document.styles import HAND_STRONG, Style
from paperwork.model import Scene, Show
from paperwork.plan.day.clockface import is_by_clock, list_origins, say_day_time, say_time
from paperwork.plan.timeline import Stretch
from paperwork.sheets.frame import is_staged, phrase
from paperwork.text.clock import DAY_S, format_day_time
from paperwork.text.words import join_times, weekdays_of


def clock_word(show: Show) -> str:
    """From when the times on a paper count, in the language of the papers."""
    if is_by_clock(show):
        return phrase(show, "time of day")
    return phrase(show, "show time") if is_staged(show) else phrase(show, "show time parts")


def clock_fact(show: Show) -> str:
    """The same without a language."""
    return "by clock" if is_by_clock(show) else "staged" if is_staged(show) else "in parts"


def time_words(show: Show, at_s: int | None) -> str:
    """A time of a scene or a move; "" if unknown. As a fact it is `plan.day.clockface.say_time`, with a hyphen."""
    if at_s is None:
        return ""
    said = say_time(show, at_s, weekdays_of(show.production.language))
    return f"\N{MINUS SIGN}{said[1:]}" if said.startswith("-") else said


def time_line(show: Show, at_s: int | None, style: Style) -> Line:
    """The same as a line of a cell."""
    return fact(time_words(show, at_s), style, of="" if at_s is None else say_time(show, at_s))


def span_words(show: Show, span: Stretch) -> tuple[str, str]:
    """From when to when, as `14:00–15:15`, and the same without a language. The day of one evening is said once."""
    near = is_by_clock(show) and span.to_s - span.from_s < DAY_S
    ends = [format_day_time(span.to_s)] * 2 if near else [time_words(show, span.to_s), say_time(show, span.to_s)]
    text, of = (
        join_times(start, end)
        for start, end in zip((time_words(show, span.from_s), say_time(show, span.from_s)), ends, strict=True)
    )
    return text, of


def span_line(show: Show, span: Stretch) -> Line:
    """The same as a line of a cell."""
    text, of = span_words(show, span)
    return fact(text, HAND_STRONG, of=of)


def day_time_words(show: Show, seconds: int) -> str:
    """A time of day, in seconds from midnight before the first day, as a clock on the wall shows it."""
    return say_day_time(show, seconds, weekdays_of(show.production.language))


def says_time_of_day(show: Show) -> bool:
    """Whether a scene has one time of day: by the clock, or on a day of one show."""
    return len(list_origins(show)) == 1


def scene_line(show: Show, scene: Scene, style: Style) -> Line:
    """When a scene starts: the time of day where it has one, else from curtain up."""
    if scene.at_s is None or not says_time_of_day(show):
        return time_line(show, scene.at_s, style)
    at_s = (list_origins(show)[0] + scene.at_s) // 60 * 60
    return fact(day_time_words(show, at_s), style, of=say_day_time(show, at_s))
