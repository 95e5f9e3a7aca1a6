"""One row of the table of codes: everything that a code means, in one place."""

import re
from typing import Literal, TypeAlias

from paperwork.frozen import frozen

Severity: TypeAlias = Literal["error", "warning"]
Stage: TypeAlias = Literal["read", "shape", "reference", "sense"]
Topic: TypeAlias = Literal["frequency", "air", "slot", "output", "pack", "capsule", "body", "cells", "clock"]

_TAIL = re.compile(r"\{(hint|nearest|free)\}")


@frozen
class Code:
    """`says` and `fix` are words with {facts} to fill in; `explains` is what `paperwork explain` prints.

    `advice` is the fix in words that need no facts; "" where `fix` without its tails is that. `{edit}` in `fix` stands
    for the edit's own words, so that the two cannot disagree.
    """

    name: str
    severity: Severity
    says: str
    fix: str
    explains: str
    stage: Stage = "sense"
    advice: str = ""
    topics: tuple[Topic, ...] = ()
    """The kinds of fact that an error makes doubtful: it stamps only papers that show one. None: all that show its
    subject. `air`: what is on the air is not known, so nothing is called clean."""
    doubts: bool = False
    """Its channels' frequencies are uncertain: printed as blanks, their labels withheld."""
    asks: bool = False
    """It is a question of somebody's own list."""
    asked_first: bool = False
    """Somebody's own list asks this while it is read, so that its answers settle it and the finding is left out."""
    floods: bool = False
    """One long name can raise it on every sheet: a few are printed one by one, and the rest is counted."""
    stops: bool = False
    """Nothing can be read or printed after it: the command ends with 2."""
    edit: str = ""
    """The fix as edits of the show file, `channels/{channel}/mhz={clean}`, several with `; ` between (see
    `finding.Edit`). A case in which one of the facts is missing or empty has no edit."""
    decides: bool = False
    """A person has to decide before the edit is made. Not so where it changes how a thing is written (a spelling with one
    near candidate), repeats what the file or the coordinator says already, or retunes a carrier that nobody was granted.
    It is so where one of two things that contradict each other has to give way, where a record or a frequency is deleted,
    and where the answer is outside of the file: what is on the air, who wears what, what somebody meant."""

    @property
    def stamp(self) -> str:
        """The key of the words by which a stamp names it; one for all that leave open what is on the air."""
        return "stamp air" if "air" in self.topics or self.stage == "read" else f"stamp {self.name}"

    @property
    def plain_fix(self) -> str:
        """The fix as words without facts, for somebody who asks what the code means."""
        return self.advice or _TAIL.sub("", self.fix)
