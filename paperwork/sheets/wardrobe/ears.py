"""In-ear packs: which listener has which."""

from collections.abc import Iterator
from itertools import zip_longest
from typing import NamedTuple

from paperwork.model import Other, Show

KIND = "in-ear"


class Ears(NamedTuple):
    """One in-ear pack: its carrier, its number ("" where packs are not given), its listener ("": nobody given)."""

    other: Other
    pack: str
    listener: str

    @property
    def number(self) -> str:
        """What it is called: its own number, else the carrier's name."""
        return self.pack or self.other.id


def list_ears(show: Show) -> tuple[Ears, ...]:
    """Every in-ear pack in the show's order. Packs and listeners of a carrier belong together in their order."""
    return tuple(ears for other in show.others.values() if other.kind == KIND for ears in _ears_of(other))


def _ears_of(other: Other) -> Iterator[Ears]:
    for pack, listener in zip_longest(other.packs, other.listeners or ("",), fillvalue=""):
        yield Ears(other, pack, listener)
