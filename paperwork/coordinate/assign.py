"""A frequency for every channel of a show that has none, and for the spares that are asked for."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import field, replace
from functools import partial

from paperwork.coordinate.air import CAUSE_WORDS, block_refused
from paperwork.coordinate.backups import Missing, list_without_backup, share_backups, want_backup
from paperwork.coordinate.carriers import OnAir, carrier_name, gather_on_air
from paperwork.coordinate.grants import describe_step, settle_grant
from paperwork.coordinate.priorities import search_by_rank
from paperwork.coordinate.spares import find_elsewhere
from paperwork.coordinate.wants import want_of, want_other
from paperwork.frozen import frozen
from paperwork.model import Channel, Other, Show
from paperwork.plan.windows import narrow_to_backed, ranges_of, window_of
from paperwork.radio.bands import Range, intersect_ranges, merge_ranges
from paperwork.radio.board.lattice import Want
from paperwork.radio.search import DEFAULT_EFFORT
from paperwork.radio.search.assign import FrequencyPlan, Unplaced, assign
from paperwork.text.names import natural_key, shorten_ids
from paperwork.text.units import format_mhz

_OTHERS = "others/"
"""Before the id of one of the others, which may be the number of a channel too."""


@frozen
class Assigned:
    """What became of a search. `placed`: the frequency of each channel that got one, once for a wide carrier.

    `spares` are the new spare channels, with their frequencies in `placed`. Every guard and distance of the placed is
    kept with `margin_hz` to spare, None where that is not known. `stopped`: the search was cut short. `backups` are the
    backups likewise; several channels may have one.
    """

    placed: Mapping[str, int]
    missing: tuple[Missing, ...]
    spares: tuple[Channel, ...]
    margin_hz: int | None
    stopped: bool
    backups: Mapping[str, int] = field(default_factory=dict)
    others: Mapping[str, int] = field(default_factory=dict)
    """In-ears, intercom and their like that got one."""
    is_most: bool = True
    is_widest: bool = False
    """Whether it is proved that no more can be placed, and that as many have no wider margin."""


def assign_show(
    show: Show,
    *,
    spares: Sequence[tuple[str, int]] = (),
    effort: int = DEFAULT_EFFORT,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, int], None] | None = None,
) -> Assigned:
    """Frequencies for the channels, in-ears and intercom that have none; those that have one keep it. `spares` are
    radio types and counts. Where not all fit, `priorities` says who is first.

    The same show and effort give the same frequencies. Nothing placed disturbs anything, whatever the others do to
    each other. Backups that are wanted come last, and take no channel's place.
    """
    added = tuple(_make_spares(show, spares))
    whole = replace(show, channels={**show.channels, **{one.id: one for one in added}})
    on_air = gather_on_air(whole)
    search = partial(assign, effort=effort, stop=stop, progress=progress)
    asked = {channel.id: _want(whole, on_air, channel) for channel in _list_homeless(whole)}
    asked |= {_OTHERS + one.id: _want_other(on_air, one) for one in whole.others.values() if _is_asked_for(one)}
    first, everyone, missing = _place(on_air, asked, search)
    others = {id.removeprefix(_OTHERS): hz for id, hz in everyone.items() if id.startswith(_OTHERS)}
    own = {id: hz for id, hz in everyone.items() if not id.startswith(_OTHERS)}
    parted = _part_spares(whole := with_others(whole, others), own)
    on_air = gather_on_air(whole := with_frequencies(whole, parted))
    wanting = {one.id: want_backup(on_air, one) for one in list_without_backup(whole)}
    second, found, without = _place(on_air, wanting, search)
    backups = share_backups({id: want for id, want in wanting.items() if isinstance(want, Want)}, found)
    margins = [plan.margin_hz for plan, given in ((first, everyone), (second, found)) if given]
    return Assigned(
        parted,
        (*missing, *(replace(one, is_backup=True) for one in without if one.channel not in backups)),
        tuple(one for one in added if one.id in parted),
        min((hz for hz in margins if hz is not None), default=None) if parted == own else None,
        first.stopped or second.stopped,
        backups,
        others,
        first.is_most and second.is_most,
        first.is_widest and second.is_widest and parted == own and len(margins) < 2,
    )


def _is_asked_for(other: Other) -> bool:
    """Whether it is ours to give a frequency: a neighbour has its own."""
    return other.hz is None and other.kind != "neighbour"


def _want_other(on_air: OnAir, other: Other) -> Want | Missing:
    if "mhz" in other.where:
        return Missing(_OTHERS + other.id, "its frequency is written, and cannot be read")
    radio = on_air.show.type_of(other)
    if not radio.reach:
        named = f"what radio {other.radio_type} tunes to" if other.radio_type else "its radio, and what that tunes to"
        return Missing(_OTHERS + other.id, f"nothing says where it may go: give {named}")
    weak = tuple((one.low_hz, one.high_hz) for one in on_air.air.weak)
    want = want_other(on_air.show, other, radio.reach, weak)
    return want if other.granted_hz is None else _hold_to(want, other.granted_hz)


def _list_must(show: Show) -> set[str]:
    """The names of the carriers that must have a frequency."""
    names = {carrier_name(channel) for channel in show.channels.values() if channel.must}
    return names | {other.id for other in show.others.values() if other.must}


def _place(
    on_air: OnAir, asked: Mapping[str, Want | Missing], search: Callable[..., FrequencyPlan]
) -> tuple[FrequencyPlan, dict[str, int], tuple[Missing, ...]]:
    """What a search gives the channels that can be looked for, and which have nothing, in their order."""
    by_name = {want.carrier.id: id for id, want in asked.items() if isinstance(want, Want)}
    wants = tuple(want for want in asked.values() if isinstance(want, Want))
    blocks = (*on_air.air.blocks, *block_refused(on_air.show))
    must = _list_must(on_air.show) & by_name.keys()
    plan = search_by_rank(wants, must, on_air.searched, lambda some, fixed: search(some, fixed, blocks, on_air.rules))
    plan = replace(plan, is_most=plan.is_most and not (plan.unplaced and on_air.is_searched_strictly))
    missing = [want for want in asked.values() if isinstance(want, Missing)]
    only_must = plan.placed.keys() <= must  # how many are placed is proved, not who of them is
    for one in plan.unplaced:
        words = _explain(one, plan.is_most and (only_must or one.id not in must))
        missing.append(Missing(by_name[one.id], "it must have one; " * (one.id in must) + words))
    placed = {by_name[name]: hz for name, hz in plan.placed.items()}
    named = [
        replace(one, channel=one.channel.removeprefix(_OTHERS), section="others")
        if one.channel.startswith(_OTHERS)
        else one
        for one in missing
    ]
    return plan, placed, tuple(sorted(named, key=lambda one: natural_key(one.channel)))


def with_frequencies(show: Show, placed: Mapping[str, int]) -> Show:
    """The show with the placed frequencies, on every channel of a wide carrier."""
    names = {carrier_name(show.channels[id]): hz for id, hz in placed.items()}
    channels = dict(show.channels)
    for id, channel in show.channels.items():
        if channel.hz is None and carrier_name(channel) in names:
            channels[id] = replace(channel, hz=names[carrier_name(channel)])
    return replace(show, channels=channels)


def with_others(show: Show, placed: Mapping[str, int]) -> Show:
    """The show with the placed frequencies of in-ears and their like."""
    return replace(show, others={**show.others, **{id: replace(show.others[id], hz=hz) for id, hz in placed.items()}})


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
        where = f"give what {radio} tunes to, or the window of its rack"
        return Missing(channel.id, f"nothing says where it may go: {where}")
    weak = tuple((one.low_hz, one.high_hz) for one in on_air.air.weak)
    want = want_of(show, channel, ranges, weak)
    if channel.granted_hz is None:
        return want
    settable_hz = settle_grant(show.radio_of(channel), channel.granted_hz)
    step = describe_step("it", channel.granted_hz, settable_hz)
    return Missing(channel.id, step) if step else _hold_to(want, channel.granted_hz)


def _hold_to(want: Want, hz: int) -> Want:
    """The want with one frequency only, the granted one, where its ranges hold that."""
    half_hz = -(-want.carrier.bandwidth_hz // 2)
    return replace(want, ranges=intersect_ranges(want.ranges, [(hz - half_hz, hz + half_hz)]), origin_hz=hz)


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


def _explain(one: Unplaced, is_most: bool) -> str:
    """What blocks every frequency that the channel could take, counted by cause."""
    if not one.candidates:
        return "its bandwidth fits nowhere in the range of its radio, the window of its rack and what was granted"
    causes = ", ".join(f"{count} {CAUSE_WORDS.get(cause, cause)}" for cause, count in one.causes)
    left = "none is left" if is_most else "none was found"
    which = f"of {one.candidates} frequencies {left}" if one.candidates > 1 else "its only frequency is not clean"
    return f"{which}: {causes}"


def _part_spares(show: Show, given: Mapping[str, int]) -> dict[str, int]:
    """The frequencies with each spare that shares a TV channel with all that it backs moved to another, if it can."""
    placed = dict(given)
    for id in list(placed):
        if show.channels[id].spare:
            whole = with_frequencies(show, placed)
            elsewhere = find_elsewhere(gather_on_air(whole), [whole.channels[id]]).get(id)
            if elsewhere:
                placed[id] = elsewhere[2]
    return placed


def describe(found: Assigned) -> list[str]:
    """One line for each placed channel, each backup with all that share it, and each other."""
    placed = sorted(found.placed.items(), key=lambda item: natural_key(item[0]))
    shared: dict[int, list[str]] = {}
    for id, hz in sorted(found.backups.items(), key=lambda item: natural_key(item[0])):
        shared.setdefault(hz, []).append(id)
    return [
        *(f"channel {id}: {format_mhz(hz)} MHz" for id, hz in placed),
        *(
            f"backup of channel{'s' if len(ids) > 1 else ''} {shorten_ids(ids)}: {format_mhz(hz)} MHz"
            for hz, ids in shared.items()
        ),
        *(
            f"other {id}: {format_mhz(hz)} MHz"
            for id, hz in sorted(found.others.items(), key=lambda item: natural_key(item[0]))
        ),
    ]
