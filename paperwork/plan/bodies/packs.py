"""What roles carry where no scene is asked about: their own channels, and what comes with a channel that is given."""

from paperwork.model import Show


class Packs:
    """The channels of each role; second packs last."""

    def __init__(self, show: Show) -> None:
        self.own: dict[str, tuple[str, ...]] = {}
        self.doubles: dict[str, tuple[str, ...]] = {}
        for channel in sorted(show.channels.values(), key=lambda channel: bool(channel.doubles)):
            for role in dict.fromkeys(channel.roles):
                self.own[role] = (*self.own.get(role, ()), channel.id)
            if channel.doubles:
                self.doubles[channel.doubles] = (*self.doubles.get(channel.doubles, ()), channel.id)

    def carried(self, role: str, given: str) -> tuple[str, ...]:
        """The channels of a role in a stint for which a channel is given, "" for its own."""
        return (given, *self.doubles.get(given, ())) if given else self.own.get(role, ())
