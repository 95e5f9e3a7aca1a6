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
    holds, shown on the screen of whoever owns the list and nowhere else. `letter` is that of a column.
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
    letter: str = ""


def describe_reading(decisions: Iterable[Decision], *, how: bool = True) -> tuple[str, ...]:
    """A line for each decision, the most doubtful first, the others sheet by sheet. `?` is asked, `~` is taken until it is
    answered. `how` adds the command that answers a doubtful one."""
    listed = tuple(decisions)
    sheets = list(dict.fromkeys(one.place.sheet for one in listed))

    def place(one: Decision) -> tuple[int, int, int, int, int]:
        kind = {"language": 0, "sheet": 1, "rows": 2}.get(one.kind, 3)
        return _ORDER.index(one.doubt), sheets.index(one.place.sheet), kind, one.place.line, one.place.column

    return tuple(_describe(one, how=how) for one in sorted(listed, key=place))


def _describe(one: Decision, *, how: bool) -> str:
    sign = {"open": "?", "likely": "~", "sure": " "}[one.doubt]
    samples = ", ".join(" ".join(text.split())[:24] for text in one.samples)
    shown = f"  | {samples}" if samples else ""
    offered = "|".join(value for value, words in one.choices.items() if words)
    change = f'  [--answer "{one.kind} {one.about}={offered}"]' if how and one.doubt != "sure" else ""
    indent = "" if one.kind in ("language", "sheet") else "  " if one.kind == "rows" else "    "
    return f"{sign} {indent}{one.subject}: {one.value or 'not known'} ({one.because}){shown}{change}"
