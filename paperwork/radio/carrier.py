"""A carrier, the rules it is judged by, and who is on the air together with whom.

On the air means powered, not live on stage: a transmitter radiates from power-up to bows, so all
carriers radiate together unless an exclusive group, a zone or a time sets them apart.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field, replace
from typing import Final, NamedTuple

from paperwork.frozen import frozen

THIRD2, THIRD3, FIFTH2, FIFTH3 = "third2", "third3", "fifth2", "fifth3"
DEFAULT_KINDS = (THIRD2, THIRD3, FIFTH2)

# A product and its victim touch when they are half their widths apart. A narrow carrier's energy sits in
# the middle of its channel, so only this share of that distance is kept clear: for 200 kHz carriers 100 kHz
# in third order and 90 kHz in fifth order. Common practice, no source; the house may
# set its own guards.
SHARES_PERCENT: Mapping[str, int] = {THIRD2: 25, THIRD3: 25, FIFTH2: 15, FIFTH3: 15}

# 47 CFR 74.802(c) joins segments to 200 kHz at most; twice that is no single narrow channel any more.
WIDE_OVER_HZ = 400_000

# Edge to edge, so 200 kHz carriers are 300 kHz apart at least. Common practice, no source.
APART_HZ = 100_000


class Family(NamedTuple):
    """What makes carriers alike in everything but name and frequency."""

    bandwidth_hz: int
    kind: str
    makes: bool
    listens: bool
    exclusive: str
    zone: str
    times: frozenset[str]


KIND_FIELDS: Final = 4
"""So many fields of a family, the first, say what kind of carrier it is; the others say beside whom it is on."""


@frozen
class Carrier:
    """One carrier at `hz`, its centre. A wide carrier that holds many channels is one carrier.

    `makes`: its type makes intermodulation. `listens`: a product on it is a fault; False for a stranger
    that nobody here protects. `exclusive`: members of one group are never powered together. `zone` and
    `times`: empty means everywhere and always.
    """

    id: str
    hz: int
    bandwidth_hz: int
    kind: str = ""
    makes: bool = True
    listens: bool = True
    exclusive: str = ""
    zone: str = ""
    times: frozenset[str] = frozenset()

    @property
    def family(self) -> Family:
        """The carrier without name and frequency."""
        return Family(self.bandwidth_hz, self.kind, self.makes, self.listens, self.exclusive, self.zone, self.times)


@frozen
class Rules:
    """The house's wishes. Every distance is in Hz.

    `kinds`: product kinds that count. `guards`: by (type of the victim, product kind); the type "" is
    every type not named; without an entry the guard follows from the bandwidths (`guard_hz`).
    `apart`: wanted distance edge to edge by pair of types, in either order; "" is any type.
    `close_quarters`: transmitters so near each other that types which make none make intermodulation too.
    `extra_hz`: asked on top of every guard and every distance.
    """

    kinds: tuple[str, ...] = DEFAULT_KINDS
    guards: Mapping[tuple[str, str], int] = field(default_factory=dict)
    apart: Mapping[tuple[str, str], int] = field(default_factory=dict)
    apart_hz: int = APART_HZ
    close_quarters: bool = False
    extra_hz: int = 0

    def with_extra(self, extra_hz: int) -> "Rules":
        """The same rules with every guard and distance `extra_hz` wider than these."""
        return replace(self, extra_hz=self.extra_hz + extra_hz)


def are_together(carriers: Iterable[Carrier | Family]) -> bool:
    """Whether all of these radiate at one moment in one place."""
    groups: set[str] = set()
    zones: set[str] = set()
    times: frozenset[str] | None = None
    for carrier in carriers:
        if carrier.exclusive:
            if carrier.exclusive in groups:
                return False
            groups.add(carrier.exclusive)
        if carrier.zone:
            zones.add(carrier.zone)
        if carrier.times:
            times = carrier.times if times is None else times & carrier.times
    return len(zones) < 2 and (times is None or bool(times))


def thin_times(who: Iterable[frozenset[str]]) -> dict[frozenset[str], frozenset[str]]:
    """For the times of each, as many of them as say who meets whom: a time is left out where all who have it share
    another one."""
    every = list(dict.fromkeys(who))
    masks: defaultdict[str, int] = defaultdict(int)
    for number, times in enumerate(every):
        for time in times:
            masks[time] |= 1 << number
    fewest: dict[str, frozenset[str]] = {}
    for times in sorted(every, key=len, reverse=True):
        fewest |= dict.fromkeys(times, times)
    kept: dict[str, int] = {}
    for time in sorted(masks, key=lambda one: (-masks[one].bit_count(), in_time_order(one))):
        if not any(other in kept and not masks[time] & ~kept[other] for other in fewest[time]):
            kept[time] = masks[time]
    return {times: times.intersection(kept) for times in every}


def in_time_order(time: str) -> tuple[str, int, str]:
    """A key by which times that are alike but for a number at their end come in its order."""
    return time.rstrip("0123456789"), len(time), time


def split_by_zone(carriers: Sequence[Carrier]) -> tuple[tuple[str, tuple[Carrier, ...]], ...]:
    """What can meet, by zone and in the given order: those of no zone by themselves, then each zone with them.

    What holds nobody of the zone itself has been met in the first group.
    """
    zones = sorted({carrier.zone for carrier in carriers})
    return tuple((zone, tuple(carrier for carrier in carriers if carrier.zone in ("", zone))) for zone in zones)


def guard_hz(
    rules: Rules, kind: str, victim: Carrier | Family, makers: Iterable[Carrier | Family], weights: Iterable[int]
) -> int:
    """The distance that a product of `kind` must keep from the victim's centre; nearer is a hit.

    A product is as wide as its makers together, each counted as often as its weight says: 2a-b of three
    times 200 kHz is 600 kHz wide. Narrow carriers count with the share of their half widths, wide ones
    with all of it, as bands. A guard set by the house replaces the narrow part; wide makers still add.
    A guard of 0 Hz is never hit, and stays off whatever `extra_hz` asks.
    """
    narrow_hz = wide_hz = 0
    for maker, weight in zip(makers, weights, strict=True):
        if maker.bandwidth_hz > WIDE_OVER_HZ:
            wide_hz += abs(weight) * maker.bandwidth_hz
        else:
            narrow_hz += abs(weight) * maker.bandwidth_hz
    set_hz = rules.guards.get((victim.kind, kind), rules.guards.get(("", kind)))
    if set_hz is not None:
        base_hz = set_hz + -(-wide_hz // 2) if set_hz else 0
    else:
        if victim.bandwidth_hz > WIDE_OVER_HZ:
            wide_hz += victim.bandwidth_hz
        else:
            narrow_hz += victim.bandwidth_hz
        base_hz = -(-narrow_hz * SHARES_PERCENT[kind] // 200) + -(-wide_hz // 2)
    return base_hz + rules.extra_hz if base_hz else 0


def wanted_apart_hz(rules: Rules, one: Carrier | Family, two: Carrier | Family) -> int:
    """The distance edge to edge that the two types want; where the pair is not named, the larger of what each wants.

    Who states nothing wants the house's distance, but for a stranger beside one who states: nobody here protects it.
    """
    for pair in ((one.kind, two.kind), (two.kind, one.kind)):
        if all(pair) and pair in rules.apart:
            return rules.apart[pair] + rules.extra_hz
    wants = []
    for carrier in (one, two):
        stated = [rules.apart[pair] for pair in ((carrier.kind, ""), ("", carrier.kind)) if pair in rules.apart]
        wants += stated or [rules.apart_hz] * carrier.listens
    return max(wants, default=rules.apart_hz) + rules.extra_hz
