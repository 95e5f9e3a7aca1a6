"""Findings about frequencies are first drafted, then settled together: what is clean for each is asked once for all."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from paperwork.coordinate import OnAir, nearest_words
from paperwork.finding import Finding, Subject, find
from paperwork.place import Place


@dataclass(frozen=True, slots=True)
class Draft:
    """A finding that still wants its nearest clean frequency. `mover` is the carrier that would have to move."""

    mover: str
    code: str
    place: Place
    about: tuple[Subject, ...] = ()
    others: tuple[Place, ...] = ()
    facts: Mapping[str, Any] = field(default_factory=dict)


def settle(on_air: OnAir, drafts: Iterable[Draft]) -> Iterator[Finding]:
    """The findings, each with the frequency that would be clean for its mover."""
    listed = tuple(drafts)
    nearest = nearest_words(on_air, (draft.mover for draft in listed)) if listed else {}
    for draft in listed:
        yield find(
            draft.code, draft.place, about=draft.about, others=draft.others, nearest=nearest[draft.mover], **draft.facts
        )
