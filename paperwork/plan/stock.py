"""Stock: the capsules that the show uses against those that are owned."""

from collections import Counter

from paperwork.frozen import frozen
from paperwork.model import Capsule, Show
from paperwork.text.names import natural_key


@frozen
class StockLine:
    """One kind of capsule: how many play, and how many are owned (None: not stated)."""

    id: str
    used: int
    owned: int | None

    @property
    def missing(self) -> int:
        """How many more are wanted for what plays; a spare can wait for the capsule of the pack that it replaces."""
        return max(0, self.used - self.owned) if self.owned is not None else 0


def count_capsules(show: Show) -> tuple[StockLine, ...]:
    """Every capsule of the section, or, where there is none, every one that a channel names, and how many play.

    One with a serial is one, unless stated otherwise. Of channels that are never powered together, one counts.
    """
    named = sorted({channel.capsule for channel in show.channels.values()} - {""}, key=natural_key)
    listed = show.capsules or {name: Capsule(name) for name in named}
    playing = {
        (channel.capsule, channel.exclusive or channel.id) for channel in show.channels.values() if not channel.spare
    }
    used = Counter(capsule for capsule, _ in playing)
    return tuple(
        StockLine(id, used[id], 1 if capsule.owned is None and capsule.serial else capsule.owned)
        for id, capsule in listed.items()
    )
