"""Text to whole hertz and seconds, and back. Decimal arithmetic only; no binary fraction touches a frequency.

A text that can be read in two ways is never guessed: the parser raises `Doubt`, whose words name the readings.
"""

import re
import unicodedata
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal
from typing import NamedTuple

from paperwork import limits

KHZ = 1_000
MHZ = 1_000_000
GHZ = 1_000_000_000

LOWEST_HZ = 25 * MHZ
"""Lowest carrier taken as meant. Source: the lowest band open to wireless microphones that the references
list starts at 26.1 MHz (47 CFR 74.802(a), edition of 1 Oct 2008)."""

HIGHEST_HZ = 3 * GHZ
"""Highest carrier taken as meant. Source: EN 300 422-1 V2.2.1 covers audio links up to 3 GHz."""

LONGEST_S = 31 * 24 * 3600
"""Longest time taken as meant: no run of cells, and no bill, lasts a month. Common practice, no source."""

LOWEST_CDBM = -20_000
HIGHEST_CDBM = 10_000
"""Levels in hundredths of a dBm between which a reading is taken as meant: -200 dBm is far below the noise of 1 Hz at
290 K (-174 dBm, k times T), 100 dBm far above what a receiver survives."""

_UNITS = {"": 0, "hz": 1, "khz": KHZ, "mhz": MHZ, "ghz": GHZ}
_NUMBER = re.compile(r"(?P<number>[0-9][0-9.,]*)\s*(?P<unit>(?:[kmg]?hz)?)\.?", re.IGNORECASE)
_PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?")
_GROUPED = r"[0-9]{1,3}(?:[.,][0-9]{3})+"
_DASH = r"\s*(?:-|\u2013|\u2014|\bto\b)\s*"
_DECIBELS = r"(?i)([0-9]{1,3}(?:[.,][0-9]{1,2})?)\s*db"
_POWER = r"(?i)([0-9]{1,4}(?:[.,][0-9]{1,3})?)\s*([µμu]w|mw|w|dbm)(?:\s*\(?e\.?i?\.?r\.?p\.?\)?)?"
_LIMIT = r"(?i)([+-]?[0-9]{1,3}(?:[.,][0-9]+)?)\s*(dbm?)?"
_CLOCK = r"([0-9]{1,2}):([0-5][0-9])(?::([0-5][0-9]))?"
_HALF_DAY = r"(1[0-2]|0?[1-9])(?:[:.]([0-5][0-9]))?\s*([ap])\.?m\.?"
_LASTING = r"([0-9]+(?:\.[0-9]+)?)\s*(s|min|h)"


class Doubt(ValueError):
    """A text that is not what its field wants, or that can be read in two ways. The words say which."""


class Range(NamedTuple):
    """A range of frequencies in whole hertz, both edges included."""

    low_hz: int
    high_hz: int


def parse_frequency(text: str) -> int:
    """The carrier frequency in whole hertz. A bare number is in MHz.

    `518.2`, `518,200`, `518.200 MHz`, `518200 kHz` and `0.5182 GHz` are all 518 200 000.
    Raises Doubt where a reading is missing, impossible, or one of several.
    """
    number, unit = _split_number(text, "a frequency in MHz, as in 518.200")
    readings = _readings(number, unit or MHZ)
    if not readings:
        raise Doubt(f"{text} has more than one separator; write it in MHz, as in 518.200")
    meant = sorted({hz for hz in readings if LOWEST_HZ <= hz <= HIGHEST_HZ})
    if len(meant) > 1:
        raise Doubt(f"{text} can be {' or '.join(format_mhz(int(hz)) + ' MHz' for hz in meant)}")
    if meant and meant[0] == int(meant[0]):
        return int(meant[0])
    if meant:
        raise Doubt(f"{text} is not a whole number of hertz")
    other = _reading_in_another_unit(number) if not unit else ""
    raise Doubt(f"{text} is not between {format_edge(LOWEST_HZ)} and {format_edge(HIGHEST_HZ)} MHz{other}")


def parse_width(text: str) -> int:
    """A bandwidth, step or distance in whole hertz. The unit is wanted: `25 kHz`, `6.25 kHz`, `8 MHz`."""
    number, unit = _split_number(text, "a width with its unit, as in 200 kHz")
    if not unit:
        raise Doubt(f"{text} has no unit; write {text} kHz or {text} MHz")
    if not _PLAIN.fullmatch(number):
        raise Doubt(f"{text} has more than one separator")
    hz = Decimal(number.replace(",", ".")) * unit
    if hz != int(hz):
        raise Doubt(f"{text} is not a whole number of hertz")
    if hz > limits.WIDTH_HZ:
        raise Doubt(f"{text} is more than {limits.WIDTH_HZ // 1_000_000} MHz")
    return int(hz)


