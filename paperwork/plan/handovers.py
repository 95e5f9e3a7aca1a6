"""Handovers: a pack that goes from one body to another between scenes. Derived from who is live, never typed."""

from dataclasses import dataclass

from paperwork.model import Channel, Scene, Show


@dataclass(frozen=True, slots=True)
class Handover:
    """Pack of `channel` from one role to another: last live in `after`, next live in `before`."""

    channel: str
    from_role: str
    to_role: str
    after: Scene
    before: Scene


def list_handovers(show: Show, channel: Channel) -> tuple[Handover, ...]:
    """Every change of body of a channel's pack, in show order. Scenes in which nobody wears it are passed over."""
    found = []
    last: tuple[Scene, str] | None = None
    for scene in show.scenes:
        for role in channel.roles:
            if role not in scene.live:
                continue
            if last and show.roles[last[1]].by != show.roles[role].by:
                found.append(Handover(channel.id, last[1], role, last[0], scene))
            last = (scene, role)
    return tuple(found)


def count_handovers(show: Show, channel: Channel) -> int:
    """How many times the pack changes bodies."""
    return len(list_handovers(show, channel))
