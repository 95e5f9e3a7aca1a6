"""Which carriers a show puts on the air, under which rules, and what they do to each other."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from itertools import islice

from paperwork.coordinate.air import Air, gather_air
from paperwork.finding import Subject
from paperwork.frozen import frozen
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.place import Place
from paperwork.plan.day.zones import place_of
from paperwork.radio.carrier import DEFAULT_KINDS, FIFTH2, FIFTH3, THIRD2, THIRD3, Carrier, Rules
from paperwork.radio.products.hits import Clash, Hit, gather, iterate_hits, sort_hits
from paperwork.radio.spacing import ClosePair, iterate_close_pairs
from paperwork.text.names import shorten_ids

BANDWIDTH_HZ = 200_000
"""Bandwidth of a radio that states none. Source: 47 CFR 74.802(c) joins 25 kHz segments to 200 kHz at most."""

HITS_LISTED = 10_000
"""Hits that are listed by name: 32 carriers in equal steps make fewer. Choice of this project, no source."""

PAIRS_LISTED = 10_000
"""Pairs of carriers too near each other that are listed by name: 140 carriers in one place make fewer. Choice of this project,
no source."""

BACKUPS = "backups"
"""What the backup of a channel is, as a subject: what is wrong with it does not doubt the channel's own frequency."""

_ONE_OF_TWO = "\0one of "
"""Begins the name of the exclusive group that a carrier and its own backup are; no show can write it."""


@frozen
class OnAir:
    """Every carrier of the show with a known frequency, the rules between them, the air around them, and the records
    behind each: usually one, several for a wide carrier that holds many channels or a backup that several share."""

    show: Show
    carriers: tuple[Carrier, ...]
    rules: Rules
    air: Air = field(default_factory=Air)
    subjects: Mapping[str, tuple[Subject, ...]] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)

    def subjects_of(self, names: Sequence[str]) -> tuple[Subject, ...]:
        """The records behind some carriers."""
        return tuple(subject for name in names for subject in self.subjects[name])

    def records_of(self, name: str) -> tuple[Channel | Other, ...]:
        """The records whose own frequency it is; none of a backup."""
        held: dict[str, Mapping[str, Channel | Other]] = {"channels": self.show.channels, "others": self.show.others}
        return tuple(held[one.section][one.id] for one in self.subjects[name] if one.section in held)

    def is_channel(self, name: str) -> bool:
        """Whether a carrier is one of our channels or the backup of one, and not one of the others."""
        return self.subjects[name][0].section in ("channels", BACKUPS)

    def is_backup(self, name: str) -> bool:
        """Whether a carrier is what channels go to when their own goes bad."""
        return self.subjects[name][0].section == BACKUPS

    def name_of(self, name: str, channel: Channel) -> str:
        """What a carrier is to one of its channels, in words."""
        return f"{'backup of ' * self.is_backup(name)}channel {channel.id}"

    def field_of(self, name: str) -> str:
        """The field of the show file that says its frequency."""
        return "backup" if self.is_backup(name) else "mhz"

    @property
    def searched(self) -> tuple[Carrier, ...]:
        """The carriers for a search, each backup beside its own carrier too: a group for every channel would make the
        search slow, and what is clean beside more is clean beside less."""
        return tuple(
            replace(one, exclusive="") if one.exclusive.startswith(_ONE_OF_TWO) else one for one in self.carriers
        )

    @property
    def is_searched_strictly(self) -> bool:
        """Whether a search keeps more apart than the check: what it finds is clean, what it denies is not proved."""
        return any(one.exclusive.startswith(_ONE_OF_TWO) for one in self.carriers)


