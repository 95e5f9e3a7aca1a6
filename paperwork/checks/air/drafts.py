"""Findings about frequencies are first drafted, then settled together: what is clean for each is asked once for all."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from paperwork.coordinate import OnAir, find_nearest
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place
from paperwork.text.units import format_mhz


@dataclass(frozen=True, slots=True)
class Draft:
    """A finding that still wants its nearest clean frequency. `mover` is the carrier that would have to move."""

    mover: str
    code: str
    place: Place
    about: tuple[Subject, ...] = ()
    others: tuple[Place, ...] = ()
    facts: Mapping[str, Any] = field(default_factory=dict)
    movers: tuple[Subject, ...] = ()
    """Other records that would have to move with it."""


def settle(on_air: OnAir, drafts: Iterable[Draft]) -> Iterator[Finding]:
    """The findings, each with the frequency that would be clean for its mover."""
    listed = tuple(drafts)
    nearest = find_nearest(on_air, (draft.mover for draft in listed)) if listed else {}
    for draft in listed:
        hz, words = nearest[draft.mover]
        at = find_retunable(on_air, draft.mover) if hz is not None else None
        facts = {**draft.facts, "nearest": words, "at": at, "clean": format_mhz(hz) if hz is not None else ""}
        yield find(draft.code, draft.place, about=draft.about, others=draft.others, **facts)


def find_retunable(on_air: OnAir, name: str) -> Subject | None:
    """The one record that gives a carrier its frequency; None where several do, or where that frequency was granted."""
    records = [(subject, getattr(on_air.show, subject.section)[subject.id]) for subject in on_air.subjects[name]]
    given = [(subject, record) for subject, record in records if "mhz" in record.where]
    return given[0][0] if len(given) == 1 and getattr(given[0][1], "granted_hz", None) is None else None
