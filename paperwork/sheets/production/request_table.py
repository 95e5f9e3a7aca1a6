"""The frequency request as a plain table, to be filled in by a coordinator's program or a spreadsheet."""

from paperwork.coordinate.reply import asked_hz
from paperwork.model import Channel, Show
from paperwork.sheets import forms
from paperwork.sheets.frame import phrase
from paperwork.sheets.production.frequency_request import list_tunes
from paperwork.text.units import format_khz, format_mhz

HEADS = ("row", "use", "tunes", "width", "power", "asked", "granted")


def list_rows(show: Show) -> list[list[str]]:
    """The headings of the printed request, then a row for each channel and for everybody else on the air."""
    rows = [[phrase(show, f"request head {head}") for head in HEADS]]
    rows += [_row_of(show, channel) for channel in show.channels.values()]
    for other in show.others.values():
        use = phrase(show, f"other {other.kind}") if other.kind else ""
        asked = format_mhz(other.hz) if other.hz is not None else ""
        rows.append([other.id, use, "", _khz(other.bandwidth_hz), "", asked, ""])
    return rows


def _row_of(show: Show, channel: Channel) -> list[str]:
    radio, hz = show.radio_of(channel), asked_hz(channel)
    use = [phrase(show, radio.kind)] if radio else []
    use += [phrase(show, "spares")] if channel.spare else []
    granted = format_mhz(channel.granted_hz) if channel.granted_hz is not None else ""
    return [
        channel.id,
        ", ".join(use),
        list_tunes(radio),
        _khz(radio.bandwidth_hz if radio else None),
        forms.power_of(show, channel),
        format_mhz(hz) if hz is not None else "",
        phrase(show, "reply no") if channel.refused else granted,
    ]


def _khz(hz: int | None) -> str:
    return f"{format_khz(hz)} kHz" if hz else ""
