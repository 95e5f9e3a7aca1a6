"""Which performance tonight is, and its date."""

from collections.abc import Callable

import click
from click.core import ParameterSource

from paperwork.model import Show
from paperwork.reading import Reading
from paperwork.staging import find_performance
from paperwork.text.names import join_words


def choose_night(show: Show, on: str, date: str, is_stated: bool) -> tuple[str, str]:
    """The performance and the date of tonight's page: a performance that is named gives its date, and a date on which
    there is one performance gives that. `is_stated`: the date was asked for, and is not only that of today.

    Raises ValueError where the two do not go together, or where a date has several performances.
    """
    if on:
        named = find_performance(show, on)
        if named is None or not named.date or (is_stated and not date):
            return on, date
        if is_stated and date != named.date:
            raise ValueError(f"{named.id} is on {named.date}, not on {date}: leave out --on or --date")
        return on, named.date
    dated = [one.id for one in show.performances.values() if date and one.date == date]
    if len(dated) > 1:
        raise ValueError(f"on {date} there are {join_words(dated)}: say which with --on")
    return (dated[0] if dated else ""), date


def read_night(read: Callable[..., Reading], on: str, date: str, context: click.Context) -> tuple[Reading, str, str]:
    """The show of tonight, its performance and its date. `read` takes a performance as `on`."""
    usual = read(on=on)
    if usual.show is None:
        return usual, on, date
    is_stated = context.get_parameter_source("date") == ParameterSource.COMMANDLINE
    chosen, date = choose_night(usual.show, on, date, is_stated)
    return usual if chosen == on else read(on=chosen), chosen, date
