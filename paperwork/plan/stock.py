"""Stock: what the show uses against what is owned, for capsules and transmitters."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from paperwork.model import Channel, Show


@dataclass(frozen=True, slots=True)
class StockLine:
    """One kind of thing: how many play, how many stand by on spares, and how many are owned (None: not told)."""

    id: str
    used: int
    standing_by: int
    owned: int | None

    @property
    def missing(self) -> int:
        """How many more are wanted for what plays; a spare can wait for the capsule of the pack that it replaces."""
        return max(0, self.used - self.owned) if self.owned is not None else 0


def count_capsules(show: Show) -> tuple[StockLine, ...]:
    """Every capsule of the section, and how often it is used. One with a serial is one, unless told otherwise."""
    used, spare = _count(show.channels.values(), "capsule")
    return tuple(
        StockLine(id, used[id], spare[id], 1 if capsule.owned is None and capsule.serial else capsule.owned)
        for id, capsule in show.capsules.items()
    )


def _count(channels: Iterable[Channel], name: str) -> tuple[Mapping[str, int], Mapping[str, int]]:
    """How often each thing is used and stands by. Of channels that are never powered together, one counts."""
    used: Counter[str] = Counter()
    spare: Counter[str] = Counter()
    groups: set[tuple[str, str]] = set()
    for channel in channels:
        thing = getattr(channel, name)
        if channel.exclusive and (channel.exclusive, thing) in groups:
            continue
        groups.add((channel.exclusive, thing))
        (spare if channel.spare else used)[thing] += 1
    return used, spare
