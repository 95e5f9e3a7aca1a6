"""Numbers of a workbook as the text that their author sees, by their number format."""

import datetime
import re
from decimal import Decimal, InvalidOperation

from paperwork.files.grid import CellKind

DIGITS = 15
"""Significant digits that a spreadsheet program keeps of a number (its published limits say 15)."""

_LITERAL = re.compile(r'"[^"]*"|\\.|_.|\*.|\[(?!h+\]|m+\]|s+\])[^\]]*\]', re.IGNORECASE)
"""What a number format prints as it stands, pads with, or only notes (ECMA-376 part 1, 18.8.31)."""

_DATE_FORMAT = re.compile(r"(?:s\.0+|[ymdhs]|\[[hms]+\]|am/pm|a/p|[-/:., 年月日])+(?:;.*)?", re.IGNORECASE)
"""A number format that shows a date or a time and nothing else. `0.000 MHz`, `0 d` and `s0` do not."""

_DATE_LETTER = re.compile("[dmhys]", re.IGNORECASE)
_DURATION = re.compile(r"\[[hms]+\]", re.IGNORECASE)
"""A number format that counts hours on beyond a day (ECMA-376 part 1, 18.8.31)."""


def format_number(value: float) -> str:
    """The shortest decimal of a number at 15 significant digits: 518.19999999999993 is `518.2`, 7.0 is `7`."""
    text = format(Decimal(format(value, f".{DIGITS}g")), "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def read_number(value: str, number_format: str, from_1904: bool) -> tuple[str, CellKind, bool]:
    """A stored number as it shows, its kind, and whether its format would have shown it as a date that it is not."""
    try:
        number = float(Decimal(value))
    except (InvalidOperation, OverflowError):
        return value, "text", False
    if number - number != 0:
        return value, "failed", False
    text = format_number(number)
    shown = _LITERAL.sub("", number_format).strip()
    if number_format in ("General", "@") or not _DATE_LETTER.search(shown):
        return _apply_format(text, number_format), "number", False
    if _DATE_FORMAT.fullmatch(shown) is None:
        return text, "number", True
    return _format_serial(number, from_1904, bool(_DURATION.search(shown))) or text, "date", False


def read_iso(value: str) -> str:
    """A date that is stored as text (ECMA-376 part 1, 18.18.11, type `d`) as a serial number would show it."""
    try:
        read = datetime.time.fromisoformat if value[:1] == "T" or ":" in value[:3] else datetime.datetime.fromisoformat
        return _format_date(read(value.removesuffix("Z")))
    except ValueError:
        return value


def _format_serial(number: float, from_1904: bool, is_duration: bool) -> str:
    """A serial number as a date or a time; "" where it is none."""
    start = datetime.datetime(1904, 1, 1) if from_1904 else datetime.datetime(1899, 12, 30)
    if not from_1904 and number < 60:
        start += datetime.timedelta(days=1)  # the calendar that counts from 1900 has a 29 February too many
    try:
        passed = datetime.timedelta(seconds=round(number * 86400))
        return _format_duration(passed) if is_duration or number < 1 else _format_date(start + passed)
    except OverflowError:
        return ""


def _format_date(value: datetime.datetime | datetime.time) -> str:
    """A date as `2027-03-02`, a time as `19:30:00`, both with a space between them."""
    passed = _format_duration(datetime.timedelta(hours=value.hour, minutes=value.minute, seconds=value.second))
    if isinstance(value, datetime.time):
        return passed
    day = f"{value.year:04}-{value.month:02}-{value.day:02}"
    return day if value.time() == datetime.time() else f"{day} {passed}"


def _format_duration(passed: datetime.timedelta) -> str:
    seconds = round(passed.total_seconds())
    minutes, second = divmod(abs(seconds), 60)
    return f"{'-' if seconds < 0 else ''}{minutes // 60}:{minutes % 60:02}:{second:02}"


def _apply_format(text: str, number_format: str) -> str:
    """A number's text with the zeros in front, or the percent sign, that its format shows."""
    if re.fullmatch("0{2,}", number_format) and text.isdigit():
        return text.zfill(len(number_format))
    if re.fullmatch(r"0(\.0+)?%", number_format):
        return format(Decimal(text).scaleb(2).normalize(), "f") + "%"
    return text