def parse_limit(text: str) -> int:
    """A limit of level: `-85`, `-85.5 dBm` in hundredths of a dBm, `10 dB` above the noise floor in those of a dB.

    What is above 0 is of the second kind. Raises Doubt for what is neither.
    """
    match = re.fullmatch(_LIMIT, unicodedata.normalize("NFKC", text).strip().replace("\u2212", "-"))
    limit = int((Decimal(match[1].replace(",", ".")) * 100).to_integral_value(ROUND_HALF_EVEN)) if match else 0
    is_above_noise = match is not None and (match[2] or "").lower() == "db"
    if match is None or not (0 < limit <= HIGHEST_CDBM if is_above_noise else LOWEST_CDBM <= limit < 0):
        raise Doubt(f"{text} is not a level in dBm below 0, as in -85, nor above the noise floor, as in 10 dB")
    return limit


def parse_decibels(text: str) -> int:
    """An attenuation in whole hundredths of a dB: `40 dB`, `37,5 dB`. Raises Doubt for anything else, or for 0."""
    match = re.fullmatch(_DECIBELS, unicodedata.normalize("NFKC", text).strip())
    found = int(Decimal(match[1].replace(",", ".")) * 100) if match else 0
    if not found:
        raise Doubt(f"{text} is not an attenuation in dB, as in 40 dB")
    return found


def format_decibels(cdb: int) -> str:
    """Hundredths of a dB with their unit: `40 dB`."""
    return f"{(Decimal(cdb) / 100).normalize():f} dB"


def parse_power(text: str) -> int:
    """A transmit power in microwatts: `10 mW`, `0.25 W`, `17 dBm`; `ERP` or `EIRP` behind it changes nothing.

    Raises Doubt for anything else, several powers of one transmitter among them.
    """
    match = re.fullmatch(_POWER, unicodedata.normalize("NFKC", text).strip())
    if match is None:
        raise Doubt(f"{text} is not a power, as in 10 mW")
    number, unit = Decimal(match[1].replace(",", ".")), match[2].lower()
    if unit == "dbm":
        number, unit = Decimal(10) ** (number / 10), "mw"
    return int((number * {"µw": 1, "uw": 1, "μw": 1, "mw": 1_000, "w": 1_000_000}[unit]).to_integral_value())


def parse_range(text: str) -> Range:
    """One range of frequencies in MHz: `486-508`, `486.5 to 508 MHz`. Raises Doubt where it runs backwards."""
    parts = re.split(_DASH, unicodedata.normalize("NFKC", text).strip())
    if len(parts) != 2:
        raise Doubt(f"{text} is not a range of frequencies, as in 486-508")
    unit = re.search(r"[kmg]?hz\.?$", parts[1], re.IGNORECASE)
    if unit and not re.search(r"hz", parts[0], re.IGNORECASE):
        parts[0] += " " + unit.group()
    low_hz, high_hz = parse_frequency(parts[0]), parse_frequency(parts[1])
    if low_hz >= high_hz:
        raise Doubt(f"{text} runs backwards")
    return Range(low_hz, high_hz)


def parse_clock(text: str) -> int:
    """Seconds from `h:mm` or `h:mm:ss`, or from a lasting time with its unit: `90 s`, `15 min`, `2.5 h`."""
    clean = unicodedata.normalize("NFKC", text).strip().lower()
    if match := re.fullmatch(_CLOCK, clean):
        hours, minutes, seconds = (int(part or 0) for part in match.groups())
        return hours * 3600 + minutes * 60 + seconds
    if match := re.fullmatch(_LASTING, clean):
        lasting = Decimal(match.group(1)) * {"s": 1, "min": 60, "h": 3600}[match.group(2)]
        if lasting > LONGEST_S:
            raise Doubt(f"{text} is longer than {LONGEST_S // 3600} hours")
        if lasting == int(lasting):
            return int(lasting)
    raise Doubt(f"{text} is not a time, as in 1:05 (h:mm), 0:01:30 (h:mm:ss) or 90 s")


