"""The frequency request as a plain table, to be filled in by a coordinator's program or a spreadsheet."""

from paperwork.coordinate.grants import asked_hz
from paperwork.model import Channel, Other, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import phrase
from paperwork.sheets.production.frequency_request import list_tunes
from paperwork.text.units import format_khz, format_mhz

HEADS = ("row", "use", "tunes", "width", "power", "asked", "granted")


def list_rows(show: Show) -> list[list[str]]:
    """The headings of the printed request, then a row for each channel and for everybody else on the air."""
    rows = [[phrase(show, f"request head {head}") for head in HEADS]]
    rows += [_row_of(show, channel) for channel in show.channels.values()]
    rows += [
        _backup_row_of(show, one) for one in show.channels.values() if one.backup_hz is not None or one.wants_backup
    ]
    for other in show.others.values():
        use = phrase(show, f"other {other.kind}") if other.kind else ""
        radio = show.type_of(other)
        facts = [list_tunes(radio), _khz(radio.bandwidth_hz), radio.power]
        rows.append([other.id, use, *facts, _mhz(asked_hz(other)), _granted(show, other)])
    return rows


def _row_of(show: Show, channel: Channel) -> list[str]:
    radio = show.radio_of(channel)
    use = [phrase(show, radio.kind)] if radio else []
    use += [phrase(show, "spares")] if channel.spare else []
    return [
        channel.id,
        ", ".join(use),
        list_tunes(radio),
        _khz(radio.bandwidth_hz if radio else None),
        forms.power_of(show, channel),
        _mhz(asked_hz(channel)),
        _granted(show, channel),
    ]


def _backup_row_of(show: Show, channel: Channel) -> list[str]:
    backup = _row_of(show, channel)
    backup[0] = phrase(show, "backup of", channel=channel.id)
    return [*backup[:-2], format_mhz(channel.backup_hz) if channel.backup_hz is not None else "", ""]


def _granted(show: Show, record: Channel | Other) -> str:
    return phrase(show, "reply no") if record.refused else _mhz(record.granted_hz)


def _mhz(hz: int | None) -> str:
    return "" if hz is None else format_mhz(hz)


def _khz(hz: int | None) -> str:
    return f"{format_khz(hz)} kHz" if hz else ""
