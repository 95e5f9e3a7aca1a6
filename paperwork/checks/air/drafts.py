"""Findings about frequencies are first drafted, then settled together: what is clean for each is asked once for all."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from typing import Any

from paperwork.coordinate import OnAir
from paperwork.finding import Finding, Subject, find
from paperwork.frozen import frozen
from paperwork.place import Place
from paperwork.radio.carrier import Carrier
from paperwork.text.units import format_mhz

_UNKNOWN: tuple[None, str] = (None, "; a clean one is looked for once it is known what is on the air")
_NOT_ASKED: tuple[None, str] = (None, "")


@frozen
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


def settle(on_air: OnAir, drafts: Sequence[Draft], *, is_known: bool = True) -> tuple[tuple[Finding, ...], OnAir]:
    """The findings, each with the frequency that would be clean for its mover, and all that is on the air with what
    they offer on it too. Nothing is offered while the air is not known."""
    movers = list(dict.fromkeys(draft.mover for draft in drafts))
    is_advised = on_air.show.is_advised
    nearest: dict[str, tuple[int | None, str]] = dict.fromkeys(movers, _UNKNOWN if is_advised else _NOT_ASKED)
    if movers and is_advised and is_known:
        from paperwork.coordinate.nearest import find_nearest

        nearest = find_nearest(on_air, movers)
    found = tuple(_settle(on_air, draft, *nearest[draft.mover]) for draft in drafts)
    moved = [replace(one, hz=hz) for one in on_air.carriers if (hz := nearest.get(one.id, _UNKNOWN)[0]) is not None]
    return found, offer(on_air, moved)


def offer(on_air: OnAir, moved: Iterable[Carrier]) -> OnAir:
    """The carriers with what is offered to some of them beside."""
    beside = (replace(carrier, id=f"{carrier.id} at {carrier.hz}") for carrier in moved)
    return replace(on_air, carriers=(*on_air.carriers, *beside))


def _settle(on_air: OnAir, draft: Draft, hz: int | None, words: str) -> Finding:
    at = find_retunable(on_air, draft.mover, hz) if hz is not None else None
    clean = format_mhz(hz) if hz is not None else ""
    facts = {**draft.facts, "nearest": words, "at": at, "field": on_air.field_of(draft.mover), "clean": clean}
    return find(draft.code, draft.place, about=draft.about, others=draft.others, **facts)


def find_retunable(on_air: OnAir, name: str, hz: int | None) -> Subject | None:
    """The one record that gives a carrier its frequency; None where several do, or where a coordinator
    said no or granted another than `hz`."""
    if on_air.is_backup(name):
        backups = [Subject("channels", subject.id) for subject in on_air.subjects[name]]
        stated = [one for one in backups if "backup" in on_air.show.channels[one.id].where]
        return stated[0] if len(stated) == 1 else None
    records = [(subject, getattr(on_air.show, subject.section)[subject.id]) for subject in on_air.subjects[name]]
    given = [subject for subject, record in records if "mhz" in record.where]
    answered = any(record.refused or record.granted_hz not in (None, hz) for _, record in records)
    return given[0] if len(given) == 1 and not answered else None
