"""Frequencies: what a radio can be set to, what is in the air there, and what carriers do to each other."""

from collections.abc import Iterator

from paperwork import limits
from paperwork.checks.air.drafts import Draft, settle
from paperwork.checks.air.neighbours import draft_close, draft_pair, list_about, part_doubled
from paperwork.checks.air.reach import list_unreachable
from paperwork.checks.air.spectrum import check_places, check_spectrum
from paperwork.coordinate import BACKUPS, OnAir, carrier_name, count_hits, find_culprits, gather_on_air, list_clashes
from paperwork.coordinate.carriers import PAIRS_LISTED, list_close
from paperwork.coordinate.grants import list_asked
from paperwork.coordinate.spares import find_elsewhere
from paperwork.finding import Finding, Subject, find
from paperwork.model import Channel, RadioType, Show
from paperwork.plan.spares import list_backed
from paperwork.radio.carrier import Carrier, are_together
from paperwork.radio.products.hits import Clash, Hit
from paperwork.radio.spacing import centres_apart_hz, list_crowded
from paperwork.text.names import join_words
from paperwork.text.units import format_khz, format_mhz, format_range


def check_frequencies(show: Show) -> Iterator[Finding]:
    """Each frequency can be tuned to, lies where nothing is in the way and is the one that was granted, no carrier
    disturbs another, and a spare is not lost with what it backs. All that is offered can be taken together.

    Where a radio cannot be tuned to its rack at all, that is the finding, and not the frequency.
    """
    on_air = gather_on_air(show)
    drafts = (*draft_frequencies(on_air), *check_granted(on_air))
    is_known = next(check_spectrum(show), None) is None
    lost = [channel.id for some in list_unreachable(show).values() for channel in some]
    unreachable = {Subject(section, id) for id in lost for section in ("channels", BACKUPS)}
    found, offered = settle(on_air, drafts, is_known=is_known)
    for finding in found:
        if finding.code != "frequency-out-of-window" or unreachable.isdisjoint(finding.subjects):
            yield finding
    yield from _check_wide_carriers(show)
    yield from check_spares(offered, frozenset(draft.mover for draft in drafts))


def check_granted(on_air: OnAir) -> Iterator[Draft]:
    """What is set on the radios is what a coordinator granted, wherever there is another answer than no."""
    for record in list_asked(on_air.show):
        is_ours = isinstance(record, Channel)
        name = f"channel {record.id}" if is_ours else record.id
        if record.hz is not None and not record.refused and record.granted_hz not in (None, record.hz):
            facts = {"name": name, "mhz": format_mhz(record.hz), "granted": format_mhz(record.granted_hz)}
            about, places = (Subject("channels" if is_ours else "others", record.id),), (record.where["granted"],)
            carrier = carrier_name(record) if isinstance(record, Channel) else record.id
            yield Draft(carrier, "frequency-not-granted", record.where["mhz"], about, places, facts)


def draft_frequencies(on_air: OnAir) -> tuple[Draft, ...]:
    """What is wrong with each carrier by itself, in its place, and beside the others."""
    untunable = tuple(_check_tuning(on_air))
    known = frozenset(subject for draft in untunable for subject in draft.about)
    return (*untunable, *check_places(on_air, known), *_check_carriers(on_air), *_check_backups(on_air))


def _check_tuning(on_air: OnAir) -> Iterator[Draft]:
    """Inside the tuning range with its bandwidth, and on a step."""
    for carrier in on_air.carriers:
        for subject in on_air.subjects[carrier.id]:
            if on_air.is_channel(carrier.id):
                radio = on_air.show.radio_of(on_air.show.channels[subject.id])
            else:
                radio = on_air.show.radios.get(on_air.show.others[subject.id].radio_type)
            if radio is not None:
                yield from _check_tuning_of(on_air, carrier, subject, radio)


def _check_tuning_of(on_air: OnAir, carrier: Carrier, subject: Subject, radio: RadioType) -> Iterator[Draft]:
    show, name = on_air.show, carrier.id
    if on_air.is_channel(name):
        channel = show.channels[subject.id]
        hz, who = channel.backup_hz if on_air.is_backup(name) else channel.hz, on_air.name_of(name, channel)
        place = channel.where[on_air.field_of(name)]
    else:
        hz, who, place = carrier.hz, name, on_air.places[name]
    if hz is None:
        return
    facts = {"mhz": format_mhz(hz), "name": who, "radio": radio.id}
    around = radio.settings_around(hz)
    if not radio.can_tune(hz):
        facts["tunes"] = join_words(map(format_range, radio.tunes))
        yield Draft(name, "frequency-out-of-tune", place, (subject,), (radio.where["tunes"],), facts)
    elif radio.spots_hz and hz not in around:
        facts["around"] = join_words(map(format_mhz, around))
        yield Draft(name, "frequency-off-spot", place, (subject,), (radio.where["spots"],), facts)
    elif radio.step_hz and hz not in around:
        facts |= {"step": format_khz(radio.step_hz), "below": format_mhz(around[0]), "above": format_mhz(around[1])}
        yield Draft(name, "frequency-off-step", place, (subject,), (radio.where["step"],), facts)


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


