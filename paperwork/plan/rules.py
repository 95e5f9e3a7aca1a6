"""The rules of the house: what the show says, else what holds for every house, with its source."""

from paperwork.model import Console, RadioKind, Show

MARGIN_HUNDREDTHS = 125
"""Common practice, no source. One long-running musical had its packs on from 18:30 to 22:45, 4 h 15 min, on one
rechargeable cell each (report of a house electrician, broadwaygreen.com, resource hub); 4 h 15 min x 1.25 is 5 h 19
min, inside the 5 h 30 min that is common practice for a handheld and the 6 h 30 min for a pack."""

SWAP_S = 90
"""Common practice, no source, for a pack that goes from one body to another, capsule and all. A page on costume changes
puts quick changes at 30 to 90 s."""

SWAP_HANDHELD_S = 30
"""Common practice, no source, for a handheld that is taken off stage and handed on."""

CROSSING_S = 60
"""Common practice, no source. Every house is different: walk it behind the set, in the dark, with a watch."""

HALF_S = 2_100
"""From memory: in British theatre the half is called 35 minutes before curtain up, 30 before the first call."""

CHAIN_RACKS = 4
"""Common practice, no source. Each unit that passes the antennas on adds its noise; its manual has the true limit."""

DESK_LETTERS = 8
"""Common practice, no source: many desks show six to eight letters of a channel's name."""

TRANSMITTER_ID_LETTERS = 14
"""How many letters a transmitter's id may have. A choice of this project, no source: what fits on a label and on most
displays, in plain ASCII."""


def margin_hundredths(show: Show) -> int:
    """By how much a cell's hours must exceed the hours wanted, in hundredths."""
    return _choose(show.day.margin_hundredths, MARGIN_HUNDREDTHS)


def swap_s(show: Show, kind: RadioKind) -> int:
    """The least seconds in which a transmitter of this kind can change bodies off stage."""
    if kind == "handheld":
        return _choose(show.day.swap_handheld_s, SWAP_HANDHELD_S)
    return _choose(show.day.swap_s, SWAP_S)


def crossing_s(show: Show) -> int:
    """Seconds that it takes to cross behind the stage."""
    return _choose(show.day.crossing_s, CROSSING_S)


def longest_chain(show: Show) -> int:
    """The most racks that one antenna chain may feed in a row."""
    return _choose(show.day.chain, CHAIN_RACKS)


def letters_of(console: Console | None) -> int:
    """How many letters of a channel's name a desk shows."""
    return console.letters if console and console.letters else DESK_LETTERS


def _choose(stated: int | None, usual: int) -> int:
    return usual if stated is None else stated
