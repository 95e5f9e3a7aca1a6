"""The rules of the house: what the show says, else what `data/rules.toml` says, where each has its source."""

from paperwork.model import Console, RadioKind, Show
from paperwork.resources import read_toml


def _rule(name: str, key: str) -> int:
    return int(read_toml("rules.toml")[name][key])


def margin_hundredths(show: Show) -> int:
    """By how much a cell's hours must exceed the hours wanted, in hundredths."""
    told = show.day.margin_hundredths
    return _rule("margin", "hundredths") if told is None else told


def swap_s(show: Show, kind: RadioKind) -> int:
    """The least seconds in which a transmitter of this kind can change bodies off stage."""
    if kind == "handheld":
        told, name = show.day.swap_handheld_s, "swap_handheld"
    else:
        told, name = show.day.swap_s, "swap"
    return _rule(name, "seconds") if told is None else told


def crossing_s(show: Show) -> int:
    """Seconds that it takes to cross behind the stage."""
    return _rule("crossing", "seconds") if show.day.crossing_s is None else show.day.crossing_s


def half_before_curtain_s() -> int:
    """How long before curtain up the half is called."""
    return _rule("half", "seconds")


def longest_chain(show: Show) -> int:
    """The most racks that one antenna chain may feed in a row."""
    return _rule("chain", "racks") if show.day.chain is None else show.day.chain


def letters_of(console: Console | None) -> int:
    """How many letters of a channel's name a desk shows."""
    told = console.letters if console else None
    return told or _rule("letters", "count")


def longest_transmitter_id() -> int:
    """How many letters a transmitter's id may have."""
    return _rule("transmitter_id", "letters")
