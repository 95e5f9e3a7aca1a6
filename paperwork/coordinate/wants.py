"""What wants a frequency, for a search: a carrier, and where its radio can be set to."""

from math import gcd

from paperwork.coordinate.carriers import carrier_of, carrier_of_other
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.radio.bands import Range
from paperwork.radio.board.lattice import Want
from paperwork.radio.carrier import Carrier

STEP_HZ = 25_000
"""Step of a radio that states none. Source: 47 CFR 74.802(c) counts in multiples of 25 kHz from the band's edge."""


def want_of(show: Show, channel: Channel, ranges: tuple[Range, ...], avoid: tuple[Range, ...] = ()) -> Want:
    """The channel as something that wants a frequency in some ranges."""
    return make_want(carrier_of(show, channel, channel.hz or 0), ranges, show.radio_of(channel), avoid)


def want_other(show: Show, other: Other, ranges: tuple[Range, ...], avoid: tuple[Range, ...] = ()) -> Want:
    """The same of one of the others."""
    return make_want(carrier_of_other(show, other, other.hz or 0), ranges, show.type_of(other), avoid)


def make_want(
    carrier: Carrier, ranges: tuple[Range, ...], radio: RadioType | None, avoid: tuple[Range, ...] = ()
) -> Want:
    """A carrier as something that wants one of the frequencies to which its radio type can be set."""
    spots = radio.spots_hz if radio else ()
    if spots:
        step_hz = gcd(*(spot - spots[0] for spot in spots)) or STEP_HZ
        return Want(carrier, ranges, step_hz, spots[0], avoid, frozenset(spots))
    step_hz, from_hz = (radio.step_hz or STEP_HZ, radio.step_from_hz or 0) if radio else (STEP_HZ, 0)
    return Want(carrier, ranges, step_hz, from_hz, avoid)
