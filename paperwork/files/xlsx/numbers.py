"""One cell of a workbook to the text that its author sees, and the marks on it that change its meaning."""

import datetime
import math
import re
from decimal import Decimal
from typing import Any, NamedTuple

from paperwork.raw import Kind

DIGITS = 15
"""Significant digits that a spreadsheet program keeps of a number (its published limits say 15)."""

_CONTROL = re.compile(r"_x(00[01][0-9A-Fa-f])_")
"""A control character written by its code (ECMA-376 part 1, 22.9.2.19, ST_Xstring). The library leaves it."""

_ESCAPE = re.compile(r"_x[0-9A-Fa-f]{4}_")

_LITERAL = re.compile(r'"[^"]*"|\\.|_.|\*.|\[(?!h+\]|m+\]|s+\])[^\]]*\]')
"""What a number format prints as it stands, pads with, or only notes (ECMA-376 part 1, 18.8.31)."""

_DATE_FORMAT = re.compile(r"(?:s\.0+|[ymdhs]|\[[hms]+\]|am/pm|a/p|[-/:., 年月日])+(?:;.*)?", re.IGNORECASE)
"""A number format that shows a date or a time and nothing else. `0.000 MHz`, `0 d` and `s0` do not."""


class Reading(NamedTuple):
    """The text of a cell; `kind` is `date` for a date or a time."""

    text: str
    kind: Kind | str


def read_value(value: Any, number_format: str, epoch: datetime.datetime) -> Reading | None:
    """The text of a cell's value as its author sees it, or None for a number that is none (infinite).

    A number formatted with letters that only look like a date's is recovered from the date that the library
    makes of it. Zeros in front (`00`) and percent signs are part of what the author sees.
    """
    if isinstance(value, bool):
        return Reading("TRUE" if value else "FALSE", "text")
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        if _is_date(number_format):
            return Reading(format_date(value), "date")
        value = _recover_number(value, epoch)
    if isinstance(value, int | float):
        if not math.isfinite(value):
            return None
        return Reading(apply_format(format_number(value), number_format), "number")
    return Reading(_CONTROL.sub(lambda match: chr(int(match[1], 16)), str(value)), "text")


def escape_text(text: str) -> str:
    """The text with what would be read as a character's code kept from being one."""
    return _ESCAPE.sub(lambda match: "_x005F" + match[0], text)


def format_number(value: float) -> str:
    """The shortest decimal of a number at 15 significant digits: 518.19999999999993 is `518.2`, 7.0 is `7`."""
    text = format(Decimal(format(value, f".{DIGITS}g")), "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def format_date(value: datetime.date | datetime.time | datetime.timedelta) -> str:
    """A date as `2027-03-02`, a time as `19:30:00`, both with a space between them."""
    if isinstance(value, datetime.timedelta):
        seconds = round(value.total_seconds())
        sign = "-" if seconds < 0 else ""
        minutes, second = divmod(abs(seconds), 60)
        return f"{sign}{minutes // 60}:{minutes % 60:02}:{second:02}"
    if isinstance(value, datetime.time):
        return format_date(datetime.timedelta(hours=value.hour, minutes=value.minute, seconds=value.second))
    day = f"{value.year:04}-{value.month:02}-{value.day:02}"
    if not isinstance(value, datetime.datetime) or value.time() == datetime.time():
        return day
    return f"{day} {format_date(value.time())}"


def is_struck(cell: Any) -> bool:
    """Whether any text of the cell is struck through."""
    if cell.has_style and cell.font.strike:
        return True
    blocks = cell.value if isinstance(cell.value, list) else ()
    return any(getattr(getattr(block, "font", None), "strike", None) for block in blocks)


def _is_date(number_format: str) -> bool:
    """Whether a date-like value is one: its format shows only a date, or the file itself says date by its type."""
    from openpyxl.styles.numbers import is_date_format

    if not is_date_format(number_format):
        return True
    return is_date_only(number_format)


def is_date_only(number_format: str) -> bool:
    """Whether a number format shows a date or a time and nothing else."""
    return _DATE_FORMAT.fullmatch(_LITERAL.sub("", number_format).strip()) is not None


def _recover_number(value: Any, epoch: datetime.datetime) -> float:
    """The number behind a date, or nan where two numbers give the same date.

    The library keeps milliseconds, some 1e-8 of a day, so seven decimals are true. It makes one date of 59.5 and
    of 60.5, because the calendar that counts from 1900 has a 29 February too many.
    """
    from openpyxl.utils.datetime import CALENDAR_MAC_1904, to_excel

    number = round(to_excel(value, epoch), 7)
    return math.nan if 59 <= number < 60 and epoch != CALENDAR_MAC_1904 else number


def apply_format(text: str, number_format: str) -> str:
    """A number's text with the zeros in front, or the percent sign, that its format shows."""
    if re.fullmatch("0{2,}", number_format) and text.isdigit():
        return text.zfill(len(number_format))
    if re.fullmatch(r"0(\.0+)?%", number_format):
        return format(Decimal(text).scaleb(2).normalize(), "f") + "%"
    return text