def gather_on_air(show: Show) -> OnAir:
    """Channels, their backups and others that have a frequency, as carriers. Spares count: a spare on the air must be
    clean too. A channel is on its own frequency or on its backup, never on both, and any channels may be on theirs at
    one time. A backup that several share has one of them at a time."""
    carriers: list[Carrier] = []
    subjects: dict[str, tuple[Subject, ...]] = {}
    places: dict[str, Place] = {}
    for channel in show.channels.values():
        name = carrier_name(channel)
        if channel.hz is not None:
            if name not in subjects:
                own = carrier_of(show, channel, channel.hz)
                carriers.append(own if channel.backup_hz is None else replace(own, exclusive=_group_of(channel)))
                places[name] = channel.where["mhz"]
            subjects[name] = (*subjects.get(name, ()), Subject("channels", channel.id))
    for backup, behind in _gather_backups(show):
        carriers.append(backup)
        places[backup.id] = behind[0].where["backup"]
        subjects[backup.id] = tuple(Subject(BACKUPS, channel.id) for channel in behind)
    ours = tuple(carriers)
    for other in show.others.values():
        if other.hz is not None:
            carriers.append(carrier_of_other(show, other, other.hz))
            subjects[carriers[-1].id] = (Subject("others", other.id),)
            places[carriers[-1].id] = other.where["mhz"]
    air = gather_air(show, ours, list_bandwidths(show))
    return OnAir(show, tuple(carriers), gather_rules(show), air, subjects, places)


def _gather_backups(show: Show) -> list[tuple[Carrier, list[Channel]]]:
    """The backups that are given, each with the channels behind it: one where they are alike in all but the channel."""
    found: dict[Carrier, list[Channel]] = {}
    for channel in show.channels.values():
        if channel.backup_hz is not None:
            found.setdefault(replace(backup_of(show, channel, channel.backup_hz), id=""), []).append(channel)
    return [(_name_backup(carrier, behind), behind) for carrier, behind in found.items()]


def _name_backup(carrier: Carrier, behind: list[Channel]) -> Carrier:
    """The backup with its name: of one carrier, which it then is never beside, or of several."""
    names = list(dict.fromkeys(map(carrier_name, behind)))
    if len(names) == 1:
        return replace(carrier, id=f"backup of {names[0]}", exclusive=_group_of(behind[0]))
    return replace(carrier, id=f"backup of channels {shorten_ids([one.id for one in behind])}")


def _group_of(channel: Channel) -> str:
    """The exclusive group of a carrier that has a backup."""
    return channel.exclusive or _ONE_OF_TWO + carrier_name(channel)


def list_bandwidths(show: Show) -> tuple[int, ...]:
    """Every bandwidth that a carrier of the show can have, in Hz, the narrowest first."""
    stated = [one.bandwidth_hz for one in (*show.radios.values(), *(show.type_of(one) for one in show.others.values()))]
    if not show.radios or any(not channel.radio for channel in show.channels.values()):
        stated.append(None)
    return tuple(sorted({BANDWIDTH_HZ if hz is None else hz for hz in stated}))


def gather_rules(show: Show) -> Rules:
    """The distances and guards that the show states; what it does not state is the house's default."""
    guards: dict[tuple[str, str], int] = {}
    apart: dict[tuple[str, str], int] = {}
    for radio in (*show.radios.values(), *(show.type_of(one) for one in show.others.values())):
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
    kinds = (*DEFAULT_KINDS, FIFTH3) if show.spectrum.fifth_three_signal else DEFAULT_KINDS
    return Rules(kinds=kinds, guards=guards, apart=apart, close_quarters=show.spectrum.close_quarters)


def kind_of(one: RadioType | None) -> str:
    """What a carrier is to the arithmetic: the distance and guards that it states, "" where it states none.

    Types that state the same are one kind: the work of a search grows with the number of kinds.
    """
    if one is None:
        return ""
    stated = [one.apart_hz, one.guard_two_hz, one.guard_three_hz, one.guard_fifth_hz]
    parts = ["default" if hz is None else str(hz) for hz in stated]
    return "" if set(parts) == {"default"} else " ".join(parts)


def list_close(on_air: OnAir) -> tuple[ClosePair, ...] | None:
    """Every pair of carriers that are too near each other; None where there are more than `PAIRS_LISTED`."""
    pairs = tuple(islice(iterate_close_pairs(on_air.carriers, on_air.rules), PAIRS_LISTED + 1))
    return None if len(pairs) > PAIRS_LISTED else pairs


