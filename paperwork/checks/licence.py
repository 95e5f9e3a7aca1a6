"""The licence: whether it holds on the show's days and in its house, and whether a frequency was refused."""

from collections.abc import Iterator

from paperwork.coordinate.grants import list_asked
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, Show
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
    for record in list_asked(show):
        if record.refused and record.hz is not None:
            is_ours = isinstance(record, Channel)
            at = Subject("channels" if is_ours else "others", record.id)
            yield find(
                "frequency-refused",
                record.where["mhz"],
                about=(at,),
                others=(record.where["granted"],),
                name=f"channel {record.id}" if is_ours else record.id,
                mhz=format_mhz(record.hz),
                off=f"pack {record.pack} off, take its batteries out" if isinstance(record, Channel) else "it off",
                at=at,
            )


CHECKS = (check_licence, check_refused)
