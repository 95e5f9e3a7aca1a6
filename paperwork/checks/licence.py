"""The licence: whether it holds on the show's days and in its house, and whether a frequency was refused."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Show
from paperwork.text.names import fold
from paperwork.text.units import format_mhz


def check_licence(show: Show) -> Iterator[Finding]:
    """The licence covers every day of the run, and names the place that the show plays in."""
    production = show.production
    where = production.where
    if production.licensed_from and production.first_day:
        early = production.first_day < production.licensed_from
        if early or production.last_day > production.licensed_to:
            yield find(
                "licence-dates",
                where["licensed"],
                others=(where["dates"],),
                start=production.licensed_from,
                end=production.licensed_to,
                day=production.first_day if early else production.last_day,
            )
    place, venue = fold(production.licensed_for), fold(production.venue)
    if place and venue and place not in venue and venue not in place:
        yield find(
            "licence-place",
            where["licensed for"],
            others=(where["venue"],),
            town=production.licensed_for,
            venue=production.venue,
        )


def check_refused(show: Show) -> Iterator[Finding]:
    """Nothing is on a frequency that a coordinator refused."""
    for channel in show.channels.values():
        if channel.refused and channel.hz is not None:
            yield find(
                "frequency-refused",
                channel.where["mhz"],
                about=(Subject("channels", channel.id),),
                others=(channel.where["granted"],),
                channel=channel.id,
                mhz=format_mhz(channel.hz),
                pack=channel.pack,
            )


CHECKS = (check_licence, check_refused)
