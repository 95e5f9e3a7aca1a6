"""Backups that are still to be found: which channels want one, and where it may go."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from paperwork.coordinate.carriers import OnAir, backup_of, carrier_name
from paperwork.coordinate.wants import want_of
from paperwork.frozen import frozen
from paperwork.model import Channel, Show
from paperwork.plan.windows import narrow_to_backed, ranges_of
from paperwork.radio.board.lattice import Want


@frozen
class Missing:
    """A channel that got no frequency, or no backup, and why; or one of the others, by its `section`."""

    channel: str
    reason: str
    is_backup: bool = False
    section: str = "channels"


def list_without_backup(show: Show) -> list[Channel]:
    """The channels that want a backup and have none, one for a wide carrier."""
    found: dict[str, Channel] = {}
    for channel in show.channels.values():
        if channel.wants_backup and channel.backup_hz is None:
            found.setdefault(carrier_name(channel), channel)
    return list(found.values())


def want_backup(on_air: OnAir, channel: Channel) -> Want | Missing:
    """The backup as something that wants a frequency, or why it cannot be looked for.

    It goes where the channel may go, its own carrier beside it, so that the two do not touch. The TV channel of its own
    frequency is second choice: one new transmitter there would take both.
    """
    show = on_air.show
    if channel.hz is None:
        return Missing(channel.id, "it has no frequency of its own yet")
    ranges = ranges_of(show, channel)
    if ranges is None:
        return Missing(
            channel.id, "nothing says where it may go: give what its radio tunes to, or the window of its rack"
        )
    if channel.spare:
        ranges = narrow_to_backed(show, channel, ranges)
    region = on_air.air.region
    own = region.tv_under(channel.hz) if region else None
    carrier = backup_of(show, channel, 0)
    half_hz = -(-carrier.bandwidth_hz // 2)
    avoid = [(one.low_hz, one.high_hz) for one in on_air.air.weak]
    avoid += [(own.low_hz - half_hz, own.high_hz + half_hz)] if own else []
    return replace(want_of(show, channel, ranges, tuple(avoid)), carrier=carrier)


def share_backups(wants: Mapping[str, Want], found: Mapping[str, int]) -> dict[str, int]:
    """The backups that were found, and for each channel without one that of another that is alike: in its range, where it can
    be in another TV channel than the channel's own, and shared by few. What was found is clean beside every channel."""
    shared = dict(found)
    for id, want in wants.items():
        if id in shared:
            continue
        half_hz, uses = -(-want.carrier.bandwidth_hz // 2), Counter(shared.values())
        fitting = {
            hz
            for other, hz in found.items()
            if wants[other].carrier.family == want.carrier.family
            and (hz - want.origin_hz) % want.step_hz == 0
            and any(low <= hz - half_hz and hz + half_hz <= high for low, high in want.ranges)
        }
        avoided = {hz for hz in fitting if any(low <= hz < high for low, high in want.avoid)}
        if fitting:
            shared[id] = min(fitting, key=lambda hz: (hz in avoided, uses[hz], hz))
    return shared