def list_clashes(on_air: OnAir) -> tuple[Clash, ...] | None:
    """Every intermodulation product that is too near a carrier, mirrored hits counted once.

    None where more than `HITS_LISTED` hit; then `count_hits` says how bad it is.
    """
    hits = list(islice(iterate_hits(on_air.carriers, on_air.rules), HITS_LISTED + 1))
    if len(hits) > HITS_LISTED:
        return None
    behind = {one.id: _list_behind(on_air, one.id) for one in on_air.carriers if on_air.is_backup(one.id)}
    return gather(hit for hit in sort_hits(hits, on_air.carriers) if not behind or _can_meet(hit, behind))


def _list_behind(on_air: OnAir, name: str) -> frozenset[str]:
    """The carriers of which one is off the air when a backup is on it."""
    return frozenset(carrier_name(on_air.show.channels[one.id]) for one in on_air.subjects[name])


def _can_meet(hit: Hit, behind: Mapping[str, frozenset[str]]) -> bool:
    """Whether no backup has part in a hit together with all that share it."""
    names = {*hit.makers, hit.victim}
    return not any(name in behind and behind[name] <= names for name in names)


def count_hits(on_air: OnAir) -> dict[str, int]:
    """How many products strike each carrier that is struck, counted exactly at any size; the worst first."""
    from paperwork.radio.products import counts

    totals = {name: count for name, count in counts.count_hits(on_air.carriers, on_air.rules).items() if count}
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
    records = on_air.records_of(name)
    return next((one.granted_hz for one in records if one.granted_hz not in (None, one.hz)), None)


def has_grant(on_air: OnAir, name: str) -> bool:
    """Whether a coordinator answered for a carrier, with yes or no: another frequency has to be asked for."""
    return any(one.granted_hz is not None or one.refused for one in on_air.records_of(name))


def rank_movable(on_air: OnAir, name: str) -> int:
    """How easily a carrier is moved: 3 for a backup, 2 for a channel, 1 for one whose frequency was granted, 0 for one
    of the others."""
    if on_air.is_backup(name):
        return 3
    return 0 if not on_air.is_channel(name) else 1 if has_grant(on_air, name) else 2


def find_movable(on_air: OnAir, first: str, second: str) -> str:
    """Of two carriers the one to retune: ours before one of the others, one without a grant, else the second."""
    return max(second, first, key=lambda name: rank_movable(on_air, name))


def carrier_name(channel: Channel) -> str:
    """What the carrier of a channel is called: `channel 05`, or `carrier W1` for one that holds several."""
    return f"carrier {channel.carrier}" if channel.carrier else f"channel {channel.id}"


def carrier_of(show: Show, channel: Channel, hz: int) -> Carrier:
    """A channel's carrier at a frequency."""
    radio, (zone, times) = show.radio_of(channel), place_of(show, channel.zone, channel.bill)
    bandwidth_hz = radio.bandwidth_hz if radio else None
    return Carrier(
        id=carrier_name(channel),
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if bandwidth_hz is None else bandwidth_hz,
        kind=kind_of(radio),
        makes=radio.makes_intermodulation if radio else True,
        exclusive=channel.exclusive,
        zone=zone,
        times=times,
    )


def backup_of(show: Show, channel: Channel, hz: int) -> Carrier:
    """The carrier of a channel's backup at a frequency."""
    return replace(carrier_of(show, channel, hz), id=f"backup of {carrier_name(channel)}")


def carrier_of_other(show: Show, other: Other, hz: int) -> Carrier:
    """The carrier of one of the others at a frequency."""
    radio, (zone, times) = show.type_of(other), place_of(show, other.zone, other.bill)
    return Carrier(
        id=other.id,
        hz=hz,
        bandwidth_hz=BANDWIDTH_HZ if radio.bandwidth_hz is None else radio.bandwidth_hz,
        kind=kind_of(radio),
        makes=radio.makes_intermodulation,
        listens=other.kind != "neighbour",
        zone=zone,
        times=times,
    )
