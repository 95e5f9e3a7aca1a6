"""What goes wrong in one performance and not on the day that the show states: another cast, other times, another date,
hired gear that has gone back."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from paperwork import limits
from paperwork.checks.company import covers, people, swaps
from paperwork.checks.gear import batteries, capsules, packs
from paperwork.finding import Finding, Subject, find
from paperwork.model import Hire, Performance, Show
from paperwork.staging import stage_performance
from paperwork.text.names import fold, join_words

_PLAYED: tuple[Callable[[Show], Iterator[Finding]], ...] = (
    *packs.CHECKS,
    *people.CHECKS,
    *swaps.CHECKS,
    *capsules.CHECKS,
    *covers.CHECKS,
    *batteries.CHECKS,
)
"""The checks that ask who plays, or when. The others find the same in every performance."""

_NAMED = 3
"""Performances that a finding names; the rest is counted."""


def check_run(show: Show) -> Iterator[Finding]:
    """Every performance is on a day of the run; rehearsals may be before it. Another venue has other days."""
    if show.at_venue or show.at_performance in show.performances:
        return
    production = show.production
    for id, one in show.performances.items():
        early = one.date < production.first_day and one.kind != "rehearsal"
        if one.date and production.first_day and (early or one.date > production.last_day):
            yield find(
                "performance-outside-run",
                one.where["date"],
                about=(Subject("performances", id),),
                others=(production.where["dates"],),
                performance=id,
                date=one.date,
                start=production.first_day,
                end=production.last_day,
            )


def check_performances(show: Show) -> Iterator[Finding]:
    """Each performance is judged as the show of it would be; what the day or an earlier one had is said once."""
    if not show.performances or show.at_performance in show.performances:
        return
    alike = _group_alike(show)
    known = {_fault_of(finding) for check in _PLAYED for finding in check(show)}
    found: dict[Any, tuple[Finding, list[str]]] = {}
    for group in alike[: limits.PERFORMANCES]:
        staged, names = stage_performance(show, group[0]), [one.id for one in group]
        faults = {_fault_of(finding): finding for check in _PLAYED for finding in check(staged)}
        for fault, finding in faults.items():
            if fault not in known:
                found.setdefault(fault, (finding, []))[1].extend(names)
    for finding, names in found.values():
        subjects = tuple(Subject("performances", name) for name in names)
        yield replace(finding, text=f"{_name(names)}: {finding.text}", subjects=subjects, edits=())
    if len(alike) > limits.PERFORMANCES:
        place = alike[limits.PERFORMANCES][0].where.record
        yield find("performances-many", place, most=limits.PERFORMANCES)


def _group_alike(show: Show) -> list[list[Performance]]:
    """The performances that differ in nothing but their names, dates and kinds, together."""
    groups: dict[Performance, list[Performance]] = {}
    for one in show.performances.values():
        groups.setdefault(replace(one, id="", date="", kind="show"), []).append(one)
    return list(groups.values())


def _fault_of(finding: Finding) -> Any:
    """By what two findings are of one fault, whatever times their words name."""
    return finding.code, finding.subjects or finding.text


def _name(names: list[str]) -> str:
    if len(names) == 1:
        return f"in performance {names[0]}"
    rest = len(names) - _NAMED
    return f"in performances {join_words((*names[:_NAMED], *((f'{rest} more',) if rest > 0 else ())))}"


def check_hires(show: Show) -> Iterator[Finding]:
    """Nothing comes after the first day or goes back before the last, where both are stated. What one firm lends for
    the same days is one hire to renew."""
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


CHECKS = (check_run, check_performances, check_hires)
