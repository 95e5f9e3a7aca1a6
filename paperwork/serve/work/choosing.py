"""Which house and performance the papers are of, where the show has several: what a form offers and says."""

from collections.abc import Mapping
from typing import Any

from paperwork.files.refusal import Refused
from paperwork.model import Show
from paperwork.serve.shows import Opened
from paperwork.sheets.production.performance_list import list_by_date
from paperwork.staging import RUN
from paperwork.text.words import format_date


def choose_edition(opened: Opened, given: Mapping[str, str]) -> None:
    """Takes what a form says; what the show does not have is as if it was not said."""
    opened.venue, opened.on = given.get("venue", ""), given.get("on", "")
    show = _find_run(opened)
    if opened.on == RUN and not (show and RUN in show.performances):
        opened.on = RUN.join(sorted((given.get("first", ""), given.get("last", ""))))
    opened.read()


def describe_edition(opened: Opened) -> dict[str, Any]:
    """The performances by date, with what is chosen; the first and last date of a run of them."""
    show = _find_run(opened)
    listed = list_by_date(show) if show else []
    dates = list(dict.fromkeys(one.date for one in listed if one.date))
    several = bool(opened.on) and (show is None or opened.on not in show.performances)
    first, _, last = opened.on.partition(RUN) if several else ("", "", "")
    return {
        "performances": [(one.id, _say(one.id, one.date), one.id == opened.on) for one in listed],
        "dates": [(date, format_date(date, "en")) for date in dates],
        "several": several,
        "first": first or (dates[0] if dates else ""),
        "last": last or (dates[-1] if dates else ""),
    }


def _find_run(opened: Opened) -> Show | None:
    """The show with all of its performances, whichever is chosen."""
    if not opened.on:
        return opened.reading.show
    try:
        return opened.open_edited().reading.show
    except Refused:
        return None


def _say(name: str, date: str) -> str:
    return f"{name}, {format_date(date, 'en')}" if date and date not in name else name
