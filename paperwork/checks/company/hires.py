"""Hired gear: it is there as long as the show plays."""

from collections.abc import Iterator

from paperwork.finding import Finding, Subject, find
from paperwork.model import Hire, Show
from paperwork.text.names import fold, join_words


def check_hires(show: Show) -> Iterator[Finding]:
    """Nothing comes after the first day or goes back before the last, where both are stated. What one firm lends for the same
    days is one hire to renew."""
    first, last = show.production.first_day, show.production.last_day
    short: dict[tuple[str, str, str], list[Hire]] = {}
    for hire in show.hires.values():
        late, early = first and hire.from_day > first, last and hire.until_day and hire.until_day < last
        if late or early:
            what = f"starts on {hire.from_day}" if late else f"ends on {hire.until_day}"
            day = f"the show starts on {first}" if late else f"the show plays until {last}"
            short.setdefault((fold(hire.firm), what, day), []).append(hire)
    for (_, what, day), hires in short.items():
        yield find(
            "hire-short",
            hires[0].where["dates"],
            about=tuple(Subject("hires", hire.id) for hire in hires),
            others=(show.production.where["dates"], *(hire.where["dates"] for hire in hires[1:])),
            items=join_words(dict.fromkeys(hire.item or hire.id for hire in hires)),
            firm=hires[0].firm,
            what=what,
            day=day,
        )


CHECKS = (check_hires,)
