"""One row of the table of codes."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

Severity: TypeAlias = Literal["error", "warning"]
Stage: TypeAlias = Literal["read", "shape", "reference", "sense"]


@dataclass(frozen=True, slots=True)
class Code:
    """`says` and `fix` are words with {facts} to fill in; `explains` is what `paperwork explain` prints."""

    name: str
    severity: Severity
    stage: Stage
    says: str
    fix: str
    explains: str
