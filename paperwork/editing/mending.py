"""Findings corrected by their own edits, as far as nobody has to decide."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from paperwork.editing.edited import EditedShow, list_new
from paperwork.files.refusal import Refused
from paperwork.finding import Edit, Finding
from paperwork.reading import Reading

MOST_TRIES = 60
"""How often a show is edited and read again at most while its findings are corrected. Our choice, no source."""


@dataclass(slots=True)
class Mending:
    """A show whose findings are corrected by their own edits, as far as nobody has to decide and nothing gets worse."""

    show: EditedShow
    made: list[Finding] = field(default_factory=list)
    refused: set[tuple[Edit, ...]] = field(default_factory=set)
    tries: int = 0

    def run(self) -> None:
        """Make edits until none is left that helps, or `MOST_TRIES` are spent."""
        while self.tries < MOST_TRIES:
            wanted = [
                one
                for one in self.show.reading.findings
                if one.edits and not one.row.decides and one.edits not in self.refused
            ]
            if not wanted:
                return
            self._adopt(wanted)

    def _adopt(self, wanted: Sequence[Finding]) -> None:
        """All of them at once, else each half by itself; one alone that does not help is never made."""
        if self.tries >= MOST_TRIES:
            return
        self.tries += 1
        edits = tuple(dict.fromkeys(edit for one in wanted for edit in one.edits))
        try:
            made = self.show.make(edits)
        except Refused:
            made = None
        if made and self._is_better(made.reading, wanted):
            self.show = made
            self.made += wanted
        elif len(wanted) == 1:
            self.refused.add(wanted[0].edits)
        else:
            self._adopt(wanted[: len(wanted) // 2])
            self._adopt(wanted[len(wanted) // 2 :])

    def _is_better(self, after: Reading, wanted: Sequence[Finding]) -> bool:
        left = {(one.code, one.text) for one in after.findings}
        is_gone = not any((one.code, one.text) in left for one in wanted)
        return is_gone and all(one.severity != "error" for one in list_new(self.show.reading, after, wanted))
