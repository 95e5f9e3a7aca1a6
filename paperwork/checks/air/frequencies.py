"""Frequencies: what a radio can be set to, what is in the air there, and what carriers do to each other."""

from collections.abc import Iterator
from dataclasses import replace

from paperwork import limits
from paperwork.checks.air.drafts import Draft, settle
from paperwork.checks.air.reach import list_unreachable
from paperwork.checks.air.spares import check_spares
from paperwork.checks.air.spectrum import check_places, check_spectrum
from paperwork.coordinate import (
    OnAir,
    carrier_name,
    count_hits,
    find_culprits,
    find_movable,
    gather_on_air,
    list_clashes,
)
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, RadioType, Show
from paperwork.radio.carrier import Carrier, are_together
from paperwork.radio.products.hits import Clash, Hit
from paperwork.radio.products.sums import MIN_RASTER_HZ, common_raster_hz
from paperwork.radio.spacing import list_close_pairs
from paperwork.text.names import join_words
from paperwork.text.units import format_khz, format_mhz, format_range


def check_frequencies(show: Show) -> Iterator[Finding]:
    """Each frequency can be tuned to, lies where nothing is in the way and is the one that was granted, no carrier disturbs
    another, and a spare is not lost with what it backs. All that is offered can be taken together.

    Where a radio cannot be tuned to its rack at all, that is the finding, and not the frequency.
    """
    on_air = gather_on_air(show)
    drafts = (*draft_frequencies(on_air), *_check_granted(on_air))
    is_known = next(check_spectrum(show), None) is None
    unreachable = {Subject("channels", channel.id) for some in list_unreachable(show).values() for channel in some}
    found, offered = settle(on_air, drafts, is_known=is_known)
    for finding in found:
        if finding.code != "frequency-out-of-window" or unreachable.isdisjoint(finding.subjects):
            yield finding
    yield from _check_wide_carriers(show)
    yield from check_spares(offered, frozenset(draft.mover for draft in drafts))


def _check_granted(on_air: OnAir) -> Iterator[Draft]:
    """What is set on the radios is what a coordinator granted, wherever there is another answer than no."""
    for channel in on_air.show.channels.values():
        if channel.hz is not None and not channel.refused and channel.granted_hz not in (None, channel.hz):
            facts = {"channel": channel.id, "mhz": format_mhz(channel.hz), "granted": format_mhz(channel.granted_hz)}
            name, about = carrier_name(channel), (Subject("channels", channel.id),)
            yield Draft(name, "frequency-not-granted", channel.where["mhz"], about, (channel.where["granted"],), facts)


def draft_frequencies(on_air: OnAir) -> tuple[Draft, ...]:
    """What is wrong with each carrier by itself, in its place, and beside the others."""
    untunable = tuple(_check_tuning(on_air))
    known = frozenset(subject for draft in untunable for subject in draft.about)
    return (*untunable, *check_places(on_air, known), *_check_carriers(on_air))


def _check_tuning(on_air: OnAir) -> Iterator[Draft]:
    """Inside the tuning range with its bandwidth, and on a step."""
    for channel in on_air.show.channels.values():
        radio = on_air.show.radio_of(channel)
        if channel.hz is not None and radio is not None:
            yield from _check_tuning_of(channel, channel.hz, radio)


def _check_tuning_of(channel: Channel, hz: int, radio: RadioType) -> Iterator[Draft]:
    name, place, about = carrier_name(channel), channel.where["mhz"], (Subject("channels", channel.id),)
    facts = {"mhz": format_mhz(hz), "channel": channel.id, "radio": radio.id}
    if not radio.can_tune(hz):
        facts["tunes"] = join_words(map(format_range, radio.tunes))
        yield Draft(name, "frequency-out-of-tune", place, about, (radio.where["tunes"],), facts)
    elif radio.step_hz and hz % radio.step_hz:
        below_hz = hz - hz % radio.step_hz
        facts |= {
            "step": format_khz(radio.step_hz),
            "below": format_mhz(below_hz),
            "above": format_mhz(below_hz + radio.step_hz),
        }
        yield Draft(name, "frequency-off-step", place, about, (radio.where["step"],), facts)


