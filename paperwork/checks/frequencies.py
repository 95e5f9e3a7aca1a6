"""Frequencies: what a radio can be set to, and what carriers do to each other."""

from collections.abc import Iterator

from paperwork.coordinate import OnAir, find_culprits, gather_carriers, list_clashes
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, RadioType, Show
from paperwork.names import join_words
from paperwork.radio.carrier import are_together
from paperwork.radio.hits import Clash, Hit
from paperwork.radio.spacing import list_close_pairs
from paperwork.units import format_khz, format_mhz, format_range


def check_tuning(show: Show) -> Iterator[Finding]:
    """Each frequency can be tuned to: inside the range with its bandwidth, and on a step."""
    for channel in show.channels.values():
        radio = show.radio_of(channel)
        if channel.hz is not None and radio is not None:
            yield from _check_tuning_of(channel, channel.hz, radio)


def _check_tuning_of(channel: Channel, hz: int, radio: RadioType) -> Iterator[Finding]:
    about = (Subject("channels", channel.id),)
    half_hz = (radio.bandwidth_hz or 0) / 2
    if radio.tunes and not any(span.low_hz <= hz - half_hz and hz + half_hz <= span.high_hz for span in radio.tunes):
        yield find(
            "frequency-out-of-tune", channel.where["mhz"], about=about, others=(radio.where["tunes"],),
            mhz=format_mhz(hz), channel=channel.id, radio=radio.id, tunes=join_words(map(format_range, radio.tunes)),
            nearest="",
        )
    elif radio.step_hz and hz % radio.step_hz:
        below_hz = hz - hz % radio.step_hz
        yield find(
            "frequency-off-step", channel.where["mhz"], about=about, others=(radio.where["step"],),
            mhz=format_mhz(hz), channel=channel.id, step=format_khz(radio.step_hz), radio=radio.id,
            below=format_mhz(below_hz), above=format_mhz(below_hz + radio.step_hz),
        )


def check_carriers(show: Show) -> Iterator[Finding]:
    """No two carriers on one frequency or too near, and no product of some on another.

    Carriers that clash in a plainer way are left out of the search for products: one fault, one finding.
    """
    on_air = gather_carriers(show)
    doubled = {name for pair in _doubled(on_air) for name in pair}
    for first, second in _doubled(on_air):
        yield _tell_doubled(on_air, first, second)
    clean = OnAir(
        tuple(carrier for carrier in on_air.carriers if carrier.id not in doubled), on_air.rules, on_air.subjects,
        on_air.places,
    )
    for pair in list_close_pairs(clean.carriers, clean.rules):
        first, second = sorted((pair.lower, pair.upper), key=lambda name: on_air.places[name])
        yield find(
            "neighbour-too-near", on_air.places[second], about=on_air.subjects_of((first, second)),
            others=(on_air.places[first],), first=first, second=second, gap=format_khz(pair.apart_hz),
            wanted=format_khz(pair.wanted_hz), missing=format_khz(pair.wanted_hz - pair.apart_hz), nearest="",
        )
    for culprit, clashes in find_culprits(clean, list_clashes(clean)):
        yield _tell_clash(clean, culprit, clashes)


def _doubled(on_air: OnAir) -> list[tuple[str, str]]:
    first: dict[int, list] = {}
    pairs = []
    for carrier in on_air.carriers:
        for other in first.get(carrier.hz, []):
            if are_together((other, carrier)):
                pairs.append((other.id, carrier.id))
                break
        first.setdefault(carrier.hz, []).append(carrier)
    return pairs


def _tell_doubled(on_air: OnAir, first: str, second: str) -> Finding:
    hz = next(carrier.hz for carrier in on_air.carriers if carrier.id == second)
    return find(
        "carrier-doubled", on_air.places[second], about=on_air.subjects_of((first, second)),
        others=(on_air.places[first],), first=first, second=second, mhz=format_mhz(hz), nearest="",
    )


def _tell_clash(on_air: OnAir, culprit: str, clashes: tuple[Clash, ...]) -> Finding:
    """The nearest product that the culprit has part in, and how many more there are."""
    worst = min(clashes, key=lambda clash: clash.offset_hz)
    hit: Hit = min(worst.hits, key=lambda hit: (abs(hit.offset_hz), hit.victim != culprit))
    makers = join_words(dict.fromkeys(name for name in hit.makers))
    others = len(clashes) - 1
    more = f"; {others} more {'products have' if others > 1 else 'product has'} {culprit} in them" if others > 0 else ""
    product = "the evenly spaced row" if worst.evenly_spaced else f"the product {hit.text}"
    involved = dict.fromkeys(name for clash in clashes for name in clash.carriers)
    return find(
        "intermodulation", on_air.places[culprit], about=on_air.subjects_of((culprit, *hit.makers, hit.victim)),
        others=tuple(on_air.places[name] for name in involved if name != culprit),
        product=product, makers=makers, offset=format_khz(abs(hit.offset_hz)), victim=hit.victim, culprit=culprit,
        more=more, nearest="",
    )


CHECKS = (check_tuning, check_carriers)
