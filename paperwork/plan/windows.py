"""Where a channel may go: what its radio tunes to, and the window in front of its receiver along the antenna tree."""

from paperwork.model import Channel, Rack, Show
from paperwork.plan.spares import list_backed
from paperwork.radio.bands import Range, intersect_ranges
from paperwork.text.names import fold


def window_of(show: Show, rack: Rack) -> tuple[Range, ...] | None:
    """What passes to a rack's receivers: its own window and those of the racks before it on its antenna.

    Racks on one antenna with numbered places hang one behind the other, and each passes only its own window on. None:
    no window is stated. Empty: nothing passes.
    """
    windows = [one.window for one in (*racks_before(show, rack), rack) if one.window is not None]
    if not windows:
        return None
    passed: tuple[Range, ...] = (windows[0],)
    for window in windows[1:]:
        passed = intersect_ranges(passed, [window])
    return passed


def racks_before(show: Show, rack: Rack) -> tuple[Rack, ...]:
    """The racks between an antenna and a rack."""
    if not rack.antenna or not _is_number(rack.place):
        return ()
    return tuple(
        one
        for one in show.racks.values()
        if fold(one.antenna) == fold(rack.antenna) and _is_number(one.place) and int(one.place) < int(rack.place)
    )


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit()


def ranges_of(show: Show, channel: Channel) -> tuple[Range, ...] | None:
    """Where the whole bandwidth of a channel must lie; None where neither its radio nor its rack says so."""
    radio = show.radio_of(channel)
    tunes: tuple[Range, ...] | None = radio.reach if radio and radio.reach else None
    rack = show.racks.get(channel.slot.rack) if channel.slot else None
    window = window_of(show, rack) if rack else None
    if tunes is None or window is None:
        return window if tunes is None else tunes
    return intersect_ranges(tunes, window)


def narrow_to_backed(show: Show, spare: Channel, ranges: tuple[Range, ...]) -> tuple[Range, ...]:
    """The ranges of a spare to which every channel behind it can be tuned too."""
    for channel in list_backed(show, spare):
        radio = show.radio_of(channel)
        if radio and radio.tunes:
            ranges = intersect_ranges(ranges, radio.tunes)
    return ranges
