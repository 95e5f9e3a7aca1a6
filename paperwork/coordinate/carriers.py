"""Which carriers a show puts on the air, under which rules, and what they do to each other."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice

from paperwork.coordinate.air import Air, gather_air
from paperwork.finding import Subject
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.place import Place
from paperwork.plan.bill import moments_of
from paperwork.radio.carrier import DEFAULT_KINDS, FIFTH2, FIFTH3, THIRD2, THIRD3, Carrier, Rules
from paperwork.radio.products.counts import count_hits as count_radio_hits
from paperwork.radio.products.hits import Clash, gather, iterate_hits, list_hits

BANDWIDTH_HZ = 200_000
"""Bandwidth of a radio that states none. Source: 47 CFR 74.802(c) joins 25 kHz segments to 200 kHz at most."""

HITS_LISTED = 10_000
"""Hits that are listed by name: 32 carriers in equal steps make fewer. Choice of this project, no source."""


@dataclass(frozen=True, slots=True)
class OnAir:
    """Every carrier of the show with a known frequency, the rules between them, the air around them, and the records
    behind each: usually one, several for a wide carrier that holds many channels."""

    show: Show
    carriers: tuple[Carrier, ...]
    rules: Rules
    air: Air = field(default_factory=Air)
    subjects: Mapping[str, tuple[Subject, ...]] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)

    def subjects_of(self, names: Sequence[str]) -> tuple[Subject, ...]:
        """The records behind some carriers."""
        return tuple(subject for name in names for subject in self.subjects[name])

    def is_channel(self, name: str) -> bool:
        """Whether a carrier is one of our channels, and not one of the others."""
        return self.subjects[name][0].section == "channels"


def gather_on_air(show: Show) -> OnAir:
    """Channels and others that have a frequency, as carriers. Spares count: a spare on the air must be clean too."""
    carriers: list[Carrier] = []
    subjects: dict[str, tuple[Subject, ...]] = {}
    places: dict[str, Place] = {}
    for channel in show.channels.values():
        name = carrier_name(channel)
        if channel.hz is not None:
            if name not in subjects:
                carriers.append(carrier_of(show, channel, channel.hz))
                places[name] = channel.where["mhz"]
            subjects[name] = (*subjects.get(name, ()), Subject("channels", channel.id))
    ours = tuple(carriers)
    for other in show.others.values():
        if other.hz is not None:
            carriers.append(carrier_of_other(show, other, other.hz))
            subjects[carriers[-1].id] = (Subject("others", other.id),)
            places[carriers[-1].id] = other.where["mhz"]
    air = gather_air(show, ours, list_bandwidths(show))
    return OnAir(show, tuple(carriers), gather_rules(show), air, subjects, places)


def list_bandwidths(show: Show) -> tuple[int, ...]:
    """Every bandwidth that a carrier of the show can have, in Hz, the narrowest first."""
    stated = [one.bandwidth_hz for one in show.radios.values()]
    stated += (one.bandwidth_hz for one in show.others.values())
    if not show.radios or any(not channel.radio for channel in show.channels.values()):
        stated.append(None)
    return tuple(sorted({BANDWIDTH_HZ if hz is None else hz for hz in stated}))


def gather_rules(show: Show) -> Rules:
    """The distances and guards that the show states; what it does not state is the house's default."""
    guards: dict[tuple[str, str], int] = {}
    apart: dict[tuple[str, str], int] = {}
    for radio in show.radios.values():
        kind = kind_of(radio)
        stated = {
            THIRD2: radio.guard_two_hz,
            THIRD3: radio.guard_three_hz,
            FIFTH2: radio.guard_fifth_hz,
            FIFTH3: radio.guard_fifth_hz,
        }
        guards |= {(kind, product): hz for product, hz in stated.items() if hz is not None}
        if radio.apart_hz is not None:
            apart[kind, ""] = radio.apart_hz
    for other in show.others.values():
        if other.apart_hz is not None:
            apart[kind_of(other), ""] = other.apart_hz
    kinds = (*DEFAULT_KINDS, FIFTH3) if show.spectrum.fifth_three_signal else DEFAULT_KINDS
    return Rules(kinds=kinds, guards=guards, apart=apart, close_quarters=show.spectrum.close_quarters)


