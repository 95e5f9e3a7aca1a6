"""Carriers side by side: which are on one frequency, which are too near, and what is said of it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from paperwork.checks.air.drafts import Draft
from paperwork.coordinate import OnAir, find_movable
from paperwork.finding import Subject
from paperwork.radio.carrier import Carrier, are_together
from paperwork.radio.spacing import ClosePair
from paperwork.text.names import shorten_ids
from paperwork.text.units import format_khz


def draft_close(on_air: OnAir, pairs: Sequence[ClosePair]) -> Iterator[Draft]:
    """One finding for a pair; one for all channels that are too near to the same carrier of the others."""
    around: dict[str, list[ClosePair]] = {}
    for pair in pairs:
        others = [name for name in (pair.lower, pair.upper) if not on_air.is_channel(name)]
        if len(others) == 1 and on_air.show.others[others[0]].apart_hz == pair.wanted_hz:
            around.setdefault(others[0], []).append(pair)
    crowded = {id(pair) for several in around.values() if len(several) > 1 for pair in several}
    for pair in pairs:
        if id(pair) not in crowded:
            first, second = sorted((pair.lower, pair.upper), key=lambda name: on_air.places[name])
            facts = {
                "apart": _word_distance(pair.apart_hz),
                "wanted": format_khz(pair.wanted_hz),
                "missing": format_khz(pair.wanted_hz - pair.apart_hz),
            }
            yield draft_pair(on_air, "neighbour-too-near", first, second, facts)
    for other, several in around.items():
        if len(several) > 1:
            yield _draft_crowd(on_air, other, several)


def _draft_crowd(on_air: OnAir, other: str, pairs: list[ClosePair]) -> Draft:
    """The channels that are too near to one of the others; that one would have to move, or all of them."""
    nearest = min(pairs, key=lambda pair: pair.apart_hz)
    names = [pair.lower if pair.upper == other else pair.upper for pair in pairs]
    about, first = on_air.subjects_of(names), nearest.lower if nearest.upper == other else nearest.upper
    facts = {
        "other": other,
        "names": f"channels {shorten_ids([subject.id for subject in about])}",
        "wanted": format_khz(max(pair.wanted_hz for pair in pairs)),
        "first": first,
        "apart": _word_crowded(nearest.apart_hz),
    }
    places = tuple(on_air.places[name] for name in names)
    return Draft(
        other, "neighbours-too-near", on_air.places[other], (*on_air.subjects[other], *about), places, facts, about
    )


def _word_crowded(apart_hz: int) -> str:
    return f"is {format_khz(apart_hz)} kHz away" if apart_hz >= 0 else f"overlaps it by {format_khz(-apart_hz)} kHz"


def _word_distance(apart_hz: int) -> str:
    return f"are only {format_khz(apart_hz)} kHz apart" if apart_hz >= 0 else f"overlap by {format_khz(-apart_hz)} kHz"


def draft_pair(on_air: OnAir, code: str, first: str, second: str, facts: dict[str, str]) -> Draft:
    """A finding about two carriers, at the second; one of them would have to move."""
    mover = find_movable(on_air, first, second)
    return Draft(
        mover,
        code,
        on_air.places[second],
        list_about(on_air, mover, (first, second)),
        (on_air.places[first],),
        {"first": first, "second": second, **facts},
    )


def list_about(on_air: OnAir, mover: str, names: Sequence[str]) -> tuple[Subject, ...]:
    """What a finding about some carriers doubts: all of them, or where a backup has to move the backups among them
    alone, because as long as nobody goes to one the others are clean."""
    return on_air.subjects_of([name for name in names if on_air.is_backup(name)] if on_air.is_backup(mover) else names)


def part_doubled(on_air: OnAir) -> tuple[list[tuple[str, str]], OnAir]:
    """Pairs on one frequency until those that would stay have one each, and the air with those alone."""
    pairs: list[tuple[str, str]] = []
    while found := _doubled(on_air):
        pairs += found
        moving = {find_movable(on_air, first, second) for first, second in found}
        on_air = replace(on_air, carriers=tuple(carrier for carrier in on_air.carriers if carrier.id not in moving))
    return pairs, on_air


def _doubled(on_air: OnAir) -> list[tuple[str, str]]:
    """Pairs on one frequency that meet: all such pairs but those that earlier ones connect already, so that one carrier
    everywhere is found beside one in each zone, and of many on one frequency each is found once."""
    first: dict[int, list[list[Carrier]]] = {}
    pairs = []
    for carrier in on_air.carriers:
        clusters = first.setdefault(carrier.hz, [])
        joined: list[Carrier] = []
        apart = []
        for cluster in clusters:
            other = next((other for other in cluster if are_together((other, carrier))), None)
            if other is None:
                apart.append(cluster)
            else:
                pairs.append((other.id, carrier.id))
                joined += cluster
        clusters[:] = [*apart, [*joined, carrier]]
    return pairs