def _check_backups(on_air: OnAir) -> Iterator[Draft]:
    """A backup does not touch the carrier that it stands behind, beside which it never is."""
    carriers = {carrier.id: carrier for carrier in on_air.carriers}
    for name in filter(on_air.is_backup, carriers):
        for subject in on_air.subjects[name]:
            channel, backup = on_air.show.channels[subject.id], carriers[name]
            own = carriers.get(carrier_name(channel))
            wanted_hz = centres_apart_hz(on_air.rules, own, backup) if own else 0
            if own and abs(own.hz - backup.hz) < wanted_hz and not are_together((own, backup)):
                facts = {"channel": channel.id, "mhz": format_mhz(backup.hz), "own": format_mhz(own.hz)}
                facts |= {"apart": format_khz(abs(own.hz - backup.hz)), "wanted": format_khz(wanted_hz)}
                yield Draft(name, "backup-too-near", on_air.places[name], (subject,), (on_air.places[own.id],), facts)
                break


def _check_carriers(on_air: OnAir) -> Iterator[Draft]:
    """No two carriers on one frequency or too near, and no product of some on another.

    Of carriers on one frequency the one that would have to move is left out of the search for products: one fault, one
    finding.
    """
    pairs, clean = part_doubled(on_air)
    hz = {carrier.id: carrier.hz for carrier in on_air.carriers}
    for first, second in pairs:
        yield draft_pair(on_air, "carrier-doubled", first, second, {"mhz": format_mhz(hz[second])})
    close = list_close(clean)
    yield from [_draft_crowded(clean)] if close is None else draft_close(on_air, close)
    clashes = list_clashes(clean)
    if clashes is None:
        yield _draft_many(clean)
    for culprit, shared in find_culprits(clean, clashes or ()):
        yield _draft_clash(on_air, culprit, shared)


def _draft_crowded(on_air: OnAir) -> Draft:
    """One finding for a plan with more carriers too near each other than anybody would read."""
    names = list_crowded(on_air.carriers, on_air.rules)
    about = on_air.subjects_of(names)
    facts = {"crowded": len(names), "all": len(on_air.carriers), "pairs": f"{PAIRS_LISTED:,}"}
    last = names[-1]
    return Draft(last, "carriers-crowded", on_air.places[last], about, (), facts, about)


def _draft_many(on_air: OnAir) -> Draft:
    """One finding for a plan with more hits than anybody would read."""
    uncounted = _why_uncounted(on_air)
    if uncounted:
        last, about = on_air.carriers[-1].id, on_air.subjects_of([one.id for one in on_air.carriers])
        facts: dict[str, object] = {"all": len(on_air.carriers), **uncounted}
        return Draft(last, "intermodulation-uncounted", on_air.places[last], about, (), facts)
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


def _why_uncounted(on_air: OnAir) -> dict[str, str]:
    """Why hits are too many to be counted, and what would help first, as parts of sentences; nothing where they can be."""
    from paperwork.radio.products.counts import count_scattered
    from paperwork.radio.products.sums import MIN_RASTER_HZ, common_raster_hz

    raster_hz = common_raster_hz([carrier.hz for carrier in on_air.carriers])
    if len(on_air.carriers) > limits.CARRIERS_ODD and raster_hz < MIN_RASTER_HZ:
        steps = "put the frequencies on the steps of the radios, for example 25 kHz, or "
        return {"why": "which are on no common raster", "first": steps}
    if count_scattered(on_air.carriers) > limits.CARRIERS_SCATTERED:
        return {"why": "nearly each of which is on at times of its own", "first": "delete the frequencies and "}
    return {}


def _draft_clash(on_air: OnAir, culprit: str, clashes: tuple[Clash, ...]) -> Draft:
    """The nearest product that the culprit has part in, and how many more there are."""
    worst = min(clashes, key=lambda clash: clash.offset_hz)
    hit: Hit = min(worst.hits, key=lambda hit: (abs(hit.offset_hz), hit.victim != culprit))
    makers = join_words(dict.fromkeys(name for name in hit.makers))
    others = len(clashes) - 1
    more = f"; {others} more {'involve' if others > 1 else 'involves'} {culprit}" if others > 0 else ""
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
        list_about(on_air, culprit, tuple(dict.fromkeys((culprit, *hit.makers, hit.victim)))),
        tuple(on_air.places[name] for name in involved if name != culprit),
        facts,
    )


def check_spares(on_air: OnAir, moving: frozenset[str]) -> Iterator[Finding]:
    """Each spare's frequency is one that the channels behind it can be set to, and is not lost with them. `moving` are
    carriers that have to move anyway; what is offered to them is on the air already."""
    show = on_air.show
    spares = [channel for channel in show.channels.values() if channel.spare and channel.hz is not None]
    untunable = {spare.id: finding for spare in spares if (finding := _check_tunable(show, spare))}
    placed = [spare for spare in spares if spare.id not in untunable and carrier_name(spare) not in moving]
    elsewhere = find_elsewhere(on_air, placed)
    for spare in spares:
        if spare.id in untunable:
            yield untunable[spare.id]
        elif spare.id in elsewhere:
            own, other, hz = elsewhere[spare.id]
            yield find(
                "spare-beside",
                spare.where["mhz"],
                about=(Subject("channels", spare.id),),
                spare=spare.id,
                tv=own.name,
                mhz=format_mhz(hz),
                clean=format_mhz(hz) if spare.granted_hz is None else "",
                other=other.name,
            )


def _check_tunable(show: Show, spare: Channel) -> Finding | None:
    hz = spare.hz or 0
    for channel in list_backed(show, spare):
        radio = show.radio_of(channel)
        if radio and not radio.can_tune(hz):
            return find(
                "spare-untunable",
                spare.where["mhz"],
                others=(radio.where["tunes"], channel.where.record),
                about=(Subject("channels", spare.id), Subject("channels", channel.id)),
                spare=spare.id,
                mhz=format_mhz(hz),
                channel=channel.id,
                radio=radio.id,
                tunes=join_words(map(format_range, radio.tunes)),
            )
    return None


CHECKS = (check_frequencies,)