def kind_of(one: RadioType | Other | None) -> str:
    """What a carrier is to the arithmetic: the distance and guards that it states, "" where it states none.

    Types that state the same are one kind: the work of a search grows with the number of kinds.
    """
    if one is None:
        return ""
    stated = [one.apart_hz]
    if isinstance(one, RadioType):
        stated += (one.guard_two_hz, one.guard_three_hz, one.guard_fifth_hz)
    parts = ["default" if hz is None else str(hz) for hz in stated]
    return "" if set(parts) == {"default"} else " ".join(parts)


def list_clashes(on_air: OnAir) -> tuple[Clash, ...] | None:
    """Every intermodulation product that is too near a carrier, mirrored hits counted once.

    None where more than `HITS_LISTED` hit; then `count_hits` says how bad it is.
    """
    hits = iterate_hits(on_air.carriers, on_air.rules)
    if next(islice(hits, HITS_LISTED, None), None) is not None:
        return None
    return gather(list_hits(on_air.carriers, on_air.rules))


def count_hits(on_air: OnAir) -> dict[str, int]:
    """How many products strike each carrier that is struck, counted exactly at any size; the worst first."""
    totals = {name: count for name, count in count_radio_hits(on_air.carriers, on_air.rules).items() if count}
    return dict(sorted(totals.items(), key=lambda item: -item[1]))


def find_culprits(on_air: OnAir, clashes: Sequence[Clash]) -> tuple[tuple[str, tuple[Clash, ...]], ...]:
    """The fewest carriers, greedily, whose retuning would end all clashes, each with the clashes it would end.

    What is moved most easily is named first, and of equals the last one: it was added last.
    """
    rank = {carrier.id: (rank_movable(on_air, carrier.id), index) for index, carrier in enumerate(on_air.carriers)}
    left = list(clashes)
    culprits = []
    while left:
        share = Counter(name for clash in left for name in clash.carriers)
        worst = max(share, key=lambda name: (rank[name][0], share[name], rank[name][1]))
        culprits.append((worst, tuple(clash for clash in left if worst in clash.carriers)))
        left = [clash for clash in left if worst not in clash.carriers]
    return tuple(culprits)


def find_granted(on_air: OnAir, name: str) -> int | None:
    """The frequency that was granted to a carrier that is on another one."""
    records = (on_air.show.channels[one.id] for one in on_air.subjects[name] if one.section == "channels")
    return next((one.granted_hz for one in records if one.granted_hz not in (None, one.hz)), None)


def has_grant(on_air: OnAir, name: str) -> bool:
    """Whether a coordinator answered for a carrier, with yes or no: another frequency has to be asked for."""
    records = (on_air.show.channels[one.id] for one in on_air.subjects[name] if one.section == "channels")
    return any(one.granted_hz is not None or one.refused for one in records)


def rank_movable(on_air: OnAir, name: str) -> int:
    """How easily a carrier is moved: 2 for a channel, 1 for one whose frequency was granted, 0 for one of the others."""
    return 0 if not on_air.is_channel(name) else 1 if has_grant(on_air, name) else 2


def carrier_name(channel: Channel) -> str:
    """What the carrier of a channel is called: `channel 05`, or `carrier W1` for one that holds several."""
    return f"carrier {channel.carrier}" if channel.carrier else f"channel {channel.id}"


def carrier_of(show: Show, channel: Channel, hz: int) -> Carrier:
    """A channel's carrier at a frequency."""
    radio = show.radio_of(channel)
    bandwidth_hz = radio.bandwidth_hz if radio else None
    return Carrier(
        id=carrier_name(channel),
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if bandwidth_hz is None else bandwidth_hz,
        kind=kind_of(radio),
        makes=radio.makes_intermodulation if radio else True,
        exclusive=channel.exclusive,
        zone=channel.zone,
        times=moments_of(show, channel.bill),
    )


def carrier_of_other(show: Show, other: Other, hz: int) -> Carrier:
    """The carrier of one of the others at a frequency."""
    return Carrier(
        id=other.id,
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if other.bandwidth_hz is None else other.bandwidth_hz,
        kind=kind_of(other),
        makes=other.makes_intermodulation,
        listens=other.kind != "neighbour",
        zone=other.zone,
        times=moments_of(show, other.bill),
    )
