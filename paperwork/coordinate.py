"""Between the show and the radio arithmetic: which carriers the show puts on the air, under which rules.

`radio` knows carriers by name only. Here channel `05` becomes the carrier `channel 05`, and the words that come back
are turned into records again.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from paperwork.finding import Subject
from paperwork.model import Channel, Other, Show
from paperwork.place import Place
from paperwork.radio.carrier import FIFTH2, THIRD2, THIRD3, Carrier, Rules
from paperwork.radio.hits import Clash, gather, list_hits

BANDWIDTH_HZ = 200_000
"""Bandwidth of a radio that states none. Source: 47 CFR 74.802(c) joins 25 kHz segments to 200 kHz at most."""


@dataclass(frozen=True, slots=True)
class OnAir:
    """Every carrier of the show with a known frequency, the rules between them, and the record behind each."""

    carriers: tuple[Carrier, ...]
    rules: Rules
    subjects: Mapping[str, Subject] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)

    def subjects_of(self, names: Sequence[str]) -> tuple[Subject, ...]:
        """The records behind some carriers."""
        return tuple(self.subjects[name] for name in names)


def gather_carriers(show: Show) -> OnAir:
    """Channels and others that have a frequency, as carriers. Spares count: a spare on the air must be clean too."""
    carriers: list[Carrier] = []
    subjects: dict[str, Subject] = {}
    places: dict[str, Place] = {}
    for channel in show.channels.values():
        if channel.hz is not None:
            carriers.append(_carrier_of(show, channel, channel.hz))
            subjects[carriers[-1].id] = Subject("channels", channel.id)
            places[carriers[-1].id] = channel.where["mhz"]
    for other in show.others.values():
        if other.hz is not None:
            carriers.append(_carrier_of_other(other, other.hz))
            subjects[carriers[-1].id] = Subject("others", other.id)
            places[carriers[-1].id] = other.where["mhz"]
    return OnAir(tuple(carriers), gather_rules(show), subjects, places)


def gather_rules(show: Show) -> Rules:
    """The distances and guards that the show states, by radio type; what it does not state is the house's default."""
    guards: dict[tuple[str, str], int] = {}
    apart: dict[tuple[str, str], int] = {}
    for radio in show.radios.values():
        stated = {THIRD2: radio.guard_two_hz, THIRD3: radio.guard_three_hz, FIFTH2: radio.guard_fifth_hz}
        guards |= {(radio.id, kind): hz for kind, hz in stated.items() if hz is not None}
        if radio.apart_hz is not None:
            apart[radio.id, ""] = radio.apart_hz
    for other in show.others.values():
        if other.apart_hz is not None:
            apart[_kind_of_other(other), ""] = other.apart_hz
    return Rules(guards=guards, apart=apart)


def list_clashes(on_air: OnAir) -> tuple[Clash, ...]:
    """Every intermodulation product that is too near a carrier, mirrored hits told once."""
    return gather(list_hits(on_air.carriers, on_air.rules))


def find_culprits(on_air: OnAir, clashes: Sequence[Clash]) -> tuple[tuple[str, tuple[Clash, ...]], ...]:
    """The fewest carriers, greedily, whose retuning would end all clashes, each with the clashes it would end.

    A channel is named before a carrier of somebody else, and of equals the last one: it was added last.
    """
    rank = {carrier.id: (on_air.subjects[carrier.id].section == "channels", index)
            for index, carrier in enumerate(on_air.carriers)}
    left = list(clashes)
    culprits = []
    while left:
        share = Counter(name for clash in left for name in clash.carriers)
        worst = max(share, key=lambda name: (rank[name][0], share[name], rank[name][1]))
        culprits.append((worst, tuple(clash for clash in left if worst in clash.carriers)))
        left = [clash for clash in left if worst not in clash.carriers]
    return tuple(culprits)


def _carrier_of(show: Show, channel: Channel, hz: int) -> Carrier:
    radio = show.radio_of(channel)
    bandwidth_hz = radio.bandwidth_hz if radio else None
    return Carrier(
        id=f"channel {channel.id}",
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if bandwidth_hz is None else bandwidth_hz,
        kind=radio.id if radio else "",
        makes=radio.makes_intermodulation if radio else True,
        exclusive=channel.exclusive,
    )


def _carrier_of_other(other: Other, hz: int) -> Carrier:
    return Carrier(
        id=other.id,
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if other.bandwidth_hz is None else other.bandwidth_hz,
        kind=_kind_of_other(other),
        makes=other.makes_intermodulation,
        listens=other.kind != "neighbour",
    )


def _kind_of_other(other: Other) -> str:
    return f"other {other.id}"
