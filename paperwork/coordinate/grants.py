"""What a coordinator said of our frequencies: what was asked, what was refused, and what a grant can be set to.

One place for check, fix, reply and assign, so that none offers what another then refuses.
"""

from collections.abc import Iterable

from paperwork.finding import Edit
from paperwork.frozen import frozen
from paperwork.model import Channel, Other, RadioType, Show
from paperwork.text.names import fold, id_key
from paperwork.text.units import format_khz, format_mhz
from paperwork.text.words import words_of

WIDTH_HZ = 200_000
"""What is taken with a frequency that was refused, and granted with one whose radio states no bandwidth. Source: 47 CFR
74.802(c) joins 25 kHz segments to 200 kHz at most."""


@frozen
class Backup:
    """A channel's backup as a row of a request: `id` is what the row is called, in the language of the papers."""

    id: str
    channel: Channel
    hz: int | None
    asked_hz: int | None = None
    granted_hz: int | None = None
    refused: bool = False


def list_backups(show: Show) -> tuple[Backup, ...]:
    """Everything that a coordinator is asked about as a backup."""
    name = words_of(show.production.language)["backup of"]
    wanting = (one for one in show.channels.values() if one.backup_hz is not None or one.wants_backup)
    return tuple(Backup(name.format(channel=one.id), one, one.backup_hz) for one in wanting)


def remember_refused(show: Show, refused_hz: Iterable[int | None]) -> list[Edit]:
    """What was refused, kept in the show for whoever looks for a frequency there."""
    known = set(show.spectrum.refused_hz)
    all_hz = known | {hz for hz in refused_hz if hz is not None}
    return [Edit("spectrum", "", "refused", ", ".join(map(format_mhz, sorted(all_hz))))] if all_hz != known else []


def list_asked(show: Show) -> list[Channel | Other]:
    """Everything that a coordinator is asked about."""
    return [*show.channels.values(), *show.others.values()]


def asked_hz(record: Channel | Other | Backup) -> int | None:
    """What a coordinator is asked for: as stated, else what is set now."""
    return record.hz if record.asked_hz is None else record.asked_hz


def list_answered(show: Show, venue: str, section: str = "channels") -> frozenset[str]:
    """The channels, or others, for which a coordinator answered, in a venue its own."""
    held: dict[str, Channel | Other] = getattr(show, section)
    answered = frozenset(id for id, one in held.items() if one.granted_hz is not None or one.refused)
    return answered & list_stated(show, venue, section, "granted") if venue else answered


def list_stated(show: Show, venue: str, section: str, name: str) -> frozenset[str]:
    """The channels, or others, of which a venue's own rows state a field."""
    stated = {
        id_key(row.record)
        for row in show.venues.values()
        if fold(row.venue) == fold(venue) and (row.section, row.name) == (section, name)
    }
    return frozenset(id for id in getattr(show, section) if id_key(id) in stated)


def list_refused(show: Show) -> frozenset[int]:
    """The frequencies in hertz for which a coordinator said no, to whichever record, now or earlier."""
    found: set[int | None] = set(show.spectrum.refused_hz)
    for record in list_asked(show):
        if record.refused:
            found |= {record.hz, record.asked_hz}
        elif record.granted_hz is not None and record.granted_hz != record.asked_hz:
            found.add(record.asked_hz)
    return frozenset(hz for hz in found if hz is not None)


def list_granted(show: Show) -> tuple[tuple[int, int], ...]:
    """The bands of all that was granted, in hertz, each as wide as what it was granted for."""
    bands = []
    for record in list_asked(show):
        if record.granted_hz is not None:
            radio = show.radio_of(record) if isinstance(record, Channel) else show.type_of(record)
            half_hz = -(-((radio.bandwidth_hz if radio else None) or WIDTH_HZ) // 2)
            bands.append((record.granted_hz - half_hz, record.granted_hz + half_hz))
    return tuple(bands)


def settle_grant(radio: RadioType | None, granted_hz: int) -> int | None:
    """The frequency that a radio can be set to for a grant: the grant itself, else the nearest step in its range, of
    two the lower; None where it is out of its range.

    A step that was not granted is a decision of the coordinator: nobody here takes it without being asked to.
    """
    if radio is None:
        return granted_hz
    around = sorted(radio.settings_around(granted_hz) or (granted_hz,), key=lambda hz: (abs(hz - granted_hz), hz))
    return next((hz for hz in around if radio.can_tune(hz)), None)


def describe_step(name: str, granted_hz: int, settable_hz: int | None) -> str:
    """The decision that a grant asks for which a radio cannot be set to; "" where it can."""
    if settable_hz == granted_hz:
        return ""
    lead = f"{name} cannot be set to {format_mhz(granted_hz)} MHz, which was granted"
    if settable_hz is None:
        return f"{lead}: it is out of its range; ask for another"
    away = format_khz(abs(settable_hz - granted_hz))
    nearest = f"{lead}: the nearest it tunes to is {format_mhz(settable_hz)}, {away} kHz away"
    return f"{nearest}; ask whether you may use that, and if so write `granted: {format_mhz(settable_hz)}`"
