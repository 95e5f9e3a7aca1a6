"""The rules of the house: what the show says, else what `data/rules.toml` says, where each has its source."""

from paperwork.model import Console, RadioKind, Show
from paperwork.resources import read_toml


def _rule(stated: int | None, name: str, key: str) -> int:
    return int(read_toml("rules.toml")[name][key]) if stated is None else stated


def margin_hundredths(show: Show) -> int:
    """By how much a cell's hours must exceed the hours wanted, in hundredths."""
    return _rule(show.day.margin_hundredths, "margin", "hundredths")


def swap_s(show: Show, kind: RadioKind) -> int:
    """The least seconds in which a transmitter of this kind can change bodies off stage."""
    if kind == "handheld":
        return _rule(show.day.swap_handheld_s, "swap_handheld", "seconds")
    return _rule(show.day.swap_s, "swap", "seconds")


def crossing_s(show: Show) -> int:
    """Seconds that it takes to cross behind the stage."""
    return _rule(show.day.crossing_s, "crossing", "seconds")


def half_before_curtain_s() -> int:
    """How long before curtain up the half is called."""
    return _rule(None, "half", "seconds")


def longest_chain(show: Show) -> int:
    """The most racks that one antenna chain may feed in a row."""
    return _rule(show.day.chain, "chain", "racks")


def letters_of(console: Console | None) -> int:
    """How many letters of a channel's name a desk shows."""
    return _rule((console.letters if console else None) or None, "letters", "count")


def longest_transmitter_id() -> int:
    """How many letters a transmitter's id may have."""
    return _rule(None, "transmitter_id", "letters")
