"""The ids of one section, found as a reader would find them, and what a range of them holds."""

import re
from collections.abc import Iterable

from paperwork.text.names import id_key

_ENDS = re.compile(r"\s*[-\u2013]\s*|\s+to\s+")
"""Between the ends of a range, whatever they are."""


class Index:
    """The ids of one section, found as a reader would find them. Of an absent section any id is taken.

    People may be listed in part: of them only a name that may be meant for a listed one is unknown. Those `of_words`
    hold blanks.
    """

    def __init__(self, section: str, ids: Iterable[str], *, present: bool) -> None:
        self.section = section
        self.ids = tuple(ids)
        self.of_words = tuple(id for id in self.ids if " " in id.strip())
        self._present = present
        self._by_key = {id_key(id): id for id in reversed(self.ids)}

    def holds(self, id: str) -> bool:
        """Whether the section is there and has the id."""
        return self._present and id_key(id) in self._by_key

    def resolve(self, id: str) -> str | None:
        """The id as its section spells it, or as it is first given if the section is absent; None if it is unknown."""
        if not id:
            return id
        if not self._present:  # the first spelling is the section's
            return self._by_key.setdefault(id_key(id), id)
        return self._by_key.get(id_key(id))

    def list_between(self, word: str) -> tuple[str, ...]:
        """The ids from one end of a range to the other, in the order of the records; () where one end is missing."""
        keys = [id_key(id) for id in self.ids]
        ends = sorted(keys.index(key) for key in map(id_key, _ENDS.split(word, 1)) if key in keys)
        return self.ids[ends[0] : ends[1] + 1] if len(ends) == 2 else ()