def parse_time_of_day(text: str) -> int:
    """Seconds from midnight: `19:30`, or by the half day `7:30 pm`."""
    match = re.fullmatch(_HALF_DAY, unicodedata.normalize("NFKC", text).strip().lower())
    if match is None:
        return parse_clock(text)
    hours, minutes = int(match.group(1)) % 12 + 12 * (match.group(3) == "p"), int(match.group(2) or 0)
    return hours * 3600 + minutes * 60


def parse_hours(text: str) -> int:
    """Seconds from hours: `8`, `6.5`, `6,5 h`, `6:30` or `6h30`."""
    clean = unicodedata.normalize("NFKC", text).strip().lower().replace(",", ".")
    clean = re.sub(r"^([0-9]+)\s*h\s*([0-5][0-9])$", r"\1:\2", clean)
    if re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", clean):
        clean += " h"
    try:
        return parse_clock(clean)
    except Doubt:
        raise Doubt(f"{text} is not a number of hours, as in 8, 6.5 or 6:30") from None


def parse_date(text: str) -> str:
    """An ISO date, `2027-03-02`, as text. Raises Doubt for any other form: `3/4/27` is two dates."""
    clean = text.strip()
    try:
        if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", clean):
            return date.fromisoformat(clean).isoformat()
    except ValueError:
        raise Doubt(f"{text} is not a day of the calendar") from None
    raise Doubt(f"{text} is not a date as year-month-day, as in 2027-03-02")


def format_mhz(hz: int) -> str:
    """The frequency in MHz with at least three decimals, and as many as it needs; never rounded."""
    whole, rest = divmod(hz, MHZ)
    decimals = f"{rest:06d}".rstrip("0").ljust(3, "0")
    return f"{whole}.{decimals}"


def format_khz(hz: int) -> str:
    """A distance in kHz with as many decimals as it needs: `12.5`."""
    return f"{Decimal(hz) / KHZ:f}"


def format_edge(hz: int) -> str:
    """The edge of a range in MHz, as short as it can be: `486`, `486.5`."""
    return f"{(Decimal(hz) / MHZ).normalize():f}"


def format_range(span: Range) -> str:
    """A range in MHz, as `486 to 508`."""
    return f"{format_edge(span.low_hz)} to {format_edge(span.high_hz)}"


def format_level(cdbm: int) -> str:
    """A level in dBm with one decimal: `-85.5`."""
    return f"{Decimal(cdbm) / 100:.1f}"


def format_limit(limit: int) -> str:
    """A limit as `parse_limit` gives it: `-85.5 dBm`, `10.0 dB`."""
    return f"{format_level(limit)} {'dB' if limit > 0 else 'dBm'}"


def format_clock(seconds: int) -> str:
    """Seconds as `h:mm`, or as `h:mm:ss` where they are no whole minutes; `-0:20` before 0."""
    if seconds < 0:
        return f"-{format_clock(-seconds)}"
    hours, rest = divmod(seconds, 3600)
    minutes, second = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{second:02d}" if second else f"{hours}:{minutes:02d}"


def format_hours(seconds: int) -> str:
    """Hours and minutes that are asked of cells: a part of a minute counts as one. What they give is rounded down."""
    return format_clock(-(-seconds // 60) * 60)


def _split_number(text: str, wanted: str) -> tuple[str, int]:
    """The digits with their separators, and the factor of the unit (0 where there is none)."""
    clean = unicodedata.normalize("NFKC", text).strip()
    match = _NUMBER.fullmatch(clean)
    if not match:
        raise Doubt(f"{text} is not {wanted}")
    return match["number"], _UNITS[match["unit"].lower()]


def _readings(number: str, unit_hz: int) -> list[Decimal]:
    """Every frequency in hertz that the digits can mean: with a decimal sign, or with grouped thousands.

    Thousands of megahertz are never written in groups, so only kHz and Hz have the second reading.
    """
    readings = []
    if _PLAIN.fullmatch(number):
        readings.append(Decimal(number.replace(",", ".")) * unit_hz)
    if re.fullmatch(_GROUPED, number) and unit_hz < MHZ:
        readings.append(Decimal(re.sub(r"[.,]", "", number)) * unit_hz)
    return readings


def _reading_in_another_unit(number: str) -> str:
    """What a bare number out of range would be in kHz, Hz or GHz, as the end of a sentence; else ""."""
    for name, factor in (("kHz", KHZ), ("Hz", 1), ("GHz", GHZ)):
        meant = {hz for hz in _readings(number, factor) if LOWEST_HZ <= hz <= HIGHEST_HZ and hz == int(hz)}
        if len(meant) == 1:
            return f"; {number} {name} would be {format_mhz(int(meant.pop()))} MHz"
    return ""
