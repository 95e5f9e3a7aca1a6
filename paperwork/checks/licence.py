"""The licence: whether it holds on the show's days and in its house, and whether frequencies are as they were granted."""

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


def check_granted(show: Show) -> Iterator[Finding]:
    """What is set on the radios is what a coordinator granted, wherever there is an answer."""
    for channel in show.channels.values():
        about = (Subject("channels", channel.id),)
        if channel.hz is None:
            continue
        if channel.refused:
            yield find(
                "frequency-refused",
                channel.where["mhz"],
                about=about,
                others=(channel.where["granted"],),
                channel=channel.id,
                mhz=format_mhz(channel.hz),
                pack=channel.pack,
            )
        elif channel.granted_hz not in (None, channel.hz):
            yield find(
                "frequency-not-granted",
                channel.where["mhz"],
                about=about,
                others=(channel.where["granted"],),
                channel=channel.id,
                mhz=format_mhz(channel.hz),
                granted=format_mhz(channel.granted_hz),
            )


CHECKS = (check_licence, check_granted)
