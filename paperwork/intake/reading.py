"""The reading of a list: what each sheet, table and column was taken for, why, and what else it could be."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from paperwork.place import Place

Doubt: TypeAlias = Literal["sure", "likely", "open"]
"""How far a decision is in doubt: none; the likeliest is taken and asked about; nothing is taken until it is answered."""

_ORDER = ("open", "likely", "sure")


@dataclass(frozen=True, slots=True)
class Decision:
    """What something on a sheet was taken for.

    `kind` and `about` are the key of the answer that changes it, `subject` names it to a person. `value` is what was taken
    ("" while it is open), `because` the reason, `choices` what else it may be, each with its words. `samples` are what it
    holds, shown on the screen of whoever owns the list and nowhere else.
    """

    kind: str
    about: str
    place: Place
    subject: str
    value: str
    because: str
    choices: Mapping[str, str]
    doubt: Doubt = "sure"
    samples: Sequence[str] = ()


def describe_reading(decisions: Iterable[Decision]) -> tuple[str, ...]:
    """A line for each decision, the most doubtful first: `? column C "Presenter": performer (its heading)  "Ada", "Ben"`."""
    ordered = sorted(decisions, key=lambda one: _ORDER.index(one.doubt))
    return tuple(map(_describe, ordered))


def _describe(one: Decision) -> str:
    sign = {"open": "?", "likely": "~", "sure": " "}[one.doubt]
    samples = ", ".join(" ".join(text.split())[:24] for text in one.samples)
    shown = f"  | {samples}" if samples else ""
    change = f'  [--answer "{one.kind} {one.about}={"|".join(one.choices)}"]' if one.doubt != "sure" else ""
    return f"{sign} {one.subject}: {one.value or 'not known'} ({one.because}){shown}{change}"
