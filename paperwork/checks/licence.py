"""The licence: whether it holds on the show's days, and in its house."""

from collections.abc import Iterator

from paperwork.finding import Finding, find
from paperwork.model import Show
from paperwork.names import fold


def check_licence(show: Show) -> Iterator[Finding]:
    """The licence covers every day of the run, and names the place that the show plays in."""
    production = show.production
    where = production.where
    if production.licensed_from and production.first_day:
        early = production.first_day < production.licensed_from
        if early or production.last_day > production.licensed_to:
            yield find(
                "licence-dates", where["licensed"], others=(where["dates"],), start=production.licensed_from,
                end=production.licensed_to, day=production.first_day if early else production.last_day,
            )
    place, venue = fold(production.licensed_for), fold(production.venue)
    if place and venue and place not in venue and venue not in place:
        yield find("licence-place", where["licensed for"], others=(where["venue"],), town=production.licensed_for,
                   venue=production.venue)


CHECKS = (check_licence,)
