"""One located problem: what is wrong, where, about whom, and what would fix it."""

from dataclasses import dataclass
from typing import Any

from paperwork.codes import CODES, Severity
from paperwork.place import Place


@dataclass(frozen=True, slots=True)
class Subject:
    """The record that a finding is about, as `("channel", "05")`; a sheet that shows it carries the stamp."""

    section: str
    id: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One problem. `text` says what is wrong, `fix` what would mend it, both in plain words."""

    code: str
    place: Place
    text: str
    fix: str
    subjects: tuple[Subject, ...] = ()
    others: tuple[Place, ...] = ()

    @property
    def severity(self) -> Severity:
        """`error` or `warning`, from the table of codes."""
        return CODES[self.code].severity

    @property
    def stage(self) -> str:
        """`read`, `shape`, `reference` or `sense`: how far the way through it was found."""
        return CODES[self.code].stage


def find(
    code: str, place: Place, *, about: tuple[Subject, ...] = (), others: tuple[Place, ...] = (), **facts: Any
) -> Finding:
    """A finding worded by the table of codes from the given facts.

    Raises KeyError for a code or a fact that the table does not know: a bug, not a slip of the user.
    """
    code_row = CODES[code]
    return Finding(
        code=code,
        place=place,
        text=code_row.says.format_map(facts),
        fix=code_row.fix.format_map(facts),
        subjects=about,
        others=others,
    )


def order_findings(findings: "list[Finding] | tuple[Finding, ...]") -> tuple[Finding, ...]:
    """The findings in reading order of the source, errors before warnings at one place, doubles removed."""
    unique = dict.fromkeys(findings)
    return tuple(sorted(unique, key=lambda f: (f.place, f.severity != "error", f.code, f.text)))