def _check_wide_carriers(show: Show) -> Iterator[Finding]:
    """Channels inside one carrier have one frequency."""
    first: dict[str, Channel] = {}
    for channel in show.channels.values():
        if channel.carrier and channel.hz is not None:
            given = first.setdefault(channel.carrier, channel)
            if given.hz != channel.hz and given.hz is not None:
                yield find(
                    "carrier-uneven",
                    channel.where["mhz"],
                    about=(Subject("channels", given.id), Subject("channels", channel.id)),
                    others=(given.where["mhz"],),
                    first=given.id,
                    second=channel.id,
                    carrier=channel.carrier,
                    mhz=format_mhz(given.hz),
                    other=format_mhz(channel.hz),
                )


def _check_carriers(on_air: OnAir) -> Iterator[Draft]:
    """No two carriers on one frequency or too near, and no product of some on another.

    Of carriers on one frequency the one that would have to move is left out of the search for products: one fault, one
    finding.
    """
    pairs, clean = _part_doubled(on_air)
    hz = {carrier.id: carrier.hz for carrier in on_air.carriers}
    for first, second in pairs:
        yield _draft_pair(on_air, "carrier-doubled", first, second, {"mhz": format_mhz(hz[second])})
    for pair in list_close_pairs(clean.carriers, clean.rules):
        first, second = sorted((pair.lower, pair.upper), key=lambda name: on_air.places[name])
        facts = {
            "apart": _word_distance(pair.apart_hz),
            "wanted": format_khz(pair.wanted_hz),
            "missing": format_khz(pair.wanted_hz - pair.apart_hz),
        }
        yield _draft_pair(on_air, "neighbour-too-near", first, second, facts)
    clashes = list_clashes(clean)
    if clashes is None:
        yield _draft_many(clean)
    for culprit, shared in find_culprits(clean, clashes or ()):
        yield _draft_clash(on_air, culprit, shared)


def _draft_many(on_air: OnAir) -> Draft:
    """One finding for a plan with more hits than anybody would read."""
    if (
        len(on_air.carriers) > limits.CARRIERS_ODD
        and common_raster_hz([carrier.hz for carrier in on_air.carriers]) < MIN_RASTER_HZ
    ):
        last = on_air.carriers[-1].id
        return Draft(
            last,
            "intermodulation-uncounted",
            on_air.places[last],
            on_air.subjects_of((last,)),
            (),
            {"all": len(on_air.carriers)},
        )
    counts = count_hits(on_air)
    worst, about = next(iter(counts)), on_air.subjects_of(tuple(counts))
    facts = {
        "count": f"{sum(counts.values()):,}",
        "struck": len(counts),
        "all": len(on_air.carriers),
        "worst": worst,
        "share": f"{counts[worst]:,}",
    }
    worse_half = about[: len(about) // 2]
    return Draft(worst, "intermodulation-many", on_air.places[worst], about, (), facts, worse_half)


def _word_distance(apart_hz: int) -> str:
    return f"are only {format_khz(apart_hz)} kHz apart" if apart_hz >= 0 else f"overlap by {format_khz(-apart_hz)} kHz"


def _draft_pair(on_air: OnAir, code: str, first: str, second: str, facts: dict[str, str]) -> Draft:
    return Draft(
        find_movable(on_air, first, second),
        code,
        on_air.places[second],
        on_air.subjects_of((first, second)),
        (on_air.places[first],),
        {"first": first, "second": second, **facts},
    )


def _part_doubled(on_air: OnAir) -> tuple[list[tuple[str, str]], OnAir]:
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


def _draft_clash(on_air: OnAir, culprit: str, clashes: tuple[Clash, ...]) -> Draft:
    """The nearest product that the culprit has part in, and how many more there are."""
    worst = min(clashes, key=lambda clash: clash.offset_hz)
    hit: Hit = min(worst.hits, key=lambda hit: (abs(hit.offset_hz), hit.victim != culprit))
    makers = join_words(dict.fromkeys(name for name in hit.makers))
    others = len(clashes) - 1
    more = f"; {others} more {'products have' if others > 1 else 'product has'} {culprit} in them" if others > 0 else ""
    involved = dict.fromkeys(name for clash in clashes for name in clash.carriers)
    facts = {
        "product": hit.text,
        "makers": makers,
        "offset": format_khz(abs(hit.offset_hz)),
        "victim": hit.victim,
        "culprit": culprit,
        "more": more,
    }
    return Draft(
        culprit,
        "intermodulation",
        on_air.places[culprit],
        on_air.subjects_of(tuple(dict.fromkeys((culprit, *hit.makers, hit.victim)))),
        tuple(on_air.places[name] for name in involved if name != culprit),
        facts,
    )


CHECKS = (check_frequencies,)
