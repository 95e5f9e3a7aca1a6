"""A frequency for every channel of a show that has none, and for the spares that are asked for."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from paperwork.coordinate.air import CAUSE_WORDS
from paperwork.coordinate.carriers import OnAir, carrier_name, gather_on_air
from paperwork.coordinate.spares import find_elsewhere
from paperwork.coordinate.wants import narrow_to_backed, ranges_of, want_of, window_of
from paperwork.model import Channel, Show
from paperwork.radio.bands import Range, intersect_ranges, merge_ranges
from paperwork.radio.search.assign import DEFAULT_EFFORT, Unplaced, assign
from paperwork.radio.search.lattice import Want
from paperwork.text.names import natural_key
from paperwork.text.units import HIGHEST_HZ, format_mhz


@dataclass(frozen=True, slots=True)
class Missing:
    """A channel that got no frequency, and why."""

    channel: str
    reason: str


@dataclass(frozen=True, slots=True)
class Assigned:
    """What became of a search. `placed`: the frequency of each channel that got one, once for a wide carrier.

    `spares` are the new spare channels, with their frequencies in `placed`. Every guard and distance of the placed is
    kept with `margin_hz` to spare. `stopped`: the search was cut short.
    """

    placed: Mapping[str, int]
    missing: tuple[Missing, ...]
    spares: tuple[Channel, ...]
    margin_hz: int
    stopped: bool


def assign_show(
    show: Show,
    *,
    spares: Sequence[tuple[str, int]] = (),
    effort: int = DEFAULT_EFFORT,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> Assigned:
    """Frequencies for the channels that have none; those that have one keep it. `spares` are radio types and counts.

    The same show and effort give the same frequencies. Nothing placed disturbs anything, whatever the others do to
    each other.
    """
    added = tuple(_make_spares(show, spares))
    whole = replace(show, channels={**show.channels, **{one.id: one for one in added}})
    on_air = gather_on_air(whole)
    asked = {channel.id: _want(whole, on_air, channel) for channel in _list_homeless(whole)}
    wants = {id: want for id, want in asked.items() if isinstance(want, Want)}
    missing = [want for want in asked.values() if isinstance(want, Missing)]
    plan = assign(
        tuple(wants.values()),
        on_air.carriers,
        on_air.air.blocks,
        on_air.rules,
        effort=effort,
        stop=stop,
        progress=progress,
    )
    by_name = {want.carrier.id: id for id, want in wants.items()}
    placed = {by_name[name]: hz for name, hz in plan.placed.items()}
    missing += (Missing(by_name[one.id], _explain(one)) for one in plan.unplaced)
    placed = _part_spares(whole, placed)
    return Assigned(
        placed,
        tuple(sorted(missing, key=lambda one: natural_key(one.channel))),
        tuple(one for one in added if one.id in placed),
        plan.margin_hz,
        plan.stopped,
    )


def with_frequencies(show: Show, placed: Mapping[str, int]) -> Show:
    """The show with the placed frequencies, on every channel of a wide carrier."""
    names = {carrier_name(show.channels[id]): hz for id, hz in placed.items()}
    channels = dict(show.channels)
    for id, channel in show.channels.items():
        if channel.hz is None and carrier_name(channel) in names:
            channels[id] = replace(channel, hz=names[carrier_name(channel)])
    return replace(show, channels=channels)


def free_channels(show: Show, ids: Collection[str]) -> Show:
    """The show without the frequencies of some channels, and of all that share a carrier with them; a grant was for those."""
    names = {carrier_name(show.channels[id]) for id in ids}
    freed = {id: _free(channel) for id, channel in show.channels.items() if carrier_name(channel) in names}
    return replace(show, channels={**show.channels, **freed})


def _free(channel: Channel) -> Channel:
    where = replace(channel.where, fields={name: at for name, at in channel.where.fields.items() if name != "mhz"})
    return replace(channel, hz=None, asked_hz=None, granted_hz=None, refused=False, where=where)


def _list_homeless(show: Show) -> list[Channel]:
    """The channels without a frequency, one for a wide carrier."""
    found: dict[str, Channel] = {}
    for channel in show.channels.values():
        if channel.hz is None:
            found.setdefault(carrier_name(channel), channel)
    return list(found.values())


def _make_spares(show: Show, spares: Sequence[tuple[str, int]]) -> list[Channel]:
    """New spare channels, numbered on from the highest number, as wide as the others are written."""
    numbers = [id for id in show.channels if id.isascii() and id.isdigit()]
    width = max(map(len, numbers), default=1)
    last = max(map(int, numbers), default=0)
    kinds = [radio for radio, count in spares for _ in range(count)]
    ids = (str(last + index).zfill(width) for index in range(1, len(kinds) + 1))
    return [Channel(id=id, radio=radio, spare=True) for id, radio in zip(ids, kinds, strict=True)]


def _want(show: Show, on_air: OnAir, channel: Channel) -> Want | Missing:
    if "mhz" in channel.where:
        return Missing(channel.id, "its frequency is written, and cannot be read")
    if channel.refused and channel.asked_hz is None:
        return Missing(channel.id, "the coordinator granted nothing for it")
    ranges = ranges_of(show, channel)
    if channel.spare:
        ranges = _spare_ranges(show, channel, ranges)
    if ranges is None:
        radio = f"radio {channel.radio}" if channel.radio else "its radio"
        where = f"state what {radio} tunes to, or the window of its rack"
        return Missing(channel.id, f"nothing states where it may go: {where}")
    weak = tuple((one.low_hz, one.high_hz) for one in on_air.air.weak)
    want = want_of(show, channel, ranges, weak)
    if channel.refused and channel.asked_hz is not None:
        want = _avoid(want, channel.asked_hz)
    return want if channel.granted_hz is None else _hold_to(want, channel.granted_hz)


def _hold_to(want: Want, hz: int) -> Want:
    """The want with one frequency only, the granted one, where its ranges hold that."""
    half_hz = -(-want.carrier.bandwidth_hz // 2)
    return replace(want, ranges=intersect_ranges(want.ranges, [(hz - half_hz, hz + half_hz)]), origin_hz=hz)


def _avoid(want: Want, hz: int) -> Want:
    """The want without any frequency whose bandwidth would touch that of the one that was refused."""
    wide_hz = -(-want.carrier.bandwidth_hz // 2)
    free = [(0, hz - wide_hz), (hz + wide_hz, HIGHEST_HZ)]
    return replace(want, ranges=intersect_ranges(want.ranges, free))


def _spare_ranges(show: Show, spare: Channel, ranges: tuple[Range, ...] | None) -> tuple[Range, ...] | None:
    """Where a spare may go: to what all behind it can be tuned, and into a window in which its type is received."""
    if ranges is None:
        return None
    ranges = narrow_to_backed(show, spare, ranges)
    if spare.slot is None:
        racks = {one.slot.rack for one in show.channels.values() if one.slot and one.radio == spare.radio}
        windows = [window_of(show, show.racks[rack]) for rack in racks if rack in show.racks]
        if windows and None not in windows:
            ranges = intersect_ranges(ranges, merge_ranges(pair for window in windows for pair in window or ()))
    return ranges


def _explain(one: Unplaced) -> str:
    """What blocks every frequency that the channel could take, counted by cause."""
    if not one.candidates:
        return "its bandwidth fits nowhere in the range of its radio, the window of its rack and what was granted"
    causes = ", ".join(f"{count} {CAUSE_WORDS.get(cause, cause)}" for cause, count in one.causes)
    which = f"of {one.candidates} frequencies none is left" if one.candidates > 1 else "its only frequency is not clean"
    return f"{which}: {causes}"


def _part_spares(show: Show, placed: dict[str, int]) -> dict[str, int]:
    """The frequencies with each spare that shares a TV channel with all that it backs moved to another, if it can."""
    for id in list(placed):
        if show.channels[id].spare:
            whole = with_frequencies(show, placed)
            elsewhere = find_elsewhere(gather_on_air(whole), [whole.channels[id]]).get(id)
            if elsewhere:
                placed[id] = elsewhere[2]
    return placed


def describe(placed: Mapping[str, int]) -> list[str]:
    """One line for each placed channel."""
    return [
        f"channel {id}: {format_mhz(hz)} MHz"
        for id, hz in sorted(placed.items(), key=lambda item: natural_key(item[0]))
    ]
