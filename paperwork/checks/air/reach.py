"""Radios in racks: whether a type can be tuned to anything that its rack receives."""

from collections.abc import Iterator

from paperwork.coordinate import window_of
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, RadioType, Show
from paperwork.radio.bands import intersect_ranges
from paperwork.text.names import join_words, shorten_ids
from paperwork.text.units import Range, format_range


def check_reach(show: Show) -> Iterator[Finding]:
    """The range of a radio type meets the window of each rack that its channels are in. Once for type and rack."""
    for (rack_id, radio_id), channels in list_unreachable(show).items():
        rack, radio = show.racks[rack_id], show.radios[radio_id]
        window = window_of(show, rack) or ()
        yield find(
            "radio-outside-window",
            channels[0].where["radio"],
            about=tuple(Subject("channels", channel.id) for channel in channels),
            others=(radio.where["tunes"], rack.where["window"]),
            channels=f"channel{'s' if len(channels) > 1 else ''} {shorten_ids([channel.id for channel in channels])}",
            are="are" if len(channels) > 1 else "is",
            rack=rack_id,
            window=join_words(format_range(Range(*one)) for one in window),
            radio=radio_id,
            tunes=join_words(map(format_range, radio.tunes)),
        )


def list_unreachable(show: Show) -> dict[tuple[str, str], list[Channel]]:
    """The channels whose radio fits nowhere into what their rack receives, by rack and radio type; not those on a
    frequency that the radio cannot be set to, which is a finding of its own."""
    found: dict[tuple[str, str], list[Channel]] = {}
    fits: dict[tuple[str, str], bool] = {}
    for channel in show.channels.values():
        radio, rack = show.radio_of(channel), show.racks.get(channel.slot.rack) if channel.slot else None
        if radio and rack:
            key = rack.id, radio.id
            if key not in fits:
                fits[key] = _fits(radio, window_of(show, rack))
            if not fits[key] and (channel.hz is None or any(low <= channel.hz <= high for low, high in radio.tunes)):
                found.setdefault(key, []).append(channel)
    return found


def _fits(radio: RadioType, window: tuple[tuple[int, int], ...] | None) -> bool:
    """Whether one carrier of a radio fits; True where a range is not known, or nothing passes to anybody."""
    if not radio.tunes or not window:
        return True
    width_hz = max(radio.bandwidth_hz or 0, 1)
    return any(high - low >= width_hz for low, high in intersect_ranges(radio.tunes, window))


CHECKS = (check_reach,)
