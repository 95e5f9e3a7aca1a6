"""What a check could look at, and what not because the show does not say enough, in one line."""

from collections.abc import Iterator
from typing import NamedTuple

from paperwork.coordinate import region_of
from paperwork.model import Show
from paperwork.plan.clocks import devices_of
from paperwork.plan.day.batteries import hours_of, plan_batteries
from paperwork.plan.day.clockface import is_by_clock
from paperwork.plan.handovers import list_all_handovers
from paperwork.plan.rules import swap_s
from paperwork.text.names import join_words


class Looked(NamedTuple):
    """One thing that checks look at, and why it could not be looked at; "" where it was."""

    what: str
    lacks: str = ""


def describe_scope(show: Show) -> str:
    """`Checked: 32 channels, frequencies with TV and sweep, patch. Not checked: swaps (no moves).`"""
    listed = list_scope(show)
    seen = ", ".join(one.what for one in listed if not one.lacks)
    missed = ", ".join(f"{one.what} ({one.lacks})" for one in listed if one.lacks)
    return f"Checked: {seen}." + (f" Not checked: {missed}." if missed else "")


def list_scope(show: Show) -> tuple[Looked, ...]:
    """Everything that a check looks at, each with what the show lacks for it."""
    return (
        Looked(_count(len(show.channels), "channel")),
        *_look_at_air(show),
        Looked("patch", "" if any(rack.outputs for rack in show.racks.values()) else "no outputs"),
        Looked("packs"),
        Looked("capsules", "" if any(one.capsule for one in show.channels.values()) else "none given"),
        Looked(_count(len(show.scenes), "scene")) if show.scenes else Looked("scenes", "none given"),
        *_look_at_swaps(show),
        *((Looked(_count(len(show.covers), "cover")),) if show.covers else ()),
        _look_at_batteries(show),
        Looked("clocks", "" if any(_list_clocks(show)) else "none given"),
    )


def _look_at_air(show: Show) -> Iterator[Looked]:
    given = sum(channel.hz is not None for channel in show.channels.values())
    others = sum(other.hz is not None for other in show.others.values())
    if not given + others:
        yield Looked("frequencies", "none given")
        return
    known = {"TV": bool(show.spectrum.region and show.spectrum.tv), "sweep": any(show.spectrum.measured)}
    with_ = join_words(name for name, is_known in known.items() if is_known)
    share = "" if given == len(show.channels) else f" of {given} of {_count(len(show.channels), 'channel')}"
    yield Looked(f"frequencies{share}" + (f" with {with_}" if with_ else ""))
    if others:
        yield Looked(_count(others, "other carrier"))
    yield from (Looked(name, "none given") for name, is_known in known.items() if not is_known)
    yield from _look_at_cities(show)


def _look_at_cities(show: Show) -> Iterator[Looked]:
    """Who shares TV channels around some cities is known by the venue alone."""
    region = region_of(show.spectrum)
    if region is None or region.crowd is None or region.cities_at(show.production.venue):
        return
    if any(channel.hz is not None and region.is_shared(channel.hz) for channel in show.channels.values()):
        yield Looked(region.crowd.by, f"venue names no city that has it; {region.crowd.advice}")


def _look_at_swaps(show: Show) -> Iterator[Looked]:
    swaps = list_all_handovers(show)
    timed = [
        swap
        for swap in swaps
        if swap.seconds is not None and (not swap.at_least or swap.seconds >= swap_s(show, "pack"))
    ]
    if timed:
        share = "" if len(timed) == len(swaps) else f"{len(timed)} of "
        yield Looked(f"{share}{_count(len(swaps), 'swap')}")
    elif swaps:
        yield Looked("swaps", "no times of moves" if show.moves else "no moves")


def _look_at_batteries(show: Show) -> Looked:
    if not any(hours_of(show, channel) for channel in show.channels.values()):
        return Looked("batteries", "no hours")
    stated = show.day.power_up_s and (show.day.curtain_s or is_by_clock(show))
    why = "times of the day that do not go together" if stated else "no times of the day"
    return Looked("batteries", "" if plan_batteries(show) else why)


def _list_clocks(show: Show) -> Iterator[str]:
    for device in devices_of(show).values():
        yield from (device.clock, device.rate)


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"
